// A dancer who is forgotten is gone from the file to the last eight bytes.
#include "cli/archive/archive_audit.hpp"
#include "cli/archive/archive_store.hpp"

#include "tests/cli/random_archive.hpp"
#include "tests/support/scratch_directory.hpp"

#include <gtest/gtest.h>
#include <set>
#include <sqlite3.h>
#include <string>
#include <string_view>
#include <unordered_set>

namespace shankline::tests::archive_forget_test {
namespace {

namespace fs = std::filesystem;
using namespace tests;

constexpr std::size_t run_length = 8;
const std::string forgotten_code = "Corps-de-ballet 4711-Q";
constexpr const char* later = "2026-05-01T00:00:00Z";

std::unordered_set<std::string> runs_of(std::string_view text) {
  std::unordered_set<std::string> runs;
  for (std::size_t i = 0; i + run_length <= text.size(); ++i)
    runs.emplace(text.substr(i, run_length));
  return runs;
}

/// How many of the runs stand somewhere in the bytes.
std::size_t found_in(std::string_view bytes, const std::unordered_set<std::string>& runs) {
  std::set<std::string> found;
  for (std::size_t i = 0; i + run_length <= bytes.size(); ++i)
    if (std::string run(bytes.substr(i, run_length)); runs.contains(run)) found.insert(run);
  return found.size();
}

/// All files of the archive together: the database, its journal, its index.
std::string bytes_of_files(const fs::path& folder) {
  std::string bytes;
  for (const auto& file : fs::directory_iterator(folder))
    bytes += read_file(file.path());
  return bytes;
}

ArchiveEntry secret_cut(int n) {
  ArchiveEntry entry = random_cut(forgotten_code, n, 20000);
  entry.body.order += "  # heel bruised in Thessaloniki, attempt " + std::to_string(n) + "\n";
  entry.head.summary = "left quite unusual " + std::to_string(n);
  return entry;
}

class ArchiveForget : public testing::Test {
protected:
  void fill_with(ArchiveStore& store, bool with_secret) {
    for (int n = 1; n <= 6; ++n) {
      store.add(random_cut("M-07", n));
      if (with_secret) {
        const EntryHead cut = store.add(secret_cut(n));
        ArchiveEntry note = random_note(cut, n);
        note.head.outcome = R"({"words":"blister, second toe, unmistakably"})";
        store.add(note);
      }
      store.add(random_cut("K-12", n));
    }
  }

  /// Runs of all that was said of the dancer, but for those that others' entries share.
  std::unordered_set<std::string> secret_runs() {
    std::string said;
    for (int n = 1; n <= 6; ++n) {
      const ArchiveEntry e = secret_cut(n);
      said += e.head.dancer + "\n" + e.head.summary + "\n" + e.body.order + "\n" + e.body.solution +
              "\n" + e.body.drawing + "\nblister, second toe, unmistakably\n";
    }
    auto runs = runs_of(said);
    {
      ArchiveStore others((others_folder / "a").string(), ArchiveUse::write);
      fill_with(others, false);
    }
    for (const std::string& run : runs_of(bytes_of_files(others_folder)))
      runs.erase(run);
    return runs;
  }

