// An archive whose tables somebody else changed, and what is said of versions.
#include "cli/archive/archive_drawing.hpp"
#include "cli/archive/archive_schema.hpp"
#include "cli/archive/archive_store.hpp"
#include "export/formats/digest.hpp"
#include "export/formats/pdf_writer.hpp"

#include "tests/cli/archive_program.hpp"
#include "tests/cli/random_archive.hpp"

#include <sqlite3.h>

namespace shankline::tests::archive_foreign_test {
namespace {

namespace fs = std::filesystem;
using namespace tests;

using Words = std::vector<std::string>;

class ArchiveForeign : public ArchiveProgram {
protected:
  void SetUp() override {
    ArchiveStore store(path.string(), ArchiveUse::write);
    fill(store);
    write_file(scratch.path() / "none.yaml", "format: shankline-archive/1\nentries: 0\n");
  }

  /// Every verb refuses, at once, and says these words.
  void expect_refused(const std::string& words) {
    for (const Words& verb : {Words{"list"},
                              {"audit"},
                              {"history", "M-07"},
                              {"show", "1"},
                              {"export"},
                              {"backup", "copy.sqlite"},
                              {"save", plain},
                              {"note", "1", "--foot", "left", "--seen", "low"},
                              {"forget", "M-07", "--yes"},
                              {"import", "none.yaml"},
                              {"protect"}}) {
      const Finished said = archive(verb);
      EXPECT_FALSE(said.timed_out) << verb[0];
      EXPECT_EQ(said.exit_code, 3) << verb[0] << "\n" << said.out << said.err;
      EXPECT_EQ(said.out, "") << verb[0];
      EXPECT_NE(said.err.find(words), std::string::npos) << verb[0] << "\n" << said.err;
    }
  }
};

/// Counts up without end before the first row.
const std::string endless = "WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n) ";

// Before: "saved as entry 13" and "noted on entry 1, as entry 13", and neither was there; the view
// in place of head hung every verb; the others were seen by audit alone.
TEST_F(ArchiveForeign, WhatIsNotOursIsRefusedAtOpening) {
  struct Row {
    const char* name;
    std::string sql;
    std::string said;
  };
  const Row rows[] = {
      {"ignores entries",
       "CREATE TRIGGER t BEFORE INSERT ON entries BEGIN SELECT RAISE(IGNORE); END",
       "trigger 't' is not of this program"},
      {"ignores bodies", "CREATE TRIGGER t BEFORE INSERT ON bodies BEGIN SELECT RAISE(IGNORE); END",
       "trigger 't' is not"},
      {"ignores the end", "CREATE TRIGGER t BEFORE UPDATE ON head BEGIN SELECT RAISE(IGNORE); END",
       "trigger 't' is not"},
      {"view for a table",
       "ALTER TABLE head RENAME TO was; CREATE VIEW head AS " + endless +
           "SELECT i AS id, i AS hash FROM n WHERE i < 0",
       "table 'head' is missing"},
      {"index", "CREATE INDEX by_day ON entries(date)", "index 'by_day' is not"},
      {"table", "CREATE TABLE \"\x1b[31mred\"(a)", "is not of this program"},
      {"table's rows", "ANALYZE", "table 'sqlite_stat1' is not"},
      {"guard", "DROP TRIGGER bodies_hold", "trigger 'bodies_hold' is missing"},
      {"weaker guard",
       "DROP TRIGGER bodies_hold; CREATE TRIGGER bodies_hold BEFORE UPDATE ON bodies WHEN 0 "
       "BEGIN SELECT 1; END",
       "trigger 'bodies_hold' is not as"},
      {"other table under its name",
       "DROP TABLE erasing; CREATE TABLE erasing(id INTEGER PRIMARY KEY, more TEXT) STRICT",
       "table 'erasing' is not as"},
      {"column", "ALTER TABLE dancers ADD COLUMN more TEXT", "table 'dancers' is not as"},
      {"a list of its own",
       "CREATE TABLE faked AS SELECT * FROM sqlite_schema;"
       "CREATE TRIGGER t BEFORE INSERT ON bodies BEGIN SELECT RAISE(IGNORE); END;"
       "CREATE VIEW shown AS SELECT * FROM faked; PRAGMA writable_schema = ON;"
       "UPDATE sqlite_schema SET name = 'sqlite_schema', tbl_name = 'sqlite_schema', "
       "sql = 'CREATE VIEW sqlite_schema AS SELECT * FROM faked' WHERE name = 'shown'",
       ""},
      {"a list of its own, by the older name",
       "CREATE TABLE faked AS SELECT * FROM sqlite_schema;"
       "CREATE TRIGGER t BEFORE INSERT ON bodies BEGIN SELECT RAISE(IGNORE); END;"
       "CREATE VIEW shown AS SELECT * FROM faked; PRAGMA writable_schema = ON;"
       "UPDATE sqlite_schema SET name = 'sqlite_master', tbl_name = 'sqlite_master', "
       "sql = 'CREATE VIEW sqlite_master AS SELECT * FROM faked' WHERE name = 'shown'",
       ""},
  };
  const std::string bytes = read_file(path);
  for (const Row& row : rows) {
    SCOPED_TRACE(row.name);
    for (const char* end : {"-wal", "-shm"})
      fs::remove(path.string() + end);
    write_file(path, bytes);
    tamper(path, row.sql);
    expect_refused(row.said);
    EXPECT_EQ(archive({"list"}).err.find('\x1b'), std::string::npos);
  }
  const Finished cut = run({"cut", plain, "-o", "x.pdf"});
  EXPECT_EQ(cut.exit_code, 0) << "a cut is cut all the same";
}

// Before, nothing was thrown for the second and the third.
TEST_F(ArchiveForeign, WhatIsSavedIsReadBackBeforeItIsReported) {
  ArchiveStore store(path.string(), ArchiveUse::write);
  const std::string bytes = "SELECT count(*) || ' ' || max(id) FROM entries";
  for (const char* into : {"INSERT ON entries", "INSERT ON bodies", "UPDATE ON head"}) {
    SCOPED_TRACE(into);
    tamper(path, "CREATE TRIGGER t BEFORE " + std::string(into) +
                     " BEGIN SELECT RAISE(IGNORE); END"); // after the archive was opened
    EXPECT_THROW(store.add(random_cut("M-07", 9)), ArchiveFault);
    std::optional<ArchiveEntry> one = random_cut("M-07", 9);
    one->head.salt = std::string(32, 'a');
    EXPECT_THROW(store.add_missing([&] { return std::exchange(one, std::nullopt); }), ArchiveFault);
    tamper(path, "DROP TRIGGER t");
    EXPECT_EQ(ask(path, bytes), "12 12") << "half of it was kept";
  }
  EXPECT_EQ(store.add(random_cut("M-07", 9)).id, 13);
}

// Before, nothing was thrown: "2 entries erased" was said of entries that were still there.
TEST_F(ArchiveForeign, WhatIsErasedIsGoneBeforeItIsReported) {
  ArchiveStore store(path.string(), ArchiveUse::write);
  for (const char* what : {"UPDATE ON entries", "DELETE ON bodies", "DELETE ON dancers"}) {
    SCOPED_TRACE(what);
    tamper(path,
           "CREATE TRIGGER t BEFORE " + std::string(what) + " BEGIN SELECT RAISE(IGNORE); END");
    EXPECT_THROW(store.forget("M-07", "2026-05-01T00:00:00Z", "0.2.0"), ArchiveFault);
    tamper(path, "DROP TRIGGER t");
    EXPECT_EQ(store.counted("M-07"), 4);
  }
  EXPECT_EQ(store.forget("M-07", "2026-05-01T00:00:00Z", "0.2.0"), 4u);
}

// Before, what was saved went into a file without a name, and was reported as saved.
TEST_F(ArchiveForeign, AFileThatIsTakenAwayMeanwhileHoldsNothingReported) {
  ArchiveStore store(path.string(), ArchiveUse::write);
  fs::copy_file(path, path.string() + ".copy");
  fs::rename(path.string() + ".copy", path); // as a program that brings back a backup does
  try {
    store.add(random_cut("M-07", 9));
    ADD_FAILURE() << "reported as saved";
  } catch (const ArchiveFault& fault) {
    EXPECT_NE(std::string(fault.what()).find("was moved or replaced"), std::string::npos)
        << fault.what();
  }
}

// Versions.

// Before: "was written by a newer version of this program (3; this one knows 2)", for one flipped
// byte; "is damaged: no such index: entries_of_dancer", for a version that is too low.
TEST_F(ArchiveForeign, AVersionIsNotTakenForAnother) {
  const std::string bytes = read_file(path);
  const auto said_of = [&](const std::string& sql) {
    for (const char* end : {"-wal", "-shm"})
      fs::remove(path.string() + end);
    write_file(path, bytes);
    tamper(path, sql);
    const Finished said = archive({"list"});
    EXPECT_EQ(said.exit_code, 3) << sql;
    return said.err;
  };
  const std::string next = std::to_string(archive_version + 1);
  const std::string flipped = said_of("PRAGMA user_version = " + next);
  EXPECT_NE(flipped.find("is damaged"), std::string::npos) << flipped;
  EXPECT_EQ(flipped.find("newer"), std::string::npos) << flipped;
  const std::string newer =
      said_of("PRAGMA user_version = " + next + "; CREATE TABLE benches(id INTEGER) STRICT");
  EXPECT_NE(newer.find("tables of version " + next +
                       ", and this program knows none after version " +
                       std::to_string(archive_version)),
            std::string::npos)
      << newer;
  EXPECT_NE(newer.find("newer version"), std::string::npos) << newer;
  const std::string lower = said_of("PRAGMA user_version = 1");
  EXPECT_NE(lower.find("is damaged"), std::string::npos) << lower;
  EXPECT_EQ(lower.find("no such index"), std::string::npos) << lower;
  EXPECT_EQ(ask(path, "PRAGMA user_version"), "1") << "left as it was";
}

// Before: "reprint it with version 0.1.0" for a form that 0.1.0 did not know either, and "reprint
// it with version 0.2.0" from version 0.2.0 itself.
TEST_F(ArchiveForeign, AReprintIsNotSentToAVersionThatCannotDoIt) {
  const std::string own = run({"--version"}).out.substr(10, 5);
  {
    ArchiveStore store(path.string(), ArchiveUse::write);
    for (const std::string& version : {std::string("0.1.0"), own, std::string("9.8.7")}) {
      ArchiveEntry entry = random_cut("M-20", 1);
      entry.head.program = version;
      entry.body.drawing = "shankline-drawing/9 whatever";
      store.add(entry);
    }
  }
  for (const char* id : {"13", "14"}) {
    const Finished said = archive({"reprint", id, "-o", "none.pdf"});
    EXPECT_EQ(said.exit_code, 3) << said.err;
    EXPECT_EQ(said.err.find("with version"), std::string::npos) << said.err;
    EXPECT_NE(said.err.find("its drawing is spoilt"), std::string::npos) << said.err;
  }
  const Finished newer = archive({"reprint", "15", "-o", "none.pdf"});
  EXPECT_EQ(newer.exit_code, 1);
  EXPECT_NE(newer.err.find("reprint it with version 9.8.7"), std::string::npos) << newer.err;
}

} // namespace
} // namespace shankline::tests::archive_foreign_test
