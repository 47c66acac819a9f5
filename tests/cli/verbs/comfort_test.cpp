// Settings, help by name, quiet verbs, folders, tables for spreadsheets and rosters, from outside.
#include "tests/support/places.hpp"
#include "tests/support/process.hpp"
#include "tests/support/scratch_directory.hpp"

#include <filesystem>
#include <fstream>
#include <gtest/gtest.h>
#include <sstream>
#include <string>
#include <sys/stat.h>
#include <vector>

namespace shankline::tests::comfort_test {
namespace {

namespace fs = std::filesystem;

class Comfort : public testing::Test {
protected:
  Comfort() {
    here_.directory = scratch_.path();
    here_.environment = {{"HOME", (scratch_.path() / "home").string()},
                         {"XDG_CONFIG_HOME", std::nullopt},
                         {"XDG_DATA_HOME", std::nullopt}};
  }
  void write(const std::string& name, const std::string& text) const {
    fs::create_directories((scratch_.path() / name).parent_path());
    std::ofstream(scratch_.path() / name, std::ios::binary) << text;
  }
  void settle(const std::string& text) const { write("home/.config/shankline/config.yaml", text); }
  Finished shankline(std::vector<std::string> words) const {
    words.insert(words.begin(), places::program);
    return run(words, here_);
  }
  std::string text_of(const std::string& name) const {
    std::ifstream in(scratch_.path() / name, std::ios::binary);
    return {std::istreambuf_iterator<char>(in), {}};
  }
  void copy_sample(const std::string& name, const std::string& to) const {
    fs::create_directories((scratch_.path() / to).parent_path());
    fs::copy_file(fs::path(places::samples) / name, scratch_.path() / to);
  }

