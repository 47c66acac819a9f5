#include "cli/archive/sqlite_connection.hpp"

#include "cli/surroundings/archive_fault.hpp"
#include "export/formats/system_reason.hpp"

#include <sqlite3.h>

#include <algorithm>
#include <new>

namespace shankline {
namespace {

/// Throws the database's error, with advice.
[[noreturn]] void fail(sqlite3* handle, const std::string& path, int code) {
  const int system_error = handle ? sqlite3_system_errno(handle) : 0;
  const std::string said = handle ? sqlite3_errmsg(handle) : sqlite3_errstr(code);
  const std::string reason = system_error != 0 ? system_reason(system_error) : said;
  switch (code & 0xff) {
  case SQLITE_BUSY:
  case SQLITE_LOCKED:
    throw ArchiveFault(path + ": another program is using this archive",
                       "wait until it is done and try again");
  case SQLITE_FULL:
    throw ArchiveFault(path + ": the disk is full", "make room and try again");
  case SQLITE_READONLY:
  case SQLITE_PERM:
    throw ArchiveFault(path + ": the archive cannot be written", archive_elsewhere);
  case SQLITE_CANTOPEN:
    throw ArchiveFault(path + ": the archive cannot be opened: " + reason,
                       system_advice(system_error, archive_elsewhere));
  case SQLITE_IOERR:
    throw ArchiveFault(path + ": the file system failed: " + reason,
                       system_advice(system_error, archive_elsewhere));
  case SQLITE_NOTADB:
    throw ArchiveDamaged(path + ": is no archive, or its beginning is damaged",
                         "give another file with --archive, or bring back a backup");
  case SQLITE_NOMEM:
    throw std::bad_alloc();
  default:
    archive_damaged(path, said);
  }
}

int flags_of(DatabaseUse use) {
  const int flags = SQLITE_OPEN_URI | SQLITE_OPEN_NOMUTEX;
  switch (use) {
  case DatabaseUse::read:
    return flags | SQLITE_OPEN_READONLY;
  case DatabaseUse::write:
    return flags | SQLITE_OPEN_READWRITE;
  case DatabaseUse::make:
    break;
  }
  return flags | SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE;
}

} // namespace

void archive_damaged(const std::string& path, const std::string& what) {
  throw ArchiveDamaged(path + ": is damaged: " + what,
                       "run shankline archive audit; bring back a backup");
}

SqliteQuery::~SqliteQuery() {
  sqlite3_reset(statement_);
  sqlite3_clear_bindings(statement_);
}

bool SqliteQuery::step() {
  const int code = sqlite3_step(statement_);
  if (code == SQLITE_ROW) return true;
  if (code != SQLITE_DONE) fail(handle_, path_, code);
  return false;
}

std::int64_t SqliteQuery::number(int column) const {
  return sqlite3_column_int64(statement_, column);
}

std::string SqliteQuery::text(int column) const {
  const void* bytes = sqlite3_column_blob(statement_, column);
  const int size = sqlite3_column_bytes(statement_, column);
  return bytes ? std::string(static_cast<const char*>(bytes), static_cast<std::size_t>(size))
               : std::string();
}

void SqliteQuery::check(int code) const {
  if (code != SQLITE_OK) fail(handle_, path_, code);
}

void SqliteQuery::bind(int at, std::int64_t value) {
  check(sqlite3_bind_int64(statement_, at, value));
}

void SqliteQuery::bind(int at, std::string_view value) {
  check(sqlite3_bind_text64(statement_, at, value.data() ? value.data() : "", value.size(),
                            SQLITE_STATIC, SQLITE_UTF8));
}

void SqliteQuery::bind(int at, Blob blob) {
  check(sqlite3_bind_blob64(statement_, at, blob.bytes.data() ? blob.bytes.data() : "",
                            blob.bytes.size(), SQLITE_STATIC));
}

void SqliteQuery::bind_null(int at) {
  check(sqlite3_bind_null(statement_, at));
}

SqliteConnection::SqliteConnection(std::string path, const std::string& address, DatabaseUse use,
                                   std::chrono::milliseconds patience)
    : path_(std::move(path)) {
  const int code = sqlite3_open_v2(address.c_str(), &handle_, flags_of(use), nullptr);
  if (code != SQLITE_OK) {
    // The handle holds the error message; it must be closed after reading it.
    try {
      fail(handle_, path_, code);
    } catch (...) {
      sqlite3_close(handle_);
      throw;
    }
  }
  sqlite3_busy_timeout(handle_, static_cast<int>(patience.count()));
  sqlite3_db_config(handle_, SQLITE_DBCONFIG_DEFENSIVE, 1, nullptr);
}

SqliteConnection::~SqliteConnection() {
  for (const auto& [sql, statement] : statements_)
    sqlite3_finalize(statement);
  sqlite3_close(handle_);
}

SqliteQuery SqliteConnection::query(const char* sql) {
  const auto kept = std::find_if(statements_.begin(), statements_.end(),
                                 [sql](const auto& row) { return row.first == sql; });
  if (kept != statements_.end()) return {handle_, path_, kept->second};
  sqlite3_stmt* statement = nullptr;
  const int code =
      sqlite3_prepare_v3(handle_, sql, -1, SQLITE_PREPARE_PERSISTENT, &statement, nullptr);
  if (code != SQLITE_OK) fail(handle_, path_, code);
  statements_.emplace_back(sql, statement);
  return {handle_, path_, statement};
}

void SqliteConnection::run(const char* sql) {
  const int code = sqlite3_exec(handle_, sql, nullptr, nullptr, nullptr);
  if (code != SQLITE_OK) fail(handle_, path_, code);
}

SqliteConnection::Tried SqliteConnection::try_to(const char* sql) {
  const int code = sqlite3_exec(handle_, sql, nullptr, nullptr, nullptr) & 0xff;
  return code == SQLITE_OK ? Tried::done : code == SQLITE_BUSY ? Tried::busy : Tried::failed;
}

std::int64_t SqliteConnection::number(const char* sql) {
  SqliteQuery query = this->query(sql);
  return query.step() ? query.number(0) : 0;
}

bool SqliteConnection::was_moved() const {
  int moved = 0;
  return sqlite3_file_control(handle_, "main", SQLITE_FCNTL_HAS_MOVED, &moved) == SQLITE_OK &&
         moved != 0;
}

bool SqliteConnection::in_transaction() const {
  return sqlite3_get_autocommit(handle_) == 0;
}

SqliteTransaction::SqliteTransaction(SqliteConnection& connection, const char* begin)
    : connection_(connection), outer_(!connection.in_transaction()) {
  if (outer_) connection_.run(begin);
}

SqliteTransaction::~SqliteTransaction() {
  if (outer_ && !done_ && connection_.in_transaction()) connection_.try_to("ROLLBACK");
}

void SqliteTransaction::commit() {
  if (outer_) connection_.run("COMMIT");
  done_ = true;
}

std::string sqlite_address(const std::string& path) {
  std::string address = path.starts_with('/') ? "file://" : "file:./";
  for (const char c : path) {
    const auto byte = static_cast<unsigned char>(c);
    if (c == '/' || c == '.' || c == '-' || c == '_' || (c >= '0' && c <= '9') ||
        (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'))
      address += c;
    else
      address.append({'%', "0123456789abcdef"[byte >> 4], "0123456789abcdef"[byte & 15]});
  }
  return address;
}

} // namespace shankline
