// The schema of the order file, held against the reader by a validator that is not ours (the Python
// package jsonschema, draft 2020-12): what the reader takes, the schema takes; what is spoilt so
// that one value shows it, both refuse.
#include "cli/manual/order_schema_json.hpp"

#include "cli/order_file/order_reader.hpp"
#include "cli/order_file/order_writer.hpp"
#include "tests/cli/any_order.hpp"
#include "tests/support/pattern.hpp"
#include "tests/support/places.hpp"
#include "tests/support/process.hpp"
#include "tests/support/scratch_directory.hpp"

#include <array>
#include <filesystem>
#include <fstream>
#include <gtest/gtest.h>
#include <sstream>
#include <string>
#include <string_view>
#include <vector>

namespace shankline::tests::order_schema_test {
namespace {

/// Checks the schema itself, then says "taken" or what is wrong of every file, a line each. A date
/// is text to the order file.
constexpr const char* validator = R"(
import json, sys, jsonschema, yaml
class Loader(yaml.SafeLoader):
    pass
stamp = 'tag:yaml.org,2002:timestamp'
Loader.yaml_implicit_resolvers = {
    first: [row for row in rows if row[0] != stamp]
    for first, rows in yaml.SafeLoader.yaml_implicit_resolvers.items()}
schema = json.load(open(sys.argv[1], encoding='utf-8'))
jsonschema.Draft202012Validator.check_schema(schema)
judge = jsonschema.Draft202012Validator(schema)
for name in open(sys.argv[2], encoding='utf-8').read().split('\n')[:-1]:
    order = yaml.load(open(name, encoding='utf-8'), Loader)
    wrong = jsonschema.exceptions.best_match(judge.iter_errors(order))
    print('taken' if wrong is None else wrong.message.replace('\n', ' ')[:300])
)";

class Judge {
public:
  void add(const std::filesystem::path& file) { list_ += file.string() + "\n"; }
  void add_text(const std::string& text) {
    const std::filesystem::path file =
        scratch_.path() / ("order" + std::to_string(written_++) + ".yaml");
    std::ofstream(file) << text;
    add(file);
  }

  /// A line an order, in the order in which they were added.
  std::vector<std::string> verdicts() {
    std::ofstream(scratch_.path() / "schema.json") << order_schema();
    std::ofstream(scratch_.path() / "list.txt") << list_;
    const Finished judged =
        run({"/usr/bin/python3", "-c", validator, (scratch_.path() / "schema.json").string(),
             (scratch_.path() / "list.txt").string()});
    EXPECT_EQ(judged.exit_code, 0) << judged.err;
    std::vector<std::string> lines;
    std::istringstream text(judged.out);
    for (std::string line; std::getline(text, line);)
      lines.push_back(line);
    return lines;
  }

private:
  ScratchDirectory scratch_;
  std::string list_;
  int written_ = 0;
};

TEST(OrderSchema, TakesEverySampleAndEveryOrderThatTheReaderTakes) {
  Judge judge;
  std::vector<std::string> texts;
  for (const auto& entry : std::filesystem::directory_iterator(places::samples))
    if (entry.path().extension() == ".yaml") {
      judge.add(entry.path());
      texts.push_back(entry.path().string());
    }
  EXPECT_GE(texts.size(), 8u);
  AnyOrder any(20261127);
  for (int i = 0; i < 200; ++i) {
    texts.push_back(order_file_text(any.order()));
    ASSERT_TRUE(read_order(texts.back(), "drawn").ok()) << texts.back();
    judge.add_text(texts.back());
  }
  const std::vector<std::string> verdicts = judge.verdicts();
  ASSERT_EQ(verdicts.size(), texts.size());
  for (std::size_t i = 0; i < texts.size(); ++i)
    EXPECT_EQ(verdicts[i], "taken") << texts[i];
}

/// One way to spoil an order: the place and what comes there instead.
struct Slip {
  const char* name;
  Pattern place;
  const char* instead;
};

/// The list leaves out slips that a schema cannot see: a figure too large for its unit, a yarn's
/// count, the words of a text.
const std::vector<Slip>& slips() {
  static const std::vector<Slip> all{
      {"another key", Pattern("^( +)([a-z_]+):"), "$1$2x:"},
      {"another key of the order", Pattern("^(pose|feet|shoe):"), "$1s:"},
      {"a number far too large",
       Pattern("^( .*(?:: |\\[))[0-9][0-9.]*(?! *(?:tex|deg|%|g\\b)|[0-9.])"), "$01123456789"},
      {"a word for a number",
       Pattern("^( .*(?:: |\\[))[0-9][0-9.]*(?! *(?:tex|deg|%|g\\b)|[0-9.])"), "$01soon"},
      {"a map for a number", Pattern("^( +[a-z_]+: )[0-9.]+( *#.*)?$"), "$1{much: 1}"},
      {"nothing", Pattern("^( +[a-z_]+:) [0-9.]+( *#.*)?$"), "$1"},
      {"another unit", Pattern("^( +[a-z_]+: [0-9.]+)( *#.*)?$"), "$1 kg"},
      {"a word that is not allowed", Pattern("(pose|state|end|edge|drawstring): [a-z_]+"),
       "$1: sideways"},
      {"a key left out", Pattern("^(format|dancer): .*$"), ""},
  };
  return all;
}

/// The text with the slip in the `which`th of its lines that allow it; empty if there is none.
std::string spoilt(const std::string& text, const Slip& slip, std::size_t which) {
  std::vector<std::string> lines;
  std::istringstream in(text);
  for (std::string line; std::getline(in, line);)
    lines.push_back(line);
  std::vector<std::size_t> places;
  for (std::size_t i = 0; i < lines.size(); ++i)
    if (slip.place.is_in(lines[i])) places.push_back(i);
  if (places.empty()) return {};
  std::string& line = lines[places[which % places.size()]];
  line = slip.place.replace_first(line, slip.instead);
  std::string out;
  for (const std::string& each : lines)
    out += each + "\n";
  return out;
}

TEST(OrderSchema, RefusesTwoHundredSpoiltOrdersThatTheReaderRefuses) {
  AnyOrder any(20261128);
  Judge judge;
  std::vector<std::string> texts;
  std::map<std::string, int> counts;
  for (std::size_t i = 0; texts.size() < 200; ++i) {
    ASSERT_LT(i, 2000u);
    Order order = any.order();
    order.dancer = "M-07"; // no line ends or words of the format in it
    order.note.clear();
    for (auto* foot : {&order.left, &order.right})
      if (*foot) (*foot)->shoe.stock.clear(); // any key and any text is right there
    const Slip& slip = slips()[i % slips().size()];
    const std::string text = spoilt(order_file_text(order), slip, i / slips().size());
    if (text.empty()) continue;
    ASSERT_FALSE(read_order(text, "spoilt").ok()) << slip.name << "\n" << text;
    ++counts[slip.name];
    texts.push_back(text);
    judge.add_text(text);
  }
  EXPECT_EQ(counts.size(), slips().size());
  for (const auto& [name, count] : counts)
    EXPECT_GE(count, 10) << name;
  const std::vector<std::string> verdicts = judge.verdicts();
  ASSERT_EQ(verdicts.size(), texts.size());
  for (std::size_t i = 0; i < texts.size(); ++i)
    EXPECT_NE(verdicts[i], "taken") << texts[i];
}

} // namespace
} // namespace shankline::tests::order_schema_test
