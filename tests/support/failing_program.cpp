#include "tests/support/failing_program.hpp"

#include "tests/support/places.hpp"
#include "tests/support/scratch_directory.hpp"

#include <algorithm>
#include <gtest/gtest.h>
#include <sstream>
#include <stdexcept>

namespace shankline::tests {
namespace {

std::vector<std::string> behind_program(std::vector<std::string> words) {
  words.insert(words.begin(), places::program);
  return words;
}

} // namespace

Finished run_failing(const std::vector<std::string>& words, Surroundings there,
                     const FailingCall& failing) {
  there.environment["LD_PRELOAD"] = places::failing_calls;
  if (!failing.call.empty()) there.environment["SHANKLINE_FAIL"] = failing.words();
  return run(behind_program(words), there);
}

std::map<std::string, long> count_calls(const std::vector<std::string>& words, Surroundings there) {
  const ScratchDirectory elsewhere;
  const std::string file = (elsewhere.path() / "counts").string();
  there.environment["SHANKLINE_COUNT"] = file;
  const Finished finished = run_failing(words, there, {});
  if (finished.exit_code != 0) throw std::runtime_error(finished.err);
  std::map<std::string, long> found;
  std::istringstream lines(read_file(file));
  std::string name;
  long count = 0;
  while (lines >> name >> count)
    found[name] = count;
  return found;
}

void expect_clear_refusal(const FailingCall& failing, const Finished& finished) {
  const std::string fail = failing.words() + "\n" + finished.err;
  const bool input = failing.call == "open" || failing.call == "read";
  EXPECT_TRUE(finished.exit_code == 3 || (input && finished.exit_code == 1))
      << finished.exit_code << " " << fail;
  EXPECT_NE(finished.err.find("error"), std::string::npos) << fail;
  EXPECT_EQ(finished.err.find("a fault of this program"), std::string::npos) << fail;
}

std::vector<long> spread(long count, long most) {
  const long taken = std::min(count, most);
  std::vector<long> chosen;
  for (long i = 0; i < taken; ++i)
    chosen.push_back(taken == 1 ? 1 : 1 + i * (count - 1) / (taken - 1));
  return chosen;
}

} // namespace shankline::tests
