// The archive under harm: killed, crowded, without room, without rights, with bytes flipped.
#include "cli/archive/archive_audit.hpp"
#include "cli/archive/archive_chain.hpp"
#include "cli/archive/archive_schema.hpp"
#include "cli/archive/archive_store.hpp"

#include "tests/cli/random_archive.hpp"
#include "tests/support/scratch_directory.hpp"

#include <csignal>
#include <fstream>
#include <grp.h>
#include <gtest/gtest.h>
#include <random>
#include <sqlite3.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

namespace shankline::tests::archive_harm_test {
namespace {

namespace fs = std::filesystem;
using namespace tests;

constexpr std::chrono::milliseconds briefly(50);

class ArchiveHarm : public testing::Test {
protected:
  void expect_clean(EntryId at_least) {
    ArchiveStore store(path.string(), ArchiveUse::write);
    const Audit found = audit(store);
    EXPECT_TRUE(found.clean()) << (found.clean() ? "" : found.faults[0].what);
    EXPECT_GE(store.end().id, at_least) << "an entry that was reported as saved is lost";
  }
  ScratchDirectory scratch;
  fs::path path = scratch.path() / "archive.sqlite";
};

/// Saves until it is killed, beginning with an archive that does not exist yet, or goes on with
/// one.
void kill_saving(const fs::path& path, int rounds) {
  std::mt19937 draw(20260314);
  KillTimer making;
  KillTimer saving;
  EntryId before = 0;
  int saved_in_all = 0;
  for (int round = 0; round < rounds; ++round) {
    const bool make = round % 3 == 0;
    if (make) {
      for (const char* end : {"", "-wal", "-shm", "-journal"})
        fs::remove(path.string() + end);
      before = 0;
    }
    KillTimer& timer = make ? making : saving;
    const int wait_for = make ? 0 : std::uniform_int_distribution<>(1, 4)(draw);
    const int said = done_before_killed(
        [&](const auto& say) {
          ArchiveStore store(path.string(), ArchiveUse::write);
          for (int n = 1; n < 10000; ++n) {
            store.add(random_cut(n % 2 ? "M-07" : "K-12", n, 20000));
            say(n);
          }
        },
        wait_for, timer.next());
    timer.was(said == wait_for);
    ArchiveStore store(path.string(), ArchiveUse::write);
    const EntryId end = store.end().id;
    ASSERT_GE(end, before + said) << "an entry that was reported as saved is lost";
    EXPECT_LE(end, before + said + 1);
    const Audit found = audit(store);
    EXPECT_TRUE(found.clean()) << found.faults[0].what;
    saved_in_all += said;
    before = end;
  }
  EXPECT_GT(saved_in_all, rounds) << "too few were saved for the kills to matter";
  for (const KillTimer* timer : {&making, &saving}) {
    EXPECT_GT(timer->in_time(), 0);
    EXPECT_GT(timer->late(), 0);
  }
}

void kill_migrating(const fs::path& path, int rounds) {
  std::vector<ArchiveEntry> entries;
  for (int n = 1; n <= 400; ++n)
    entries.push_back(random_cut(n % 3 ? "M-07" : "K-12", n, 50));
  const fs::path old = path.string() + ".old";
  write_version_1(old, entries);
  KillTimer timer;
  for (int round = 0; round < rounds; ++round) {
    for (const char* end : {"-wal", "-shm", "-journal"})
      fs::remove(path.string() + end);
    fs::copy_file(old, path, fs::copy_options::overwrite_existing);
    const int said = done_before_killed(
        [&](const auto& say) {
          say(1);
          ArchiveStore store(path.string(), ArchiveUse::write);
          say(2);
          pause();
        },
        1, timer.next());
    const std::string version = ask(path, "PRAGMA user_version");
    const std::string present = std::to_string(archive_version);
    EXPECT_TRUE(version == "1" || version == present) << version;
    EXPECT_TRUE(said < 2 || version == present);
    timer.was(version == "1");
    ArchiveStore store(path.string(), ArchiveUse::write);
    EXPECT_EQ(store.end().id, 400);
    EXPECT_EQ(store.older_of("K-12", newest, 1000).size(), 133u);
    if (round % 10 == 0) {
      EXPECT_TRUE(audit(store).clean());
    }
  }
  EXPECT_GT(timer.in_time(), rounds / 10);
  EXPECT_GT(timer.late(), rounds / 10);
}

TEST_F(ArchiveHarm, KilledWhileSavingLosesNothingReported) {
  kill_saving(path, 50);
}
TEST_F(ArchiveHarm, KilledWhileBroughtUpToDateIsOldOrNew) {
  kill_migrating(path, 50);
}
using LongArchiveHarm = ArchiveHarm;
TEST_F(LongArchiveHarm, KilledWhileSavingLosesNothingReported) {
  kill_saving(path, 1000);
}
TEST_F(LongArchiveHarm, KilledWhileBroughtUpToDateIsOldOrNew) {
  kill_migrating(path, 1000);
}

TEST_F(ArchiveHarm, EightProgramsAtOnceLoseNothing) {
  constexpr int programs = 8;
  constexpr int each = 15;
  std::vector<pid_t> children;
  for (int program = 0; program < programs; ++program) {
    const pid_t child = fork();
    ASSERT_GE(child, 0);
    if (child == 0) {
      try {
        for (int n = 1; n <= each; ++n) { // all of them make the archive, or find it made
          ArchiveStore store(path.string(), ArchiveUse::write, std::chrono::seconds(60));
          store.add(random_cut("P-" + std::to_string(program % 3), program * each + n, 5000));
        }
      } catch (const std::exception& fault) {
        fprintf(stderr, "%s\n", fault.what());
        _exit(1);
      }
      _exit(0);
    }
    children.push_back(child);
  }
  for (const pid_t child : children) {
    int status = -1;
    waitpid(child, &status, 0);
    EXPECT_EQ(status, 0);
  }
  ArchiveStore store(path.string(), ArchiveUse::read);
  const auto all = store.older(newest, 1000);
  ASSERT_EQ(all.size(), static_cast<std::size_t>(programs * each));
  std::vector<std::string> pairs;
  for (const EntryHead& head : all)
    pairs.push_back(head.pair);
  std::sort(pairs.begin(), pairs.end());
  EXPECT_EQ(std::adjacent_find(pairs.begin(), pairs.end()), pairs.end());
  EXPECT_TRUE(audit(store).clean());
}

// A limit of the file's size stands for a full disk: what does not fit is reported, and the rest
// holds.
TEST_F(ArchiveHarm, WithoutRoomSavesNothingAndSaysSo) {
  int refused = 0;
  int accepted = 0;
  for (rlim_t limit = 4096; limit <= 400000; limit += 36000) {
    for (const char* end : {"", "-wal", "-shm", "-journal"})
      fs::remove(path.string() + end);
    int ends[2];
    ASSERT_EQ(pipe(ends), 0);
    const int code = in_child([&] {
      std::signal(SIGXFSZ, SIG_IGN);
      const rlimit size{limit, limit};
      setrlimit(RLIMIT_FSIZE, &size);
      int saved = 0;
      try {
        ArchiveStore store(path.string(), ArchiveUse::write);
        for (int n = 1; n <= 40; ++n) {
          saved = static_cast<int>(store.add(random_cut("M-07", n, 20000)).id);
          if (write(ends[1], &saved, sizeof saved) != sizeof saved) return 97;
        }
      } catch (const ArchiveFault&) {
        return 3;
      }
      return 0;
    });
    EXPECT_TRUE(code == 3 || code == 0) << code;
    close(ends[1]);
    int saved = 0;
    while (read(ends[0], &saved, sizeof saved) == sizeof saved)
      ++accepted;
    close(ends[0]);
    refused += code == 3;
    ArchiveStore store(path.string(), ArchiveUse::write);
    EXPECT_EQ(store.end().id, saved);
    EXPECT_TRUE(audit(store).clean());
  }
  EXPECT_GT(refused, 5);
  EXPECT_GT(accepted, 20);
}

TEST_F(ArchiveHarm, LockedByAnotherWriterIsSaidInWords) {
  ArchiveStore store(path.string(), ArchiveUse::write, briefly);
  store.add(random_cut("M-07", 1));
  sqlite3* other = nullptr;
  ASSERT_EQ(sqlite3_open(path.c_str(), &other), SQLITE_OK);
  ASSERT_EQ(sqlite3_exec(other, "BEGIN IMMEDIATE", nullptr, nullptr, nullptr), SQLITE_OK);
  try {
    store.add(random_cut("M-07", 2));
    ADD_FAILURE() << "was written past the lock";
  } catch (const ArchiveFault& fault) {
    EXPECT_NE(std::string(fault.what()).find("another program"), std::string::npos);
  }
  EXPECT_EQ(store.end().id, 1) << "reading goes on";
  sqlite3_close(other);
  EXPECT_EQ(store.add(random_cut("M-07", 2)).id, 2);
}

/// Runs as a user without rights; root has all of them.
int as_nobody(const std::function<int()>& work) {
  return in_child([&] {
    if (getuid() == 0 && (setgroups(0, nullptr) != 0 || setgid(65534) != 0 || setuid(65534) != 0))
      return 98;
    return work();
  });
}

int try_to_save(const fs::path& path) {
  try {
    ArchiveStore(path.string(), ArchiveUse::write).add(random_cut("M-07", 2));
  } catch (const ArchiveFault& fault) {
    return std::string(fault.what()).find(path.string()) == 0 && !fault.advice.empty() ? 3 : 4;
  }
  return 0;
}

TEST_F(ArchiveHarm, WithoutRightsIsSaidInWords) {
  fs::permissions(scratch.path(), fs::perms::all);
  const fs::path folder = scratch.path() / "read_only";
  fs::create_directory(folder);
  { ArchiveStore(path.string(), ArchiveUse::write).add(random_cut("M-07", 1)); }
  fs::copy_file(path, folder / "archive.sqlite");
  fs::permissions(folder / "archive.sqlite", static_cast<fs::perms>(0444));
  fs::permissions(folder, static_cast<fs::perms>(0555));
  EXPECT_EQ(as_nobody([&] { return try_to_save(folder / "archive.sqlite"); }), 3);
  EXPECT_EQ(as_nobody([&] { return try_to_save(folder / "other.sqlite"); }), 3);
  EXPECT_EQ(as_nobody([&] { return try_to_save(folder / "new" / "other.sqlite"); }), 3);
  EXPECT_EQ(as_nobody([&] { return try_to_save(scratch.path() / "mine.sqlite"); }), 0);
  fs::permissions(path, static_cast<fs::perms>(0600));
  if (getuid() == 0) {
    EXPECT_EQ(as_nobody([&] { return try_to_save(path); }), 3) << "root's own";
  }
  fs::permissions(folder, static_cast<fs::perms>(0755));
}

/// Whatever byte is wrong: what is read is right, or it is reported.
void flip_bytes(const fs::path& path, int rounds) {
  const std::vector<std::string> dancers{"M-07", "dancer K-12", "Żaneta O-21", "nobody"};
  {
    ArchiveStore store(path.string(), ArchiveUse::write);
    fill(store);
    fill(store);
    store.forget("Żaneta O-21", "2026-05-01T00:00:00Z", "0.1.0");
  }
  const std::string bytes = read_file(path);
  ArchiveStore sound(path.string(), ArchiveUse::read);
  const Contents truth = contents_of(sound, dancers);
  const fs::path flipped = path.string() + ".flipped";
  std::mt19937 draw(7);
  int reported = 0;
  int harmless = 0;
  int missed_by_audit = 0;
  for (int round = 0; round < rounds; ++round) {
    for (const char* end : {"-wal", "-shm", "-journal"})
      fs::remove(flipped.string() + end);
    std::string spoilt = bytes;
    // Every third one in the header and the description of the tables, where most depends on it.
    const std::size_t range =
        round % 3 == 0 ? std::min<std::size_t>(bytes.size(), 8192) : bytes.size();
    const std::size_t at = std::uniform_int_distribution<std::size_t>(0, range - 1)(draw);
    spoilt[at] = static_cast<char>(spoilt[at] ^ std::uniform_int_distribution<>(1, 255)(draw));
    write_file(flipped, spoilt);
    bool read = false;
    try {
      ArchiveStore store(flipped.string(), ArchiveUse::read);
      const Contents contents = contents_of(store, dancers);
      read = true;
      EXPECT_TRUE(same(contents, truth)) << "a wrong answer: byte " << at << " was flipped";
    } catch (const ArchiveFault&) {
    }
    ++(read ? harmless : reported);
    try {
      ArchiveStore store(flipped.string(), ArchiveUse::read);
      missed_by_audit += !read && audit(store).clean();
    } catch (const ArchiveFault&) {
    }
    try {
      ArchiveStore store(flipped.string(), ArchiveUse::write);
      const EntryHead saved = store.add(random_cut("M-07", 9));
      EXPECT_EQ(saved.id, truth.all.front().id + 1) << "byte " << at;
    } catch (const ArchiveFault&) {
    }
  }
  EXPECT_EQ(missed_by_audit, 0);
  EXPECT_GT(reported, rounds / 4);
  EXPECT_GT(harmless, 0);
}

TEST_F(ArchiveHarm, FlippedBytesAreHarmlessOrReported) {
  flip_bytes(path, 50);
}
TEST_F(LongArchiveHarm, FlippedBytesAreHarmlessOrReported) {
  flip_bytes(path, 1000);
}

TEST_F(ArchiveHarm, CutOffAnywhereIsReported) {
  {
    ArchiveStore store(path.string(), ArchiveUse::write);
    fill(store);
  }
  const std::string bytes = read_file(path);
  const fs::path shorter = path.string() + ".shorter";
  int reported = 0;
  for (std::size_t size = 1; size < bytes.size(); size += 1 + bytes.size() / 23) {
    fs::remove(shorter.string() + "-wal");
    fs::remove(shorter.string() + "-shm");
    write_file(shorter, bytes.substr(0, size));
    try {
      ArchiveStore store(shorter.string(), ArchiveUse::read);
      contents_of(store, {"M-07"});
    } catch (const ArchiveFault&) {
      ++reported;
    }
  }
  EXPECT_EQ(reported, 23);
}

} // namespace
} // namespace shankline::tests::archive_harm_test
