// A forgetting that another program held up: who is told, and how it is brought to its end.
#include "cli/archive/archive_store.hpp"

#include "tests/cli/archive_program.hpp"
#include "tests/cli/random_archive.hpp"

#include <nlohmann/json.hpp>
#include <sqlite3.h>

namespace shankline::tests::archive_waiting_test {
namespace {

using namespace tests;
using nlohmann::json;

class ArchiveWaiting : public ArchiveProgram {
protected:
  void SetUp() override {
    ArchiveStore store(path.string(), ArchiveUse::write, std::chrono::milliseconds(50));
    fill(store);
    ASSERT_EQ(sqlite3_open(path.c_str(), &other), SQLITE_OK);
    ASSERT_EQ(sqlite3_exec(other, "BEGIN; SELECT count(*) FROM entries", nullptr, nullptr, nullptr),
              SQLITE_OK);
    EXPECT_THROW(store.forget("dancer K-12", "2026-05-01T00:00:00Z", "0.2.0"), ArchiveFault);
  }
  void TearDown() override { sqlite3_close(other); }

  bool in_the_file(const std::string& words) {
    std::string bytes;
    for (const auto& file : std::filesystem::directory_iterator(path.parent_path()))
      bytes += read_file(file.path());
    return bytes.find(words) != std::string::npos;
  }

  sqlite3* other = nullptr; ///< keeps the old pages alive
};

// Before: exit code 0 and "every entry is there, in its place, as it was saved", nothing else,
// while the dancer's orders stood in the file.
TEST_F(ArchiveWaiting, AuditSaysThatErasedTextMayBeInTheFile) {
  ASSERT_TRUE(in_the_file("belongs to dancer K-12 alone"));
  const Finished said = archive({"audit"});
  EXPECT_EQ(said.exit_code, 3);
  EXPECT_NE(said.out.find("every entry is there"), std::string::npos) << said.out;
  EXPECT_NE(said.out.find("erased text may still be in the file"), std::string::npos) << said.out;
  EXPECT_NE(said.out.find("archive forget --finish"), std::string::npos) << said.out;
  const Finished figures = archive({"audit", "--json"});
  EXPECT_EQ(figures.exit_code, 3);
  EXPECT_EQ(json::parse(figures.out)["clean"], true);
  EXPECT_EQ(json::parse(figures.out)["erasing"], true);
}

// Before, only somebody who remembered the code of the dancer could end it.
TEST_F(ArchiveWaiting, FinishEndsItWithoutTheDancersCode) {
  sqlite3_close(std::exchange(other, nullptr));
  const Finished done = archive({"forget", "--finish"});
  EXPECT_EQ(done.exit_code, 0) << done.err;
  EXPECT_NE(done.out.find("nothing of what was erased is left"), std::string::npos) << done.out;
  EXPECT_FALSE(in_the_file("dancer K-12"));
  EXPECT_EQ(archive({"audit"}).exit_code, 0);
  EXPECT_EQ(json::parse(archive({"audit", "--json"}).out)["erasing"], false);
  EXPECT_EQ(json::parse(archive({"audit", "--json"}).out)["entries"], 13) << "nobody else erased";
  const Finished again = archive({"forget", "--finish"});
  EXPECT_EQ(again.exit_code, 0);
  EXPECT_NE(again.out.find("nothing of what was erased is left"), std::string::npos) << again.out;
}

TEST_F(ArchiveWaiting, ForgetNeedsADancerOrFinish) {
  EXPECT_EQ(archive({"forget"}).exit_code, 2);
  EXPECT_EQ(archive({"forget", "--yes"}).exit_code, 2);
  EXPECT_EQ(archive({"forget", "M-07", "--finish", "--yes"}).exit_code, 2);
  EXPECT_EQ(ask(path, "SELECT count(*) FROM entries WHERE dancer = 'M-07'"), "4");
}

} // namespace
} // namespace shankline::tests::archive_waiting_test
