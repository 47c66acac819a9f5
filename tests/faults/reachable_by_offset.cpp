// Tells the leak checker which blocks are not lost; linked into the program where it is watched.
extern "C" {

#define SHANKLINE_SEEN __attribute__((visibility("default")))
SHANKLINE_SEEN const char* __lsan_default_suppressions();
SHANKLINE_SEEN const char* __lsan_default_options();

/// fontconfig keeps the values of a pattern by their distance from it, which is not a pointer to
/// find.
const char* __lsan_default_suppressions() {
  return "leak:libfontconfig\n";
}

/// Tests compare the program's output to the letter.
const char* __lsan_default_options() {
  return "print_suppressions=0";
}
}
