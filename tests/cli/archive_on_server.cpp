#include "tests/cli/archive_on_server.hpp"

#include "cli/archive/server_prepare.hpp"

namespace shankline::tests {

PreparedDatabase::PreparedDatabase(PrivateServer& server)
    : server_(server), name_(server.new_database()) {
  prepare_server(address(), std::chrono::seconds(10));
}

std::string PreparedDatabase::new_role(const std::string& group) const {
  static int roles = 0;
  std::string role = "role" + std::to_string(++roles);
  server_.new_role(role, name_ + "_" + group);
  return role;
}

void PreparedDatabase::tamper(const std::string& sql) const {
  ask("SET session_replication_role = replica; " + sql);
}

} // namespace shankline::tests
