// Checks the JSON for other programs against its schemas with a validator that is not ours (the
// Python package jsonschema, draft 2020-12): all output of the golden cases, of drawn orders and of
// every verb of the archive. A key that no schema describes fails.
#include "cli/manual/output_schema.hpp"

#include "cli/order_file/order_writer.hpp"
#include "tests/geometry/random_orders.hpp"
#include "tests/support/case_file.hpp"
#include "tests/support/places.hpp"
#include "tests/support/process.hpp"
#include "tests/support/scratch_directory.hpp"

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <gtest/gtest.h>
#include <map>
#include <nlohmann/json.hpp>
#include <set>
#include <sstream>
#include <string>
#include <vector>

namespace shankline::tests::output_schema_test {
namespace {

namespace fs = std::filesystem;
using nlohmann::json;

/// Checks each schema itself and that no object of it is open, then every document: what is wrong,
/// a line each.
constexpr const char* validator = R"(
import json, sys, jsonschema
judges = {}
def closed(schema, place):
    if isinstance(schema, dict):
        if 'properties' in schema and schema.get('additionalProperties') is not False:
            print('open object in the schema', place)
        for key, value in schema.items():
            closed(value, place + '/' + key)
    elif isinstance(schema, list):
        for i, value in enumerate(schema):
            closed(value, place + '/' + str(i))
for line in open(sys.argv[1], encoding='utf-8'):
    name, document = line.rstrip('\n').split('\t')
    if name not in judges:
        schema = json.load(open(name + '.schema.json', encoding='utf-8'))
        jsonschema.Draft202012Validator.check_schema(schema)
        closed(schema, name)
        judges[name] = jsonschema.Draft202012Validator(schema)
    if document == '-':
        continue
    said = json.load(open(document, encoding='utf-8'))
    wrong = jsonschema.exceptions.best_match(judges[name].iter_errors(said))
    if wrong is not None:
        place = '/'.join(str(part) for part in wrong.absolute_path)
        print(document, 'is no', name + ':', place, wrong.message.replace('\n', ' ')[:300])
print('judged')
)";

/// By the format that a document names.
const std::map<std::string, std::string>& schema_of_format() {
  static const std::map<std::string, std::string> names{
      {"shankline-solution/1", "solution"},
      {"shankline-comparison/1", "compare"},
      {"shankline-next/1", "next"},
      {"shankline-match/1", "match"},
      {"shankline-acceptance/1", "accept"},
      {"shankline-rack/1", "rack"},
      {"shankline-readings/1", "explain"},
      {"shankline-learned/1", "archive-learn"},
      {"shankline-archive-list/1", "archive-list"},
      {"shankline-archive-history/1", "archive-history"},
      {"shankline-archive-entry/1", "archive-show"},
      {"shankline-archive-differences/1", "archive-compare"},
      {"shankline-archive-audit/1", "archive-audit"},
  };
  return names;
}

class Documents {
public:
  /// Adds the output of a program with --json; `from` names the program.
  void add(const std::string& text, const std::string& from) {
    const json document = json::parse(text, nullptr, false);
    ASSERT_FALSE(document.is_discarded()) << from << "\n" << text.substr(0, 300);
    const json& first = document.is_array() ? document.at(0) : document;
    const auto name = schema_of_format().find(first.value("format", "none"));
    ASSERT_NE(name, schema_of_format().end()) << from;
    add_as(name->second, text, from);
    if (name->second == "archive-show" && document.contains("solution"))
      add_as("solution", document.at("solution").dump(), from + ", its solution");
  }
  void add_as(const std::string& schema, const std::string& text, const std::string& from) {
    const std::string file = std::to_string(++written_) + ".json";
    std::ofstream(scratch_.path() / file) << text;
    list_ += schema + "\t" + file + "\n";
    from_[file] = from;
    ++counts_[schema];
  }
  /// Adds the lines of a stream with --errors json.
  void add_findings(const std::string& text, const std::string& from) {
    std::istringstream lines(text);
    for (std::string line; std::getline(lines, line);)
      add_as("findings", line, from);
  }
  int count(const std::string& schema) const {
    const auto found = counts_.find(schema);
    return found == counts_.end() ? 0 : found->second;
  }

