// Loaded before the C library (LD_PRELOAD): makes one call of the program fail.
//
//   SHANKLINE_FAIL=write:3      the third write to an ordinary file fails, as on a full disk
//   SHANKLINE_PLANTED=FILE      this link is refused to whoever would follow it, as the kernel
//   refuses
//                               a link of somebody else's in a shared folder
//                               (fs.protected_symlinks)
//   SHANKLINE_COUNT=FILE        how many of each there were, a line each, written at the end
//
// Calls: open, mkstemp, read, write (and pwrite), fsync (and fdatasync), fchmod, ftruncate, close,
// rename, link, mkdir, unlink (and remove), malloc. Reads, writes and closes count on ordinary
// files only. Most count from where main turns broken pipes off: before that no program can answer.
#include <atomic>
#include <cerrno>
#include <csignal>
#include <cstdarg>
#include <cstddef>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <dlfcn.h>
#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

// NOLINTBEGIN(bugprone-reserved-identifier): the C library calls its own so
extern "C" {
void* __libc_malloc(size_t size);
void* __libc_calloc(size_t count, size_t size);
void* __libc_realloc(void* old, size_t size);
}
// NOLINTEND(bugprone-reserved-identifier)

namespace {

enum Call {
  open_call,
  mkstemp_call,
  read_call,
  write_call,
  fsync_call,
  fchmod_call,
  ftruncate_call,
  close_call,
  rename_call,
  link_call,
  mkdir_call,
  unlink_call,
  malloc_call,
  calls
};
struct CallFault {
  const char* name;
  int error;
};
constexpr CallFault faults[calls] = {
    {"open", EACCES},  {"mkstemp", ENOSPC}, {"read", EIO},      {"write", ENOSPC}, {"fsync", EIO},
    {"fchmod", EPERM}, {"ftruncate", EIO},  {"close", EIO},     {"rename", EXDEV}, {"link", EPERM},
    {"mkdir", EACCES}, {"unlink", EIO},     {"malloc", ENOMEM},
};

std::atomic<long> counted[calls];
std::atomic<bool> in_main{false};

/// Returns true if this is the call that has to fail.
bool fails(Call call) {
  static const char* const wish = std::getenv("SHANKLINE_FAIL");
  const long now = ++counted[call];
  if (!wish) return false;
  const size_t length = std::strlen(faults[call].name);
  if (std::strncmp(wish, faults[call].name, length) != 0 || wish[length] != ':') return false;
  if (std::atol(wish + length + 1) != now) return false;
  errno = faults[call].error;
  return true;
}

/// Returns true if following this path is refused.
bool is_planted(const char* path) {
  static const char* const planted = std::getenv("SHANKLINE_PLANTED");
  if (!planted || std::strcmp(path, planted) != 0) return false;
  errno = EACCES;
  return true;
}

bool is_ordinary(int descriptor) {
  struct stat about {};
  return fstat(descriptor, &about) == 0 && S_ISREG(about.st_mode);
}

template <class Function> Function* next(const char* name) {
  return reinterpret_cast<Function*>(dlsym(RTLD_NEXT, name));
}

struct Report {
  ~Report() {
    const char* const file = std::getenv("SHANKLINE_COUNT");
    if (!file) return;
    in_main = false;
    if (std::FILE* out = std::fopen(file, "w")) {
      for (int call = 0; call < calls; ++call)
        std::fprintf(out, "%s %ld\n", faults[call].name, counted[call].load());
      std::fclose(out);
    }
  }
} report;

} // namespace

