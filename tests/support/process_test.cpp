#include "tests/support/process.hpp"

#include <gtest/gtest.h>

#include "tests/support/scratch_directory.hpp"

namespace shankline::tests::process_test {
namespace {

TEST(Process, KeepsBothStreamsAndTheExitCode) {
  const Finished finished = run_shell("echo out; echo err >&2; exit 3");
  EXPECT_EQ(finished.out, "out\n");
  EXPECT_EQ(finished.err, "err\n");
  EXPECT_EQ(finished.exit_code, 3);
  EXPECT_FALSE(finished.timed_out);
}

TEST(Process, PassesStdinDirectoryAndEnvironment) {
  const ScratchDirectory scratch;
  Surroundings surroundings;
  surroundings.input = std::string(300000, 'x'); // more than a pipe holds
  surroundings.directory = scratch.path();
  surroundings.environment = {{"SHOWN", "yes"}, {"HOME", std::nullopt}};
  const Finished finished = run_shell("wc -c; pwd -P; echo $SHOWN ${HOME-none}", surroundings);
  EXPECT_EQ(finished.out,
            "300000\n" + std::filesystem::canonical(scratch.path()).string() + "\nyes none\n");
}

TEST(Process, SurvivesAProgramThatReadsNothing) {
  Surroundings surroundings;
  surroundings.input = std::string(300000, 'x');
  EXPECT_EQ(run({"true"}, surroundings).exit_code, 0);
}

TEST(Process, TellsOfAProgramThatIsNotThere) {
  const Finished finished = run({"/nowhere/at/all"});
  EXPECT_EQ(finished.exit_code, 127);
  EXPECT_EQ(finished.err, "No such file or directory");
}

TEST(Process, TellsOfASignal) {
  EXPECT_EQ(run_shell("kill -9 $$").exit_code, 128 + 9);
}

TEST(Process, EndsAtTheLimit) {
  Surroundings surroundings;
  surroundings.limit = std::chrono::milliseconds(200);
  for (const char* command : {"sleep 30", "sleep 30 >/dev/null 2>&1", "sleep 30 & exit 0"}) {
    const auto begin = std::chrono::steady_clock::now();
    EXPECT_TRUE(run_shell(command, surroundings).timed_out) << command;
    EXPECT_LT(std::chrono::steady_clock::now() - begin, std::chrono::seconds(20)) << command;
  }
}

} // namespace
} // namespace shankline::tests::process_test
