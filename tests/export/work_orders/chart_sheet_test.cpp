// The break chart does not reward cutting more, and every figure says how well it is known.
#include "export/work_orders/chart_sheet.hpp"

#include "export/sets/order_sheets.hpp"
#include "geometry/breaking/pair_contact.hpp"
#include "tests/geometry/worked_order.hpp"

#include <algorithm>
#include <gtest/gtest.h>
#include <string>
#include <variant>

namespace shankline::tests::chart_sheet_test {
namespace {

class ChartSheet : public testing::Test {
protected:
  void draw(const Order& order, Units units = Units::mm) {
    solution_ = solve(order);
    ASSERT_FALSE(has_error(solution_.findings));
    const PairContact contact = pair_contact(order, solution_);
    ASSERT_TRUE(contact.left);
    chart_ = break_chart(order, *solution_.left, *contact.left);
    ASSERT_TRUE(chart_);
    std::vector<FootChart> charts{{FootSide::left, *chart_}};
    set_ = chart_set(order, solution_, charts, {papers().front(), units, "4f9c 2107"});
  }

  std::vector<Text> texts() const { return all<Text>(); }
  std::vector<Stroke> strokes(LineKind kind) const {
    std::vector<Stroke> found;
    for (const Stroke& line : all<Stroke>())
      if (line.kind == kind) found.push_back(line);
    return found;
  }
  /// The longest stroke of the kind: the curve, not its sample in the key.
  Polyline curve(LineKind kind) const {
    Polyline longest;
    double width = 0;
    for (const Stroke& line : strokes(kind))
      if (const double wide = line.points.back().x - line.points.front().x; wide > width) {
        width = wide;
        longest = line.points;
      }
    return longest;
  }
  std::string words() const {
    std::string all_words;
    for (const Text& text : texts())
      all_words += text.words + " ";
    return all_words;
  }
  bool has_text_at(const std::string& words, double x) const {
    for (const Text& text : texts())
      if (text.words == words && std::abs(text.at.x - x) < 0.01) return true;
    return false;
  }
  const SolvedTrim& trim() const { return *solution_.left->trim; }

