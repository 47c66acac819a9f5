// The recorded figures of the sampler, drawn again where the program `jags` is installed. Model,
// data and commands stand in tests/geometry/learning/jags.
#include "tests/support/places.hpp"
#include "tests/support/process.hpp"
#include "tests/support/scratch_directory.hpp"

#include <gtest/gtest.h>

#include <chrono>
#include <cmath>
#include <filesystem>
#include <fstream>
#include <map>
#include <string>
#include <vector>

namespace shankline::tests::jags_test {
namespace {

struct Draws {
  double mean = 0;
  double squares = 0;
  double count = 0;

  void add(double x) { // Welford
    count += 1;
    const double before = x - mean;
    mean += before / count;
    squares += before * (x - mean);
  }
  double sd() const { return std::sqrt(squares / (count - 1)); }
};

/// CODA files: index.txt says "name from to" in lines of chainN.txt, which are "iteration value".
std::map<std::string, Draws> read_coda(const std::filesystem::path& folder, int chains) {
  struct Stretch {
    std::string name;
    long lines;
  };
  std::vector<Stretch> stretches;
  std::ifstream index(folder / "index.txt");
  std::string name;
  long from = 0, to = 0;
  while (index >> name >> from >> to)
    stretches.push_back({name, to - from + 1});
  std::map<std::string, Draws> draws;
  for (int chain = 1; chain <= chains; ++chain) {
    std::ifstream values(folder / ("chain" + std::to_string(chain) + ".txt"));
    for (const Stretch& stretch : stretches) {
      long iteration = 0;
      double value = 0;
      for (long line = 0; line < stretch.lines && values >> iteration >> value; ++line)
        draws[stretch.name].add(value);
    }
  }
  return draws;
}

TEST(LongJags, DrawsTheRecordedFiguresAgain) {
  if (run_shell("command -v jags").exit_code != 0)
    GTEST_SKIP() << "the program jags is not installed (Debian package jags)";
  const ScratchDirectory scratch;
  const std::filesystem::path model =
      std::filesystem::path(places::source_tree) / "tests/geometry/learning/jags";
  std::filesystem::copy(model, scratch.path(), std::filesystem::copy_options::recursive);
  Surroundings there;
  there.directory = scratch.path();
  there.limit = std::chrono::minutes(20);
  const Finished finished = run({"jags", "three_feet.cmd"}, there);
  ASSERT_EQ(finished.exit_code, 0) << finished.err;
  const auto draws = read_coda(scratch.path(), 4);
  struct Recorded {
    const char* name;
    double mean, sd;
  };
  // The same cases as in HouseFit.AgreesWithASampler, with about a tenth of the bars there.
  const Recorded recorded[] = {{"TA", 63.0707, 1.6736},   {"TB", 62.9761, 1.8529},
                               {"TC", 59.7007, 5.6673},   {"TAnew", 62.8438, 3.1057},
                               {"c[1]", -0.4137, 1.7451}, {"c[2]", 0.6389, 1.7034},
                               {"m", -0.1201, 2.4003}};
  for (const Recorded& r : recorded) {
    ASSERT_TRUE(draws.contains(r.name)) << r.name;
    EXPECT_EQ(draws.at(r.name).count, 1e6) << r.name;
    EXPECT_NEAR(draws.at(r.name).mean, r.mean, 0.03) << r.name;
    EXPECT_NEAR(draws.at(r.name).sd(), r.sd, 0.01 * r.sd) << r.name;
  }
}

} // namespace
} // namespace shankline::tests::jags_test
