// The table of cuts does not reward cutting more: where nothing is cut it has no figures.
#include "cli/report/chart_table.hpp"

#include "geometry/breaking/pair_contact.hpp"
#include "geometry/order/figure.hpp"
#include "geometry/solution/solution.hpp"
#include "tests/geometry/worked_order.hpp"

#include <algorithm>
#include <cmath>
#include <gtest/gtest.h>
#include <sstream>
#include <string>
#include <vector>

namespace shankline::tests::chart_table_test {
namespace {

/// The worked order with the doubts of ordinary readings, so that there is a stop band.
Order ordinary_order() {
  Order order = worked_order();
  order.left->foot.arch_break.medial = measured(97, 4);
  order.left->foot.arch_break.lateral.reset();
  order.left->foot.heel_front = measured(61, 3);
  order.left->foot.fold = measured(6, 3);
  return order;
}

struct Row {
  double board = 0; ///< cut off
  std::vector<std::string> cells;
  std::string line;
};

class ChartTable : public testing::Test {
protected:
  void make(const Order& order) {
    solution = solve(order);
    ASSERT_FALSE(has_error(solution.findings));
    const PairContact contact = pair_contact(order, solution);
    ASSERT_TRUE(contact.left);
    const auto chart = break_chart(order, *solution.left, *contact.left);
    ASSERT_TRUE(chart);
    text = chart_table(*solution.left, *chart);
    std::istringstream lines(text);
    rows.clear();
    for (std::string line; std::getline(lines, line);) {
      EXPECT_LE(line.size(), 100u) << line; // bytes: dashes have three
      std::istringstream words(line);
      Row row{0, {}, line};
      for (std::string word; words >> word;)
        row.cells.push_back(word);
      if (row.cells.size() < 6 ||
          row.cells[0].find_first_not_of("0123456789.") != std::string::npos)
        continue;
      row.board = std::stod(row.cells[1]);
      rows.push_back(row);
    }
    ASSERT_GT(rows.size(), 8u) << text;
  }
  const SolvedTrim& trim() const { return *solution.left->trim; }
  /// The text with its line breaks as spaces, since a sentence may be broken anywhere.
  std::string on_one_line() const {
    std::string line = text;
    std::replace(line.begin(), line.end(), '\n', ' ');
    return line;
  }
  static bool has(const Row& row, const char* words) {
    return row.line.find(words) != std::string::npos;
  }