  ScratchDirectory scratch;
  fs::path folder = scratch.path() / "with";
  fs::path others_folder = scratch.path() / "without";
  fs::path path = folder / "archive.sqlite";
};

TEST_F(ArchiveForget, LeavesNoEightBytesInAnyFile) {
  const auto runs = secret_runs();
  ASSERT_GT(runs.size(), 100000u) << "the search would be vacuous";
  ArchiveStore store(path.string(), ArchiveUse::write);
  fill_with(store, true);
  ASSERT_GT(found_in(bytes_of_files(folder), runs), runs.size() * 9 / 10)
      << "the search does not find what is there";

  EXPECT_EQ(store.forget(forgotten_code, later, "0.1.0"), 12u);
  EXPECT_EQ(found_in(bytes_of_files(folder), runs), 0u);
  EXPECT_FALSE(store.newest_of(forgotten_code));
  EXPECT_FALSE(store.is_to_clean());

  store.add(random_cut("M-07", 7));
  const fs::path copy_folder = scratch.path() / "copies";
  fs::create_directory(copy_folder);
  store.copy_to((copy_folder / "copy").string());
  EXPECT_EQ(found_in(bytes_of_files(copy_folder), runs), 0u);
  EXPECT_EQ(found_in(bytes_of_files(folder), runs), 0u);
}

TEST_F(ArchiveForget, LeavesTheOthersAsTheyWere) {
  ArchiveStore store(path.string(), ArchiveUse::write);
  fill_with(store, true);
  const auto before = contents_of(store, {"M-07", "K-12"});
  store.forget(forgotten_code, later, "0.1.0");
  const auto after = contents_of(store, {"M-07", "K-12"});
  ASSERT_EQ(after.of_dancers.size(), 2u);
  for (std::size_t d = 0; d < 2; ++d) {
    ASSERT_EQ(after.of_dancers[d].size(), 6u);
    for (std::size_t i = 0; i < 6; ++i)
      EXPECT_TRUE(same(after.of_dancers[d][i], before.of_dancers[d][i]));
  }
  EXPECT_EQ(after.bodies.size(), 12u);
  EXPECT_EQ(after.all.size(), before.all.size() + 1);
  for (const EntryHead& head : after.all)
    if (head.kind == EntryKind::forgotten) {
      EXPECT_TRUE(head.saved.empty() && head.pair.empty() && head.salt.empty());
      EXPECT_EQ(head.digest.size(), 64u);
    }
  EXPECT_TRUE(audit(store).clean());
}

TEST_F(ArchiveForget, MayBeSavedForAgain) {
  ArchiveStore store(path.string(), ArchiveUse::write);
  fill_with(store, true);
  store.forget(forgotten_code, later, "0.1.0");
  EXPECT_EQ(store.add(secret_cut(9)).turn, 1);
  EXPECT_EQ(store.forget(forgotten_code, later, "0.1.0"), 1u);
  EXPECT_EQ(store.forget(forgotten_code, later, "0.1.0"), 0u);
  EXPECT_EQ(store.forget("nobody", later, "0.1.0"), 0u);
  EXPECT_TRUE(audit(store).clean());
}

TEST_F(ArchiveForget, NoteThatComesTooLateIsRefused) {
  ArchiveStore store(path.string(), ArchiveUse::write);
  const EntryHead cut = store.add(secret_cut(1));
  store.forget(forgotten_code, later, "0.1.0");
  EXPECT_THROW(store.add(random_note(cut, 1)), ArchiveFault);
  EXPECT_EQ(bytes_of_files(folder).find(forgotten_code), std::string::npos);
}

/// Somebody else's open look at the file keeps its old pages alive.
TEST_F(ArchiveForget, SaysWhenTheFileCannotBeCleanedAndDoesItLater) {
  const auto runs = secret_runs();
  ArchiveStore store(path.string(), ArchiveUse::write, std::chrono::milliseconds(50));
  fill_with(store, true);
  sqlite3* other = nullptr;
  ASSERT_EQ(sqlite3_open(path.c_str(), &other), SQLITE_OK);
  ASSERT_EQ(sqlite3_exec(other, "BEGIN; SELECT count(*) FROM entries", nullptr, nullptr, nullptr),
            SQLITE_OK);
  EXPECT_THROW(store.forget(forgotten_code, later, "0.1.0"), ArchiveFault);
  EXPECT_TRUE(store.is_to_clean());
  EXPECT_FALSE(store.newest_of(forgotten_code)) << "erased all the same";
  sqlite3_close(other);
  EXPECT_EQ(store.forget(forgotten_code, later, "0.1.0"), 0u);
  EXPECT_FALSE(store.is_to_clean());
  EXPECT_EQ(found_in(bytes_of_files(folder), runs), 0u);
  EXPECT_TRUE(audit(store).clean());
}

/// Killed at any moment, forgetting is not done, or done, or done by the next one.
void kill_forgetting(const fs::path& folder, int rounds) {
  const fs::path path = folder / "archive.sqlite";
  KillTimer timer;
  const fs::path filled = folder.string() + ".filled";
  {
    ArchiveStore store(filled.string(), ArchiveUse::write);
    for (int n = 1; n <= 4; ++n)
      store.add({random_cut("M-07", n), secret_cut(n)});
  }
  for (int round = 0; round < rounds; ++round) {
    fs::remove_all(folder);
    fs::create_directories(folder);
    fs::copy_file(filled, path);
    done_before_killed(
        [&](const auto& say) {
          ArchiveStore store(path.string(), ArchiveUse::write);
          say(1);
          store.forget(forgotten_code, later, "0.1.0");
        },
        1, timer.next());
    ArchiveStore store(path.string(), ArchiveUse::write);
    // Half of the kills come before the erasing or while it goes on, half while the file is
    // cleaned.
    timer.was(store.newest_of(forgotten_code).has_value());
    EXPECT_TRUE(audit(store).clean());
    store.forget(forgotten_code, later, "0.1.0");
    EXPECT_FALSE(store.is_to_clean());
    EXPECT_EQ(bytes_of_files(folder).find("Thessaloniki"), std::string::npos);
    EXPECT_EQ(bytes_of_files(folder).find(forgotten_code.substr(0, 8)), std::string::npos);
  }
  EXPECT_GT(timer.in_time(), rounds / 10);
  EXPECT_GT(timer.late(), rounds / 10);
}

TEST_F(ArchiveForget, MayBeKilledAtAnyMoment) {
  kill_forgetting(folder, 30);
}

using LongArchiveForget = ArchiveForget;
TEST_F(LongArchiveForget, MayBeKilledAtAnyMoment) {
  kill_forgetting(folder, 1000);
}

} // namespace
} // namespace shankline::tests::archive_forget_test
