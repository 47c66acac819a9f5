// A database in a file that is open already. The database's own layer for files opens them by name,
// and a copy that is to leave nothing behind when the program is killed has none until it is done.
#include "cli/archive/sqlite_connection.hpp"

#include <sqlite3.h>

#include <algorithm>
#include <cerrno>
#include <charconv>
#include <cstddef>
#include <cstring>
#include <new>
#include <string_view>
#include <sys/stat.h>
#include <unistd.h>

namespace shankline {
namespace {

constexpr const char* layer_name = "shankline-open-file";
constexpr int no_journal = -1;

/// The database's memory for a file; its first member is what it knows of it.
struct OpenFile {
  sqlite3_file base;
  int descriptor; ///< no_journal: what is written is let go, and nothing is read
};

int descriptor_of(sqlite3_file* file) {
  return reinterpret_cast<const OpenFile*>(file)->descriptor;
}

int close_nothing(sqlite3_file*) {
  return SQLITE_OK; // the descriptor is the caller's
}

int read_at(sqlite3_file* file, void* into, int size, sqlite3_int64 from) {
  const int descriptor = descriptor_of(file);
  auto* bytes = static_cast<char*>(into);
  std::size_t got = 0;
  const auto wanted = static_cast<std::size_t>(size);
  while (descriptor != no_journal && got < wanted) {
    const ssize_t count =
        ::pread(descriptor, bytes + got, wanted - got, from + static_cast<off_t>(got));
    if (count < 0 && errno == EINTR) continue;
    if (count < 0) return SQLITE_IOERR_READ;
    if (count == 0) break;
    got += static_cast<std::size_t>(count);
  }
  if (got == wanted) return SQLITE_OK;
  std::fill(bytes + got, bytes + wanted, '\0'); // the database wants it so
  return SQLITE_IOERR_SHORT_READ;
}

int write_at(sqlite3_file* file, const void* from, int size, sqlite3_int64 to) {
  const int descriptor = descriptor_of(file);
  if (descriptor == no_journal) return SQLITE_OK;
  std::string_view bytes(static_cast<const char*>(from), static_cast<std::size_t>(size));
  while (!bytes.empty()) {
    const ssize_t count = ::pwrite(descriptor, bytes.data(), bytes.size(), to);
    if (count < 0 && errno == EINTR) continue;
    if (count < 0) return errno == ENOSPC || errno == EDQUOT ? SQLITE_FULL : SQLITE_IOERR_WRITE;
    bytes.remove_prefix(static_cast<std::size_t>(count));
    to += count;
  }
  return SQLITE_OK;
}

int truncate_to(sqlite3_file* file, sqlite3_int64 size) {
  const int descriptor = descriptor_of(file);
  if (descriptor == no_journal || ::ftruncate(descriptor, size) == 0) return SQLITE_OK;
  return SQLITE_IOERR_TRUNCATE;
}

int flush_later(sqlite3_file*, int) {
  return SQLITE_OK; // once, when all is written
}

int size_of(sqlite3_file* file, sqlite3_int64* size) {
  *size = 0;
  struct stat status {};
  if (descriptor_of(file) == no_journal) return SQLITE_OK;
  if (::fstat(descriptor_of(file), &status) != 0) return SQLITE_IOERR_FSTAT;
  *size = status.st_size;
  return SQLITE_OK;
}

// A file without a name is nobody else's.
int lock_nothing(sqlite3_file*, int) {
  return SQLITE_OK;
}
int is_reserved(sqlite3_file*, int* reserved) {
  *reserved = 0;
  return SQLITE_OK;
}

int no_control(sqlite3_file*, int, void*) {
  return SQLITE_NOTFOUND;
}
int usual_sector(sqlite3_file*) {
  return 0;
}
int nothing_special(sqlite3_file*) {
  return 0;
}

constexpr sqlite3_io_methods methods{
    .iVersion = 1, // without shared memory: no log beside the file
    .xClose = close_nothing,
    .xRead = read_at,
    .xWrite = write_at,
    .xTruncate = truncate_to,
    .xSync = flush_later,
    .xFileSize = size_of,
    .xLock = lock_nothing,
    .xUnlock = lock_nothing,
    .xCheckReservedLock = is_reserved,
    .xFileControl = no_control,
    .xSectorSize = usual_sector,
    .xDeviceCharacteristics = nothing_special,
    .xShmMap = nullptr,
    .xShmLock = nullptr,
    .xShmBarrier = nullptr,
    .xShmUnmap = nullptr,
    .xFetch = nullptr,
    .xUnfetch = nullptr,
};

sqlite3_vfs* usual_layer() {
  return sqlite3_vfs_find("unix");
}

int open_file(sqlite3_vfs*, const char* name, sqlite3_file* file, int flags, int* opened) {
  const bool journal = (flags & SQLITE_OPEN_MAIN_JOURNAL) != 0;
  if (!name || (!journal && (flags & SQLITE_OPEN_MAIN_DB) == 0))
    return usual_layer()->xOpen(usual_layer(), name, file, flags, opened); // a temporary one
  auto* const ours = reinterpret_cast<OpenFile*>(file);
  ours->base.pMethods = nullptr;
  ours->descriptor = no_journal;
  if (!journal) {
    const char* const end = name + std::strlen(name);
    const auto [rest, error] = std::from_chars(name + 1, end, ours->descriptor);
    if (error != std::errc() || rest != end) return SQLITE_CANTOPEN;
  }
  ours->base.pMethods = &methods;
  if (opened) *opened = flags;
  return SQLITE_OK;
}

int delete_nothing(sqlite3_vfs*, const char*, int) {
  return SQLITE_OK;
}

/// There is no journal of an earlier run.
int find_nothing(sqlite3_vfs*, const char*, int, int* found) {
  *found = 0;
  return SQLITE_OK;
}

int name_as_given(sqlite3_vfs*, const char* name, int room, char* into) {
  const std::size_t size = std::strlen(name) + 1;
  if (size > static_cast<std::size_t>(room)) return SQLITE_CANTOPEN;
  std::memcpy(into, name, size);
  return SQLITE_OK;
}

/// Clock and random numbers are those of the usual layer.
void require_layer() {
  static sqlite3_vfs layer = [] {
    if (sqlite3_initialize() != SQLITE_OK) throw std::bad_alloc();
    sqlite3_vfs made = *usual_layer();
    made.pNext = nullptr;
    made.zName = layer_name;
    made.szOsFile = std::max<int>(made.szOsFile, sizeof(OpenFile));
    made.xOpen = open_file;
    made.xDelete = delete_nothing;
    made.xAccess = find_nothing;
    made.xFullPathname = name_as_given;
    return made;
  }();
  if (!sqlite3_vfs_find(layer_name) && sqlite3_vfs_register(&layer, 0) != SQLITE_OK)
    throw std::bad_alloc();
}

} // namespace

std::string open_file_address(int descriptor) {
  require_layer();
  return "file:/" + std::to_string(descriptor) + "?vfs=" + layer_name;
}

} // namespace shankline
