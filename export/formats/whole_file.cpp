#include "export/formats/whole_file.hpp"

#include "export/formats/system_reason.hpp"

#include <cerrno>
#include <cstdio>
#include <fcntl.h>
#include <filesystem>
#include <sys/stat.h>
#include <unistd.h>

namespace shankline {
namespace {

[[noreturn]] void fail(const std::string& path, const std::string& what, int error) {
  throw file_fault(path, what, error);
}

/// The process's own, read once: it can only be read by changing it, for every thread.
mode_t file_mask() {
  static const mode_t mask = [] {
    const mode_t found = umask(0);
    umask(found);
    return found;
  }();
  return mask;
}

/// mkstemp makes a file for its owner only; a sheet is an ordinary file.
mode_t mode_for(Readers readers) {
  return readers == Readers::owner ? 0600 : 0666 & ~file_mask();
}

/// A name for mkstemp in the same folder. It does not hold the file's own name, which may be as
/// long as a name can be.
std::string beside(const std::string& target) {
  return (std::filesystem::path(target).parent_path() / ".shankline.XXXXXX").string();
}

/// The kernel's own name of an open file: linking from there gives it one in a folder.
std::string name_while_open(int descriptor) {
  return "/proc/self/fd/" + std::to_string(descriptor);
}

/// Opens a file without a name in the folder of `path`. Returns -1 if the file system has none, or
/// if it could not be given a name later.
int open_nameless(const std::string& path, int access) {
  std::string folder = std::filesystem::path(path).parent_path().string();
  if (folder.empty()) folder = ".";
  const int descriptor = open(folder.c_str(), O_TMPFILE | access | O_CLOEXEC, 0600);
  if (descriptor >= 0 && ::access(name_while_open(descriptor).c_str(), F_OK) != 0) {
    close(descriptor);
    return -1;
  }
  return descriptor;
}

/// Writes a file that has no name until it is complete, so that a program that is killed leaves
/// nothing behind. Returns false if the file system cannot do that, if something else is in the
/// way, or if there is a file already; `path` is then as it was.
bool write_nameless(const std::string& path, std::string_view bytes, Readers readers) {
  const int descriptor = open_nameless(path, O_WRONLY);
  if (descriptor < 0) return false;
  const bool done = write_all(descriptor, bytes) && fchmod(descriptor, mode_for(readers)) == 0 &&
                    fsync(descriptor) == 0 &&
                    linkat(AT_FDCWD, name_while_open(descriptor).c_str(), AT_FDCWD, path.c_str(),
                           AT_SYMLINK_FOLLOW) == 0;
  close(descriptor);
  return done;
}

/// Waits for a reader. The path may be a link to a pipe without a name, such as /dev/fd/63, so it
/// is opened as it was given.
void write_into_pipe(const std::string& path, std::string_view bytes) {
  const int descriptor = open(path.c_str(), O_WRONLY | O_CLOEXEC | O_NOCTTY);
  if (descriptor < 0) fail(path, "cannot be written", errno);
  struct stat status {};
  // Something else may have taken the name meanwhile.
  if (fstat(descriptor, &status) != 0 || !S_ISFIFO(status.st_mode)) {
    close(descriptor);
    throw FileFault(path + ": cannot be written: it is no longer a pipe");
  }
  const bool done = write_all(descriptor, bytes);
  const int error = errno;
  close(descriptor);
  if (!done) fail(path, "took only a part of what was written", error);
}

/// A temporary file that is gone again unless it was renamed.
class TemporaryFile {
public:
  explicit TemporaryFile(const std::string& target)
      : target_(target), path_(beside(target)), descriptor_(mkstemp(path_.data())) {
    if (descriptor_ < 0) fail(target_, "cannot be written", errno);
  }
  TemporaryFile(const TemporaryFile&) = delete;
  TemporaryFile& operator=(const TemporaryFile&) = delete;
  ~TemporaryFile() {
    if (descriptor_ >= 0) close(descriptor_);
    if (!renamed_) unlink(path_.c_str());
  }

  void write(std::string_view bytes) {
    if (!write_all(descriptor_, bytes)) fail(target_, "cannot be written", errno);
  }

