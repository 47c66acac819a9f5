#include "cli/yaml/order_document.hpp"

#include "tests/cli/sketch_order.hpp"
#include "tests/support/fewer_cases.hpp"

#include <gtest/gtest.h>

#include <ctime>
#include <ostream>
#include <string>

namespace shankline::tests::order_document_test {
namespace {

OrderDocument parse(const std::string& text) {
  return parse_order_document(text, "order.yaml");
}

std::string repeated(const std::string& piece, std::size_t count) {
  std::string text;
  for (std::size_t i = 0; i < count; ++i)
    text += piece;
  return text;
}

struct Ended {
  const char* name;
  std::string text;
  Place place;
  const char* what;
};

std::ostream& operator<<(std::ostream& out, const Ended& row) {
  return out << row.name;
}

class OrderDocumentEnded : public testing::TestWithParam<Ended> {};

TEST_P(OrderDocumentEnded, WithOneMessageAtItsPlace) {
  const auto document = parse(GetParam().text);
  EXPECT_FALSE(document.root);
  ASSERT_EQ(document.messages.size(), 1u) << all_text(document.messages);
  const Message& message = document.messages.front();
  EXPECT_EQ(message.severity, Severity::error);
  EXPECT_EQ(message.file, "order.yaml");
  EXPECT_EQ((Place{message.line, message.column}), GetParam().place) << to_text(message);
  EXPECT_NE(message.what.find(GetParam().what), std::string::npos) << message.what;
  EXPECT_FALSE(message.advice.empty());
}

INSTANTIATE_TEST_SUITE_P(
    Texts, OrderDocumentEnded,
    testing::Values(
        Ended{"empty", "", {1, 1}, "empty"}, Ended{"only a comment", "# M-07\n", {1, 1}, "empty"},
        Ended{"null", "~\n", {1, 1}, "empty"}, Ended{"only newlines", "\n\n\n", {1, 1}, "empty"},
        Ended{"a list", "- a\n- b\n", {1, 1}, "list"},
        Ended{"a text", "M-07\n", {1, 1}, "only a text"},
        Ended{"one word for two", "a:1\n", {1, 1}, "space is missing"},
        Ended{"no space, first line", "dancer:M-07\npair: x\n", {1, 7}, "space is missing"},
        Ended{
            "no space, later line", "dancer: M-07\npair:x\ndate: y\n", {2, 5}, "space is missing"},
        Ended{"second document", "a: 1\n---\nb: 2\n", {2, 1}, "second order"},
        Ended{"second document after an end", "a: 1\n...\nb: 2\n", {3, 1}, "second order"},
        Ended{"double quote left open", "a: 1\nb: \"x\nc: 2\n", {2, 4}, "not closed on the same"},
        Ended{
            "double quote left open at the end", "a: 1\nb: \"x", {2, 4}, "not closed on the same"},
        Ended{"single quote left open", "a: 1\nb: 'it''s\n", {2, 4}, "not closed on the same"},
        Ended{
            "quote closed lines later", "a: \"x\nb: 1\nc: y\"\n", {1, 4}, "not closed on the same"},
        Ended{"quote closed by the next", "a: \"x\nb: \"y\"\n", {1, 4}, "not closed on the same"},
        Ended{"line ended with an escape", "a: \"x\\\n  y\"\n", {1, 4}, "not closed on the same"},
        Ended{"quote in a comment before",
              "a: 1 # don't 'open\nb: \"x\n",
              {2, 4},
              "not closed on the same"},
        Ended{"open brace", "a: {b: 1\nc: 2\n", {1, 4}, "'{' is not closed"},
        Ended{"open bracket", "a: [1, 2\nc: 2\n", {1, 4}, "'[' is not closed"},
        Ended{"comma forgotten", "a: {b: 1 c: 2}\n", {1, 11}, "comma is missing"},
        Ended{"one bracket too many", "a: [1]]\n", {1, 7}, "never opened"},
        Ended{"tab", "a:\n\tb: 1\n", {2, 1}, "tab"},
        Ended{"tab after spaces", "a:\n  \tb: 1\n", {2, 3}, "tab"},
        Ended{"indented too far", "a: 1\n  b: 2\n", {2, 4}, "':' where no key can stand"},
        Ended{"indented too little", "a:\n    b: 1\n  c: 2\n", {3, 3}, "does not fit"},
        Ended{"colon in a text", "pair: spring: second\n", {1, 13}, "':' where no key can stand"},
        Ended{"list on the key's line", "a: - 1\n", {1, 4}, "'-' where no list"},
        Ended{"sign that begins nothing", "a: @x\n", {1, 4}, "cannot begin"},
        Ended{"unknown escape", "a: \"\\q\"\n", {1, 7}, "'\\'"},
        Ended{"anchor", "a: &x 1\n", {1, 4}, "other places"},
        Ended{"alias", "a: &x 1\nb: *x\n", {1, 4}, "other places"},
        Ended{"alias of nothing", "a: *x\n", {1, 4}, "other places"},
        Ended{"merged map", "a: &x {b: 1}\nc: {<<: *x}\n", {1, 4}, "other places"},
        Ended{"tag", "a: !!int 1\n", {1, 4}, "type"},
        Ended{"tag of a map", "a: !shoe {b: 1}\n", {1, 4}, "type"},
        Ended{"no key", "a: 1\n: 2\n", {2, 1}, "key is missing"},
        Ended{"null key", "~: 2\n", {1, 1}, "key is missing"},
        Ended{"map as a key", "{a: 1}: 2\n", {1, 1}, "key is missing"},
        Ended{"list as a key", "? [a]\n: 2\n", {1, 3}, "key is missing"},
        Ended{"zero byte", std::string("a: 1\nb: x\0y\n", 12), {2, 5}, "control character"},
        Ended{"escape byte", "a: \x1b[31m\n", {1, 4}, "control character"},
        Ended{"delete byte", "a: \x7f\n", {1, 4}, "control character"},
        Ended{"late control", "a: ä\u0085\n", {1, 5}, "control character"},
        Ended{"Latin-1", "a: 1\nb: \xe4\xf6\n", {2, 4}, "UTF-8"},
        Ended{"lone continuation", "a: \x80\n", {1, 3}, "UTF-8"},
        Ended{"cut short", "a: \xe2\x82", {1, 4}, "UTF-8"},
        Ended{"overlong", "a: \xc0\xaf\n", {1, 4}, "UTF-8"},
        Ended{"overlong of three", "a: \xe0\x80\xaf\n", {1, 4}, "UTF-8"},
        Ended{"surrogate", "a: \xed\xa0\x80\n", {1, 4}, "UTF-8"},
        Ended{"beyond Unicode", "a: \xf4\x90\x80\x80\n", {1, 4}, "UTF-8"},
        Ended{"UTF-16",
              std::string("\xff\xfe"
                          "a\0:\0",
                          6),
              {1, 1},
              "UTF-8"},
        Ended{"32 brackets and one", "a: " + std::string(33, '['), {1, 36}, "32 deep"},
        Ended{"17 levels",
              "a: " + std::string(16, '[') + "1" + std::string(16, ']'),
              {1, 19},
              "16 deep"},
        Ended{"17 levels of lists in lines", repeated("- ", 17) + "1\n", {1, 33}, "16 deep"},
        Ended{"64 KB and a byte", std::string(largest_order + 1, ' '), {1, 1}, "64 KB"},
        Ended{"5001 values", "a: [" + repeated("x,", 5000) + "x]\n", {1, 9999}, "5000"}));

TEST(OrderDocument, BombsAreRefusedFast) {
  const std::string bomb = "a: &a [x,x,x,x,x,x,x,x,x]\nb: &b [*a,*a,*a,*a,*a,*a,*a,*a,*a]\n"
                           "c: &c [*b,*b,*b,*b,*b,*b,*b,*b,*b]\nd: [*c,*c,*c,*c,*c,*c,*c,*c,*c]\n";
  const std::string texts[] = {
      bomb,
      std::string(largest_order, '['),
      std::string(largest_order, '{'),
      repeated("[]", largest_order / 2),
      repeated("- ", largest_order / 2),
      repeated("? ", largest_order / 2),
      repeated("a: ", largest_order / 3),
      repeated("k: 1\n", largest_order / 5),
      "a: [" + repeated("1,", largest_order / 2 - 2),
      "a: \"" + repeated("\\n", largest_order / 2 - 2),
      repeated("\"", largest_order),
      repeated("a\n", largest_order / 2),
      repeated("!", largest_order),
      repeated("&a ", largest_order / 3),
  };
  for (const std::string& text : texts) {
    const std::clock_t begin = std::clock();
    const auto document = parse(text);
    const double took = static_cast<double>(std::clock() - begin) / CLOCKS_PER_SEC;
    EXPECT_TRUE(has_error(document.messages)) << text.substr(0, 20);
    // This is processor time. A bomb really takes a few hundredths of a second.
    EXPECT_LT(took, under_sanitizers ? 20 : 2) << text.substr(0, 20);
  }
}

TEST(OrderDocument, RepeatedKeysAreCollectedWithBothLines) {
  const auto document = parse("a: 1\nfeet:\n  left: {fold: 5, fold: 6}\n  right: 1\na: 2\n");
  ASSERT_EQ(document.messages.size(), 2u);
  EXPECT_EQ(document.messages[0].key, "feet.left.fold");
  EXPECT_EQ((Place{document.messages[0].line, document.messages[0].column}), (Place{3, 19}));
  EXPECT_EQ(document.messages[1].key, "a");
  EXPECT_EQ(document.messages[1].what, "is written twice: in line 1 and in line 5");
  EXPECT_TRUE(document.root) << "the rest is read all the same";
}

TEST(OrderDocument, TheTreeHoldsKindsTextsAndPlaces) {
  const auto document = parse("a: x # note\n\"ä b\": [1, '2', {c: ~}]\nd:\ne: |\n  two\n  lines\n");
  ASSERT_TRUE(document.root) << all_text(document.messages);
  const auto& members = document.root->members;
  ASSERT_EQ(members.size(), 4u);
  EXPECT_EQ(members[0].key, "a");
  EXPECT_EQ(members[0].value.text, "x");
  EXPECT_FALSE(members[0].value.quoted);
  EXPECT_EQ(members[0].value.place, (Place{1, 4}));

  EXPECT_EQ(members[1].key, "ä b");
  const Node& list = members[1].value;
  ASSERT_EQ(list.kind, NodeKind::list);
  EXPECT_EQ(list.place, (Place{2, 8})) << "columns count characters";
  ASSERT_EQ(list.items.size(), 3u);
  EXPECT_EQ(list.items[0].place, (Place{2, 9}));
  EXPECT_TRUE(list.items[1].quoted);
  ASSERT_EQ(list.items[2].kind, NodeKind::map);
  EXPECT_EQ(list.items[2].members[0].value.kind, NodeKind::nothing);
  EXPECT_EQ(list.items[2].members[0].value.place, (Place{2, 18}));

  EXPECT_EQ(members[2].value.kind, NodeKind::nothing);
  EXPECT_EQ(members[2].value.place, (Place{3, 1})) << "its key's place";
  EXPECT_EQ(members[3].value.text, "two\nlines\n");
}

TEST(OrderDocument, AcceptsWhatEditorsDoToAFile) {
  const std::string plain = "a: 1\nb: {c: 2}\n";
  const std::string texts[] = {"\xef\xbb\xbf" + plain,
                               "a: 1\r\nb: {c: 2}\r\n",
                               "a: 1\rb: {c: 2}\r",
                               "a: 1\nb: {c: 2}",
                               "---\n" + plain,
                               plain + "...\n",
                               "a: 1 \t\nb: {c: 2}\n\n\t# a comment\n\n"};
  for (const std::string& text : texts) {
    const auto document = parse(text);
    ASSERT_TRUE(document.root) << all_text(document.messages);
    ASSERT_EQ(document.root->members.size(), 2u);
    EXPECT_EQ(document.root->members[0].value.text, "1");
    EXPECT_EQ(document.root->members[1].value.members[0].value.text, "2");
  }
}

TEST(OrderDocument, LinesCountAlikeForEveryLineEnd) {
  for (const char* text : {"a: 1\n\nb: [\n", "a: 1\r\n\r\nb: [\r\n", "a: 1\r\rb: [\r"}) {
    const auto document = parse(text);
    ASSERT_EQ(document.messages.size(), 1u);
    EXPECT_EQ(document.messages[0].line, 3);
  }
}

TEST(OrderDocument, ACommaThatMayBeADecimalSignIsNoListOfTwo) {
  const auto said = [](const std::string& text) {
    const OrderDocument document = parse(text);
    return document.messages.empty() ? std::string() : document.messages.front().what;
  };
  EXPECT_EQ(said("fold: [6,5, 7]\n"), "6,5 may be one number or two");
  EXPECT_EQ(said("widths: [[22,5, 45]]\n"), "22,5 may be one number or two");
  EXPECT_EQ(said("fold: [6, 5]\n"), "");
  EXPECT_EQ(said("length: [238,239]\n"), "") << "nobody writes 238.239";
  EXPECT_EQ(said("fold: [6.5,7]\n"), "");
  EXPECT_EQ(said("fold: [a,7]\n"), "");
  EXPECT_EQ(said("{\"fold\":[6,5]}\n"), "") << "JSON";
  const OrderDocument two = parse("fold: [6,5,4]\ninset: [5,5]\n");
  ASSERT_EQ(two.messages.size(), 2u) << "once for a list";
  EXPECT_EQ(two.messages[1].line, 2);
  EXPECT_EQ(two.messages[1].column, 9);
  EXPECT_EQ(two.messages[1].key, "inset");
}

TEST(OrderDocument, DepthAndSizeAtTheirLimitsAreRead) {
  EXPECT_TRUE(parse("a: " + std::string(15, '[') + "1" + std::string(15, ']')).root);
  EXPECT_TRUE(parse("a: [" + repeated("1,", 4996) + "1]").root);
  EXPECT_TRUE(parse("a: 1\n#" + std::string(largest_order - 6, '#')).root);
}

TEST(OrderDocument, AMissingSpaceIsTold) {
  EXPECT_TRUE(lacks_space_after_colon("length:238"));
  EXPECT_TRUE(lacks_space_after_colon("heel_front:61"));
  EXPECT_FALSE(lacks_space_after_colon("length: 238"));
  EXPECT_FALSE(lacks_space_after_colon("length:"));
  EXPECT_FALSE(lacks_space_after_colon(":238"));
  EXPECT_FALSE(lacks_space_after_colon("238"));
  EXPECT_FALSE(lacks_space_after_colon("https://example.org")) << "an address is no key";
}

/// In braces, as programs write JSON, a tab is a space like any other.
TEST(OrderDocument, TakesTabsInsideBraces) {
  const OrderDocument document = parse_order_document(
      "{\n\t\"a\": 1,\n\t\"b\": {\n\t\t\"c\": [1,\n\t\t\t2]\n\t}\n}\n", "tabs");
  ASSERT_TRUE(document.root) << document.messages.size();
  ASSERT_EQ(document.root->members.size(), 2u);
  EXPECT_EQ(document.root->members[1].value.members.at(0).value.items.size(), 2u);
  EXPECT_EQ(document.root->members[1].place.line, 3);
}

} // namespace
} // namespace shankline::tests::order_document_test