  void judge() {
    for (const OutputSchema& schema : output_schemas()) {
      std::ofstream(scratch_.path() / (std::string(schema.name) + ".schema.json")) << schema.text;
      list_ += std::string(schema.name) + "\t-\n";
    }
    std::ofstream(scratch_.path() / "list.txt") << list_;
    Surroundings here;
    here.directory = scratch_.path();
    const Finished judged = run({"/usr/bin/python3", "-c", validator, "list.txt"}, here);
    ASSERT_EQ(judged.exit_code, 0) << judged.err;
    std::istringstream lines(judged.out);
    for (std::string line; std::getline(lines, line);)
      if (line != "judged") ADD_FAILURE() << line << "\n" << from_[line.substr(0, line.find(' '))];
    EXPECT_NE(judged.out.find("judged\n"), std::string::npos);
  }

private:
  ScratchDirectory scratch_;
  std::string list_;
  std::map<std::string, std::string> from_;
  std::map<std::string, int> counts_;
  int written_ = 0;
};

bool has_validator() {
  static const bool has = run({"/usr/bin/python3", "-c", "import jsonschema"}).exit_code == 0;
  return has;
}
constexpr const char* wanted = "wants the Debian package python3-jsonschema";

class OutputSchemas : public testing::Test {
protected:
  OutputSchemas() {
    here_.directory = scratch_.path();
    here_.environment = {{"HOME", scratch_.path().string()},
                         {"XDG_DATA_HOME", std::nullopt},
                         {"XDG_CONFIG_HOME", std::nullopt}};
  }
  Finished shankline(std::vector<std::string> words) const {
    words.insert(words.begin(), places::program);
    return run(words, here_);
  }
  /// Runs it, and keeps what it prints.
  void print(std::vector<std::string> words) {
    words.insert(words.end(), {"--json"});
    const Finished done = shankline(words);
    std::string from;
    for (const std::string& word : words)
      from += word + " ";
    documents_.add(done.out, from + "\n" + done.err.substr(0, 400));
  }
  std::string draw_orders(std::size_t count, std::uint64_t seed) {
    const fs::path folder = scratch_.path() / "drawn";
    fs::create_directory(folder);
    Draw draw(seed);
    for (std::size_t i = 0; i < count; ++i) {
      Order order = random_order(draw);
      order.dancer = "D-" + std::to_string(i);
      for (auto* foot : {&order.left, &order.right})
        if (*foot) {
          add_random_sides(draw, **foot, order.pose);
          if (i % 2 == 0) add_random_work(draw, **foot);
        }
      std::ofstream(folder / ("order" + std::to_string(100 + i) + ".yaml"))
          << order_file_text(order);
    }
    return folder.string();
  }

