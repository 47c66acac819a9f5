#include "cli/archive/archive_store.hpp"

#include "cli/archive/archive_audit.hpp"
#include "cli/archive/archive_chain.hpp"
#include "cli/archive/archive_schema.hpp"
#include "export/formats/digest.hpp"

#include "tests/cli/random_archive.hpp"
#include "tests/support/places.hpp"
#include "tests/support/scratch_directory.hpp"

#include <csignal>
#include <fcntl.h>
#include <gtest/gtest.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

namespace shankline::tests::archive_store_test {
namespace {

namespace fs = std::filesystem;
using namespace tests;

mode_t mode_of(const fs::path& path) {
  struct stat status {};
  return stat(path.c_str(), &status) == 0 ? status.st_mode & 07777 : 0;
}

class Archive : public testing::Test {
protected:
  ArchiveStore open(ArchiveUse use = ArchiveUse::write) { return ArchiveStore(path.string(), use); }
  std::string words_of_refusal(ArchiveUse use) {
    try {
      open(use);
    } catch (const ArchiveFault& fault) {
      return fault.what() + std::string(" / ") + fault.advice;
    }
    return {};
  }
  ScratchDirectory scratch;
  fs::path path = scratch.path() / "data" / "shankline" / "archive.sqlite";
};

TEST_F(Archive, KeepsWhatItWasGiven) {
  std::vector<EntryHead> saved;
  {
    ArchiveStore store = open();
    saved = fill(store);
  }
  ASSERT_EQ(saved.size(), 12u);
  ArchiveStore store = open(ArchiveUse::read);
  for (std::size_t i = 0; i < saved.size(); ++i) {
    const auto head = store.head(static_cast<EntryId>(i) + 1);
    ASSERT_TRUE(head) << i;
    EXPECT_TRUE(same(*head, saved[i])) << i;
    EXPECT_EQ(head->id, static_cast<EntryId>(i) + 1);
  }
  const ArchiveEntry third = random_cut("M-07", 3);
  const auto newest_one = store.newest_of("M-07");
  ASSERT_TRUE(newest_one);
  EXPECT_EQ(newest_one->turn, 4);
  EXPECT_EQ(newest_one->pair, third.head.pair);
  EXPECT_EQ(newest_one->summary, third.head.summary);
  EXPECT_EQ(store.body(*newest_one), third.body);
  EXPECT_FALSE(store.head(13));
  EXPECT_FALSE(store.head(0));
  EXPECT_FALSE(store.newest_of("nobody"));
  EXPECT_TRUE(audit(store).clean());
}

TEST_F(Archive, IsForItsOwnerOnly) {
  const mode_t before = umask(0);
  ArchiveStore store = open();
  store.add(random_cut("M-07", 1));
  umask(before);
  EXPECT_EQ(mode_of(path), 0600u);
  EXPECT_EQ(mode_of(path.string() + "-wal"), 0600u);
  EXPECT_EQ(mode_of(path.string() + "-shm"), 0600u);
  EXPECT_EQ(mode_of(path.parent_path()), 0700u);
  EXPECT_EQ(mode_of(path.parent_path().parent_path()), 0700u);
}

TEST_F(Archive, IsWrittenAhead) {
  ArchiveStore store = open();
  EXPECT_EQ(ask(path, "PRAGMA journal_mode"), "wal");
  EXPECT_EQ(ask(path, "PRAGMA user_version"), std::to_string(archive_version));
}

// Without it the archive is opened all the same, and opening takes twice as long.
TEST_F(Archive, TablesHaveTheDigestOnRecord) {
  open();
  std::string object;
  for (const std::string column : {"type", "name", "tbl_name", "coalesce(sql, '')"})
    object += (object.empty() ? "" : " || ") + ("length(" + column + ") || ':' || " + column) +
              " || char(10)";
  EXPECT_EQ(sha256(ask(path, "SELECT group_concat(object, '') FROM (SELECT " + object +
                                 " AS object FROM sqlite_schema ORDER BY type, name)")),
            archive_schema_digest);
}

TEST_F(Archive, PagesMeetWithoutGapOrOverlap) {
  ArchiveStore store = open();
  const std::vector<EntryHead> saved = fill(store);
  for (const std::size_t page : {1u, 2u, 5u, 12u, 100u}) {
    std::vector<EntryId> seen;
    for (EntryId below = newest;;) {
      const auto found = store.older(below, page);
      if (found.empty()) break;
      for (const EntryHead& head : found)
        seen.push_back(head.id);
      below = found.back().id;
    }
    ASSERT_EQ(seen.size(), saved.size());
    for (std::size_t i = 0; i < seen.size(); ++i)
      EXPECT_EQ(seen[i], saved[saved.size() - 1 - i].id);
  }
  std::vector<std::int64_t> turns;
  for (std::int64_t below = newest;;) {
    const auto found = store.older_of("dancer K-12", below, 3);
    if (found.empty()) break;
    for (const EntryHead& head : found) {
      EXPECT_EQ(head.dancer, "dancer K-12");
      turns.push_back(head.turn);
    }
    below = found.back().turn;
  }
  EXPECT_EQ(turns, (std::vector<std::int64_t>{4, 3, 2, 1}));
}

TEST_F(Archive, SeveralAreAddedAsOne) {
  ArchiveStore store = open();
  std::vector<ArchiveEntry> entries;
  for (int n = 1; n <= 5; ++n)
    entries.push_back(random_cut("M-07", n));
  const auto heads = store.add(entries);
  ASSERT_EQ(heads.size(), 5u);
  EXPECT_EQ(heads.back().turn, 5);
  EXPECT_EQ(store.end().id, 5);
  EXPECT_EQ(store.end().hash, chain_hash(heads[4].before, heads[4].digest));
  EXPECT_EQ(heads[0].before, chain_start());
  EXPECT_EQ(heads[1].before, chain_hash(heads[0].before, heads[0].digest));
}

TEST_F(Archive, SaltMakesEqualEntriesDiffer) {
  ArchiveStore store = open();
  const EntryHead a = store.add(random_cut("M-07", 1));
  const EntryHead b = store.add(random_cut("M-07", 1));
  EXPECT_EQ(a.salt.size(), 32u);
  EXPECT_NE(a.salt, b.salt);
  EXPECT_NE(a.digest, b.digest);
  EXPECT_EQ(a.body, b.body);
}

TEST_F(Archive, GuardsRefuseEveryChange) {
  {
    ArchiveStore store = open();
    fill(store);
  }
  for (const char* sql :
       {"UPDATE entries SET dancer = 'X' WHERE id = 3", "UPDATE bodies SET options = '{}'",
        "DELETE FROM entries WHERE id = 12", "DELETE FROM bodies WHERE id = 1",
        "UPDATE entries SET id = 99 WHERE id = 1"})
    EXPECT_THROW(tamper(path, sql), std::runtime_error) << sql;
  ArchiveStore store = open();
  EXPECT_TRUE(audit(store).clean());
}

TEST_F(Archive, MustExistToBeRead) {
  EXPECT_NE(words_of_refusal(ArchiveUse::read).find("no archive here yet"), std::string::npos);
  EXPECT_FALSE(fs::exists(path.parent_path()));
  write_file(path, "");
  EXPECT_NE(words_of_refusal(ArchiveUse::read).find("no archive here yet"), std::string::npos);
  EXPECT_EQ(fs::file_size(path), 0u);
}

TEST_F(Archive, RefusesWhatIsNotOne) {
  struct Row {
    const char* name;
    std::function<void()> make;
    const char* said;
  };
  const Row rows[] = {
      {"text", [&] { write_file(path, std::string(5000, 'x')); }, "no archive"},
      {"short text", [&] { write_file(path, "an order?\n"); }, "no archive"},
      {"another's database", [&] { tamper(path, "CREATE TABLE t(x); INSERT INTO t VALUES(1)"); },
       "another program"},
      {"another's mark", [&] { tamper(path, "PRAGMA application_id = 7; CREATE TABLE t(x)"); },
       "another program"},
      {"folder", [&] { fs::create_directory(path); }, "ordinary file"},
      {"pipe", [&] { ASSERT_EQ(mkfifo(path.c_str(), 0600), 0); }, "ordinary file"},
      {"newer",
       [&] {
         { ArchiveStore made = open(); }
         tamper(path, "CREATE TABLE more(id INTEGER) STRICT; PRAGMA user_version = " +
                          std::to_string(archive_version + 1));
       },
       "newer version"},
  };
  for (const Row& row : rows)
    for (const ArchiveUse use : {ArchiveUse::read, ArchiveUse::write}) {
      fs::remove_all(path.parent_path());
      fs::create_directories(path.parent_path());
      row.make();
      EXPECT_NE(words_of_refusal(use).find(row.said), std::string::npos)
          << row.name << ": " << words_of_refusal(use);
    }
}

TEST_F(Archive, CopyIsWholeAndNeverReplacesAFile) {
  ArchiveStore store = open();
  const std::vector<EntryHead> saved = fill(store);
  const fs::path copy = scratch.path() / "copy.sqlite";
  store.copy_to(copy.string());
  EXPECT_EQ(mode_of(copy), 0600u);
  EXPECT_THROW(store.copy_to(copy.string()), ArchiveFault);
  EXPECT_THROW(store.copy_to((scratch.path() / "none" / "copy.sqlite").string()), ArchiveFault);
  EXPECT_EQ(std::distance(fs::directory_iterator(scratch.path()), {}), 2); // data, the copy
  ArchiveStore copied(copy.string(), ArchiveUse::read);
  EXPECT_EQ(copied.end(), store.end());
  EXPECT_TRUE(audit(copied).clean());
  ArchiveStore going_on(copy.string(), ArchiveUse::write);
  EXPECT_EQ(going_on.add(random_cut("M-07", 9)).turn, 5);
}

TEST_F(Archive, ACopyTakesANameAsLongAsOneMayBe) {
  ArchiveStore store(path.string(), ArchiveUse::write);
  store.add(random_cut("M-07", 1));
  const fs::path copy = scratch.path() / (std::string(248, 'n') + ".sqlite"); // 255 bytes
  store.copy_to(copy.string());
  EXPECT_EQ(ArchiveStore(copy.string(), ArchiveUse::read).end(), store.end());
}

// Killed at any moment a backup leaves a whole copy or none, and no temporary one beside it.
TEST_F(Archive, AKilledBackupLeavesNothing) {
  const int probe = ::open(scratch.path().c_str(), O_TMPFILE | O_WRONLY, 0600);
  if (probe < 0) GTEST_SKIP() << "this file system has no files without a name";
  ::close(probe);
  {
    ArchiveStore store(path.string(), ArchiveUse::write);
    for (int n = 1; n <= 60; ++n)
      store.add(random_cut("M-07", n, 30'000));
  }
  int whole = 0;
  int none = 0;
  for (int round = 0; round < 40; ++round) {
    const fs::path folder = scratch.path() / std::to_string(round);
    fs::create_directory(folder);
    const pid_t child = fork();
    ASSERT_GE(child, 0);
    if (child == 0) {
      execl(places::program.c_str(), "shankline", "archive", "backup",
            (folder / "copy.sqlite").c_str(), "-q", "--archive", path.c_str(), nullptr);
      _exit(127);
    }
    usleep(static_cast<useconds_t>(1000 + 500 * round));
    kill(child, SIGKILL);
    int status = 0;
    ASSERT_EQ(waitpid(child, &status, 0), child);
    for (const fs::directory_entry& entry : fs::directory_iterator(folder))
      EXPECT_EQ(entry.path().filename(), "copy.sqlite");
    if (!fs::exists(folder / "copy.sqlite")) {
      ++none;
      continue;
    }
    ++whole;
    ArchiveStore copied((folder / "copy.sqlite").string(), ArchiveUse::read);
    EXPECT_TRUE(audit(copied).clean());
  }
  EXPECT_GT(none, 0) << whole << " were whole";
}

// Earlier versions.

std::vector<ArchiveEntry> entries_of_version_1(int count) {
  std::vector<ArchiveEntry> entries;
  for (int n = 1; n <= count; ++n)
    entries.push_back(random_cut(n % 2 ? "M-07" : "K-12", n, 500));
  return entries;
}

TEST_F(Archive, OfVersion1IsBroughtUpToDate) {
  for (const ArchiveUse use : {ArchiveUse::read, ArchiveUse::write}) {
    fs::remove_all(path.parent_path());
    fs::create_directories(path.parent_path());
    write_version_1(path, entries_of_version_1(7));
    ASSERT_EQ(ask(path, "PRAGMA user_version"), "1");
    ArchiveStore store = open(use);
    EXPECT_EQ(ask(path, "PRAGMA user_version"), std::to_string(archive_version));
    const auto of_dancer = store.older_of("M-07", newest, 10);
    ASSERT_EQ(of_dancer.size(), 4u);
    EXPECT_EQ(of_dancer.front().turn, 4);
    EXPECT_EQ(of_dancer.front().id, 7);
    EXPECT_EQ(store.body(of_dancer.front()), random_cut("M-07", 7, 500).body);
    const Audit found = audit(store);
    EXPECT_TRUE(found.clean()) << found.faults.front().what;
    EXPECT_EQ(found.cuts, 7u);
  }
  ArchiveStore store = open();
  EXPECT_EQ(store.add(random_cut("K-12", 8)).turn, 4);
}

TEST_F(Archive, EmptyOfVersion1IsBroughtUpToDate) {
  fs::create_directories(path.parent_path());
  write_version_1(path, {});
  ArchiveStore store = open();
  EXPECT_TRUE(audit(store).clean());
  EXPECT_EQ(store.add(random_cut("K-12", 1)).id, 1);
}

} // namespace
} // namespace shankline::tests::archive_store_test
