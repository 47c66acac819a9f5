#include "geometry/finishing/darning.hpp"

#include "geometry/order/yarn.hpp"
#include "tests/geometry/polygon_checks.hpp"
#include "tests/geometry/worked_order.hpp"

#include <gtest/gtest.h>

#include <optional>

namespace shankline::tests::darning_test {
namespace {

struct Count {
  const char* text;
  std::optional<double> tex;
};

// ISO 1144: tex = 1000/Nm; folded yarns by their resultant.
TEST(Yarn, CountsAreReadInEitherSystem) {
  for (const Count& c :
       {Count{"50 tex", 50}, Count{"50tex", 50}, Count{"Nm 20", 50}, Count{"Nm20", 50},
        Count{"Nm 40/2", 50}, Count{" 12.5 tex ", 12.5}, Count{"50", {}}, Count{"Nm", {}},
        Count{"tex", {}}, Count{"-5 tex", {}}, Count{"Nm 0", {}}, Count{"Nm 20/", {}},
        Count{"nan tex", {}}, Count{"Nm 20/2/2", {}}, Count{"1e3 tex", {}}, Count{"", {}},
        Count{"Nm inf", {}}, Count{"5 0 tex", {}}}) {
    const auto tex = parse_yarn(c.text);
    ASSERT_EQ(tex.has_value(), c.tex.has_value()) << c.text;
    EXPECT_DOUBLE_EQ(tex.value_or(0), c.tex.value_or(0)) << c.text;
  }
  EXPECT_DOUBLE_EQ(yarn_grams(20e3, 50), 1) << "Nm 20 is 20 m a gram";
}

FootOrder darned(RollSide side, double raise) {
  FootOrder order = *worked_order().left;
  order.shoe.platform = Platform{60, 40};
  order.foot.roll = {side, raise};
  DarningWish wish;
  wish.height = 5;
  wish.pitch = 4;
  wish.allowance = 0.1;
  order.alterations.darning = wish;
  return order;
}

SolvedDarning solved(const FootOrder& order, FootSide side) {
  Findings findings;
  const auto darning = solve_darning(order, side, "left", findings);
  EXPECT_TRUE(darning);
  EXPECT_TRUE(findings.empty());
  return darning.value_or(SolvedDarning{});
}

TEST(Darning, EvenWrapWorkedByHand) {
  const SolvedDarning darning = solved(darned(RollSide::none, 3), FootSide::left);
  EXPECT_NEAR(darning.perimeter, 164.914833, 1e-6);
  EXPECT_EQ(darning.raise, 0) << "a foot that does not roll";
  EXPECT_EQ(darning.stitches, 41);
  EXPECT_NEAR(darning.pitch, 164.914833 / 41, 1e-6);
  EXPECT_NEAR(darning.wrap_area, 5 * 164.914833, 1e-5);
  // Two passes of 2·area/pitch + perimeter, and a tenth more: area/pitch is 5 · 41.
  EXPECT_NEAR(darning.yarn, 2 * (2 * 5 * 41 + 164.914833) * 1.1, 1e-4);
  EXPECT_FALSE(darning.grams);
}

TEST(Darning, RaisedWhereTheFootRolls) {
  struct Case {
    FootSide foot;
    RollSide side;
    double part; ///< of the perimeter
  };
  for (const Case& c :
       {Case{FootSide::left, RollSide::in, 0.25}, Case{FootSide::left, RollSide::out, 0.75},
        Case{FootSide::right, RollSide::in, 0.75}, Case{FootSide::right, RollSide::out, 0.25}}) {
    const SolvedDarning darning = solved(darned(c.side, 3), c.foot);
    const double P = darning.perimeter;
    EXPECT_NEAR(darning.height_at(c.part * P), 8, 1e-12);
    EXPECT_NEAR(darning.height_at((1 - c.part) * P), 5, 1e-12) << "even on the other side";
    EXPECT_NEAR(darning.height_at((c.part + 0.125) * P), 5 + 1.5, 1e-9) << "half-way down";
    EXPECT_NEAR(darning.height_at(0), darning.height_at(P), 1e-12) << "the ends meet";
    const double area = simpson([&](double s) { return darning.height_at(s); }, 0, P, 4000);
    EXPECT_NEAR(darning.wrap_area, area, 1e-6 * area);
  }
}

TEST(Darning, OfTheFaceTakesMoreYarn) {
  FootOrder order = darned(RollSide::none, 0);
  const double bare = solved(order, FootSide::left).yarn;
  order.alterations.darning->face = true;
  order.alterations.darning->tex = 50;
  const SolvedDarning face = solved(order, FootSide::left);
  EXPECT_NEAR(face.face_area, 2028.561218, 1e-5);
  EXPECT_NEAR(face.yarn - bare, 2 * 2 * 2028.561218 / face.pitch * 1.1, 1e-4);
  EXPECT_NEAR(*face.grams, face.yarn / 1e6 * 50, 1e-12);
}

TEST(Darning, SaysWhatIsMissing) {
  Findings findings;
  FootOrder order = darned(RollSide::none, 0);
  order.shoe.platform.reset();
  EXPECT_FALSE(solve_darning(order, FootSide::left, "left", findings));
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_EQ(findings[0].key, "shoe.left.platform");

  findings.clear();
  order = darned(RollSide::none, 0);
  order.alterations.darning->raise = 2;
  EXPECT_FALSE(solve_darning(order, FootSide::right, "right", findings));
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_EQ(findings[0].key, "feet.right.roll");
}

} // namespace
} // namespace shankline::tests::darning_test