  ScratchDirectory scratch_;
  Surroundings here_;
  Documents documents_;
};

std::string replaced(std::string text, std::string_view what, std::string_view with) {
  for (std::size_t at = text.find(what); at != std::string::npos;
       at = text.find(what, at + with.size()))
    text.replace(at, what.size(), with);
  return text;
}

/// A case may look at a part of what is printed: all of it is judged.
TEST_F(OutputSchemas, DescribesEverythingThatTheCasesPrint) {
  if (!has_validator()) GTEST_SKIP() << wanted;
  const char* const path = std::getenv("PATH");
  here_.environment["PATH"] =
      fs::path(places::program).parent_path().string() + ":" + (path ? path : "");
  std::size_t printed = 0;
  for (const fs::path& at : case_paths(places::cases)) {
    CaseFile file = parse_case(read_file(at), at.filename().string());
    const auto is_json = [](const CaseRun& run) {
      const bool asks = run.command.find("--json") != std::string::npos ||
                        run.command.find("--lines") != std::string::npos;
      return asks && run.command.find("--json=") == std::string::npos &&
             run.command.find("--help") == std::string::npos &&
             run.command.find("--csv") == std::string::npos;
    };
    if (std::none_of(file.runs.begin(), file.runs.end(), is_json)) continue;
    const fs::path bench = scratch_.path() / at.stem();
    fs::create_directory(bench);
    here_.directory = bench;
    here_.environment["HOME"] = (bench / "home").string();
    for (const CaseInput& input : file.files)
      write_file(bench / input.name, replaced(input.text, "@SAMPLES@", places::samples));
    for (const CaseRun& one : file.runs) {
      std::string command = replaced(one.command, "@SAMPLES@", places::samples);
      if (is_json(one)) command = command.substr(0, command.find(" | "));
      here_.input = one.in;
      const Finished done = run_shell(command, here_);
      if (!is_json(one) || done.out.empty() || done.exit_code == 2) continue;
      documents_.add(done.out, at.filename().string() + ": " + one.command);
      ++printed;
    }
  }
  EXPECT_GE(printed, 8u);
  documents_.judge();
}

TEST_F(OutputSchemas, DescribesRandomOrders) {
  if (!has_validator()) GTEST_SKIP() << wanted;
  const std::string drawn = draw_orders(16, 20261127);
  print({"check", drawn});
  print({"check", drawn + "/order100.yaml"});
  print({"cut", drawn, "-o", (scratch_.path() / "sheets/").string(), "--lines"});
  print({"chart", drawn});
  print({"rack", drawn});
  for (const fs::directory_entry& order : fs::directory_iterator(drawn)) {
    const Finished done = shankline({"compare", order.path().string(), "--json"});
    if (done.exit_code == 0) documents_.add(done.out, "compare " + order.path().string());
  }
  EXPECT_GE(documents_.count("compare"), 5);
  print({"compare", places::samples + "/pairs/unlike_feet.yaml", "--lines"});
  for (const fs::directory_entry& sample : fs::directory_iterator(places::samples))
    if (sample.path().extension() == ".yaml") {
      print({"check", sample.path().string(), "--lines", "--paper", "letter"});
      print({"cut", sample.path().string(), "-o", (scratch_.path() / "s.pdf").string()});
    }
  documents_.add_findings(
      shankline({"check", places::samples + "/mistakes", drawn, "--errors", "json"}).err,
      "samples/mistakes");
  EXPECT_GE(documents_.count("findings"), 20);
  print({"check", places::samples + "/mistakes"});
  documents_.judge();
}

TEST_F(OutputSchemas, DescribesTheArchiveAndTheBench) {
  if (!has_validator()) GTEST_SKIP() << wanted;
  const std::string plain = places::samples + "/plain.yaml";
  const std::string sides = places::samples + "/sides_lowered.yaml";
  const std::string pairs = places::samples + "/pairs/";
  const auto work = [&](const std::vector<std::string>& words) {
    const Finished done = shankline(words);
    ASSERT_EQ(done.exit_code, 0) << words.at(0) << " " << words.at(1) << "\n" << done.err;
  };
  print({"archive", "save", plain});
  work({"archive", "save", sides});
  work({"cut", places::samples + "/whole_order.yaml", "--save", "-o", "whole.pdf"});
  work({"archive", "note", "1", "--foot", "left", "--gap", "2", "--break", "120", "--comfort", "4",
        "--hours", "3.5", "--days", "2", "--words", "held well", "--by", "T-4"});
  work({"archive", "tries", "1", "--foot", "left", "52.5:too-low", "55.5:good", "--by", "T-4"});
  work({"archive", "tries", "1", "--foot", "right", "53.5:too-low"});
  print({"next", plain, "--foot", "right", "--cut", "56.5", "--seen", "too-low", "--save"});
  print({"next", plain, "--foot", "left", "--seen", "good", "--worn", "--save"});
  print({"next", plain, "--foot", "left", "--cut", "56", "--seen", "pain"});
  work({"archive", "withdraw", "4", "--words", "another pair"});
  work({"archive", "note", "1", "--foot", "both", "--ended", "worn out"});
  print({"match", pairs + "worn.yaml", sides});
  print({"accept", sides, pairs + "measured.yaml"});
  print({"accept", sides, "--blank", "-o", "blank.pdf"});
  print({"explain"});
  print({"archive", "list"});
  print({"archive", "list", "--rows", "2"});
  print({"archive", "history", "M-07"});
  for (int id = 1; id <= 11; ++id)
    print({"archive", "show", std::to_string(id)});
  print({"archive", "compare", "1", "2"});
  print({"archive", "learn"});
  print({"archive", "audit"});
  work({"archive", "forget", "M-07", "--yes"});
  print({"archive", "list"});
  print({"archive", "audit"});
  print({"archive", "learn"});
  documents_.judge();
  for (const auto& [format, schema] : schema_of_format())
    EXPECT_TRUE(schema == "solution" || schema == "compare" || schema == "rack" ||
                documents_.count(schema) > 0)
        << schema;
}

/// The validator sees what is wrong: a key more, a key less, another kind of value.
TEST_F(OutputSchemas, SeesWhatIsSpoilt) {
  if (!has_validator()) GTEST_SKIP() << wanted;
  const json good =
      json::parse(shankline({"check", places::samples + "/plain.yaml", "--json"}).out);
  const auto refused = [&](const json& spoilt) {
    const fs::path folder = scratch_.path() / "spoilt";
    fs::create_directories(folder);
    for (const auto& schema : output_schemas())
      std::ofstream(folder / (std::string(schema.name) + ".schema.json")) << schema.text;
    std::ofstream(folder / "one.json") << spoilt.dump();
    std::ofstream(folder / "list.txt") << "solution\tone.json\n";
    Surroundings there;
    there.directory = folder;
    return run({"/usr/bin/python3", "-c", validator, "list.txt"}, there).out.find("is no") !=
           std::string::npos;
  };
  EXPECT_FALSE(refused(good));
  json more = good;
  more["feet"]["left"]["trim"]["board"]["another"] = 1;
  EXPECT_TRUE(refused(more));
  json fewer = good;
  fewer["feet"]["left"]["arch"].erase("depth");
  EXPECT_TRUE(refused(fewer));
  json other = good;
  other["feet"]["right"]["trim"]["skew"] = "a little";
  EXPECT_TRUE(refused(other));
  json finding = good;
  finding["findings"] = json::array({{{"severity", "bad"}}});
  EXPECT_TRUE(refused(finding));
}

/// Every schema that the table has is printed by its name, and nothing else is.
TEST_F(OutputSchemas, IsPrintedByName) {
  std::set<std::string> names;
  for (const auto& schema : output_schemas()) {
    names.insert(std::string(schema.name));
    const Finished done = shankline({"schema", std::string(schema.name)});
    EXPECT_EQ(done.exit_code, 0);
    EXPECT_EQ(done.out, schema.text);
    EXPECT_EQ(json::parse(done.out).at("$schema"), "https://json-schema.org/draft/2020-12/schema");
  }
  for (const auto& [format, schema] : schema_of_format())
    EXPECT_TRUE(names.contains(schema)) << schema;
  EXPECT_EQ(names.size(), schema_of_format().size() + 1); // and that of a finding
  EXPECT_EQ(shankline({"schema", "nonsense"}).exit_code, 2);
}

} // namespace
} // namespace shankline::tests::output_schema_test