extern "C" {

int open(const char* path, int flags, ...) {
  static auto* const real = next<int(const char*, int, ...)>("open");
  va_list rest;
  va_start(rest, flags);
  const int mode = (flags & O_CREAT) != 0 ? va_arg(rest, int) : 0;
  va_end(rest);
  if (in_main && fails(open_call)) return -1;
  if ((flags & O_NOFOLLOW) == 0 && is_planted(path)) return -1;
  return real(path, flags, mode);
}

int open64(const char* path, int flags, ...) {
  static auto* const real = next<int(const char*, int, ...)>("open64");
  va_list rest;
  va_start(rest, flags);
  const int mode = (flags & O_CREAT) != 0 ? va_arg(rest, int) : 0;
  va_end(rest);
  if (in_main && fails(open_call)) return -1;
  if ((flags & O_NOFOLLOW) == 0 && is_planted(path)) return -1;
  return real(path, flags, mode);
}

int stat(const char* path, struct stat* about) {
  static auto* const real = next<int(const char*, struct stat*)>("stat");
  return is_planted(path) ? -1 : real(path, about);
}

int mkstemp(char* path) {
  static auto* const real = next<int(char*)>("mkstemp");
  return fails(mkstemp_call) ? -1 : real(path);
}

ssize_t write(int descriptor, const void* bytes, size_t count) {
  static auto* const real = next<ssize_t(int, const void*, size_t)>("write");
  if (is_ordinary(descriptor) && fails(write_call)) return -1;
  return real(descriptor, bytes, count);
}

ssize_t pwrite(int descriptor, const void* bytes, size_t count, off_t at) {
  static auto* const real = next<ssize_t(int, const void*, size_t, off_t)>("pwrite");
  return fails(write_call) ? -1 : real(descriptor, bytes, count, at);
}

ssize_t pwrite64(int descriptor, const void* bytes, size_t count, off64_t at) {
  static auto* const real = next<ssize_t(int, const void*, size_t, off64_t)>("pwrite64");
  return fails(write_call) ? -1 : real(descriptor, bytes, count, at);
}

ssize_t read(int descriptor, void* bytes, size_t count) {
  static auto* const real = next<ssize_t(int, void*, size_t)>("read");
  if (in_main && is_ordinary(descriptor) && fails(read_call)) return -1;
  return real(descriptor, bytes, count);
}

ssize_t pread64(int descriptor, void* bytes, size_t count, off64_t at) {
  static auto* const real = next<ssize_t(int, void*, size_t, off64_t)>("pread64");
  if (in_main && is_ordinary(descriptor) && fails(read_call)) return -1;
  return real(descriptor, bytes, count, at);
}

int fsync(int descriptor) {
  static auto* const real = next<int(int)>("fsync");
  return fails(fsync_call) ? -1 : real(descriptor);
}

int fdatasync(int descriptor) {
  static auto* const real = next<int(int)>("fdatasync");
  return fails(fsync_call) ? -1 : real(descriptor);
}

int fchmod(int descriptor, mode_t mode) {
  static auto* const real = next<int(int, mode_t)>("fchmod");
  return fails(fchmod_call) ? -1 : real(descriptor, mode);
}

int close(int descriptor) {
  static auto* const real = next<int(int)>("close");
  const bool failing = in_main && is_ordinary(descriptor) && fails(close_call);
  const int error = errno;
  const int done = real(descriptor); // as in the kernel, it is closed all the same
  if (!failing) return done;
  errno = error;
  return -1;
}

int rename(const char* from, const char* to) {
  static auto* const real = next<int(const char*, const char*)>("rename");
  return fails(rename_call) ? -1 : real(from, to);
}

int ftruncate(int descriptor, off_t size) {
  static auto* const real = next<int(int, off_t)>("ftruncate");
  return fails(ftruncate_call) ? -1 : real(descriptor, size);
}

int ftruncate64(int descriptor, off64_t size) {
  static auto* const real = next<int(int, off64_t)>("ftruncate64");
  return fails(ftruncate_call) ? -1 : real(descriptor, size);
}

int link(const char* from, const char* to) {
  static auto* const real = next<int(const char*, const char*)>("link");
  return fails(link_call) ? -1 : real(from, to);
}

int mkdir(const char* path, mode_t mode) {
  static auto* const real = next<int(const char*, mode_t)>("mkdir");
  return fails(mkdir_call) ? -1 : real(path, mode);
}

int unlink(const char* path) {
  static auto* const real = next<int(const char*)>("unlink");
  return in_main && fails(unlink_call) ? -1 : real(path);
}

int remove(const char* path) {
  static auto* const real = next<int(const char*)>("remove");
  return in_main && fails(unlink_call) ? -1 : real(path);
}

void* malloc(size_t size) {
  return in_main && fails(malloc_call) ? nullptr : __libc_malloc(size);
}

void* calloc(size_t count, size_t size) {
  return in_main && fails(malloc_call) ? nullptr : __libc_calloc(count, size);
}

void* realloc(void* old, size_t size) {
  return in_main && fails(malloc_call) ? nullptr : __libc_realloc(old, size);
}

sighandler_t signal(int number, sighandler_t handler) {
  static auto* const real = next<sighandler_t(int, sighandler_t)>("signal");
  if (number == SIGPIPE) in_main = true;
  return real(number, handler);
}

} // extern "C"
