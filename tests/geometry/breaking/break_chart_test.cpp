#include "geometry/breaking/break_chart.hpp"

#include "geometry/breaking/pair_contact.hpp"
#include "tests/geometry/random_orders.hpp"
#include "tests/geometry/worked_order.hpp"
#include "tests/support/fewer_cases.hpp"

#include <algorithm>
#include <cmath>
#include <gtest/gtest.h>

namespace shankline::tests::break_chart_test {
namespace {

struct Charted {
  Order order;
  Solution solution;
  PairContact contact;
  std::optional<BreakChart> chart;
};

Charted charted(const Order& order) {
  Charted charted{order, solve(order), {}, {}};
  charted.contact = pair_contact(order, charted.solution);
  if (charted.contact.left)
    charted.chart = break_chart(order, *charted.solution.left, *charted.contact.left);
  return charted;
}

TEST(BreakChart, HoldsTheOrderedCutAmongItsStations) {
  const Charted worked = charted(worked_order());
  ASSERT_TRUE(worked.chart);
  const SolvedTrim& trim = *worked.solution.left->trim;
  const auto& points = worked.chart->points;
  const auto ordered = std::find_if(points.begin(), points.end(), [&](const ChartPoint& p) {
    return std::abs(p.station - trim.station) < 1e-9;
  });
  ASSERT_NE(ordered, points.end());
  EXPECT_NEAR(ordered->heel_pry, worked.contact.left->heel_pry_left, 2e-3);
  EXPECT_NEAR(ordered->heel_gap, worked.contact.left->heel_gap_left, 2e-3);
  EXPECT_NEAR(ordered->break_at, worked.contact.left->cut->figures.break_at, 0.1);
  EXPECT_LE(points.front().station, trim.window.from);
  EXPECT_GE(points.back().station, trim.window.to);
}

TEST(BreakChart, ShowsLessPryTheShorterTheBoard) {
  const Charted worked = charted(worked_order());
  ASSERT_TRUE(worked.chart);
  const auto& points = worked.chart->points;
  ASSERT_GT(points.size(), 20u);
  for (std::size_t i = 1; i < points.size(); ++i)
    EXPECT_LE(points[i].heel_pry, points[i - 1].heel_pry + 1e-6) << points[i].station;
}

TEST(BreakChart, NamesAReadingThatTheOrderHas) {
  const Charted worked = charted(worked_order());
  ASSERT_TRUE(worked.chart);
  const auto known = {"the heel front", "the arch depth",        "the arch bend", "the fold",
                      "the arch break", "the board's stiffness", "the pull"};
  ASSERT_TRUE(worked.chart->doubt);
  const std::string& words = worked.chart->doubt->depends_on;
  EXPECT_NE(std::find(known.begin(), known.end(), words), known.end()) << words;
}

TEST(BreakChart, SaysInWordsWhatTheFiguresSay) {
  FootContact contact{};
  contact.cut.emplace();
  contact.uncut.figures.breaks_in_arch = contact.cut->figures.breaks_in_arch = true;
  contact.uncut.figures.break_at = FootStation(139);
  contact.cut->figures.break_at = FootStation(61);
  contact.heel_gap_left = 0.26;
  contact.heel_pry_left = 0.31;
  contact.board_left = 35.6;
  EXPECT_EQ(
      sentence(contact),
      "Cut to the final line, the shoe should bend 78 mm nearer the heel than uncut. Compared with "
      "uncut it stands off the heel a quarter as far and pries it with a third of the force. 36 mm "
      "of board stay behind the arch break.");
  contact.uncut.figures.breaks_in_arch = false;
  EXPECT_TRUE(sentence(contact).starts_with(
      "Cut to the final line, the shoe should bend under your arch; uncut it would not. Compared"))
      << sentence(contact);
  contact.cut->figures.breaks_in_arch = false;
  EXPECT_TRUE(sentence(contact).starts_with(
      "Cut to the final line, the shoe should still not bend under your arch. Compared"))
      << sentence(contact);
}

TEST(BreakChart, SaysItInWholePhrasesWhateverIsLeft) {
  struct Case {
    double left;
    const char* gap;
    const char* pry;
  };
  FootContact contact{};
  contact.cut.emplace();
  for (const Case& c :
       {Case{0.02, "it stands off the heel hardly at all and ",
             " and pries it with hardly any of the force. "},
        Case{0.52, "it stands off the heel half as far and ",
             " and pries it with half of the force. "},
        Case{0.94, "it stands off the heel nine tenths as far and ",
             " and pries it with nine tenths of the force. "},
        Case{1.0, "it stands off the heel as far and ", " and pries it with all of the force. "},
        Case{1.3, "it stands off the heel farther and ", " and pries it harder. "}}) {
    contact.heel_gap_left = contact.heel_pry_left = c.left;
    EXPECT_NE(sentence(contact).find(c.gap), std::string::npos) << sentence(contact);
    EXPECT_NE(sentence(contact).find(c.pry), std::string::npos) << sentence(contact);
  }
}

/// The worked order with its board thinned from 60 to 96 in place of the cut.
Order thinned_order(double thickness) {
  Order order = worked_order();
  order.left->alterations.shank.reset();
  order.left->alterations.thinned = ThinWish{60, 96, thickness};
  order.left->shoe.board.thickness = 3.2;
  return order;
}

TEST(BreakChart, OfAThinnedBoardHoldsTheOrderedThickness) {
  for (const double thickness : {0.9, 1.6, 2.25, 3.15}) {
    const Charted thinned = charted(thinned_order(thickness));
    ASSERT_TRUE(thinned.chart) << thickness;
    EXPECT_TRUE(thinned.chart->points.empty());
    const auto& points = thinned.chart->thicknesses;
    const auto ordered = std::find_if(points.begin(), points.end(), [&](const ThicknessPoint& p) {
      return std::abs(p.thickness - thickness) < 1e-9;
    });
    ASSERT_NE(ordered, points.end()) << thickness;
    const FootContact& contact = *thinned.contact.left;
    EXPECT_NEAR(ordered->heel_pry, contact.heel_pry_left, 2e-3);
    EXPECT_NEAR(ordered->heel_gap, contact.heel_gap_left, 2e-3);
    EXPECT_NEAR(ordered->break_at, contact.cut->figures.break_at, 0.1);
    EXPECT_NEAR(ordered->stiffness_left, std::pow(thickness / 3.2, 3), 1e-12);
    ASSERT_TRUE(thinned.chart->doubt);
    EXPECT_NEAR(thinned.chart->doubt->heel_pry_left.value, contact.heel_pry_left, 1e-6);
    EXPECT_TRUE(thinned.chart->doubt->heel_pry_left.u > 0 ||
                thinned.chart->doubt->heel_pry_left_up_to) // hardly any is left
        << thickness;
  }
}

TEST(BreakChart, OfAThinnedBoardGoesFromTheFullBoardToAThirdOrTheOrderedThickness) {
  for (const double thickness : {0.9, 1.6, 2.25, 3.15}) {
    const auto points = charted(thinned_order(thickness)).chart->thicknesses;
    EXPECT_DOUBLE_EQ(points.front().thickness, 3.2);
    EXPECT_DOUBLE_EQ(points.front().stiffness_left, 1);
    EXPECT_NEAR(points.front().heel_pry, 1, 2e-3); // nothing is taken off: the uncut shoe
    EXPECT_NEAR(points.front().gap, 1, 2e-3);
    const double least = points.back().thickness;
    if (thickness < 3.2 / 3)
      EXPECT_NEAR(least, thickness, 1e-9);
    else {
      EXPECT_GE(least, 3.2 / 3 - 1e-9);
      EXPECT_LT(least - thickness_step, 3.2 / 3);
    }
    for (std::size_t i = 1; i < points.size(); ++i) {
      EXPECT_LE(points[i - 1].thickness - points[i].thickness, thickness_step + 1e-9);
      EXPECT_GT(points[i - 1].thickness, points[i].thickness + 1e-6);
    }
  }
}

TEST(BreakChart, SaysThatTheBoardIsThinnedAndNotThatItIsCut) {
  const std::string words = sentence(*charted(thinned_order(1.6)).contact.left);
  EXPECT_TRUE(words.starts_with("Thinned like this, the shoe should ")) << words;
  EXPECT_TRUE(words.ends_with(" of the force.")) << words;
  EXPECT_EQ(words.find("behind the arch break"), std::string::npos) << words;
}

TEST(BreakChart, IsThereForMostRandomOrdersWithADepth) {
  Draw draw(12);
  int with_depth = 0;
  int charts = 0;
  for (int i = 0; i < fewer_cases(60); ++i) {
    const Order order = random_order(draw);
    const Charted drawn = charted(order);
    if (!drawn.solution.left || !drawn.solution.left->arch.arch) continue;
    ++with_depth;
    if (!drawn.chart) continue;
    ++charts;
    for (const ChartPoint& p : drawn.chart->points)
      ASSERT_TRUE(std::isfinite(p.heel_pry) && std::isfinite(p.heel_gap) && std::isfinite(p.gap) &&
                  std::isfinite(p.break_at));
  }
  EXPECT_GT(with_depth, fewer_cases(25));
  EXPECT_GE(charts, with_depth * 95 / 100);
}

} // namespace
} // namespace shankline::tests::break_chart_test
