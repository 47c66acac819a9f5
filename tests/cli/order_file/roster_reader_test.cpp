// Reads rosters: makes an order for each of 300 dancers, and names every wrong cell by its row and
// column.
#include "cli/order_file/roster_reader.hpp"

#include "cli/order_file/order_reader.hpp"
#include "cli/text/csv.hpp"

#include <algorithm>
#include <gtest/gtest.h>
#include <map>
#include <string>
#include <vector>

namespace shankline::tests::roster_reader_test {
namespace {

constexpr const char* common = R"(# values that all dancers share
pose: pointed
shoe:
  board: {state: loose, length: 220, inset: 5, thickness: 3.2, widths: [[22, 45], [96, 33], [164, 56]]}
alterations:
  shank: {reach: edge, bevel: 12}
)";

using Row = std::vector<std::string>;

const Row header{"dancer",
                 "foot",
                 "length",
                 "ball_length",
                 "heel_front",
                 "arch_break.medial",
                 "arch_break.lateral",
                 "arch_depth",
                 "date"};

/// A roster with a row for each foot, so two rows for each dancer.
std::vector<Row> company(int dancers) {
  std::vector<Row> rows{header};
  for (int i = 1; i <= dancers; ++i) {
    const std::string code = "D-" + std::to_string(i);
    const std::string tenths = std::to_string(i % 10);
    rows.push_back({code, "left", "238; 238." + tenths, "172", "61." + tenths, "97", "93", "12.5",
                    "2026-03-14"});
    rows.push_back({code, "right", "238", "172", "62 within 2", "9" + std::to_string(5 + i % 3),
                    "94", "12", ""});
  }
  return rows;
}

std::string csv(const std::vector<Row>& rows) {
  std::string text;
  for (const Row& row : rows)
    text += csv_row({row.begin(), row.end()});
  return text;
}

ReadRoster read(const std::vector<Row>& rows, const std::string& common_text = common) {
  return read_roster(csv(rows), "roster.csv", common_text, "shoe.yaml");
}

std::string messages_of(const ReadRoster& roster) {
  std::string text;
  for (const Message& message : roster.messages)
    text += to_text(message) + "\n";
  return text;
}

TEST(Roster, MakesAnOrderOfEachDancer) {
  const ReadRoster roster = read(company(300));
  ASSERT_TRUE(roster.ok()) << messages_of(roster);
  ASSERT_EQ(roster.orders.size(), 300u);
  for (std::size_t i = 0; i < roster.orders.size(); ++i) {
    const std::string code = "D-" + std::to_string(i + 1);
    EXPECT_EQ(roster.orders[i].dancer, code);
    const ReadOrder order = read_order(roster.orders[i].text, code);
    ASSERT_TRUE(order.ok()) << roster.orders[i].text;
    EXPECT_EQ(order.order.dancer, code);
    EXPECT_EQ(order.order.date, "2026-03-14");
    const Foot& left = order.order.left->foot;
    const Foot& right = order.order.right->foot;
    ASSERT_EQ(left.length->values.size(), 2u);
    EXPECT_NEAR(left.heel_front->values.at(0), 61 + static_cast<double>((i + 1) % 10) / 10, 1e-9);
    EXPECT_NEAR(right.heel_front->finding, 2, 1e-9);
    EXPECT_NEAR(right.arch_break.medial->values.at(0), 95 + static_cast<double>((i + 1) % 3), 1e-9);
    EXPECT_TRUE(order.order.right->alterations.shank);
  }
}

TEST(Roster, TakesHowManyPairsAreWantedAndWhen) {
  std::vector<Row> rows = company(2);
  rows[0].insert(rows[0].end(), {"quantity", "due"});
  for (std::size_t i = 1; i < rows.size(); ++i)
    rows[i].insert(rows[i].end(), {std::string(i < 3 ? "4" : ""), "2026-05-01"});
  const ReadRoster roster = read(rows);
  ASSERT_TRUE(roster.ok()) << messages_of(roster);
  EXPECT_EQ(read_order(roster.orders[0].text, "D-1").order.quantity, std::optional<int>(4));
  EXPECT_FALSE(read_order(roster.orders[1].text, "D-2").order.quantity);
  EXPECT_EQ(read_order(roster.orders[1].text, "D-2").order.due, "2026-05-01");
  rows[1].back() = "2026-03-01"; // before the order's date
  rows[2].back() = "2026-03-01";
  EXPECT_FALSE(read(rows).ok());
}

struct WrongCell {
  std::size_t row;     ///< from 1, the header included, as a spreadsheet numbers it
  std::size_t column;  ///< from 0
  const char* text;    ///< the wrong text in the cell
  const char* what;    ///< expected in the message's `what`
  const char* allowed; ///< expected in the message's `allowed`
};

TEST(Roster, NamesEachOfTenWrongCells) {
  const std::vector<WrongCell> wrong_cells{
      {5, 2, "soon", "'soon' is not a length", "mm"},
      {41, 4, "6100", "too large", "mm"},
      {77, 4, "61,5", "comma", "mm"},
      {120, 7, "12 %", "is a percentage", "mm"},
      {233, 5, "97 kg", "a weight", "mm"},
      {300, 8, "03/04/2026", "03/04/2026", ""},
      {402, 1, "middle", "'middle' is no foot", "left, right or both"},
      {411, 0, "../etc", "cannot name a file", "without slashes"},
      {480, 4, "172", "", ""}, // ahead of the arch break: only the solver finds that
      {601, 3, "-5", "cannot be negative", "mm"},
  };
  std::vector<Row> rows = company(300);
  for (const WrongCell& wrong : wrong_cells)
    rows[wrong.row - 1][wrong.column] = wrong.text;
  const ReadRoster roster = read(rows);
  EXPECT_FALSE(roster.ok());
  EXPECT_TRUE(roster.orders.empty()) << "one wrong cell refuses the whole roster";
  for (const WrongCell& wrong : wrong_cells) {
    const std::string cell =
        "row " + std::to_string(wrong.row) + ", column " + csv_column_name(wrong.column) + ": ";
    const auto message =
        std::find_if(roster.messages.begin(), roster.messages.end(),
                     [&](const Message& one) { return one.what.starts_with(cell); });
    ASSERT_NE(message, roster.messages.end()) << cell << "\n" << messages_of(roster);
    EXPECT_NE(message->what.find(wrong.what), std::string::npos) << message->what;
    EXPECT_NE(message->allowed.find(wrong.allowed), std::string::npos) << message->allowed;
    EXPECT_FALSE(message->advice.empty()) << message->what;
    EXPECT_EQ(message->file, "roster.csv");
    EXPECT_EQ(message->line, static_cast<int>(wrong.row));
    EXPECT_EQ(message->key, header[wrong.column]);
  }
  // The wrong foot and the wrong code each leave that dancer's other row without its partner, which
  // may add one message each.
  EXPECT_LE(roster.messages.size(), wrong_cells.size() + 2) << messages_of(roster);
}

TEST(Roster, SaysWhatIsMissingInARow) {
  std::vector<Row> rows = company(2);
  rows[3][2] = "";
  const ReadRoster roster = read(rows);
  ASSERT_EQ(roster.messages.size(), 1u) << messages_of(roster);
  EXPECT_NE(roster.messages[0].what.find("row 4"), std::string::npos) << messages_of(roster);
  EXPECT_NE(roster.messages[0].what.find("length"), std::string::npos) << messages_of(roster);
}

// Before, this stood at line 1 of the common file, and its advice led to another error.
TEST(Roster, PointsToTheRowOfAGrowingFootThatNobodyDecidesFor) {
  std::vector<Row> rows = company(3);
  for (const std::size_t row : {std::size_t{3}, std::size_t{4}}) {
    rows[row][2] = "210";
    rows[row][3] = "152";
    rows[row][4] = "54";
  }
  const ReadRoster without = read(rows);
  ASSERT_EQ(without.messages.size(), 1u) << messages_of(without);
  const Message& said = without.messages[0];
  EXPECT_EQ(said.file, "roster.csv");
  EXPECT_EQ(said.line, 4);
  EXPECT_TRUE(said.what.starts_with("row 4, column A: ")) << said.what;
  EXPECT_NE(said.advice.find("in this row, in a column decided_by"), std::string::npos)
      << said.advice;
  rows[0].emplace_back("decided_by");
  for (std::size_t row = 1; row < rows.size(); ++row)
    rows[row].emplace_back("");
  const ReadRoster empty = read(rows);
  ASSERT_EQ(empty.messages.size(), 1u) << messages_of(empty);
  EXPECT_TRUE(empty.messages[0].what.starts_with("row 4, column J: ")) << empty.messages[0].what;
  EXPECT_NE(empty.messages[0].advice.find("into this cell"), std::string::npos);
  rows[3].back() = "T-4";
  EXPECT_TRUE(read(rows).ok()) << messages_of(read(rows));
}

TEST(Roster, RefusesAColumnThatNoOrderHas) {
  std::vector<Row> rows = company(1);
  rows[0][4] = "heel_frnt";
  ReadRoster roster = read(rows);
  ASSERT_EQ(roster.messages.size(), 1u) << messages_of(roster);
  EXPECT_NE(roster.messages[0].what.find("row 1, column E"), std::string::npos);
  EXPECT_NE(roster.messages[0].advice.find("heel_front"), std::string::npos);
  rows[0][4] = "length";
  roster = read(rows);
  ASSERT_EQ(roster.messages.size(), 1u);
  EXPECT_NE(roster.messages[0].what.find("two columns are headed length"), std::string::npos);
  rows = company(1);
  rows[0][1] = "side";
  EXPECT_NE(messages_of(read(rows)).find("there is no column foot"), std::string::npos);
}

TEST(Roster, ComparesTheTwoRowsOfADancer) {
  std::vector<Row> rows = company(2);
  rows[2][1] = "left";
  EXPECT_NE(messages_of(read(rows)).find("row 3, column B: row 2 is about this dancer's left foot"),
            std::string::npos)
      << messages_of(read(rows));
  rows = company(2);
  rows[2][8] = "2026-03-15";
  EXPECT_NE(messages_of(read(rows)).find("row 3, column I: '2026-03-15' is not what row 2 says"),
            std::string::npos)
      << messages_of(read(rows));
  rows = company(1);
  rows.pop_back();
  rows[1][1] = "both";
  const ReadRoster both = read(rows);
  ASSERT_TRUE(both.ok()) << messages_of(both);
  const ReadOrder order = read_order(both.orders[0].text, "both");
  EXPECT_TRUE(order.order.left && order.order.right);
}

TEST(Roster, SaysWhatIsWrongWithTheCommonValuesOnce) {
  std::string wrong = common;
  wrong.replace(wrong.find("inset: 5"), 8, "inset: x");
  ReadRoster roster = read(company(20), wrong);
  ASSERT_EQ(roster.messages.size(), 1u) << messages_of(roster);
  EXPECT_EQ(roster.messages[0].file, "shoe.yaml");
  EXPECT_EQ(roster.messages[0].line, 4);
  roster = read(company(20), std::string(common) + "dancer: M-07\ndate: 2026-01-01\n");
  EXPECT_EQ(roster.messages.size(), 2u) << messages_of(roster);
  EXPECT_NE(messages_of(roster).find("shoe.yaml:7:"), std::string::npos);
  EXPECT_NE(messages_of(roster).find("date is in the common values, too"), std::string::npos);
  EXPECT_FALSE(read(company(1), "{pose: pointed}").ok());
  EXPECT_FALSE(read(company(1), "").ok());
  EXPECT_FALSE(read(company(1), "a: [1").ok());
}

// The orders are made as YAML: a cell must not be able to add keys of its own to them.
/// The roster with one more column: a cell for each row.
std::vector<Row> with_column(std::vector<Row> rows, const std::string& key,
                             const std::vector<std::string>& cells) {
  rows.front().push_back(key);
  for (std::size_t i = 1; i < rows.size(); ++i)
    rows[i].push_back(cells[(i - 1) % cells.size()]);
  return rows;
}

constexpr const char* common_without_length = R"(pose: pointed
shoe:
  # every board is loose
  board: {state: loose, inset: 5, thickness: 3.2, widths: [[22, 45], [96, 33], [164, 56]]}
  stiffness: over the knee
alterations:
  shank: {reach: edge}
)";