  Solution solution_;
  std::optional<BreakChart> chart_;
  SheetSet set_;

private:
  template <class Kind> std::vector<Kind> all() const {
    std::vector<Kind> found;
    for (const Mark& mark : set_.drawing.pages.at(0).marks)
      if (const Kind* one = std::get_if<Kind>(&mark)) found.push_back(*one);
    return found;
  }
};

TEST_F(ChartSheet, ShowsTheBoardLeftBehindTheBreakFalling) {
  draw(worked_order());
  const Polyline left = curve(LineKind::left_curve);
  ASSERT_EQ(left.size(), 2u);
  EXPECT_LT(left.front().x, left.back().x);
  EXPECT_GT(left.front().y, left.back().y + 20);
  // 95 − 61, as well known as the stop line.
  const std::string doubt = whole_doubt_words(trim().doubt.stop);
  EXPECT_NE(words().find("board left behind the break: 34 " + doubt + " mm"), std::string::npos)
      << words();
}

TEST_F(ChartSheet, DrawsTheStopBandWithItsNameAndNoGainInIt) {
  draw(worked_order());
  const auto band = strokes(LineKind::stop_band);
  ASSERT_GE(band.size(), 10u);
  double left = 1e9;
  double right = 0;
  for (const Stroke& line : band) {
    left = std::min(left, line.points[0].x);
    right = std::max(right, line.points[0].x);
  }
  // The band is as wide as on the board, in the chart's own scale.
  const double scale =
      (strokes(LineKind::final_cut)[0].points[0].x - strokes(LineKind::first_cut)[0].points[0].x) /
      (trim().final_cut.centre - trim().first_cut->centre);
  EXPECT_NEAR(right - left, (trim().stop.centre - trim().stop_from.centre) * scale, 1.3);
  bool named = false;
  for (const Text& text : texts())
    named = named || (text.words == "STOP BAND: nothing is cut here" && text.at.x > left &&
                      text.at.x < right);
  EXPECT_TRUE(named);
  for (const LineKind kind :
       {LineKind::gap_curve, LineKind::heel_gap_curve, LineKind::heel_pry_curve})
    EXPECT_LE(curve(kind).back().x, left + 0.4);
  for (const Stroke& line : strokes(LineKind::window))
    EXPECT_LE(line.points[0].x, left + 0.4);
}

TEST_F(ChartSheet, HasTheKnifesRulerNumbersAtTheMarkedPlaces) {
  draw(worked_order());
  const double first = strokes(LineKind::first_cut).at(0).points[0].x;
  const double final_cut = strokes(LineKind::final_cut).at(0).points[0].x;
  EXPECT_TRUE(has_text_at("1 FIRST", first));
  EXPECT_TRUE(has_text_at(ruler_text(trim().first_cut->centre, Rounding::down), first));
  EXPECT_TRUE(has_text_at("2 FINAL", final_cut));
  EXPECT_TRUE(has_text_at("62.0", final_cut)) << words();
  const double stop = strokes(LineKind::stop).at(0).points[0].x;
  EXPECT_TRUE(has_text_at("STOP", stop));
  EXPECT_TRUE(has_text_at("78.0", stop));
}

std::size_t count(const std::string& words, const std::string& part) {
  std::size_t found = 0;
  for (std::size_t at = words.find(part); at != std::string::npos; at = words.find(part, at + 1))
    ++found;
  return found;
}

TEST_F(ChartSheet, EveryFigureSaysHowWellItIsKnown) {
  draw(worked_order());
  ASSERT_TRUE(chart_->doubt);
  for (const Text& text : texts())
    if (text.words.find("; stands off") != std::string::npos && text.size < 3) {
      const std::size_t places = text.words.starts_with("bends at") ? 3 : 2;
      EXPECT_EQ(count(text.words, "\u00b1") + count(text.words, "up to"), places) << text.words;
    }
  EXPECT_GT(chart_->doubt->uncut_gap.expanded(), 0);
  EXPECT_NEAR(chart_->doubt->uncut_gap.value, chart_->contact.uncut.figures.gap, 1e-6);
  EXPECT_NEAR(chart_->doubt->uncut_heel_gap.value, chart_->contact.uncut.figures.heel_gap, 1e-6);
  EXPECT_EQ(words().find("\u00b10 "), std::string::npos);
  EXPECT_EQ(words().find("\u00b10.0"), std::string::npos);
}

TEST_F(ChartSheet, NamesTheFootAsTheFormDoes) {
  draw(worked_order(), Units::inch);
  for (const char* name :
       {"arch break", "heel front", "ball: middle of the big-toe joint", "back of the heel"}) {
    int profiles = 0;
    for (const Text& text : texts())
      profiles += text.words == name;
    EXPECT_EQ(profiles, 2) << name;
  }
  EXPECT_NE(words().find("2 7/16 in"), std::string::npos); // 62.0
}

TEST_F(ChartSheet, OfAThinnedBoardMarksTheThicknessToLeave) {
  Order order = worked_order();
  order.left->alterations.shank.reset();
  order.left->alterations.thinned = ThinWish{60, 96, 1.6};
  order.left->shoe.board.thickness = 3.2;
  draw(order);
  const auto ordered = strokes(LineKind::final_cut);
  ASSERT_EQ(ordered.size(), 1u);
  EXPECT_TRUE(has_text_at("LEAVE 1.6", ordered[0].points[0].x)) << words();
  // Half the thickness is an eighth of the stiffness; thinner is to the right.
  const Polyline left = curve(LineKind::left_curve);
  ASSERT_GT(left.size(), 10u);
  EXPECT_LT(left.front().x, left.back().x);
  EXPECT_NE(words().find("stiffness left of the board there: 13 %"), std::string::npos) << words();
  const auto at = std::find_if(left.begin(), left.end(), [&](const Point& p) {
    return std::abs(p.x - ordered[0].points[0].x) < 1e-6;
  });
  ASSERT_NE(at, left.end());
  const double bottom = ordered[0].points[0].y;
  EXPECT_NEAR(at->y - bottom, (left.front().y - bottom) / 8, 1e-6);
  EXPECT_NE(words().find("up to 0.1 at the heel front"), std::string::npos) << words();
  EXPECT_NE(words().find("choosing between thicknesses"), std::string::npos);
  EXPECT_TRUE(strokes(LineKind::stop_band).empty()); // there is no line to stop at
}

} // namespace
} // namespace shankline::tests::chart_sheet_test
