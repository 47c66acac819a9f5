// Loaded before the C library (LD_PRELOAD): makes one call of the program fail.
//
//   SHANKLINE_FAIL=write:3      the third write to an ordinary file fails, as on a full disk
//   SHANKLINE_COUNT=FILE        how many of each there were, a line each, written at the end
//
// Calls: open, mkstemp, write, fsync, fchmod, close, rename, malloc. Allocations count from where
// main turns broken pipes off: before that no program can answer.
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

extern "C" {
void* __libc_malloc(size_t size);
void* __libc_calloc(size_t count, size_t size);
void* __libc_realloc(void* old, size_t size);
}

namespace {

enum Call {
  open_call,
  mkstemp_call,
  write_call,
  fsync_call,
  fchmod_call,
  close_call,
  rename_call,
  malloc_call,
  calls
};
constexpr const char* names[calls] = {"open",   "mkstemp", "write",  "fsync",
                                      "fchmod", "close",   "rename", "malloc"};
constexpr int errors[calls] = {EACCES, ENOSPC, ENOSPC, EIO, EPERM, EIO, EXDEV, ENOMEM};

std::atomic<long> counted[calls];
std::atomic<bool> in_main{false};

/// Whether this is the call that has to fail.
bool fails(Call call) {
  static const char* const wish = std::getenv("SHANKLINE_FAIL");
  const long now = ++counted[call];
  if (!wish) return false;
  const size_t length = std::strlen(names[call]);
  if (std::strncmp(wish, names[call], length) != 0 || wish[length] != ':') return false;
  if (std::atol(wish + length + 1) != now) return false;
  errno = errors[call];
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
        std::fprintf(out, "%s %ld\n", names[call], counted[call].load());
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
  return real(path, flags, mode);
}

int open64(const char* path, int flags, ...) {
  static auto* const real = next<int(const char*, int, ...)>("open64");
  va_list rest;
  va_start(rest, flags);
  const int mode = (flags & O_CREAT) != 0 ? va_arg(rest, int) : 0;
  va_end(rest);
  if (in_main && fails(open_call)) return -1;
  return real(path, flags, mode);
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

int fsync(int descriptor) {
  static auto* const real = next<int(int)>("fsync");
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
