// Archives of version 0.2.0, from before notes named a foot: a file as it left it, and a database
// that holds the same entries under the tables of then. There are four: an order of two feet with a
// note, and one of one foot with another.
#include "cli/archive/archive_audit.hpp"
#include "cli/archive/archive_json.hpp"
#include "cli/archive/archive_store.hpp"
#include "cli/archive/server_schema.hpp"

#include "tests/cli/archive_on_server.hpp"
#include "tests/cli/archive_program.hpp"

#include <nlohmann/json.hpp>
#include <stdexcept>

namespace shankline::tests::archive_formats_test {
namespace {

namespace fs = std::filesystem;
using nlohmann::json;

const char* const end_of_chain = "63cdc596866e916287064291209f3c485f2b3d3b5435888c5f196815fb8b28e7";

class EarlierArchive : public ArchiveProgram {
protected:
  /// A copy of the file that may be written.
  std::string copied() const {
    const fs::path file = scratch.path() / "old.sqlite";
    fs::copy_file(places::source_tree + "/tests/cli/kept/notes_0_2.sqlite", file);
    fs::permissions(file, fs::perms::owner_read | fs::perms::owner_write);
    return file.string();
  }

  /// Checks the promises for an entry of an older format, at any place.
  void expect_kept_and_not_learned_from(const std::string& place) {
    const auto at = [&](std::vector<std::string> words) {
      words.insert(words.end(), {"--archive", place});
      return archive(std::move(words));
    };
    EXPECT_NE(at({"audit"}).out.find(end_of_chain), std::string::npos) << at({"audit"}).err;
    const Finished history = at({"history", "M-07"});
    EXPECT_NE(history.out.find("2026-03-24: seen too-low, gap 2.0, 12.0 h"), std::string::npos)
        << history.out << history.err;
    EXPECT_EQ(history.out.find("now "), std::string::npos) << "nobody knows which board it was";
    const json before = json::parse(at({"learn", "--json"}).out);
    EXPECT_EQ(before["shoes"], 0);
    EXPECT_EQ(before["left_out"]["notes_without_foot"], 2);
    EXPECT_EQ(at({"note", "1", "--seen", "good"}).exit_code, 1) << "two feet";
    EXPECT_EQ(at({"note", "2", "--seen", "good", "--cut", "55"}).exit_code, 0) << "one foot";
    EXPECT_EQ(at({"tries", "1", "--foot", "left", "52:too-low", "55:good"}).exit_code, 0);
    const json after = json::parse(at({"learn", "--json"}).out);
    EXPECT_EQ(after["shoes"], 2);
    EXPECT_EQ(after["answers"], 3);
    EXPECT_EQ(after["left_out"]["notes_without_foot"], 2);
    const Finished audited = at({"audit", "--known", end_of_chain});
    EXPECT_EQ(audited.exit_code, 0) << audited.out;
    EXPECT_NE(audited.out.find("7 entries: 2 cuts, 5 notes"), std::string::npos) << audited.out;
  }
};

TEST_F(EarlierArchive, FileIsReadAndGoesOn) {
  expect_kept_and_not_learned_from(copied());
}

/// A function as the first step of a server's tables makes it.
std::string function_of_step_1(const std::string& name) {
  const std::string step = server_steps[0];
  const std::size_t begin = step.find("FUNCTION shankline." + name + "(");
  const std::size_t end = step.find("END $$;", begin);
  if (begin == std::string::npos || end == std::string::npos)
    throw std::runtime_error("step 1 has no function " + name);
  return "CREATE OR REPLACE " + step.substr(begin, end + 7 - begin);
}

TEST_F(EarlierArchive, DatabaseIsBroughtUpToDateAndGoesOn) {
  const PreparedDatabase database;
  const std::string place = database.address();
  ASSERT_EQ(archive({"move", copied(), place}).exit_code, 0);
  database.ask(function_of_step_1("has_words") + function_of_step_1("without_words") +
               "UPDATE shankline.archive SET version = 1");
  const Finished refused = archive({"list", "--archive", place});
  EXPECT_EQ(refused.exit_code, 3);
  EXPECT_NE(refused.err.find("shankline archive prepare"), std::string::npos) << refused.err;
  const Finished prepared = archive({"prepare", place});
  ASSERT_EQ(prepared.exit_code, 0) << prepared.err;
  EXPECT_NE(prepared.out.find("from version 1 to version"), std::string::npos) << prepared.out;
  expect_kept_and_not_learned_from(place);
  // A bench sees another one's tries in full, and learns the same from them.
  const std::string of_anna = database.address(database.new_role("bench"));
  const std::string of_berta = database.address(database.new_role("bench"));
  const auto types_in = [&](const std::string& by, const std::string& attempt) {
    return archive({"tries", "1", "--foot", "right", "--by", by, attempt, "--archive", of_anna})
        .exit_code;
  };
  EXPECT_EQ(types_in("T-4", "52:too-low"), 0);
  ServerStore berta(of_berta, ArchiveUse::read, std::chrono::seconds(10));
  EXPECT_FALSE(berta.head(8)->withheld);
  EXPECT_EQ(outcome_of(*berta.head(8)).by, "T-4");
  // A code that is not a code may be a name: it is kept back, and the try is learned from all the
  // same.
  EXPECT_EQ(types_in("the one who fits on Mondays", "55:good"), 0);
  EXPECT_TRUE(berta.head(9)->withheld);
  EXPECT_EQ(outcome_of(*berta.head(9)).by, "");
  EXPECT_EQ(archive({"learn", "--json", "--archive", of_berta}).out,
            archive({"learn", "--json", "--archive", place}).out);
}

} // namespace
} // namespace shankline::tests::archive_formats_test
