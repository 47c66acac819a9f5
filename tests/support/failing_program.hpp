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

/// The same with nothing failing: how often each call was made.
std::map<std::string, long> count_calls(const std::vector<std::string>& words, Surroundings there);

/// Of that many calls at most `most`, evenly spread, the first and the last among them.
std::vector<long> spread(long count, long most);

} // namespace shankline::tests