  void rename_over_target(Readers readers) {
    if (fchmod(descriptor_, mode_for(readers)) != 0) fail(target_, "cannot be written", errno);
    if (fsync(descriptor_) != 0) fail(target_, "cannot be flushed to the disk", errno);
    const int closed = close(descriptor_);
    descriptor_ = -1;
    if (closed != 0) fail(target_, "cannot be written", errno);
    if (std::rename(path_.c_str(), target_.c_str()) != 0)
      fail(target_, "cannot be put in place", errno);
    renamed_ = true;
  }

private:
  std::string target_;
  std::string path_;
  int descriptor_;
  bool renamed_ = false;
};

/// Returns the path that a link leads to, so that writing there keeps the link; else the path
/// itself. Throws FileFault after 40 links.
std::string behind_links(const std::string& given) {
  constexpr int most = 40; // as the kernel follows
  std::filesystem::path path = given;
  std::error_code error;
  for (int i = 0; std::filesystem::is_symlink(path, error); ++i) {
    if (i == most) fail(given, "cannot be written", ELOOP);
    const std::filesystem::path next = std::filesystem::read_symlink(path, error);
    if (error) fail(given, "cannot be written", error.value());
    path = path.parent_path() / next;
  }
  return path.string();
}

} // namespace

bool write_all(int descriptor, std::string_view bytes) {
  while (!bytes.empty()) {
    const ssize_t written = write(descriptor, bytes.data(), bytes.size());
    if (written < 0 && errno == EINTR) continue;
    if (written < 0) return false;
    bytes.remove_prefix(static_cast<std::size_t>(written));
  }
  return true;
}

FileFault file_fault(const std::string& path, const std::string& what, int error) {
  return FileFault(path + ": " + what + ": " + system_reason(error), system_advice(error));
}

PathKind kind_at(const std::string& path, AtLink at_link) {
  struct stat status {};
  const bool follows = at_link == AtLink::follow;
  if ((follows ? ::stat(path.c_str(), &status) : ::lstat(path.c_str(), &status)) != 0) {
    if (errno == ENOENT || errno == ENOTDIR) return PathKind::nothing;
    fail(path, "cannot be reached", errno);
  }
  if (S_ISLNK(status.st_mode)) throw LinkFault(path + ": is a link, and is never followed");
  if (S_ISDIR(status.st_mode)) return PathKind::folder;
  if (S_ISFIFO(status.st_mode)) return PathKind::pipe;
  if (S_ISCHR(status.st_mode) || S_ISBLK(status.st_mode)) return PathKind::device;
  return S_ISREG(status.st_mode) ? PathKind::file : PathKind::other;
}

NewFile::NewFile(std::string path, Readers readers)
    : path_(std::move(path)), readers_(readers), descriptor_(open_nameless(path_, O_RDWR)) {
  if (descriptor_ >= 0) return;
  // All memory is taken before the file is made: no destructor would run after an exception here.
  temporary_ = beside(path_);
  descriptor_ = mkstemp(temporary_.data());
  if (descriptor_ < 0) fail(path_, "cannot be written", errno);
}

NewFile::~NewFile() {
  if (descriptor_ >= 0) close(descriptor_);
  if (!temporary_.empty()) unlink(temporary_.c_str());
}

/// Returns false, with errno set, if the file did not get its name.
bool NewFile::take_name(const std::string& open_file) {
  if (temporary_.empty())
    return linkat(AT_FDCWD, open_file.c_str(), AT_FDCWD, path_.c_str(), AT_SYMLINK_FOLLOW) == 0;
  if (link(temporary_.c_str(), path_.c_str()) == 0) return true;
  if (errno == EEXIST) return false;
  // Some file systems have no hard links.
  if (renameat2(AT_FDCWD, temporary_.c_str(), AT_FDCWD, path_.c_str(), RENAME_NOREPLACE) == 0)
    return true;
  if (errno != EINVAL && errno != ENOSYS) return false;
  // An empty file holds the name until it is replaced: nobody else's is.
  const int claim = open(path_.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0600);
  if (claim < 0) return false;
  close(claim);
  if (std::rename(temporary_.c_str(), path_.c_str()) == 0) return true;
  const int error = errno;
  unlink(path_.c_str());
  errno = error;
  return false;
}

bool NewFile::put_in_place() {
  if (fchmod(descriptor_, mode_for(readers_)) != 0) fail(path_, "cannot be written", errno);
  if (fsync(descriptor_) != 0) fail(path_, "cannot be flushed to the disk", errno);
  if (take_name(name_while_open(descriptor_))) return true;
  if (errno == EEXIST) return false;
  fail(path_, "cannot be put in place", errno);
}

void write_whole_file(const std::string& given, std::string_view bytes, Readers readers,
                      AtLink at_link) {
  // Asked of the link itself: whether it may be followed is the kernel's decision.
  const PathKind kind = kind_at(given, at_link);
  if (kind == PathKind::device)
    throw FileFault(given + ": is a device, and nothing was written onto it",
                    "write a file, and print it with this system's print command, such as lp FILE");
  if (kind == PathKind::pipe && at_link == AtLink::follow) {
    write_into_pipe(given, bytes);
    return;
  }
  const std::string path = at_link == AtLink::follow ? behind_links(given) : given;
  if (kind == PathKind::folder) fail(path, "cannot be written", EISDIR);
  // Renaming over a pipe or a socket would replace it.
  if (kind == PathKind::pipe || kind == PathKind::other)
    throw FileFault(path + ": cannot be written: it is not an ordinary file");
  if (kind == PathKind::nothing && write_nameless(path, bytes, readers)) return;
  TemporaryFile file(path);
  file.write(bytes);
  file.rename_over_target(readers);
}

} // namespace shankline
