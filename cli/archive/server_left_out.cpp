// Stands in for server_connection.cpp where the header of PostgreSQL's client library was missing
// when this program was built: no connection is ever made.
#include "cli/archive/server_connection.hpp"

#include "cli/archive/server_address.hpp"

#include <cstdlib>

namespace shankline {

struct ServerConnection::Link {};

ServerConnection::ServerConnection(const std::string& address, std::chrono::milliseconds) {
  throw ArchiveFault(shown_address(address) +
                         ": this program was built without archives on a server",
                     "build it again with the package libpq-dev, or give a file with --archive");
}
ServerConnection::~ServerConnection() = default;

// Without a connection nobody can call the functions below.
void ServerConnection::fail(void*) {
  std::abort();
}
ServerRows ServerConnection::run(const char*, std::initializer_list<ServerValue>) {
  std::abort();
}
void ServerConnection::run_script(const std::string&) {
  std::abort();
}
void ServerConnection::roll_back() noexcept {}
bool ServerConnection::in_transaction() const {
  return false;
}
int ServerConnection::server_version() const {
  return 0;
}
int ServerRows::size() const {
  return 0;
}
std::string ServerRows::text(int, int) const {
  return {};
}
std::int64_t ServerRows::number(int, int) const {
  return 0;
}
bool ServerRows::truth(int, int) const {
  return false;
}

ServerTransaction::ServerTransaction(ServerConnection& connection, For)
    : connection_(connection), outer_(false) {}
ServerTransaction::~ServerTransaction() {}
void ServerTransaction::commit() {}

} // namespace shankline
