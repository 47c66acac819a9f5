// What the leak checker takes for lost, linked into the program where it is watched.
extern "C" {

__attribute__((visibility("default"))) const char* __lsan_default_suppressions();

/// fontconfig keeps the values of a pattern by their distance from it, which is no pointer to find.
const char* __lsan_default_suppressions() {
  return "leak:libfontconfig\n";
}
}
