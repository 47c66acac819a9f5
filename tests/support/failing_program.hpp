// The program with one of its calls made to fail, the nth of its kind: see tests/faults.
#pragma once

#include "tests/support/process.hpp"

#include <map>
#include <string>
#include <vector>

namespace shankline::tests {

struct FailingCall {
  std::string call; ///< "write"
  long n = 0;       ///< from 1

  std::string words() const { return call + ":" + std::to_string(n); }
};

/// Runs the program with these words behind its name; a call that has no name does not fail.
Finished run_failing(const std::vector<std::string>& words, Surroundings there,
                     const FailingCall& failing);

/// Runs the program without a failure and counts how often it makes each call.
std::map<std::string, long> count_calls(const std::vector<std::string>& words, Surroundings there);

/// Expects what every refusal owes: an error, no fault of the program, and exit code 3, or 1 where
/// the file that cannot be opened or read may be input.
void expect_clear_refusal(const FailingCall& failing, const Finished& finished);

/// Chooses at most `most` of `count` calls, evenly spread, with the first and the last.
std::vector<long> spread(long count, long most);

} // namespace shankline::tests
