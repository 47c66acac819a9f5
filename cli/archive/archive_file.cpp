#include "cli/archive/archive_file.hpp"

#include "cli/surroundings/archive_fault.hpp"
#include "export/formats/system_reason.hpp"

#include <cerrno>
#include <cstring>
#include <fcntl.h>
#include <filesystem>
#include <functional>
#include <sys/stat.h>
#include <system_error>
#include <unistd.h>
#include <utility>

namespace shankline {
namespace {

namespace fs = std::filesystem;

[[noreturn]] void cannot(const std::string& path, const char* what, int error) {
  throw ArchiveFault(path + ": " + what + ": " + system_reason(error),
                     system_advice(error, archive_elsewhere));
}

fs::path folder_of(const std::string& path) {
  const fs::path folder = fs::path(path).parent_path();
  return folder.empty() ? fs::path(".") : folder;
}

void flush_folder(const std::string& path) {
  const HeldOpen folder(folder_of(path).string(), O_RDONLY | O_DIRECTORY);
  if (!folder.is_open() || !folder.flush()) cannot(path, "its folder cannot be flushed", errno);
}

/// Makes the folders that are missing, with rights for their owner only.
void make_folders(const fs::path& folder, const std::string& path) {
  std::error_code ignored;
  if (fs::is_directory(folder, ignored)) return;
  if (folder.has_parent_path() && folder.parent_path() != folder)
    make_folders(folder.parent_path(), path);
  if (::mkdir(folder.c_str(), 0700) != 0 && errno != EEXIST)
    cannot(path, "its folder cannot be made", errno);
}

/// The database keeps its journal beside the file itself, not beside a link to it.
std::string without_links(const std::string& path) {
  std::error_code failed;
  const fs::path real = fs::canonical(path, failed);
  return failed ? path : real.string();
}

/// Returns true if a file is there and is not empty.
bool is_not_empty(const std::string& path) {
  struct stat status {};
  return ::stat(path.c_str(), &status) == 0 && status.st_size > 0;
}

bool is_there(const std::string& path) {
  struct stat status {};
  return ::stat(path.c_str(), &status) == 0;
}

[[noreturn]] void refuse_unmerged(const std::string& path, const char* end) {
  throw ArchiveFault(
      path + ": cannot be read safely: " + fs::path(without_links(path) + end).filename().string() +
          " beside it holds changes that are not merged into it yet, and nothing "
          "can be written here",
      "copy both files together into a folder of your own, and give the copy with "
      "--archive");
}

[[noreturn]] void refuse_taken(const std::string& path) {
  throw ArchiveFault(path + ": there is a file of this name already",
                     "give a name that is not taken");
}

constexpr const char* copy_elsewhere = "check the folder and its rights, or give another name";

[[noreturn]] void cannot_copy(const std::string& path, int error) {
  throw ArchiveFault(path + ": the copy cannot be written: " + system_reason(error),
                     system_advice(error, copy_elsewhere));
}

void to_archive_fault(const std::function<void()>& work) {
  try {
    work();
  } catch (const FileFault& fault) {
    throw ArchiveFault(fault.what(), fault.advice.empty() ? copy_elsewhere : fault.advice);
  }
}

} // namespace

HeldOpen::HeldOpen(const std::string& path, int flags)
    : number_(::open(path.c_str(), flags | O_CLOEXEC | O_NOCTTY | O_NONBLOCK, 0600)),
      error_(number_ < 0 ? errno : 0) {}

HeldOpen::~HeldOpen() {
  if (number_ >= 0) ::close(number_);
}

bool HeldOpen::flush() const {
  return ::fsync(number_) == 0;
}

void require_archive_file(const std::string& path, ArchiveUse use) {
  struct stat status {};
  if (::stat(path.c_str(), &status) == 0) {
    if (!S_ISREG(status.st_mode))
      throw ArchiveFault(path + ": is not an ordinary file", "give a file with --archive");
    if (use == ArchiveUse::read) return;
    if (const std::string why = why_not_writable(path); !why.empty())
      throw ArchiveFault(path + ": the archive cannot be written: " + why, archive_elsewhere);
    return;
  }
  if (errno != ENOENT && errno != ENOTDIR) cannot(path, "the archive cannot be reached", errno);
  if (use != ArchiveUse::write)
    throw ArchiveFault(path + ": there is no archive here yet",
                       "save an order first: shankline archive save ORDER");
  make_folders(folder_of(path), path);
  // O_EXCL does not follow a link to a missing file, which somebody else may have planted.
  const HeldOpen made(path, O_RDWR | O_CREAT | O_EXCL);
  if (!made.is_open() && errno == EEXIST && ::stat(path.c_str(), &status) != 0)
    throw ArchiveFault(path + ": is a link to a file that is not there",
                       "delete the link, or give the file itself with --archive");
  if (!made.is_open() && errno != EEXIST) cannot(path, "the archive cannot be made", errno);
  flush_folder(path);
}

std::string why_not_writable(const std::string& path) {
  const std::string real = without_links(path);
  const auto may_write = [](const std::string& place) {
    return ::faccessat(AT_FDCWD, place.c_str(), W_OK, AT_EACCESS) == 0;
  };
  if (!may_write(real)) return std::strerror(errno);
  if (!may_write(folder_of(real).string()))
    return std::string("its folder: ") + std::strerror(errno);
  return {};
}

std::string rights_of_others(const std::string& path) {
  struct stat status {};
  if (::stat(path.c_str(), &status) != 0) return {};
  const bool read = (status.st_mode & (S_IRGRP | S_IROTH)) != 0;
  const bool change = (status.st_mode & (S_IWGRP | S_IWOTH)) != 0;
  return read && change ? "read and change" : read ? "read" : change ? "change" : "";
}

bool protect_archive_file(const std::string& path) {
  const std::string real = without_links(path);
  bool any = false;
  // New files beside the archive are given the rights of the archive itself, so it comes first.
  for (const char* end : {"", "-wal", "-shm", "-journal"}) {
    const std::string file = real + end;
    struct stat status {};
    if (::stat(file.c_str(), &status) != 0) {
      if (errno == ENOENT) continue;
      cannot(path, "its rights cannot be read", errno);
    }
    constexpr mode_t others = S_IRWXG | S_IRWXO;
    if ((status.st_mode & others) == 0) continue;
    any = true;
    if (::chmod(file.c_str(), status.st_mode & 07777 & ~others) != 0)
      cannot(path, "its rights cannot be changed", errno);
    if (::stat(file.c_str(), &status) == 0 && (status.st_mode & others) != 0)
      throw ArchiveFault(path + ": its file system does not keep rights, and others may still " +
                             rights_of_others(file) + " it",
                         "move the archive to a folder that only you can read");
  }
  return any;
}

ReadingFrom where_to_read(const std::string& path) {
  const std::string real = without_links(path);
  if (is_not_empty(real + "-journal")) refuse_unmerged(path, "-journal");
  // The database reads its log without writing only where the log's index is there already.
  if (is_there(real + "-wal") && is_there(real + "-shm")) return ReadingFrom::file_and_log;
  if (is_not_empty(real + "-wal")) refuse_unmerged(path, "-wal");
  return ReadingFrom::file;
}

FileChangeGuard::FileChangeGuard(const std::string& path) : path_(path), before_(state()) {}

void FileChangeGuard::require_unchanged() const {
  if (state() == before_ && !is_there(without_links(path_) + "-wal")) return;
  throw ArchiveFault(path_ + ": another program wrote to this archive while it was read",
                     "try again; what was printed may be incomplete");
}

FileChangeGuard::State FileChangeGuard::state() const {
  struct stat status {};
  if (::stat(path_.c_str(), &status) != 0) cannot(path_, "the archive cannot be reached", errno);
  return {status.st_dev, status.st_ino, status.st_size, status.st_mtim.tv_sec,
          status.st_mtim.tv_nsec};
}

ArchiveCopy::ArchiveCopy(std::string path)
    : path_(std::move(path)), folder_(folder_of(path_).string(), O_RDONLY | O_DIRECTORY) {
  struct stat status {};
  if (::lstat(path_.c_str(), &status) == 0) refuse_taken(path_);
  if (errno != ENOENT && errno != ENOTDIR) cannot_copy(path_, errno);
  if (!folder_.is_open()) cannot_copy(path_, folder_.error());
  to_archive_fault([&] { file_.emplace(path_, Readers::owner); });
}

void ArchiveCopy::put_in_place() {
  to_archive_fault([&] {
    if (!file_->put_in_place()) refuse_taken(path_);
  });
  if (!folder_.flush()) cannot_copy(path_, errno);
}

} // namespace shankline
