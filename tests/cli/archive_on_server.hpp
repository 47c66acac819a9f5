// Archives on the test program's own server.
#pragma once

#include "cli/archive/archive_server.hpp"

#include "tests/support/private_server.hpp"

#include <chrono>
#include <memory>
#include <string>

namespace shankline::tests {

/// A database that is made ready. Each one that is made is another archive.
class PreparedDatabase {
public:
  explicit PreparedDatabase(PrivateServer& server = PrivateServer::of_this_program());

  PrivateServer& server() const { return server_; }
  const std::string& name() const { return name_; }
  /// For its keeper, or for a role that new_role() gave.
  std::string address(const std::string& role = "keeper") const {
    return server_.address(name_, role);
  }
  /// A role that may log in, a member of this archive's group: "bench", "keeper" or "reader".
  std::string new_role(const std::string& group) const;

  std::unique_ptr<ServerStore>
  open(const std::string& role = "keeper", ArchiveUse use = ArchiveUse::write,
       std::chrono::milliseconds patience = std::chrono::seconds(10)) const {
    return std::make_unique<ServerStore>(address(role), use, patience);
  }
  std::string ask(const std::string& sql, const std::string& role = "keeper") const {
    return server_.ask(name_, sql, role);
  }
  /// Runs SQL past all guards, as whoever owns the machine could.
  void tamper(const std::string& sql) const;

private:
  PrivateServer& server_;
  std::string name_;
};

} // namespace shankline::tests
