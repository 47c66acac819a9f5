// An archive that may only be read, and one that others may read too.
#include "cli/archive/archive_audit.hpp"
#include "cli/archive/archive_store.hpp"

#include "tests/cli/archive_program.hpp"
#include "tests/cli/random_archive.hpp"

#include <atomic>
#include <csignal>
#include <sqlite3.h>
#include <sys/stat.h>
#include <thread>
#include <unistd.h>

namespace shankline::tests::archive_rights_test {
namespace {

namespace fs = std::filesystem;
using namespace tests;

using Words = std::vector<std::string>;

class ArchiveRights : public ArchiveProgram {
protected:
  void SetUp() override {
    ASSERT_EQ(archive({"save", plain, places::samples + "/inches.yaml"}).exit_code, 0);
    ASSERT_EQ(archive({"note", "1", "--foot", "left", "--seen", "low"}).exit_code, 0);
    ASSERT_EQ(archive({"export", "-o", "open/all.yaml"}).exit_code, 0);
    fs::permissions(open / "all.yaml", static_cast<fs::perms>(0644));
  }

  /// Saves one more entry in a process that is then killed: it stays in the file beside the
  /// archive.
  void leave_unmerged() {
    in_child([this] {
      ArchiveStore store(path.string(), ArchiveUse::write);
      store.add(random_cut("K-12", 1));
      kill(getpid(), SIGKILL);
      return 0;
    });
    ASSERT_GT(fs::file_size(path.string() + "-wal"), 0u);
  }

