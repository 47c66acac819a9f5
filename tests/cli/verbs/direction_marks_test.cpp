// Marks that cannot be seen and turn the direction of writing, and separators of lines: in an order
// or on the command line they count as control characters, since they may turn two figures of a
// line round.
#include "cli/interview/answer.hpp"
#include "cli/text/characters.hpp"
#include "cli/text/message.hpp"
#include "cli/yaml/order_document.hpp"
#include "cli/yaml/yaml_text.hpp"
#include "export/lettering/code_point.hpp"
#include "tests/support/places.hpp"
#include "tests/support/process.hpp"
#include "tests/support/scratch_directory.hpp"

#include <gtest/gtest.h>

namespace shankline::tests::direction_marks_test {
namespace {

namespace fs = std::filesystem;

// Unicode 15, UAX 9, table 2 (embeddings, overrides, isolates) and 2.6 (implicit marks); UAX 14,
// classes BK and NL (separators).
constexpr char32_t marks[] = {0x061c, 0x200e, 0x200f, 0x2028, 0x2029, 0x202a, 0x202b,
                              0x202c, 0x202d, 0x202e, 0x2066, 0x2067, 0x2068, 0x2069};
constexpr char32_t neighbours[] = {0x061b, 0x061d, 0x200d, 0x2010, 0x2027, 0x202f, 0x2065, 0x206a};

TEST(DirectionMarks, CountAsControlCharacters) {
  for (const char32_t mark : marks) {
    const std::string text = "a" + to_utf8(mark) + "b";
    EXPECT_EQ(control_length(text, 1), text.size() - 2) << std::hex << std::uint32_t(mark);
    EXPECT_TRUE(is_control(mark)) << std::hex << std::uint32_t(mark);
    EXPECT_TRUE(has_controls(text));
    EXPECT_EQ(without_controls(text), "a?b");
    EXPECT_FALSE(is_typed_text(text));
    EXPECT_FALSE(has_controls(text.substr(0, text.size() - 2))) << "a part of a mark is none";
  }
  for (const char32_t neighbour : neighbours) {
    const std::string text = "a" + to_utf8(neighbour) + "b";
    EXPECT_FALSE(has_controls(text)) << std::hex << std::uint32_t(neighbour);
    EXPECT_FALSE(is_control(neighbour)) << std::hex << std::uint32_t(neighbour);
  }
}

TEST(DirectionMarks, AreNeverWrittenAsTheyAre) {
  for (const char32_t mark : marks) {
    const std::string text = "two\nlines " + to_utf8(mark) + "\n";
    for (const std::string& kept : {text, text.substr(4, 6) + to_utf8(mark) + "x"}) {
      const std::string yaml = "key:" + yaml_text(kept);
      EXPECT_EQ(yaml.find(to_utf8(mark)), std::string::npos) << yaml;
      const OrderDocument read = parse_order_document(yaml, "x.yaml");
      ASSERT_TRUE(read.root) << yaml;
      EXPECT_EQ(read.root->members[0].value.text, kept);
    }
    const std::string json = "{\"key\": \"a" + to_utf8(mark) + "b\"}";
    EXPECT_EQ(with_controls_escaped(json).find(to_utf8(mark)), std::string::npos);
  }
  EXPECT_EQ(with_controls_escaped("\"a\u202eb\u0085\u00e9\n\""), "\"a\\u202eb\\u0085\u00e9\n\"");
}

class MarkedOrder : public testing::Test {
protected:
  Finished shell(const std::string& command) const {
    Surroundings there;
    there.directory = scratch_.path();
    there.environment["SHANKLINE"] = places::program;
    there.environment["XDG_DATA_HOME"] = (scratch_.path() / "data").string();
    return run_shell(command, there);
  }

  /// The plain sample with another dancer's code, as it is written in the file.
  void write_order(const std::string& dancer) const {
    std::string text = read_file(fs::path(places::samples) / "plain.yaml");
    const std::size_t at = text.find("dancer: M-07");
    ASSERT_NE(at, std::string::npos);
    text.replace(at, 12, "dancer: " + dancer);
    write_file(scratch_.path() / "order.yaml", text);
  }

  ScratchDirectory scratch_;
};

TEST_F(MarkedOrder, IsRefusedWithThePlaceOfTheMark) {
  for (const char32_t mark : marks) {
    write_order("M-" + to_utf8(mark) + "07");
    for (const char* command : {"check order.yaml", "cut order.yaml --json -o a.pdf --svg",
                                "rack order.yaml", "rack order.yaml --json"}) {
      const Finished finished = shell("\"$SHANKLINE\" " + std::string(command));
      EXPECT_EQ(finished.exit_code, 1) << command << finished.out;
      EXPECT_NE(finished.err.find("order.yaml:"), std::string::npos) << finished.err;
      EXPECT_NE(finished.err.find("cannot be seen"), std::string::npos) << finished.err;
      EXPECT_EQ((finished.out + finished.err).find(to_utf8(mark)), std::string::npos);
    }
  }
  // An escape inside quotation marks brings it in as well.
  write_order("\"M-\\u202e07\"");
  const Finished escaped = shell("\"$SHANKLINE\" check order.yaml");
  EXPECT_EQ(escaped.exit_code, 1);
  EXPECT_NE(escaped.err.find("control"), std::string::npos) << escaped.err;
  EXPECT_EQ(escaped.err.find("\u202e"), std::string::npos);
}

TEST_F(MarkedOrder, NoNoteHoldsOne) {
  write_order("M-07");
  ASSERT_EQ(shell("\"$SHANKLINE\" archive save order.yaml").exit_code, 0);
  const Finished noted =
      shell("\"$SHANKLINE\" archive note 1 --foot both --words 'right \u202e12 mm'");
  EXPECT_EQ(noted.exit_code, 2) << noted.out << noted.err;
  EXPECT_EQ((noted.out + noted.err).find("\u202e"), std::string::npos);
}

} // namespace
} // namespace shankline::tests::direction_marks_test
