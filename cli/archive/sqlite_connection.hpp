// A thin layer over SQLite: statements are kept prepared, and what goes wrong is an ArchiveFault
// with what to do about it.
#pragma once

#include <chrono>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

struct sqlite3;
struct sqlite3_stmt;

namespace shankline {

/// Throws ArchiveDamaged that names `path` and advises an audit.
[[noreturn]] void archive_damaged(const std::string& path, const std::string& what);

struct Blob {
  std::string_view bytes;
};

/// One statement on its way through its rows. Its connection must outlive it. Throws ArchiveFault,
/// and std::bad_alloc when memory runs out.
class SqliteQuery {
public:
  SqliteQuery(sqlite3* handle, const std::string& path, sqlite3_stmt* statement)
      : handle_(handle), path_(path), statement_(statement) {}
  SqliteQuery(const SqliteQuery&) = delete;
  SqliteQuery& operator=(const SqliteQuery&) = delete;
  ~SqliteQuery();

  /// Binds the statement's parameters, from the first on. The texts must outlive the query.
  template <class... Values> SqliteQuery& with(const Values&... values) {
    int at = 0;
    (bind(++at, values), ...);
    return *this;
  }
  /// Goes to the next row. Returns false behind the last.
  bool step();
  /// Goes through all rows.
  void run() {
    while (step()) {
    }
  }

  // These read the present row. Columns count from 0.
  std::int64_t number(int column) const;
  std::string text(int column) const;

private:
  void check(int code) const;
  void bind(int at, std::int64_t value);
  void bind(int at, std::string_view value);
  void bind(int at, Blob blob);
  void bind_null(int at);
  template <class Value> void bind(int at, const std::optional<Value>& value) {
    if (value)
      bind(at, *value);
    else
      bind_null(at);
  }

  sqlite3* handle_;
  const std::string& path_;
  sqlite3_stmt* statement_;
};

enum class DatabaseUse { read, write, make };

/// An open database and its prepared statements. Throws as SqliteQuery does.
class SqliteConnection {
public:
  /// `path` is how messages name it; `address` is one of SQLite's URIs, or ":memory:". `patience`
  /// is how long to wait for another program that writes.
  SqliteConnection(std::string path, const std::string& address, DatabaseUse use,
                   std::chrono::milliseconds patience);
  SqliteConnection(const SqliteConnection&) = delete;
  SqliteConnection& operator=(const SqliteConnection&) = delete;
  ~SqliteConnection();

  /// `sql` is a literal: a prepared statement is found again by its address.
  SqliteQuery query(const char* sql);
  /// Runs one or several statements without parameters or rows.
  void run(const char* sql);
  enum class Tried { done, busy, failed };
  Tried try_to(const char* sql);
  /// The first column of the first row; 0 if there is no row.
  std::int64_t number(const char* sql);

  const std::string& path() const { return path_; }
  /// Returns true if the file was moved or deleted since it was opened.
  bool was_moved() const;
  bool in_transaction() const;

private:
  std::string path_;
  sqlite3* handle_ = nullptr;
  std::vector<std::pair<const char*, sqlite3_stmt*>> statements_;
};

/// All or nothing; undone unless it is committed. Inside another one it does nothing by itself.
class SqliteTransaction {
public:
  /// `begin` is "BEGIN" or "BEGIN IMMEDIATE".
  SqliteTransaction(SqliteConnection& connection, const char* begin);
  SqliteTransaction(const SqliteTransaction&) = delete;
  SqliteTransaction& operator=(const SqliteTransaction&) = delete;
  ~SqliteTransaction();
  void commit();

private:
  SqliteConnection& connection_;
  bool outer_;
  bool done_ = false;
};

/// The URI of a file, so that SQLite takes it for a file whatever its name is: not ":memory:" for
/// no file, nor "file:" for the beginning of an address.
std::string sqlite_address(const std::string& path);

/// The URI of a database in a file that is open already and may have no name; the descriptor stays
/// the caller's and must outlive the connection. Such a file is written by one connection, which
/// keeps no journal: if anything fails, what is in the file is worth nothing. Throws
/// std::bad_alloc.
std::string open_file_address(int descriptor);

} // namespace shankline