  ScratchDirectory scratch_;
  Surroundings here_;
};

/// The media box of the first page, in points.
std::string box_of(const std::string& pdf) {
  const std::size_t at = pdf.find("/MediaBox");
  return at == std::string::npos ? "" : pdf.substr(at, pdf.find(']', at) - at);
}

TEST_F(Comfort, OptionBeatsEnvironmentBeatsFile) {
  copy_sample("plain.yaml", "plain.yaml");
  const auto paper = [&](const std::vector<std::string>& more) {
    std::vector<std::string> words{"cut", "plain.yaml", "-q", "-o", "p.pdf"};
    words.insert(words.end(), more.begin(), more.end());
    const Finished done = shankline(words);
    EXPECT_EQ(done.exit_code, 0) << done.err;
    return box_of(text_of("p.pdf"));
  };
  const std::string a4 = paper({"--paper", "a4"});
  const std::string a3 = paper({"--paper", "a3"});
  const std::string letter = paper({"--paper", "letter"});
  EXPECT_EQ(paper({}), a4);
  settle("# mine\npaper: letter\nunits: in\n");
  EXPECT_EQ(paper({}), letter);
  EXPECT_NE(shankline({"check", "plain.yaml"}).out.find(" in"), std::string::npos);
  here_.environment["SHANKLINE_PAPER"] = "a3";
  EXPECT_EQ(paper({}), a3);
  EXPECT_EQ(paper({"--paper", "a4"}), a4);
  here_.environment["SHANKLINE_PAPER"] = ""; // as if it were not set
  EXPECT_EQ(paper({}), letter);
}

TEST_F(Comfort, ConfigSaysWhatHoldsAndFromWhere) {
  Finished done = shankline({"config"});
  EXPECT_EQ(done.exit_code, 0);
  EXPECT_NE(done.out.find("paper      a4"), std::string::npos) << done.out;
  EXPECT_NE(done.out.find("which is not there"), std::string::npos) << done.out;
  settle("paper: letter\nlead_time: 42\nclimate: 1.2\narchive: /srv/archive.sqlite\n");
  here_.environment["SHANKLINE_PAPER"] = "roll:610";
  done = shankline({"config"});
  EXPECT_NE(done.out.find("roll:610"), std::string::npos) << done.out;
  EXPECT_NE(done.out.find("SHANKLINE_PAPER"), std::string::npos) << done.out;
  EXPECT_NE(done.out.find("config.yaml:2"), std::string::npos) << done.out;
  EXPECT_NE(done.out.find("/srv/archive.sqlite"), std::string::npos) << done.out;
}

TEST_F(Comfort, ConfigNamesTheArchiveOfItsOwnFile) {
  EXPECT_NE(shankline({"config"}).out.find("the usual file"), std::string::npos);
  write("home/.config/shankline/archive", "/srv/house.sqlite\n");
  const std::string named = shankline({"config"}).out;
  EXPECT_NE(named.find("/srv/house.sqlite"), std::string::npos) << named;
  EXPECT_NE(named.find(".config/shankline/archive:1"), std::string::npos) << named;
  settle("archive: /srv/other.sqlite\n");
  EXPECT_NE(shankline({"config"}).out.find("/srv/other.sqlite"), std::string::npos);
}

TEST_F(Comfort, SettledArchiveAndPrinterAreUsed) {
  copy_sample("plain.yaml", "plain.yaml");
  const std::string archive = (scratch_.path() / "mine.sqlite").string();
  settle("archive: " + archive + "\nprinter: desk\n");
  const Finished unknown = shankline({"cut", "plain.yaml", "-o", "p.pdf"});
  EXPECT_EQ(unknown.exit_code, 1);
  EXPECT_NE(unknown.err.find("no printer 'desk' is calibrated here"), std::string::npos)
      << unknown.err;
  EXPECT_EQ(
      shankline({"cut", "plain.yaml", "--printer", "none", "--save", "-o", "p.pdf"}).exit_code, 0);
  EXPECT_TRUE(fs::exists(archive));
  EXPECT_NE(shankline({"archive", "list"}).out.find("M-07"), std::string::npos);
  EXPECT_EQ(shankline({"archive", "list", "--archive", archive + ".other"}).exit_code, 3);
}

struct Wrong {
  const char* text;
  const char* place;
  const char* what;
};

TEST_F(Comfort, WrongSettingsAreNamedByLine) {
  copy_sample("plain.yaml", "plain.yaml");
  const Wrong all[]{
      {"papr: a4\n", "config.yaml:1:1: error: papr", "Did you mean 'paper'?"},
      {"units: mm\npaper: a9\n", "config.yaml:2:", "no such paper"},
      {"units: feet\n", "config.yaml:1:", "mm, in"},
      {"printer: a b\n", "config.yaml:1:", "printer"},
      {"archive: here.sqlite\n", "config.yaml:1:", "path from the root"},
      {"climate: 9\n", "config.yaml:1:", "0.5 to 3"},
      {"lead_time: 1.5\n", "config.yaml:1:", "whole number"},
      {"paper: [a4]\n", "config.yaml:1:", "one value"},
      {"paper: a4\npaper: a3\n", "config.yaml:2:", "paper"},
      {"paper: 'a4\n", "config.yaml:", "error"},
  };
  for (const Wrong& wrong : all) {
    settle(wrong.text);
    for (const std::vector<std::string>& verb :
         std::vector<std::vector<std::string>>{{"check", "plain.yaml"}, {"config"}}) {
      const Finished done = shankline(verb);
      EXPECT_EQ(done.exit_code, 1) << wrong.text;
      EXPECT_NE(done.err.find(wrong.place), std::string::npos) << done.err;
      EXPECT_NE(done.err.find(wrong.what), std::string::npos) << done.err;
    }
  }
  EXPECT_EQ(shankline({"check", "--help"}).exit_code, 0); // and help is always there
  settle("");
  EXPECT_EQ(shankline({"check", "plain.yaml"}).exit_code, 0);
  here_.environment["SHANKLINE_UNITS"] = "feet";
  const Finished done = shankline({"check", "plain.yaml"});
  EXPECT_EQ(done.exit_code, 1);
  EXPECT_NE(done.err.find("SHANKLINE_UNITS: error: 'feet' is not a unit here"), std::string::npos)
      << done.err;
}

TEST_F(Comfort, HelpIsFoundByName) {
  EXPECT_EQ(shankline({"help"}).out, shankline({"--help"}).out);
  EXPECT_EQ(shankline({"help", "cut"}).out, shankline({"cut", "--help"}).out);
  EXPECT_EQ(shankline({"help", "archive", "note"}).out,
            shankline({"archive", "note", "--help"}).out);
  const Finished wrong = shankline({"help", "cutt"});
  EXPECT_EQ(wrong.exit_code, 2);
  EXPECT_NE(wrong.err.find("Did you mean 'cut'?"), std::string::npos) << wrong.err;
}

TEST_F(Comfort, QuietVerbsSayNothing) {
  copy_sample("sides_lowered.yaml", "sides.yaml");
  const std::string pairs = places::samples + "/pairs/";
  std::ofstream(scratch_.path() / "april.csv") << "day,hours\n2099-04-01,2\n";
  for (const std::vector<std::string>& verb : std::vector<std::vector<std::string>>{
           {"check", "sides.yaml"},
           {"cut", "sides.yaml", "--save", "-o", "s.pdf"},
           {"chart", "sides.yaml", "-o", "c.pdf"},
           {"compare", "sides.yaml"},
           {"next", "sides.yaml", "--foot", "left", "--cut", "55", "--seen", "too-low"},
           {"match", pairs + "worn.yaml", "sides.yaml"},
           {"accept", "sides.yaml", pairs + "measured.yaml"},
           {"form", "-o", "f.pdf"},
           {"rack", "sides.yaml", "-o", "r.pdf"},
           {"printer", "-o", "t.pdf"},
           {"archive", "list"},
           {"archive", "audit"},
           {"archive", "worn", "1", "--hours", "1"},
           {"rotation", "--schedule", "april.csv", "-o", "plan.pdf"},
           {"archive", "reprint", "1", "-o", "again.pdf"}}) {
    std::vector<std::string> words = verb;
    words.emplace_back("-q");
    EXPECT_EQ(shankline(words).out, "") << verb[0];
  }
  EXPECT_TRUE(fs::exists(scratch_.path() / "again.pdf"));
  EXPECT_TRUE(fs::exists(scratch_.path() / "plan.pdf"));
  // A file that is asked for on standard output still comes.
  EXPECT_NE(shankline({"archive", "export", "-q"}).out, "");
}

TEST_F(Comfort, AFolderHoldsOrdersOfEveryEndingAsPeopleCount) {
  copy_sample("plain.yaml", "orders/D-10.yaml");
  copy_sample("plain.yaml", "orders/D-2.yml");
  write("orders/D-1.json",
        R"({"format": "shankline-order/1", "dancer": "D-1", "pose": "pointed",
            "feet": {"both": {"length": 238, "arch_break": 97, "heel_front": 61}},
            "shoe": {"board": {"state": "loose", "length": 220, "inset": 5, "thickness": 3.2,
                     "widths": [[22, 45], [96, 33], [164, 56]]}},
            "alterations": {"shank": {"reach": "edge"}}})");
  write("orders/notes.txt", "no order");
  const Finished done = shankline({"cut", "orders", "-o", "new"});
  EXPECT_EQ(done.exit_code, 0) << done.err;
  const std::size_t one = done.out.find("D-1.json");
  const std::size_t two = done.out.find("D-2.yml");
  const std::size_t ten = done.out.find("D-10.yaml");
  EXPECT_LT(one, two);
  EXPECT_LT(two, ten);
  EXPECT_NE(ten, std::string::npos) << done.out;
  for (const char* pdf : {"new/D-1.pdf", "new/D-2.pdf", "new/D-10.pdf"})
    EXPECT_TRUE(fs::exists(scratch_.path() / pdf)) << pdf;
  // One PDF for all of them is still refused.
  EXPECT_EQ(shankline({"cut", "orders", "-o", "all.pdf"}).exit_code, 2);
  EXPECT_FALSE(fs::exists(scratch_.path() / "all.pdf"));
}

std::vector<std::string> lines_of(const std::string& text) {
  std::vector<std::string> lines;
  std::istringstream in(text);
  for (std::string line; std::getline(in, line);)
    lines.push_back(line);
  return lines;
}

TEST_F(Comfort, TablesComeForSpreadsheets) {
  std::string order = text_of("none");
  {
    std::ifstream in(fs::path(places::samples) / "sides_lowered.yaml");
    order = {std::istreambuf_iterator<char>(in), {}};
  }
  order.replace(order.find("pair: "), order.find('\n', order.find("pair: ")) - order.find("pair: "),
                "pair: \"=HYPERLINK(1), spring\"");
  write("sides.yaml", order);
  const Finished rack = shankline({"rack", "sides.yaml", "--csv"});
  EXPECT_EQ(rack.exit_code, 0) << rack.err;
  std::vector<std::string> lines = lines_of(rack.out);
  ASSERT_EQ(lines.size(), 3u) << rack.out;
  EXPECT_TRUE(lines[0].starts_with("dancer,pair,date,order,foot,first_medial"));
  EXPECT_TRUE(lines[0].ends_with("\r"));
  EXPECT_NE(lines[1].find(",\"'=HYPERLINK(1), spring\","), std::string::npos) << lines[1];
  EXPECT_NE(lines[1].find(",52.580,"), std::string::npos) << lines[1];

  const Finished compare = shankline({"compare", "sides.yaml", "--csv"});
  lines = lines_of(compare.out);
  ASSERT_GE(lines.size(), 10u) << compare.err;
  EXPECT_TRUE(lines[0].starts_with("a,b,key,name,unit,value_a,value_b"));
  EXPECT_TRUE(lines[1].starts_with("left,right,"));

  ASSERT_EQ(shankline({"archive", "save", "sides.yaml"}).exit_code, 0);
  const Finished list = shankline({"archive", "list", "--csv"});
  lines = lines_of(list.out);
  ASSERT_EQ(lines.size(), 2u) << list.out << list.err;
  EXPECT_TRUE(lines[0].starts_with("entry,kind,day,saved,dancer,pair"));
  EXPECT_TRUE(lines[1].starts_with("1,cut,")) << lines[1];
  EXPECT_NE(lines[1].find("\"'=HYPERLINK(1), spring\""), std::string::npos) << lines[1];
  for (const std::vector<std::string>& both : std::vector<std::vector<std::string>>{
           {"rack", "sides.yaml"}, {"compare", "sides.yaml"}, {"archive", "list"}}) {
    std::vector<std::string> words = both;
    words.insert(words.end(), {"--csv", "--json"});
    EXPECT_EQ(shankline(words).exit_code, 2);
  }
}

constexpr const char* common_values = R"(pose: pointed
shoe:
  board: {state: loose, length: 220, inset: 5, thickness: 3.2, widths: [[22, 45], [96, 33], [164, 56]]}
alterations:
  shank: {reach: edge}
)";