TEST(Roster, GivesEachFootItsShoeAndAlterations) {
  std::vector<Row> rows =
      with_column(company(2), "shoe.board.length", {"220", "222", "8 3/4 in", "224"});
  rows = with_column(rows, "alterations.shank.bevel", {"11", "", "10", "10"});
  const ReadRoster roster = read(rows, common_without_length);
  ASSERT_TRUE(roster.ok()) << messages_of(roster);
  ASSERT_EQ(roster.orders.size(), 2u);
  const Order first = read_order(roster.orders[0].text, "D-1").order;
  EXPECT_EQ(first.left->shoe.board.length->value(), 220);
  EXPECT_EQ(first.right->shoe.board.length->value(), 222);
  EXPECT_EQ(first.left->shoe.board.thickness, 3.2) << "from the common values";
  EXPECT_EQ(first.left->alterations.shank->bevel, 11);
  EXPECT_EQ(first.right->alterations.shank->bevel, ShankWish{}.bevel)
      << "an empty cell gives nothing";
  const Order second = read_order(roster.orders[1].text, "D-2").order;
  EXPECT_NEAR(second.left->shoe.board.length->value(), 222.25, 1e-9);
  EXPECT_EQ(second.right->alterations.shank->bevel, 10);

  // A list in brackets, in a section of which nothing is common; and one row for both feet.
  std::vector<Row> both{{"dancer", "foot", "length", "ball_length", "heel_front",
                         "arch_break.medial", "arch_break.lateral", "arch_depth",
                         "shoe.board.state", "shoe.board.inset", "shoe.board.length",
                         "shoe.board.widths", "alterations.shank.reach"},
                        {"D-1", "both", "238", "172", "61", "97", "93", "12.5", "loose", "5", "220",
                         "[[22, 45], [96, 33], [164, 56]]", "edge"}};
  const ReadRoster one = read(both, "pose: pointed\n");
  ASSERT_TRUE(one.ok()) << messages_of(one);
  EXPECT_EQ(read_order(one.orders[0].text, "D-1").order.right->shoe.board.widths.size(), 3u);
}

