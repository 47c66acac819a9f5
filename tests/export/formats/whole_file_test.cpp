#include "export/formats/whole_file.hpp"

#include "tests/support/scratch_directory.hpp"

#include <csignal>
#include <fcntl.h>
#include <filesystem>
#include <fstream>
#include <gtest/gtest.h>
#include <iterator>
#include <sys/resource.h>
#include <sys/stat.h>
#include <sys/sysmacros.h>
#include <sys/wait.h>
#include <unistd.h>

namespace shankline::tests::whole_file_test {
namespace {

namespace fs = std::filesystem;

std::string content(const fs::path& path) {
  std::ifstream file(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), {}};
}

std::size_t files_in(const fs::path& directory) {
  return static_cast<std::size_t>(
      std::distance(fs::directory_iterator(directory), fs::directory_iterator()));
}

TEST(WholeFile, AppearsWithItsBytesAndReplacesAnOlderOne) {
  const tests::ScratchDirectory scratch;
  const fs::path path = scratch.path() / "sheet.pdf";
  write_whole_file(path.string(), "first");
  EXPECT_EQ(content(path), "first");
  write_whole_file(path.string(), std::string("sec\0ond", 7));
  EXPECT_EQ(content(path), std::string("sec\0ond", 7));
  EXPECT_EQ(files_in(scratch.path()), 1u);
}

TEST(WholeFile, TakesANameAsLongAsOneMayBe) {
  const tests::ScratchDirectory scratch;
  const fs::path path = scratch.path() / (std::string(251, 'n') + ".pdf");
  write_whole_file(path.string(), "first");
  write_whole_file(path.string(), "second"); // by another way, since there is a file
  EXPECT_EQ(content(path), "second");
  EXPECT_EQ(files_in(scratch.path()), 1u);
}

// Killed at any moment it leaves whole files and no temporary one, where the file system can do
// that.
TEST(WholeFile, LeavesNothingHalfWrittenWhenItIsKilled) {
  const tests::ScratchDirectory scratch;
  const int probe = open(scratch.path().c_str(), O_TMPFILE | O_WRONLY, 0600);
  if (probe < 0) GTEST_SKIP() << "this file system has no files without a name";
  close(probe);
  const std::string bytes(300'000, 'x');
  int killed_between = 0;
  for (int round = 0; round < 25; ++round) {
    const fs::path folder = scratch.path() / std::to_string(round);
    fs::create_directory(folder);
    const pid_t child = fork();
    ASSERT_GE(child, 0);
    if (child == 0)
      for (int i = 0;; ++i)
        write_whole_file((folder / ("sheet" + std::to_string(i) + ".pdf")).string(), bytes);
    usleep(static_cast<useconds_t>(2000 + 700 * round));
    kill(child, SIGKILL);
    int status = 0;
    ASSERT_EQ(waitpid(child, &status, 0), child);
    ASSERT_TRUE(WIFSIGNALED(status));
    for (const fs::directory_entry& entry : fs::directory_iterator(folder)) {
      EXPECT_EQ(entry.path().extension(), ".pdf") << entry.path();
      EXPECT_EQ(entry.file_size(), bytes.size()) << entry.path();
      ++killed_between;
    }
  }
  EXPECT_GT(killed_between, 0);
}

TEST(WholeFile, GoesIntoAPipeThatStaysOne) {
  const tests::ScratchDirectory scratch;
  const fs::path pipe = scratch.path() / "pipe";
  ASSERT_EQ(mkfifo(pipe.c_str(), 0600), 0);
  const std::string bytes(300'000, 'x'); // more than a pipe holds
  const pid_t child = fork();
  ASSERT_GE(child, 0);
  if (child == 0) _exit(content(pipe) == bytes ? 0 : 1);
  write_whole_file(pipe.string(), bytes);
  int status = -1;
  ASSERT_EQ(waitpid(child, &status, 0), child);
  EXPECT_TRUE(WIFEXITED(status) && WEXITSTATUS(status) == 0);
  EXPECT_TRUE(fs::is_fifo(pipe));
  EXPECT_EQ(files_in(scratch.path()), 1u);
}

// Files that the program keeps for itself go into nobody's pipe.
TEST(WholeFile, RefusesADirectoryAMissingDirectoryAndAPipeWhereNoneMayBe) {
  const tests::ScratchDirectory scratch;
  EXPECT_THROW(write_whole_file(scratch.path().string(), "x"), FileFault);
  EXPECT_THROW(write_whole_file((scratch.path() / "none" / "sheet.pdf").string(), "x"), FileFault);
  const fs::path pipe = scratch.path() / "pipe";
  ASSERT_EQ(mkfifo(pipe.c_str(), 0600), 0);
  EXPECT_THROW(write_whole_file(pipe.string(), "x", Readers::owner, AtLink::refuse), FileFault);
  EXPECT_EQ(files_in(scratch.path()), 1u);
}

// Whoever may, root, would replace a device of this machine if the code were wrong: so it has one
// of its own.
TEST(WholeFile, GoesOntoNoDevice) {
  const tests::ScratchDirectory scratch;
  std::string device = "/dev/full";
  if (getuid() == 0) {
    device = (scratch.path() / "full").string();
    if (mknod(device.c_str(), S_IFCHR | 0600, makedev(1, 7)) != 0)
      GTEST_SKIP() << "no device can be made here";
  }
  try {
    write_whole_file(device, "x");
    ADD_FAILURE() << device << " was written to";
  } catch (const FileFault& fault) {
    EXPECT_EQ(fault.what(), device + ": is a device, and nothing was written onto it");
    EXPECT_NE(fault.advice.find("print command"), std::string::npos);
  }
  EXPECT_TRUE(fs::is_character_file(device));
}

TEST(WholeFile, LeavesTheOlderOneWhenTheDiskRefuses) {
  const tests::ScratchDirectory scratch;
  const fs::path path = scratch.path() / "sheet.pdf";
  write_whole_file(path.string(), "older");
  // A file size limit stands for a full disk; in a child, so that nothing else feels it.
  const pid_t child = fork();
  ASSERT_GE(child, 0);
  if (child == 0) {
    std::signal(SIGXFSZ, SIG_IGN);
    const rlimit limit{1000, 1000};
    setrlimit(RLIMIT_FSIZE, &limit);
    try {
      write_whole_file(path.string(), std::string(100000, 'x'));
    } catch (const FileFault&) {
      _exit(0);
    }
    _exit(1);
  }
  int status = -1;
  ASSERT_EQ(waitpid(child, &status, 0), child);
  EXPECT_TRUE(WIFEXITED(status) && WEXITSTATUS(status) == 0) << "the fault was not reported";
  EXPECT_EQ(content(path), "older");
  EXPECT_EQ(files_in(scratch.path()), 1u);
}

} // namespace
} // namespace shankline::tests::whole_file_test