TEST_F(Comfort, ARosterBecomesOrders) {
  std::string rows = "dancer,foot,length,arch_break,heel_front\r\n";
  for (int i = 1; i <= 12; ++i)
    rows += "D-" + std::to_string(i) + ",both,238,97,61\r\n";
  write("roster.csv", rows);
  write("shoe.yaml", common_values);
  const std::vector<std::string> words{"roster",    "roster.csv", "--common",
                                       "shoe.yaml", "-o",         "orders"};
  const Finished done = shankline(words);
  EXPECT_EQ(done.exit_code, 0) << done.err;
  EXPECT_NE(done.out.find("wrote 12 orders to orders/"), std::string::npos) << done.out;
  EXPECT_EQ(shankline({"check", "orders"}).exit_code, 0);
  struct stat status {};
  ASSERT_EQ(::stat((scratch_.path() / "orders/D-12.yaml").c_str(), &status), 0);
  EXPECT_EQ(status.st_mode & 0777u, 0600u);
  // Orders that are there may have been changed: none is written over.
  const std::string before = text_of("orders/D-3.yaml");
  write("orders/D-3.yaml", before + "# by hand\n");
  fs::remove(scratch_.path() / "orders/D-1.yaml");
  const Finished again = shankline(words);
  EXPECT_EQ(again.exit_code, 3);
  EXPECT_NE(again.err.find("orders/D-3.yaml: error: is there already"), std::string::npos)
      << again.err;
  EXPECT_FALSE(fs::exists(scratch_.path() / "orders/D-1.yaml"));
  EXPECT_EQ(text_of("orders/D-3.yaml"), before + "# by hand\n");
}

TEST_F(Comfort, AWrongRosterWritesNothing) {
  write("roster.csv", "dancer,foot,length,arch_break\nD-1,both,238,97\nD-2,both,soon,97\n");
  write("shoe.yaml", common_values);
  const Finished done =
      shankline({"roster", "roster.csv", "--common", "shoe.yaml", "-o", "orders/"});
  EXPECT_EQ(done.exit_code, 1);
  EXPECT_NE(done.err.find("roster.csv:3:10: error: length: row 3, column C: 'soon'"),
            std::string::npos)
      << done.err;
  EXPECT_NE(done.err.find("nothing was written"), std::string::npos) << done.err;
  EXPECT_FALSE(fs::exists(scratch_.path() / "orders"));
  EXPECT_EQ(shankline({"roster", "roster.csv", "-o", "orders/"}).exit_code, 2);
  EXPECT_EQ(shankline({"roster", "none.csv", "--common", "shoe.yaml", "-o", "orders"}).exit_code,
            1);
}

} // namespace
} // namespace shankline::tests::comfort_test