TEST(Roster, NamesWrongCellsOfShoeAndAlterations) {
  const std::string words = messages_of(
      read(with_column(company(2), "shoe.board.length", {"220", "long", "220", "22000"}),
           common_without_length));
  EXPECT_NE(words.find("row 3, column J: "), std::string::npos) << words;
  EXPECT_NE(words.find("row 5, column J: "), std::string::npos) << words;
  EXPECT_EQ(words.find("row 2"), std::string::npos) << words;
  const std::string unknown = messages_of(
      read(with_column(company(1), "shoe.board.lenght", {"220"}), common_without_length));
  EXPECT_NE(unknown.find("row 2, column J: "), std::string::npos) << unknown;
  EXPECT_NE(unknown.find("length"), std::string::npos) << unknown;
  const std::string missing = messages_of(
      read(with_column(company(1), "shoe.board.length", {"220"}), "alterations: {shank: {}}\n"));
  EXPECT_NE(missing.find("shoe.left.board.state: row 2: is missing"), std::string::npos) << missing;
  // A wrong common value is said once, at its line there.
  std::string wrong = common_without_length;
  wrong.replace(wrong.find("over the knee"), 13, "like butter");
  const ReadRoster roster = read(with_column(company(2), "shoe.board.length", {"220"}), wrong);
  ASSERT_EQ(roster.messages.size(), 1u) << messages_of(roster);
  EXPECT_EQ(roster.messages[0].file, "shoe.yaml");
  EXPECT_EQ(roster.messages[0].line, 5);
}

