// Tests the output for other programs about each order: --json with file, digest, written files and
// findings; --errors json; -o -.
#include "export/formats/digest.hpp"
#include "tests/support/places.hpp"
#include "tests/support/process.hpp"
#include "tests/support/scratch_directory.hpp"
#include "tests/support/terminal.hpp"

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <gtest/gtest.h>
#include <map>
#include <nlohmann/json.hpp>
#include <sstream>
#include <string>
#include <vector>

namespace shankline::tests::order_accounts_test {
namespace {

namespace fs = std::filesystem;
using nlohmann::json;

std::string text_of(const fs::path& file) {
  std::ifstream in(file, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

std::string sample(const std::string& name) {
  return text_of(fs::path(places::samples) / name);
}

class OrderAccounts : public testing::Test {
protected:
  void write(const std::string& name, const std::string& text) const {
    fs::create_directories((scratch_.path() / name).parent_path());
    std::ofstream(scratch_.path() / name, std::ios::binary) << text;
  }
  Finished shankline(std::vector<std::string> words, const std::string& input = {}) const {
    words.insert(words.begin(), places::program);
    Surroundings surroundings;
    surroundings.directory = scratch_.path();
    surroundings.input = input;
    return run(words, surroundings);
  }
  bool is_there(const std::string& name) const { return fs::exists(scratch_.path() / name); }

  ScratchDirectory scratch_;
};

void expect_finding(const json& finding) {
  for (const char* key : {"severity", "file", "key", "line", "column", "what", "allowed", "do"})
    EXPECT_TRUE(finding.contains(key)) << key << " in " << finding.dump();
}

TEST_F(OrderAccounts, MapABatchBackToItsFiles) {
  const std::string good = sample("plain.yaml");
  const std::string wrong = sample("mistakes/misspelt_key.yaml");
  std::map<std::string, bool> orders; // sound or not
  for (int i = 0; i < 60; ++i) {
    const std::string name = "orders/order" + std::to_string(100 + i) + ".yaml";
    const bool sound = i % 20 != 7;
    write(name, sound ? good : wrong);
    orders[name] = sound;
  }
  const Finished cut = shankline({"cut", "orders", "--json", "-o", "sheets/"});
  EXPECT_EQ(cut.exit_code, 1);
  const json elements = json::parse(cut.out);
  ASSERT_EQ(elements.size(), orders.size());
  auto order = orders.begin();
  for (const json& element : elements) {
    const auto& [name, sound] = *order++;
    EXPECT_EQ(element.at("file"), name);
    EXPECT_EQ(element.at("format"), "shankline-solution/1");
    EXPECT_EQ(element.at("digest"), sha256(sound ? good : wrong));
    EXPECT_EQ(element.at("dancer"), "M-07"); // read in both
    for (const json& finding : element.at("findings"))
      expect_finding(finding);
    if (sound) {
      EXPECT_TRUE(element.at("feet").contains("left"));
      const std::string pdf = "sheets/" + fs::path(name).stem().string() + ".pdf";
      EXPECT_EQ(element.at("written"), json::array({pdf}));
      EXPECT_TRUE(is_there(pdf));
      continue;
    }
    EXPECT_TRUE(element.at("feet").is_null());
    EXPECT_EQ(element.at("written"), json::array());
    ASSERT_EQ(element.at("findings").size(), 1u);
    const json& finding = element.at("findings").at(0);
    EXPECT_EQ(finding.at("severity"), "error");
    EXPECT_EQ(finding.at("file"), name);
    EXPECT_EQ(finding.at("key"), "feet.left.heel_frnt");
    EXPECT_EQ(finding.at("line"), 11);
    EXPECT_EQ(finding.at("column"), 5);
    EXPECT_NE(finding.at("allowed").get<std::string>().find("heel_front"), std::string::npos);
    EXPECT_NE(finding.at("do").get<std::string>().find("heel_front"), std::string::npos);
  }
  EXPECT_NE(cut.err.find("60 orders: 57 cut, 3 refused, 0 failed"), std::string::npos) << cut.err;
}

TEST_F(OrderAccounts, TellOfOneOrderWhatWasWrittenAndSaid) {
  write("whole.yaml", sample("growing_foot.yaml"));
  const Finished cut = shankline({"cut", "whole.yaml", "--json", "--svg", "--dxf", "-o", "w.pdf"});
  ASSERT_EQ(cut.exit_code, 0) << cut.err;
  const json element = json::parse(cut.out);
  EXPECT_GE(element.at("written").size(), 3u);
  EXPECT_EQ(element.at("written").at(0), "w.pdf");
  for (const json& file : element.at("written"))
    EXPECT_TRUE(is_there(file.get<std::string>())) << file;
  std::size_t said = 0;
  for (std::size_t at = 0; (at = cut.err.find(": caution: ", at)) != std::string::npos; ++at)
    ++said;
  EXPECT_GE(said, 1u) << cut.err;
  EXPECT_EQ(element.at("findings").size(), said) << cut.err;

  const Finished check = shankline({"check", "-", "--json"}, sample("growing_foot.yaml"));
  ASSERT_EQ(check.exit_code, 0) << check.err;
  EXPECT_EQ(json::parse(check.out).at("file"), "-");
  EXPECT_EQ(json::parse(check.out).at("written"), json::array());
}

TEST_F(OrderAccounts, TellOfARefusedOrderByItself) {
  const Finished missing = shankline({"check", "missing.yaml", "--json"});
  EXPECT_EQ(missing.exit_code, 1);
  const json element = json::parse(missing.out);
  EXPECT_EQ(element.at("file"), "missing.yaml");
  EXPECT_TRUE(element.at("digest").is_null());
  EXPECT_TRUE(element.at("dancer").is_null());
  EXPECT_TRUE(element.at("feet").is_null());
  EXPECT_EQ(element.at("findings").at(0).at("what"), "there is no such file");
  EXPECT_TRUE(element.at("findings").at(0).at("line").is_null());
}

TEST_F(OrderAccounts, TellOfSheetsThatCouldNotBeWritten) {
  write("plain.yaml", sample("plain.yaml"));
  write("there.pdf", "no PDF");
  const Finished cut = shankline({"cut", "plain.yaml", "--json", "-o", "there.pdf"});
  EXPECT_EQ(cut.exit_code, 3);
  const json element = json::parse(cut.out);
  EXPECT_TRUE(element.at("feet").is_null());
  EXPECT_EQ(element.at("written"), json::array());
  EXPECT_EQ(element.at("digest"), sha256(sample("plain.yaml")));
  const json& last = element.at("findings").back();
  EXPECT_EQ(last.at("severity"), "error");
  EXPECT_NE(last.at("what").get<std::string>().find("is not a PDF"), std::string::npos) << last;
}

/// The archive keeps what was solved, not where the order lay.
TEST_F(OrderAccounts, StayOutOfTheArchive) {
  write("plain.yaml", sample("plain.yaml"));
  const std::string archive = (scratch_.path() / "archive.sqlite").string();
  const Finished cut =
      shankline({"cut", "plain.yaml", "--json", "--save", "--archive", archive, "-o", "p.pdf"});
  ASSERT_EQ(cut.exit_code, 0) << cut.err;
  EXPECT_EQ(json::parse(cut.out).at("file"), "plain.yaml");
  const Finished show = shankline({"archive", "show", "1", "--json", "--archive", archive});
  const json kept = json::parse(show.out).at("solution");
  EXPECT_FALSE(kept.contains("file"));
  EXPECT_FALSE(kept.contains("findings"));
  EXPECT_TRUE(kept.at("feet").contains("left"));
}

std::vector<json> lines_of(const std::string& text) {
  std::vector<json> lines;
  std::istringstream in(text);
  for (std::string line; std::getline(in, line);)
    lines.push_back(json::parse(line));
  return lines;
}

TEST_F(OrderAccounts, GiveFindingsAloneAsLines) {
  write("orders/a.yaml", sample("whole_order.yaml"));
  write("orders/b.yaml", sample("mistakes/misspelt_key.yaml"));
  write("plain.yaml", sample("plain.yaml"));
  for (const std::vector<std::string>& verb : std::vector<std::vector<std::string>>{
           {"check", "orders"}, {"cut", "orders", "-o", "sheets/"}, {"rack", "orders"}}) {
    SCOPED_TRACE(verb[0]);
    std::vector<std::string> words = verb;
    words.insert(words.end(), {"--errors", "json"});
    const Finished done = shankline(words);
    EXPECT_EQ(done.exit_code, 1);
    EXPECT_FALSE(done.out.empty());
    const std::vector<json> findings = lines_of(done.err);
    ASSERT_GE(findings.size(), 1u);
    for (const json& finding : findings)
      expect_finding(finding);
    EXPECT_EQ(findings.back().at("file"), "orders/b.yaml");
    EXPECT_EQ(findings.back().at("line"), 11);
    // Without the option the same is said in words.
    EXPECT_NE(shankline(verb).err.find("orders/b.yaml:11:5: error: "), std::string::npos);
  }
  for (const std::vector<std::string>& verb : std::vector<std::vector<std::string>>{
           {"compare", "orders/b.yaml"},
           {"chart", "orders/b.yaml"},
           {"next", "orders/b.yaml", "--cut", "50", "--seen", "good"},
           {"next", "plain.yaml", "--cut", "390", "--seen", "good", "--foot", "left"},
           {"match", "missing.yaml", "orders/b.yaml"},
           {"accept", "orders/b.yaml", "missing.yaml"},
           {"archive", "save", "orders/b.yaml", "--archive", "archive.sqlite"},
           {"cut", "plain.yaml", "-o", "no/such/place.pdf"},
           {"cut", "plain.yaml", "--printer", "nobody"}}) {
    SCOPED_TRACE(verb[0]);
    std::vector<std::string> words = verb;
    words.insert(words.end(), {"--errors", "json"});
    const Finished done = shankline(words);
    EXPECT_NE(done.exit_code, 0);
    const std::vector<json> findings = lines_of(done.err);
    ASSERT_GE(findings.size(), 1u);
    for (const json& finding : findings)
      expect_finding(finding);
    EXPECT_EQ(findings.back().at("severity"), "error");
  }
}

/// A file that is wrong all over: words stop after forty, a program gets all.
TEST_F(OrderAccounts, GiveEveryFindingToAProgram) {
  std::string text = sample("plain.yaml");
  for (int i = 0; i < 60; ++i)
    text += "nonsense" + std::to_string(i) + ": 1\n";
  write("wrong.yaml", text);
  EXPECT_EQ(lines_of(shankline({"check", "wrong.yaml", "--errors", "json"}).err).size(), 60u);
  EXPECT_EQ(json::parse(shankline({"check", "wrong.yaml", "--json"}).out).at("findings").size(),
            60u);
  EXPECT_NE(shankline({"check", "wrong.yaml"}).err.find("and 20 more"), std::string::npos);
}

TEST_F(OrderAccounts, KeepTheTerminalOutOfFileNames) {
  const std::string name = "a\x1b[31m\xff.yaml";
  write(name, sample("mistakes/misspelt_key.yaml"));
  for (const char* form : {"--json", "--errors=json"}) {
    const Finished done = shankline({"check", name, form});
    EXPECT_EQ(done.exit_code, 1);
    for (const std::string* said : {&done.out, &done.err})
      EXPECT_EQ(said->find('\x1b'), std::string::npos);
    EXPECT_TRUE(json::accept(std::string(form) == "--json" ? done.out : done.err));
  }
}

TEST_F(OrderAccounts, WriteOnePdfToStandardOutput) {
  write("plain.yaml", sample("plain.yaml"));
  write("other.yaml", sample("plain.yaml"));
  const Finished file = shankline({"cut", "plain.yaml", "-o", "plain.pdf"});
  const Finished piped = shankline({"cut", "plain.yaml", "-o", "-"});
  ASSERT_EQ(piped.exit_code, 0) << piped.err;
  EXPECT_EQ(piped.out, text_of(scratch_.path() / "plain.pdf"));
  EXPECT_NE(piped.err.find("1 first cut"), std::string::npos) << piped.err;
  EXPECT_NE(piped.err.find("wrote to standard output"), std::string::npos) << piped.err;
  EXPECT_FALSE(is_there("-"));
  EXPECT_EQ(shankline({"cut", "plain.yaml", "-o", "-", "-q"}).err, file.err);
  for (const std::vector<std::string>& verb :
       std::vector<std::vector<std::string>>{{"chart", "plain.yaml"},
                                             {"compare", "plain.yaml"},
                                             {"rack", "plain.yaml"},
                                             {"form"},
                                             {"printer"},
                                             {"accept", "plain.yaml", "--blank"}}) {
    std::vector<std::string> words = verb;
    words.insert(words.end(), {"-o", "-"});
    const Finished done = shankline(words);
    EXPECT_EQ(done.exit_code, 0) << verb[0] << done.err;
    EXPECT_EQ(done.out.substr(0, 5), "%PDF-") << verb[0];
    EXPECT_EQ(done.out.substr(done.out.size() - 6), "%%EOF\n") << verb[0];
  }
}

TEST_F(OrderAccounts, RefuseTwoThingsOnStandardOutput) {
  write("plain.yaml", sample("plain.yaml"));
  write("other.yaml", sample("plain.yaml"));
  for (const std::vector<std::string>& more : std::vector<std::vector<std::string>>{
           {"--json"}, {"--lines"}, {"--svg"}, {"--dxf"}, {"other.yaml"}}) {
    std::vector<std::string> words{"cut", "plain.yaml", "-o", "-"};
    words.insert(words.end(), more.begin(), more.end());
    const Finished done = shankline(words);
    EXPECT_EQ(done.exit_code, 2) << more[0];
    EXPECT_EQ(done.out, "") << more[0];
    EXPECT_NE(done.err.find("-o -"), std::string::npos) << done.err;
  }
  EXPECT_EQ(shankline({"rack", "plain.yaml", "--labels", "-"}).exit_code, 2);
}

TEST_F(OrderAccounts, WriteNoPdfOntoATerminal) {
  if (std::system("tmux -V >/dev/null 2>&1") != 0)
    GTEST_SKIP() << "tmux is not installed (apt-get install tmux)";
  write("plain.yaml", sample("plain.yaml"));
  const Terminal terminal(scratch_.path(), std::string(places::program) + " cut plain.yaml -o -");
  EXPECT_TRUE(terminal.shows("onto the terminal")) << terminal.screen();
  EXPECT_TRUE(terminal.shows("left with 2")) << terminal.screen();
  EXPECT_EQ(terminal.screen().find("%PDF"), std::string::npos);
}

/// A full disk behind the pipe is no success.
TEST_F(OrderAccounts, FailWhereStandardOutputFails) {
  write("plain.yaml", sample("plain.yaml"));
  Surroundings surroundings;
  surroundings.directory = scratch_.path();
  const Finished full =
      run_shell(std::string(places::program) + " cut plain.yaml -o - > /dev/full", surroundings);
  EXPECT_EQ(full.exit_code, 3) << full.err;
  EXPECT_NE(full.err.find("standard output"), std::string::npos) << full.err;
}

/// An order as another program writes it: JSON, floats in any form.
TEST_F(OrderAccounts, ReadJsonOrders) {
  json order = json::parse(R"({
    "format": "shankline-order/1", "dancer": "M-07", "pose": "pointed",
    "feet": {"both": {"length": 238.0, "ball_length": 1.72e2, "heel_front": 61.099999999999994,
             "arch_break": {"medial": 97.00000000000001, "lateral": 9.3E+01}, "arch_depth": 12.5,
             "fold": 6e0}},
    "shoe": {"board": {"state": "loose", "length": 220, "inset": 5.0, "thickness": 3.2,
             "widths": [[22, 45], [96, 33], [164, 56]]}},
    "alterations": {"shank": {"reach": "edge", "bevel": 12}}})");
  write("one.json", order.dump());
  write("tabs.json", order.dump(1, '\t'));
  std::string odd = order.dump(2);
  odd.replace(odd.find("6.0"), 3, "6.E0");
  odd.replace(odd.find("\"inset\": 5.0"), 12, "\"inset\": .5e1");
  write("odd.json", odd);
  const json feet = json::parse(shankline({"check", "one.json", "--json"}).out).at("feet");
  ASSERT_TRUE(feet.is_object());
  EXPECT_NEAR(feet.at("left").at("arch").at("heel_front").get<double>(), 61.1, 1e-9);
  for (const char* other : {"tabs.json", "odd.json"}) {
    const Finished done = shankline({"check", other, "--json"});
    EXPECT_EQ(done.exit_code, 0) << other << done.err;
    EXPECT_EQ(json::parse(done.out).at("feet"), feet) << other;
  }
}

} // namespace
} // namespace shankline::tests::order_accounts_test
