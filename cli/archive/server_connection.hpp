// A connection to PostgreSQL: the only place that knows its client library, which is loaded when
// the first connection is made. Everything throws ArchiveFault.
#pragma once

#include "cli/surroundings/archive_fault.hpp"

#include <chrono>
#include <cstdint>
#include <initializer_list>
#include <memory>
#include <optional>
#include <string>
#include <string_view>

namespace shankline {

/// The server cannot be reached, or it was lost on the way.
struct ServerUnreachable : ArchiveFault {
  using ArchiveFault::ArchiveFault;
};

/// The server answered with an error.
struct ServerRefused : ArchiveFault {
  ServerRefused(const std::string& what, std::string what_to_do, std::string with_state)
      : ArchiveFault(what, std::move(what_to_do)), state(std::move(with_state)) {}
  std::string state; ///< five letters or digits, see the server's manual, appendix A
};

/// A value of a statement. It points to the text that it was made from.
class ServerValue {
public:
  enum class Kind { nothing, text, bytes, number, truth };

  ServerValue() = default;
  ServerValue(std::string_view text) : kind_(Kind::text), text_(text) {}
  ServerValue(const std::string& text) : kind_(Kind::text), text_(text) {}
  ServerValue(const char* text) : kind_(Kind::text), text_(text) {}
  ServerValue(std::int64_t number) : kind_(Kind::number), number_(number) {}
  static ServerValue bytes(std::string_view bytes) {
    ServerValue value(bytes);
    value.kind_ = Kind::bytes;
    return value;
  }
  static ServerValue truth(bool truth) {
    ServerValue value(static_cast<std::int64_t>(truth));
    value.kind_ = Kind::truth;
    return value;
  }

  Kind kind() const { return kind_; }
  std::string_view text() const { return text_; }
  std::int64_t number() const { return number_; }

private:
  Kind kind_ = Kind::nothing;
  std::string_view text_;
  std::int64_t number_ = 0;
};

/// The rows of an answer. Columns have to be of the types bigint, integer, boolean, text, name or
/// bytea.
class ServerRows {
public:
  explicit ServerRows(std::shared_ptr<void> result) : result_(std::move(result)) {}

  int size() const;
  std::string text(int row, int column) const; ///< empty for NULL
  std::int64_t number(int row, int column) const;
  bool truth(int row, int column) const;

private:
  std::shared_ptr<void> result_;
};

class ServerConnection {
public:
  /// `patience` is how long to wait for the server and for others' locks. Throws ServerUnreachable
  /// if the server does not answer. Passwords come from the server's own means (password file,
  /// certificates). Unless the server is reached by a socket or by loopback, the connection is
  /// encrypted and the server's name is checked, whatever the address says.
  ServerConnection(const std::string& address, std::chrono::milliseconds patience);
  ~ServerConnection();
  ServerConnection(const ServerConnection&) = delete;
  ServerConnection& operator=(const ServerConnection&) = delete;

  /// `sql` is a literal with parameters $1, $2 …; it is prepared when it is used again. Throws
  /// ServerUnreachable when the connection breaks: then it is not known whether the statement was
  /// done.
  ServerRows run(const char* sql, std::initializer_list<ServerValue> values = {});
  /// Statements without parameters, a semicolon between two.
  void run_script(const std::string& sql);
  /// Undoes what is not committed. Never throws.
  void roll_back() noexcept;

  bool in_transaction() const;
  int server_version() const; ///< 150004 for 15.4
  const std::string& address() const { return shown_; }

private:
  struct Link;
  [[noreturn]] void fail(void* result);

  std::string shown_;
  std::unique_ptr<Link> link_;
};

/// All or nothing; undone unless it is committed. Inside another one it does nothing by itself.
class ServerTransaction {
public:
  enum class For { reading, writing };

  ServerTransaction(ServerConnection& connection, For purpose);
  ServerTransaction(const ServerTransaction&) = delete;
  ServerTransaction& operator=(const ServerTransaction&) = delete;
  ~ServerTransaction();
  void commit();

private:
  ServerConnection& connection_;
  bool outer_;
  bool done_ = false;
};

} // namespace shankline