TEST(Roster, ACellTakesThePlaceOfACommonValue) {
  const ReadRoster roster = read(with_column(company(1), "shoe.board.length", {"224", ""}));
  ASSERT_TRUE(roster.ok()) << messages_of(roster);
  const Order order = read_order(roster.orders[0].text, "D-1").order;
  EXPECT_EQ(order.left->shoe.board.length->value(), 224);
  EXPECT_EQ(order.right->shoe.board.length->value(), 220) << "an empty cell leaves it";
  const std::string wrong =
      messages_of(read(with_column(company(1), "shoe.board.length", {"22000", ""})));
  EXPECT_NE(wrong.find("row 2, column J: "), std::string::npos) << wrong;
}

TEST(Roster, RefusesAColumnOfASectionThatFitsNowhere) {
  const auto words = [](const std::string& key, const std::string& common_text) {
    return messages_of(read(with_column(company(1), key, {"220"}), common_text));
  };
  for (const char* key : {"shoe.board", "shoe.board.length.of"})
    EXPECT_NE(words(key, common).find("are made up of other keys at"), std::string::npos) << key;
  EXPECT_NE(words("shoe.left.board.length", common_without_length).find("names a foot"),
            std::string::npos);
  for (const char* key : {"shoe..length", "shoe.board."})
    EXPECT_NE(words(key, common_without_length).find("beside a dot"), std::string::npos) << key;
  EXPECT_NE(words("shoe.board.length", "shoe:\n  left: {board: {state: loose}}\n")
                .find("differ between the feet"),
            std::string::npos);
  const std::vector<Row> twice =
      with_column(with_column(company(1), "shoe.platform.width", {"44"}), "shoe.platform", {"44"});
  EXPECT_NE(messages_of(read(twice)).find("another column gives shoe.platform"), std::string::npos);
}

