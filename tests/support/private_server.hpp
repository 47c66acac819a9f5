// A PostgreSQL server of the test program's own: a cluster in a temporary folder that is reached by
// a socket there, run by a user without rights, and gone with the program.
#pragma once

#include "tests/support/scratch_directory.hpp"

#include <map>
#include <string>
#include <sys/types.h>

namespace shankline::tests {

class PrivateServer {
public:
  /// Started when it is first asked for. Throws std::runtime_error where no server is installed, or
  /// none can be started.
  static PrivateServer& of_this_program();

  /// Settings as "name=value", a space between two; `files` are put into its folder first, readable
  /// for the server alone.
  explicit PrivateServer(const std::string& settings = "fsync=off",
                         const std::map<std::string, std::string>& files = {});
  PrivateServer(const PrivateServer&) = delete;
  PrivateServer& operator=(const PrivateServer&) = delete;
  ~PrivateServer();

  /// Makes an empty database with a name of its own.
  std::string new_database();
  /// Address of a database for a role of the server; `keeper` may do everything.
  std::string address(const std::string& database, const std::string& role = "keeper") const;
  /// Makes a role that may log in, a member of the group.
  void new_role(const std::string& name, const std::string& group);

  /// Runs SQL as `role` and returns the first column of its last answer; throws std::runtime_error
  /// with what the server said.
  std::string ask(const std::string& database, const std::string& sql,
                  const std::string& role = "keeper") const;
  /// Returns what the server said, empty if it did what it was told.
  std::string refusal(const std::string& database, const std::string& sql,
                      const std::string& role) const;

  /// Stops it like a loss of power, except that the system still writes its own buffers to the
  /// disk.
  void stop_at_once();
  /// Returns when it lets somebody in.
  void start();
  void stop();

  const std::filesystem::path& folder() const { return scratch_.path(); } ///< of the socket
private:
  void stop_by(int signal);

  ScratchDirectory scratch_;
  std::string settings_;
  pid_t server_ = -1;
  pid_t owner_;
  int databases_ = 0;
};

} // namespace shankline::tests
