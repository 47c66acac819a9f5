#include "cli/surroundings/held_output.hpp"

#include "export/formats/whole_file.hpp"
#include "tests/support/scratch_directory.hpp"

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <functional>
#include <gtest/gtest.h>
#include <sstream>
#include <string>
#include <sys/wait.h>
#include <unistd.h>

namespace shankline::tests::held_output_test {
namespace {

namespace fs = std::filesystem;

/// The most memory that this process ever held, KB.
long most_memory() {
  std::ifstream status("/proc/self/status");
  std::string word;
  long size = 0;
  while (status >> word)
    if (word == "VmHWM:") status >> size;
  return size;
}

/// Returns the exit code of `work` in a child, where it may change what it likes.
int in_a_child(const std::function<int()>& work) {
  const pid_t child = fork();
  if (child == 0) _exit(work());
  int status = -1;
  return waitpid(child, &status, 0) == child && WIFEXITED(status) ? WEXITSTATUS(status) : -1;
}

TEST(HeldOutput, GivesBackWhatItTook) {
  for (const int pieces : {0, 1, 30'000, 60'000}) { // of 50 bytes: 1.5 and 3 MB go through a file
    HeldOutput held;
    std::string all;
    for (int i = 0; i < pieces; ++i) {
      std::string piece = std::to_string(i);
      piece.resize(50, i % 2 ? '.' : '\0');
      held.add(piece);
      all += piece;
    }
    std::ostringstream out;
    held.write_to(out);
    EXPECT_TRUE(out.str() == all) << pieces;
  }
}

TEST(HeldOutput, NeitherMemoryNorAFileIsLeftToGrow) {
  const ScratchDirectory scratch;
  EXPECT_EQ(in_a_child([&] {
              setenv("TMPDIR", scratch.path().c_str(), 1);
              const long before = most_memory();
              HeldOutput held;
              const std::string piece(1000, 'x');
              for (int i = 0; i < 60'000; ++i) // 60 MB
                held.add(piece);
              if (fs::directory_iterator(scratch.path()) != fs::directory_iterator()) return 2;
              std::ofstream out("/dev/null");
              held.write_to(out);
              return most_memory() - before < 8'000 ? 0 : 1;
            }),
            0)
      << "1: memory grew, 2: a file has a name";
}

TEST(HeldOutput, SaysWhereItFoundNoRoom) {
  EXPECT_EQ(in_a_child([] {
              setenv("TMPDIR", "/proc", 1); // a folder where nobody can make a file
              HeldOutput held;
              try {
                held.add(std::string(3 << 20, 'x'));
              } catch (const FileFault& fault) {
                const std::string what = fault.what();
                return what.starts_with("/proc: a temporary file cannot be made: ") &&
                               fault.advice.find("TMPDIR") != std::string::npos
                           ? 0
                           : 2;
              }
              return 1;
            }),
            0)
      << "1: no fault, 2: other words";
}

} // namespace
} // namespace shankline::tests::held_output_test
