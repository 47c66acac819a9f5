// A written order file reads back as the same order: every member, drawn at random on a grid that
// decimal figures hold exactly.
#include "cli/order_file/order_writer.hpp"

#include "cli/order_file/order_reader.hpp"
#include "tests/cli/any_order.hpp"
#include "tests/cli/sketch_order.hpp"
#include "tests/support/places.hpp"
#include "tests/support/scratch_directory.hpp"

#include <filesystem>
#include <gtest/gtest.h>

namespace shankline::tests::order_writer_test {
namespace {

TEST(OrderWriter, WritesWhatReadsBackAsTheSameOrder) {
  AnyOrder any(20261125);
  for (int i = 0; i < 1500; ++i) {
    const Order order = any.order();
    const std::string text = order_file_text(order);
    const ReadOrder read = read_order(text, "written");
    // A plain draw of sides may give a station twice or a figure that only cautions: no errors.
    ASSERT_TRUE(read.ok()) << all_text(read.messages) << text;
    ASSERT_EQ(read.order, order) << text;
  }
  EXPECT_GT(any.drawn.size(), 70u);
  for (const auto& [key, times] : any.drawn)
    EXPECT_GT(times, 100) << key;
}

TEST(OrderWriter, KeepsTextsThatYamlWouldTakeForSomethingElse) {
  const std::string open_brackets(30, '[');
  for (const std::string& text :
       {std::string("null"), std::string("Null"), std::string("~"), std::string("true"),
        std::string("a: b"), std::string("- a"), std::string("*a"), std::string("x "),
        open_brackets, "a}" + open_brackets, std::string("c\ufeffd"), std::string("\ufeffe")}) {
    Order order = read_order(sketch_order(), "sketch.yaml").order;
    order.dancer = order.pair = order.note = text;
    const ReadOrder read = read_order(order_file_text(order), "order.yaml");
    EXPECT_TRUE(read.messages.empty()) << text << ": " << to_text(read.messages.front());
    EXPECT_EQ(read.order.dancer, text);
    EXPECT_EQ(read.order.pair, text);
    EXPECT_EQ(read.order.note, text);
  }
}

TEST(OrderWriter, KeepsEverySampleAndTheSketch) {
  std::vector<std::string> texts{sketch_order()};
  for (const auto& entry : std::filesystem::directory_iterator(places::samples))
    if (entry.path().extension() == ".yaml") texts.push_back(read_file(entry.path()));
  EXPECT_GE(texts.size(), 8u);
  for (const std::string& text : texts) {
    const ReadOrder read = read_order(text, "sample");
    ASSERT_TRUE(read.ok()) << all_text(read.messages);
    const std::string written = order_file_text(read.order);
    const ReadOrder again = read_order(written, "written");
    ASSERT_TRUE(again.ok()) << all_text(again.messages) << written;
    EXPECT_EQ(order_file_text(again.order), written);
    // Inches and millionths: the same to a millionth, and most often exactly.
    if (text.find(" in") == std::string::npos) {
      EXPECT_EQ(again.order, read.order) << written;
    }
  }
}

TEST(OrderWriter, WritesAnOrderOfWhichNothingIsKnownYet) {
  Order order;
  order.dancer = "M-07";
  order.left.emplace();
  for (int feet = 1; feet <= 2; ++feet) {
    if (feet == 2) order.right.emplace();
    const ReadOrder read = read_order(order_file_text(order), "written");
    ASSERT_TRUE(read.ok()) << all_text(read.messages) << order_file_text(order);
    EXPECT_EQ(read.order, order);
  }
}

TEST(OrderWriter, WritesWhatBothFeetHaveAlikeOnce) {
  const ReadOrder read = read_order(sketch_order(), "sketch");
  const std::string text = order_file_text(read.order, {{"first line"}, {"last line"}});
  EXPECT_EQ(text.rfind("# first line\n", 0), 0u);
  EXPECT_NE(text.find("\n# last line\n"), std::string::npos);
  EXPECT_EQ(text.find("board:"), text.rfind("board:"));
  EXPECT_EQ(text.find("shank:"), text.rfind("shank:"));
  EXPECT_NE(text.find("# heel front"), std::string::npos);
}

} // namespace
} // namespace shankline::tests::order_writer_test
