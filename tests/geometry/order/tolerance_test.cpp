#include "geometry/order/tolerance.hpp"

#include <gtest/gtest.h>

#include <limits>
#include <optional>
#include <vector>

namespace shankline::tests::tolerance_test {
namespace {

struct Row {
  double over; ///< nominals above this
  double up_to;
  std::optional<double> medium;
  std::optional<double> coarse;
  std::optional<double> very_coarse;
};

// ISO 2768-1:1989, table 1, permissible deviations of linear dimensions, mm (as secondary sources
// print them; the standard itself was not seen). The first row begins at 0.5, 0.5 included.
const std::vector<Row> table{
    {0.5, 3, 0.1, 0.2, std::nullopt}, {3, 6, 0.1, 0.3, 0.5},
    {6, 30, 0.2, 0.5, 1.0},           {30, 120, 0.3, 0.8, 1.5},
    {120, 400, 0.5, 1.2, 2.5},        {400, 1000, 0.8, 2.0, 4.0}}; // this row from memory

ToleranceWish by_class(ToleranceClass tolerance_class) {
  ToleranceWish wish;
  wish.other = tolerance_class;
  return wish;
}

TEST(Tolerance, MeetsEveryRowOfTheTable) {
  for (const Row& row : table) {
    for (const double nominal : {row.over + 1e-9, 0.5 * (row.over + row.up_to), row.up_to}) {
      EXPECT_EQ(general_tolerance(ToleranceClass::medium, nominal), row.medium) << nominal;
      EXPECT_EQ(general_tolerance(ToleranceClass::coarse, nominal), row.coarse) << nominal;
      EXPECT_EQ(general_tolerance(ToleranceClass::very_coarse, nominal), row.very_coarse)
          << nominal;
    }
  }
}

TEST(Tolerance, ANominalOnTheBorderBelongsToTheRowBelow) {
  EXPECT_EQ(general_tolerance(ToleranceClass::coarse, 6), 0.3) << "6 is still over 3 to 6";
  EXPECT_EQ(general_tolerance(ToleranceClass::coarse, 6.001), 0.5);
  EXPECT_EQ(general_tolerance(ToleranceClass::coarse, 3), 0.2);
  EXPECT_EQ(general_tolerance(ToleranceClass::coarse, 0.5), 0.2);
  EXPECT_EQ(general_tolerance(ToleranceClass::medium, 120), 0.3);
  EXPECT_EQ(general_tolerance(ToleranceClass::very_coarse, 400), 2.5);
}

TEST(Tolerance, TableHasNothingBelowAHalfNorOverAThousand) {
  for (const auto tolerance_class :
       {ToleranceClass::medium, ToleranceClass::coarse, ToleranceClass::very_coarse}) {
    for (const double nominal :
         {0.0, 0.49, -10.0, 1000.001, 5000.0, std::numeric_limits<double>::quiet_NaN()})
      EXPECT_FALSE(general_tolerance(tolerance_class, nominal)) << nominal;
  }
  EXPECT_FALSE(general_tolerance(ToleranceClass::very_coarse, 2));
}

// ISO 2768-1:1989, table 1, row "over 400 up to 1000": from memory. Before, there was no such row:
// general_tolerance(coarse, 900) was empty, and dimension_tolerance(coarse, 900) was +1.2, -1.2.
TEST(Tolerance, TheRowOver400HoldsUpTo1000AndBeyond) {
  for (const double nominal : {400.001, 700.0, 1000.0}) {
    EXPECT_EQ(general_tolerance(ToleranceClass::medium, nominal), 0.8) << nominal;
    EXPECT_EQ(general_tolerance(ToleranceClass::coarse, nominal), 2) << nominal;
    EXPECT_EQ(general_tolerance(ToleranceClass::very_coarse, nominal), 4) << nominal;
  }
  EXPECT_FALSE(general_tolerance(ToleranceClass::coarse, 1000.001));
  for (const double nominal : {400.001, 1000.0, 2500.0}) {
    EXPECT_EQ(dimension_tolerance(by_class(ToleranceClass::medium), nominal).plus, 0.8) << nominal;
    EXPECT_EQ(dimension_tolerance(by_class(ToleranceClass::coarse), nominal).plus, 2) << nominal;
    EXPECT_EQ(dimension_tolerance(by_class(ToleranceClass::very_coarse), nominal).minus, -4)
        << nominal;
  }
  EXPECT_EQ(dimension_tolerance(by_class(ToleranceClass::coarse), 400).plus, 1.2);
}

TEST(Tolerance, DimensionIsTolerancedBothWays) {
  const Tolerance coarse = dimension_tolerance(ToleranceWish{}, 53.5);
  EXPECT_EQ(coarse.plus, 0.8);
  EXPECT_EQ(coarse.minus, -0.8);
  const Tolerance knife = dimension_tolerance(by_class(ToleranceClass::very_coarse), 30);
  EXPECT_EQ(knife.plus, 1.0);
  EXPECT_EQ(knife.minus, -1.0);
}

TEST(Tolerance, BeyondTheTableTheNearestRowHolds) {
  EXPECT_EQ(dimension_tolerance(by_class(ToleranceClass::very_coarse), 2).plus, 0.5);
  EXPECT_EQ(dimension_tolerance(by_class(ToleranceClass::very_coarse), 2).minus, -0.5);
  EXPECT_EQ(dimension_tolerance(by_class(ToleranceClass::coarse), 0.3).plus, 0.2);
  EXPECT_EQ(dimension_tolerance(by_class(ToleranceClass::medium), 0.1).plus, 0.1);
  EXPECT_EQ(dimension_tolerance(by_class(ToleranceClass::coarse), 1900).plus, 2);
  EXPECT_EQ(dimension_tolerance(by_class(ToleranceClass::very_coarse), 1001).minus, -4);
}

TEST(Tolerance, AFigureOfTheOrdersOwnHoldsForEverySize) {
  ToleranceWish wish;
  wish.other = 0.7;
  for (const double nominal : {0.2, 2.0, 6.0, 53.5, 240.0, 1000.0}) {
    EXPECT_EQ(dimension_tolerance(wish, nominal).plus, 0.7) << nominal;
    EXPECT_EQ(dimension_tolerance(wish, nominal).minus, -0.7) << nominal;
  }
}

TEST(Tolerance, CutsAreOneSidedTowardsTheLongerBoard) {
  const ToleranceWish usual; // 1.5: common practice, no source
  EXPECT_EQ(cut_off_tolerance(usual).plus, 0);
  EXPECT_EQ(cut_off_tolerance(usual).minus, -1.5);
  EXPECT_EQ(keep_tolerance(usual).plus, 1.5);
  EXPECT_EQ(keep_tolerance(usual).minus, 0);
  ToleranceWish own;
  own.cut = 0.8;
  own.other = ToleranceClass::medium;
  EXPECT_EQ(cut_off_tolerance(own).plus, 0);
  EXPECT_EQ(cut_off_tolerance(own).minus, -0.8);
  EXPECT_EQ(keep_tolerance(own).plus, 0.8);
}

TEST(RadiusTolerance, IsThatOfTableTwo) {
  ToleranceWish wish; // coarse
  for (const auto& [radius, coarse, medium] :
       {std::array{0.2, 0.4, 0.2}, std::array{3.0, 0.4, 0.2}, std::array{3.001, 1.0, 0.5},
        std::array{6.0, 1.0, 0.5}, std::array{6.001, 2.0, 1.0}, std::array{25.0, 2.0, 1.0}}) {
    wish.other = ToleranceClass::coarse;
    EXPECT_EQ(radius_tolerance(wish, radius).plus, coarse) << radius;
    EXPECT_EQ(radius_tolerance(wish, radius).minus, -coarse) << radius;
    wish.other = ToleranceClass::very_coarse;
    EXPECT_EQ(radius_tolerance(wish, radius).plus, coarse) << radius;
    wish.other = ToleranceClass::medium;
    EXPECT_EQ(radius_tolerance(wish, radius).plus, medium) << radius;
  }
  wish.other = 0.7;
  EXPECT_EQ(radius_tolerance(wish, 6).plus, 0.7);
}

} // namespace
} // namespace shankline::tests::tolerance_test
