// An archive of an earlier version may hold marks that turn the direction of writing: they are
// kept, and not shown.
#include "cli/archive/archive_bundle.hpp"
#include "tests/cli/random_archive.hpp"
#include "tests/support/places.hpp"
#include "tests/support/process.hpp"
#include "tests/support/scratch_directory.hpp"

#include <gtest/gtest.h>

namespace shankline::tests::archive_marks_test {
namespace {

using namespace tests;

constexpr const char* mark = "\u202e";

class ArchiveMarks : public testing::Test {
protected:
  Finished shell(const std::string& command) const {
    Surroundings there;
    there.directory = scratch.path();
    there.environment["PROGRAM"] = places::program;
    return run_shell(command, there);
  }
  std::string file(const char* name) const { return (scratch.path() / name).string(); }

  void save_marked() const {
    ArchiveStore store(file("old.sqlite"), ArchiveUse::write);
    ArchiveEntry entry = random_cut("M-07", 1);
    entry.head.pair = std::string("touring ") + mark + "12 31";
    entry.body.order += std::string("# ") + mark + " turned\n";
    store.add(std::move(entry));
    ArchiveEntry dancer = random_cut(std::string("M-") + mark + "08", 2);
    store.add(std::move(dancer));
  }

  ScratchDirectory scratch;
};

TEST_F(ArchiveMarks, AreShownWithoutThem) {
  save_marked();
  for (const char* action :
       {"list", "list --json", "show 1", "show 2", "show 1 --json", "compare 1 2",
        "compare 1 2 --json", "history M-07", "history M-07 --json", "audit", "audit --json",
        "export", "forget 'M-\u202e08'", "list --dancer 'M-\u202e09'"}) {
    const Finished said =
        shell("\"$PROGRAM\" archive " + std::string(action) + " --archive old.sqlite");
    EXPECT_FALSE((said.out + said.err).empty()) << action;
    EXPECT_EQ((said.out + said.err).find(mark), std::string::npos) << action << "\n"
                                                                   << said.out << said.err;
  }
}

TEST_F(ArchiveMarks, AreNotTakenInWithABundle) {
  save_marked();
  ASSERT_EQ(shell("\"$PROGRAM\" archive export -o b --archive old.sqlite").exit_code, 0);
  const Finished taken = shell("\"$PROGRAM\" archive import b --archive new.sqlite");
  EXPECT_EQ(taken.exit_code, 1) << taken.out;
  EXPECT_NE(taken.err.find("control characters"), std::string::npos) << taken.err;
}

} // namespace
} // namespace shankline::tests::archive_marks_test