TEST(Roster, NoCellCanAddAKeyToTheOrder) {
  for (const char* cell : {"61\n    growing: true", "61}", "{value: 61}", "[61", "61, within: 2",
                           "\"", "'", "&a", "*a", "!!int 6", "61 # no", "- 61", "%"}) {
    std::vector<Row> rows = company(1);
    rows[1][4] = cell;
    const ReadRoster roster = read(rows);
    ASSERT_EQ(roster.messages.size(), 1u) << cell << "\n" << messages_of(roster);
    EXPECT_NE(roster.messages[0].what.find("row 2, column E"), std::string::npos)
        << messages_of(roster);
  }
  for (const char* cell :
       {"220\n  stiffness: soft", "220}", "{length: 220}", "[220", "[220]\nx: 1", "[220], x",
        "220, inset: 4", "\"", "&a", "!!int 220", "220 # no", "[[220, 4], [&a 1]]"}) {
    const ReadRoster roster =
        read(with_column(company(1), "shoe.board.length", {cell, "220"}), common_without_length);
    ASSERT_EQ(roster.messages.size(), 1u) << cell << "\n" << messages_of(roster);
    EXPECT_NE(roster.messages[0].what.find("row 2, column J"), std::string::npos)
        << messages_of(roster);
  }
  std::vector<Row> rows = company(1);
  rows[1][0] = rows[2][0] = "=M: \"7\" #";
  const ReadRoster roster = read(rows);
  ASSERT_TRUE(roster.ok()) << messages_of(roster);
  EXPECT_EQ(read_order(roster.orders[0].text, "odd").order.dancer, "=M: \"7\" #");
}

TEST(Roster, RefusesTextThatIsNoTable) {
  for (const char* text : {"", "dancer,foot\n", "dancer,foot\n\"M-07,left\n", "\xff\xfe"}) {
    const ReadRoster roster = read_roster(text, "roster.csv", common, "shoe.yaml");
    EXPECT_EQ(roster.messages.size(), 1u) << text;
    EXPECT_FALSE(roster.ok());
  }
}

} // namespace
} // namespace shankline::tests::roster_reader_test
