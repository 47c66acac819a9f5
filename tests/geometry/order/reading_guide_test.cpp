// The limits that the manual, the schema and the questions promise, in a table of their own: a slip
// in the guide would let a wrong reading through, or refuse a right one.
#include "geometry/order/reading_guide.hpp"

#include "geometry/numerics/degree.hpp"
#include "geometry/order/order_limits.hpp"

#include <gtest/gtest.h>

#include <string>
#include <vector>

namespace shankline::tests::reading_guide_test {
namespace {

struct Row {
  std::string key;
  Quantity quantity;
  double least;
  double most;
  double finding; ///< half-width of what one reading misses
};

// mm, degrees, per cent, grams. All from memory or ours: none has a published source.
using enum Quantity;
const std::vector<Row> table{
    {"length", length, 120, 340, 1},
    {"ball_length", length, 80, 260, 2},
    {"heel_front", length, 20, 130, 3},
    {"arch_break", length, 30, 240, 4},
    {"arch_break.medial", length, 30, 240, 4},
    {"arch_break.lateral", length, 30, 240, 5},
    {"arch_break.across", length, 15, 90, 1},
    {"arch_depth", length, 0.5, 60, 2},
    {"deepest", length, 30, 240, 4},
    {"arch_bend", angle, 2, 90, 4},
    {"fold", length, 0, 25, 3},
    {"ankle_girth", length, 120, 360, 3},
    {"ankle_height", length, 25, 120, 3},
    {"ball_width", length, 50, 140, 2},
    {"heel_width", length, 35, 110, 2},
    {"roll.raise", length, 0, 15, 1},
    {"board.length", length, 100, 320, 1},
    {"board.inset", length, 0, 40, 1.5},
    {"board.thickness", length, 0.8, 10, 0.2},
    {"board.layers", number, 1, 6, 0},
    {"board.edge_thickness", length, 0.2, 8, 0.2},
    {"board.sole_length", length, 100, 340, 1.5},
    {"board.widths.station", length, 1, 320, 1},
    {"board.widths.width", length, 10, 110, 1},
    {"board.widths.half", length, 4, 60, 1},
    {"sides.back", length, 20, 75, 1.5},
    {"sides.low", length, 15, 75, 1.5},
    {"sides.low_at", length, 20, 240, 3},
    {"sides.wing", length, 15, 75, 1.5},
    {"sides.wing_at", length, 60, 280, 3},
    {"sides.lean", angle, -10, 45, 3},
    {"sides.width_across", length, 15, 110, 3},
    {"sides.casing", length, 3, 20, 0.5},
    {"sides.heights.station", length, 5, 280, 3},
    {"sides.heights.height", length, 15, 75, 1.5},
    {"sides.throat", length, 40, 260, 3},
    {"platform.width", length, 15, 90, 1},
    {"platform.depth", length, 8, 60, 1},
    {"stiffness.board", number, 1000, 1000000, 0},
    {"stiffness.sole", number, 100, 200000, 0},
    {"stiffness.droop", length, 0.5, 150, 0.5},
    {"stiffness.weight", mass, 5, 3000, 1},
    {"stiffness.free", length, 40, 300, 0.5},
    {"pull", number, 0.001, 1, 0},
    {"pull.travel", length, 0.5, 30, 2},
    {"shank.reach", number, 0.5, 1.5, 0},
    {"shank.reach.learned", length, 10, 160, 0},
    {"shank.reach.U", length, 2, 40, 0},
    {"shank.reach.pairs", number, 1, 1000, 0},
    {"shank.reach.worn_good", number, 0, 1000, 0},
    {"shank.reach.model", number, 1, 99, 0},
    {"shank.reach.too_far", length, 0, 200, 0},
    {"shank.keep", percent, 40, 95, 0},
    {"shank.mark", length, 1, 320, 1},
    {"shank.bevel", length, 0, 40, 0},
    {"shank.corner", length, 0, 40, 0},
    {"shank.tuck_max", length, 0, 40, 0},
    {"shank.bearing_min", length, 5, 80, 0},
    {"shank.hold_back", length, 1, 60, 0},
    {"sides.medial", length, 0, 60, 0},
    {"sides.lateral", length, 0, 60, 0},
    {"sides.back_depth", length, 0, 40, 0},
    {"sides.turn", length, 0, 15, 0},
    {"sides.keep", length, 10, 70, 0},
    {"sides.slope", number, 0.05, 2, 0},
    {"sides.run_out", length, 5, 120, 0},
    {"sides.deepest_at", length, 30, 240, 0},
    {"sides.deepest_length", length, 0, 120, 0},
    {"sides.stretch", percent, 0, 60, 0},
    {"shank.layers", number, 1, 6, 0},
    {"thinned.from", length, 1, 320, 0},
    {"thinned.to", length, 1, 320, 0},
    {"thinned.thickness", length, 0.5, 9, 0},
    {"liner.clearance", length, 0, 10, 0},
    {"liner.length", length, 60, 320, 1},
    {"darning.passes", number, 1, 6, 0},
    {"darning.height", length, 1, 25, 0},
    {"darning.raise", length, 0, 15, 0},
    {"darning.pitch", length, 1, 10, 0},
    {"darning.allowance", percent, 0, 100, 0},
    {"darning.yarn", number, 5, 5000, 0},
    {"ribbons.stretch", percent, 0, 60, 0},
    {"ribbons.width", length, 5, 60, 0},
    {"ribbons.wraps", number, 0.5, 4, 0},
    {"ribbons.pitch", length, 0, 60, 0},
    {"ribbons.overlap", length, 5, 40, 0},
    {"ribbons.rise", length, 10, 200, 0},
    {"ribbons.tie", length, 50, 500, 0},
    {"ribbons.sewn_at", length, 10, 240, 3},
    {"elastics.stretch", percent, 5, 100, 0},
    {"elastics.width", length, 3, 60, 0},
    {"elastics.over", length, 40, 300, 3},
    {"elastics.sewn_at", length, 10, 240, 3},
    {"elastics.overlap", length, 3, 30, 0},
    {"tuck.depth", length, 0.5, 12, 0},
    {"tuck.down", length, 10, 70, 0},
    {"worn.board_end", length, 60, 320, 1},
    {"worn.heel_end", length, 80, 340, 1},
    {"worn.medial", length, 10, 75, 1.5},
    {"worn.lateral", length, 10, 75, 1.5},
    {"worn.back", length, 10, 75, 1.5},
    {"made.size", length, 0.1, 500, 0},
    {"made.layers", number, 0, 6, 0},
    {"made.within", length, 0.01, 10, 0},
    {"schedule.hours", number, 0.05, 12, 0},
    {"quantity", number, 1, 999, 0},
    {"tolerances.cut", length, 0.1, 10, 0},
    {"tolerances.other", length, 0.05, 10, 0},
};

TEST(ReadingGuide, KeepsEveryLimitAndDoubtOfTheTable) {
  for (const Row& row : table) {
    const ReadingGuide* const guide = reading_guide(row.key);
    ASSERT_NE(guide, nullptr) << row.key;
    EXPECT_EQ(guide->quantity, row.quantity) << row.key;
    EXPECT_EQ(guide->least, row.least) << row.key;
    EXPECT_EQ(guide->most, row.most) << row.key;
    EXPECT_EQ(guide->finding, row.finding) << row.key;
  }
  EXPECT_EQ(reading_guides().size(), table.size()) << "a row that the table above lacks";
}

TEST(ReadingGuide, HasNoRowForAnUnknownKey) {
  EXPECT_EQ(reading_guide("instep"), nullptr);
  EXPECT_EQ(how_to_take("instep"), "");
}

TEST(ReadingGuide, SaysLimitsInTheirUnit) {
  EXPECT_EQ(limits_in_words(*reading_guide("length")), "120 to 340 mm");
  EXPECT_EQ(limits_in_words(*reading_guide("arch_bend")), "2 to 90 degrees");
  EXPECT_EQ(limits_in_words(*reading_guide("shank.keep")), "40 to 95 %");
  EXPECT_EQ(limits_in_words(*reading_guide("stiffness.weight")), "5 to 3000 g");
  EXPECT_EQ(limits_in_words(*reading_guide("shank.reach")), "0.5 to 1.5");
  EXPECT_EQ(limits_in_words(*reading_guide("made.within")), "0.01 to 10 mm");
}

TEST(ReadingGuide, ReadingsOfTheFootAreRefusedJustPastTheirLimitsOnly) {
  const auto refused = [](const ReadingGuide& row, double shown) {
    FootOrder order;
    row.in_foot.of(order.foot) = measured(shown * order_units(row.quantity));
    order.shoe.board.inset.reset();
    for (const Finding& finding : outside_limits(order, "left"))
      if (finding.key == "feet.left." + std::string(row.key)) return true;
    return false;
  };
  int readings = 0;
  for (const Row& row : table) {
    const ReadingGuide& guide = *reading_guide(row.key);
    if (!guide.in_foot) continue;
    ++readings;
    EXPECT_TRUE(refused(guide, row.least - 0.01)) << row.key;
    EXPECT_FALSE(refused(guide, row.least)) << row.key;
    EXPECT_FALSE(refused(guide, row.most)) << row.key;
    EXPECT_TRUE(refused(guide, row.most + 0.01)) << row.key;
  }
  EXPECT_EQ(readings, 14);
}

TEST(ReadingGuide, TurnsItsUnitsIntoThoseOfTheOrder) {
  EXPECT_DOUBLE_EQ(order_units(length), 1);
  EXPECT_DOUBLE_EQ(order_units(angle), degree);
  EXPECT_DOUBLE_EQ(order_units(percent), 0.01);
  EXPECT_DOUBLE_EQ(order_units(mass), 1);
  EXPECT_DOUBLE_EQ(order_units(number), 1);
}

} // namespace
} // namespace shankline::tests::reading_guide_test