  Solution solution;
  std::string text;
  std::vector<Row> rows;
};

// The line lies at 62, the stop line at 80. The rows are 3 apart.
TEST_F(ChartTable, HasNoFiguresFromTheStopBandOn) {
  make(ordinary_order());
  int in_band = 0;
  int past = 0;
  for (const Row& row : rows) {
    const bool band = row.board > trim().stop_from.centre && row.board <= trim().stop.centre;
    const bool stop = row.board > trim().stop.centre;
    EXPECT_EQ(has(row, "STOP BAND"), band) << row.line;
    EXPECT_EQ(has(row, "PAST STOP"), stop) << row.line;
    EXPECT_EQ(has(row, "%"), !band && !stop) << row.line;
    EXPECT_EQ(has(row, "\u2013"), band || stop) << row.line;
    in_band += band ? 1 : 0;
    past += stop ? 1 : 0;
  }
  EXPECT_GE(in_band, 1) << text;
  EXPECT_GE(past, 1) << text;
}

// Before, cut-offs of rows were rounded to whole millimetres: up, so that a cut inside the band
// stood outside it. The rows lie at 62.6 and whole steps of 3, the band begins at 70.6 to 71.8.
TEST_F(ChartTable, MarksTheBandByTheFiguresThatItShows) {
  for (const double more : {0.3, 0.6, 0.8, 1.1, 1.4}) {
    Order order = ordinary_order();
    order.left->shoe.board.inset = measured(5.0 - more);
    make(order);
    const double begins = std::floor(trim().stop_from.centre * 2) / 2;
    const double ends = std::floor(trim().stop.centre * 2) / 2;
    for (const Row& row : rows) {
      EXPECT_DOUBLE_EQ(row.board, std::floor(row.board * 2) / 2) << row.line;
      EXPECT_LE(row.board, 62 + more + 3 * std::round((row.board - 62) / 3) + 1e-9) << row.line;
      EXPECT_EQ(has(row, "STOP"), row.board >= begins) << begins << ": " << row.line;
      if (has(row, "PAST STOP")) {
        EXPECT_GE(row.board, ends) << row.line;
      }
    }
  }
}

TEST_F(ChartTable, HasARowForEachLineToCutWithItsRulerNumber) {
  Order order = ordinary_order();
  order.left->foot.heel_front = measured(61.7, 3);
  make(order);
  const auto cut_off = [&](const char* name) {
    std::vector<std::string> found;
    for (const Row& row : rows)
      if (has(row, name)) found.push_back(row.cells.at(1));
    return found;
  };
  const auto ruler = [](double station) { return figure(std::floor(station * 2) / 2); };
  EXPECT_EQ(cut_off("< final line"), std::vector<std::string>{ruler(trim().final_cut.centre)})
      << text;
  ASSERT_TRUE(trim().first_cut);
  EXPECT_EQ(cut_off("< first cut"), std::vector<std::string>{ruler(trim().first_cut->centre)})
      << text;
}

TEST_F(ChartTable, SaysWhatADeeperCutCosts) {
  make(ordinary_order());
  for (const Row& row : rows) // the break lies at 97 on the foot, and at 98 on the board
    EXPECT_NEAR(std::stod(row.cells[2]) + row.board, 98, 1) << row.line;
  const std::string words = on_one_line();
  EXPECT_NE(words.find("The stop band goes from " + std::to_string(int(trim().stop_from.centre))),
            std::string::npos)
      << text;
  EXPECT_NE(words.find("never past the stop line"), std::string::npos) << text;
}

TEST_F(ChartTable, WithAFittersWordTheBandHasFiguresAndTheStopLineStillEndsThem) {
  Order order = ordinary_order();
  order.left->alterations.shank->accept_in_stop_band = true;
  make(order);
  int in_band = 0;
  for (const Row& row : rows) {
    const bool band = row.board > trim().stop_from.centre && row.board <= trim().stop.centre;
    if (band) ++in_band;
    EXPECT_EQ(has(row, "STOP BAND"), band) << row.line;
    EXPECT_EQ(has(row, "%"), row.board <= trim().stop.centre) << row.line;
  }
  EXPECT_GE(in_band, 1) << text;
  EXPECT_NE(on_one_line().find("only with a fitter's word"), std::string::npos) << text;
}

/// Returns the table of a board of `full` mm that is thinned to `left` mm; empty if there is none.
std::string thickness_table(double full, double left, Units units = Units::mm) {
  Order order = ordinary_order();
  order.left->alterations.shank.reset();
  order.left->alterations.thinned = ThinWish{60, 96, left};
  order.left->shoe.board.thickness = full;
  const Solution solution = solve(order);
  const PairContact contact = pair_contact(order, solution);
  if (!contact.left) return {};
  const auto chart = break_chart(order, *solution.left, *contact.left);
  return chart ? chart_table(*solution.left, *chart, units) : std::string();
}

// Before: "3.3 left, 0.2 taken off" a board of 3.4.
TEST(ThicknessTable, WhatIsLeftAndWhatIsTakenOffAddUpToTheBoard) {
  std::istringstream lines(thickness_table(3.4, 1.85));
  int rows = 0;
  bool ordered = false;
  for (std::string line; std::getline(lines, line);) {
    std::istringstream words(line);
    double left = 0;
    double off = 0;
    if (!(words >> left >> off)) continue;
    ++rows;
    EXPECT_NEAR(left + off, 3.4, 1e-9) << line;
    ordered = ordered || line.starts_with("    1.85    1.55 ");
  }
  EXPECT_GT(rows, 8);
  EXPECT_TRUE(ordered);
}

TEST(ThicknessTable, HasARowForTheOrderedThicknessAndSaysWhereToThin) {
  const std::string text = thickness_table(3.2, 1.6);
  ASSERT_NE(text, "");
  std::istringstream lines(text);
  int ordered = 0;
  for (std::string line; std::getline(lines, line);)
    if (line.find("< as ordered") != std::string::npos) {
      ++ordered;
      std::istringstream words(line);
      std::string left, off, stiff, percent;
      words >> left >> off >> stiff >> percent;
      EXPECT_EQ(left, "1.6") << line;
      EXPECT_EQ(off, "1.6") << line;
      EXPECT_EQ(stiff, "13") << line; // an eighth, 12.5
    }
  EXPECT_EQ(ordered, 1) << text;
  EXPECT_NE(text.find("Thin the board from 60.0 to 96.0."), std::string::npos) << text;
  EXPECT_NE(thickness_table(3.2, 1.6, Units::inch).find("60.0 (2 3/8 in)"), std::string::npos);
}

} // namespace
} // namespace shankline::tests::chart_table_test
