// Runs a program as a user would and keeps what it said.
#pragma once

#include <chrono>
#include <filesystem>
#include <map>
#include <optional>
#include <string>
#include <vector>

namespace shankline::tests {

struct Surroundings {
  std::string input;               ///< given on stdin, which is then closed
  std::filesystem::path directory; ///< empty: where the test runs
  /// Added to the test's own environment; no value takes the variable away.
  std::map<std::string, std::optional<std::string>> environment;
  std::chrono::milliseconds limit = std::chrono::seconds(60); ///< then the whole group is killed
};

struct Finished {
  int exit_code = -1; ///< 128 + signal when killed by one, 127 when the program was not found
  bool timed_out = false;
  std::string out;
  std::string err;
};

/// The first word is looked up along PATH. Throws std::system_error when no process can be made.
Finished run(const std::vector<std::string>& words, const Surroundings& surroundings = {});

/// Through `sh -c`.
Finished run_shell(const std::string& command, const Surroundings& surroundings = {});

} // namespace shankline::tests