  bool says(const Finished& finished, const std::string& words) {
    return (finished.out + finished.err).find(words) != std::string::npos;
  }
};

constexpr Closed every_way[] = {Closed::mount, Closed::both, Closed::file, Closed::folder};

// Before: on a mount, "error: …: the archive cannot be opened: No such file or directory"; where
// nothing could be made in the folder, "error: …: the archive cannot be written"; exit code 3 for
// every verb.
TEST_F(ArchiveRights, WhatMayOnlyBeReadIsRead) {
  for (const Closed way : every_way) {
    if (const std::string why = cannot_close(way); !why.empty()) GTEST_SKIP() << why;
    SCOPED_TRACE(name_of(way));
    close(way);
    const std::string as_before = archive({"list"}).out;
    const Finished list = closed(way, {"list"});
    EXPECT_EQ(list.exit_code, 0) << list.err;
    EXPECT_EQ(list.out, as_before);
    EXPECT_EQ(list.err.find("error"), std::string::npos) << list.err;
    const std::string out = (open / name_of(way)).string();
    for (const Words& words : {Words{"audit"},
                               {"history", "M-07"},
                               {"show", "1"},
                               {"compare", "1", "2"},
                               {"reprint", "1", "-o", out + ".pdf"},
                               {"export", "-o", out + ".yaml"},
                               {"backup", out + ".sqlite"}}) {
      const Finished said = closed(way, words);
      EXPECT_EQ(said.exit_code, 0) << words[0] << "\n" << said.err;
    }
    EXPECT_EQ(read_file(out + ".yaml"), read_file(open / "all.yaml"));
    EXPECT_EQ(read_file(out + ".pdf").substr(0, 4), "%PDF");
    ArchiveStore backup(out + ".sqlite", ArchiveUse::read);
    EXPECT_TRUE(audit(backup).clean());
    EXPECT_EQ(backup.end().id, 3);
    EXPECT_EQ(files(folder), (std::set<std::string>{"archive.sqlite"})) << "something was made";
  }
}

// Before: on a mount, "the archive cannot be opened: No such file or directory". An import of what
// is known already went through, "0 entries added", where only the file was closed.
TEST_F(ArchiveRights, WhatMayOnlyBeReadIsNotWritten) {
  for (const Closed way : every_way) {
    if (const std::string why = cannot_close(way); !why.empty()) GTEST_SKIP() << why;
    SCOPED_TRACE(name_of(way));
    close(way);
    const std::string bytes = read_file(copy);
    std::set<std::string> messages;
    for (const Words& words : {Words{"save", plain},
                               {"note", "1", "--foot", "left", "--gap", "2"},
                               {"forget", "M-07", "--yes"},
                               {"import", (open / "all.yaml").string()}}) {
      const Finished said = closed(way, words);
      EXPECT_EQ(said.exit_code, 3) << words[0] << "\n" << said.out;
      EXPECT_EQ(said.out, "") << words[0];
      messages.insert(said.err);
    }
    ASSERT_EQ(messages.size(), 1u) << "one message for all";
    const std::string& message = *messages.begin();
    EXPECT_NE(message.find("cannot be written"), std::string::npos) << message;
    EXPECT_NE(message.find(way == Closed::mount ? "Read-only file system" : "Permission denied"),
              std::string::npos)
        << message;
    EXPECT_NE(message.find("do: "), std::string::npos) << message;
    EXPECT_EQ(files(folder), (std::set<std::string>{"archive.sqlite"}));
    EXPECT_EQ(read_file(copy), bytes);
  }
}

// Before: refused as every other, without a word on the file beside it; where only the file was
// closed, a file was made beside it.
TEST_F(ArchiveRights, WhatIsNotMergedYetIsReadOrSaid) {
  leave_unmerged();
  for (const Closed way : every_way) {
    if (const std::string why = cannot_close(way); !why.empty()) GTEST_SKIP() << why;
    SCOPED_TRACE(name_of(way));
    close(way, {"", "-wal", "-shm"});
    const auto beside = [this] {
      return read_file(copy.string() + "-wal") + read_file(copy.string() + "-shm");
    };
    const std::string as_found = beside();
    const Finished list = closed(way, {"list", "--json"});
    EXPECT_EQ(beside(), as_found) << "something was written beside the archive";
    EXPECT_EQ(list.exit_code, 0) << list.err;
    EXPECT_NE(list.out.find("K-12"), std::string::npos) << "the unmerged entry is missing";

    close(way, {"", "-wal"});
    const Finished refused = closed(way, {"list"});
    EXPECT_EQ(refused.exit_code, 3) << refused.out;
    EXPECT_EQ(refused.out, "");
    EXPECT_NE(refused.err.find("archive.sqlite-wal"), std::string::npos) << refused.err;
    EXPECT_NE(refused.err.find("copy"), std::string::npos) << refused.err;
    EXPECT_EQ(files(folder), (std::set<std::string>{"archive.sqlite", "archive.sqlite-wal"}));
  }
}

// A journal of the older kind beside the file: what is in the file is half a change.
TEST_F(ArchiveRights, AChangeThatWasNotUndoneIsSaid) {
  if (const std::string why = cannot_close(Closed::both); !why.empty()) GTEST_SKIP() << why;
  write_file(path.string() + "-journal",
             std::string("\xd9\xd5\x05\xf9\x20\xa1\x63\xd7") + std::string(504, '\0'));
  close(Closed::both, {"", "-journal"});
  const Finished refused = closed(Closed::both, {"list"});
  EXPECT_EQ(refused.exit_code, 3) << refused.out;
  EXPECT_NE(refused.err.find("archive.sqlite-journal"), std::string::npos) << refused.err;
}

// A reader without rights sees what another program saved a moment ago, and does not stop it.
TEST_F(ArchiveRights, WhatIsWrittenMeanwhileIsRead) {
  if (getuid() != 0) GTEST_SKIP() << "only root writes past these rights";
  for (const Closed way : {Closed::both, Closed::folder}) {
    if (const std::string why = cannot_close(way); !why.empty()) GTEST_SKIP() << why;
    SCOPED_TRACE(name_of(way));
    close(way);
    ArchiveStore store(copy.string(), ArchiveUse::write);
    store.add(random_cut("K-12", 1));
    const Finished list = closed(way, {"list", "--json"});
    EXPECT_EQ(list.exit_code, 0) << list.err;
    EXPECT_NE(list.out.find("K-12"), std::string::npos);
    EXPECT_EQ(store.add(random_cut("K-12", 2)).id, 5);
  }
}

// A reader that cannot lock does not wait for writers, so it may have read half of the old and half
// of the new.
TEST_F(ArchiveRights, WhatCannotBeLockedAndIsWrittenMeanwhileIsSaid) {
  if (getuid() != 0) GTEST_SKIP() << "only root writes past these rights";
  close(Closed::both);
  const fs::path reading = open / "reading";
  const fs::path written = open / "written";
  std::atomic<bool> ended = false; // the reader may have failed before it read
  std::thread writer([&] {
    while (!fs::exists(reading) && !ended)
      std::this_thread::sleep_for(std::chrono::milliseconds(5));
    ArchiveStore(copy.string(), ArchiveUse::write).add(random_cut("K-12", 1));
    write_file(written, "");
  });
  const int code = in_child([&] {
    if (setgid(65534) != 0 || setuid(65534) != 0) return 98;
    try {
      ArchiveStore store(copy.string(), ArchiveUse::read);
      store.with_snapshot([&] {
        store.end();
        write_file(reading, "");
        while (!fs::exists(written))
          std::this_thread::sleep_for(std::chrono::milliseconds(5));
      });
    } catch (const ArchiveFault& fault) {
      return std::string(fault.what()).find("wrote to this archive while it was read") < 999 ? 3
                                                                                             : 4;
    }
    return 0;
  });
  ended = true;
  writer.join();
  EXPECT_EQ(code, 3);
}

// Before: "error: …: the archive cannot be written", for an archive that was only to be read.
TEST_F(ArchiveRights, AnEarlierVersionThatMayOnlyBeReadIsSaid) {
  if (const std::string why = cannot_close(Closed::both); !why.empty()) GTEST_SKIP() << why;
  fs::remove(path);
  write_version_1(path, {random_cut("M-07", 1)});
  close(Closed::both);
  const Finished list = closed(Closed::both, {"list"});
  EXPECT_EQ(list.exit_code, 3);
  EXPECT_NE(list.err.find("tables of version 1"), std::string::npos) << list.err;
  EXPECT_NE(list.err.find("copy"), std::string::npos) << list.err;
}

// Before: "saved as entry 1", and nothing but an empty file of that name was there.
TEST_F(ArchiveRights, ANameIsNeverTakenForSomethingElse) {
  for (const char* name :
       {":memory:", "file:q?mode=memory", "file:other.sqlite", "a%41 #b?c=d", "-"}) {
    SCOPED_TRACE(name);
    const Finished saved = archive({"save", plain, "--archive=" + std::string(name)});
    EXPECT_EQ(saved.exit_code, 0) << saved.err;
    EXPECT_GT(fs::file_size(scratch.path() / name), 20000u);
    const Finished list = archive({"list", "--archive=" + std::string(name)});
    EXPECT_EQ(list.exit_code, 0) << list.err;
    const Finished copied =
        archive({"backup", std::string(name) + "2", "--archive=" + std::string(name)});
    EXPECT_EQ(copied.exit_code, 0) << copied.err;
    EXPECT_GT(fs::file_size(scratch.path() / (std::string(name) + "2")), 20000u);
  }
}

// Others who may read the archive.

unsigned mode_of(const fs::path& file) {
  struct stat about {};
  return ::stat(file.c_str(), &about) == 0 ? about.st_mode & 0777u : 0;
}

std::size_t lines_with(const std::string& text, const std::string& words) {
  std::size_t count = 0;
  for (std::size_t at = 0; (at = text.find(words, at)) != std::string::npos; ++at)
    ++count;
  return count;
}

// Before, nothing was said.
TEST_F(ArchiveRights, OthersWhoMayReadItAreACaution) {
  for (const unsigned mode : {0640u, 0604u, 0644u, 0660u, 0606u, 0620u}) {
    fs::permissions(path, static_cast<fs::perms>(mode));
    for (const Words& words : {Words{"list"},
                               {"audit"},
                               {"save", plain, plain},
                               {"note", "1", "--foot", "left", "--gap", "2"}}) {
      const Finished said = archive(words);
      EXPECT_EQ(said.exit_code, 0) << said.err;
      EXPECT_EQ(lines_with(said.err, "others on this machine"), 1u) << said.err;
      EXPECT_EQ(said.err.rfind("caution: ", 0), 0u) << said.err;
      EXPECT_NE(said.err.find("shankline archive protect"), std::string::npos) << said.err;
      EXPECT_EQ(said.err.find("change") != std::string::npos, (mode & 0022u) != 0) << said.err;
    }
  }
  for (const unsigned mode : {0600u, 0700u}) {
    fs::permissions(path, static_cast<fs::perms>(mode));
    EXPECT_EQ(archive({"list"}).err, "");
  }
}

TEST_F(ArchiveRights, CutSaysItOnce) {
  fs::permissions(path, static_cast<fs::perms>(0644));
  for (const Words& words : {Words{"cut", plain, "-o", "x.pdf"},
                             {"cut", plain, "-o", "x.pdf", "--save"},
                             {"cut", plain, "-q", "-o", "x.pdf", "--save"}})
    EXPECT_EQ(lines_with(run(words).err, "archive protect"), 1u) << run(words).err;
  EXPECT_EQ(run({"cut", plain, "-q", "-o", "x.pdf"}).err, "") << "the archive is not opened";
}

// Before, there was no such verb.
TEST_F(ArchiveRights, ProtectTakesTheRightsOfOthersAway) {
  leave_unmerged();
  for (const char* end : {"", "-wal", "-shm"})
    fs::permissions(path.string() + end, static_cast<fs::perms>(0664));
  const Finished said = archive({"protect"});
  EXPECT_EQ(said.exit_code, 0) << said.err;
  EXPECT_EQ(said.err, "");
  EXPECT_NE(said.out.find("only its owner"), std::string::npos) << said.out;
  EXPECT_EQ(mode_of(path), 0600u);
  ArchiveStore store(path.string(), ArchiveUse::read);
  for (const char* end : {"-wal", "-shm"})
    EXPECT_EQ(mode_of(path.string() + end), 0600u) << end;
  EXPECT_EQ(store.end().id, 4) << "the unmerged entry is kept";
  const Finished again = archive({"protect"});
  EXPECT_EQ(again.exit_code, 0) << again.err;
  EXPECT_NE(again.out.find("already"), std::string::npos) << again.out;
}

TEST_F(ArchiveRights, ProtectLeavesOtherFilesAlone) {
  write_file(scratch.path() / "notes.txt", "not an archive, and longer than a header of one\n");
  fs::permissions(scratch.path() / "notes.txt", static_cast<fs::perms>(0644));
  EXPECT_EQ(archive({"protect", "--archive", "notes.txt"}).exit_code, 3);
  EXPECT_EQ(mode_of(scratch.path() / "notes.txt"), 0644u);
  EXPECT_EQ(archive({"protect", "--archive", "nowhere.sqlite"}).exit_code, 3);
  EXPECT_FALSE(fs::exists(scratch.path() / "nowhere.sqlite"));
}

TEST_F(ArchiveRights, ProtectSaysWhoseTheFileIs) {
  for (const Closed way : {Closed::both, Closed::mount}) {
    if (const std::string why = cannot_close(way); !why.empty()) GTEST_SKIP() << why;
    if (getuid() != 0 && way == Closed::both) continue; // the file is one's own
    close(way);
    const Finished said = closed(way, {"protect"});
    EXPECT_EQ(said.exit_code, 3) << said.out;
    EXPECT_NE(said.err.find(way == Closed::mount ? "Read-only" : "not permitted"),
              std::string::npos)
        << said.err;
    EXPECT_NE(mode_of(copy) & 0044u, 0u);
  }
}

} // namespace
} // namespace shankline::tests::archive_rights_test
