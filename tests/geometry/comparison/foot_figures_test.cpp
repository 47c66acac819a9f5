// How sure the figures of one foot are, by closed forms.
#include "geometry/comparison/foot_figures.hpp"

#include "tests/geometry/compared_order.hpp"
#include "tests/geometry/worked_order.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <stdexcept>
#include <string>

namespace shankline::tests::foot_figures_test {
namespace {

struct Figured {
  explicit Figured(Order order)
      : side(std::move(order)), foot{side.order,
                                     *side.order.left,
                                     *side.solution.left,
                                     side.contact.left ? &*side.contact.left : nullptr,
                                     {}} {}
  ComparedOrder side;
  SolvedFoot foot;
};

const DoubtedFigure& figure_of(const FigureGroup& group, const std::string& key) {
  const auto found = std::find_if(group.figures.begin(), group.figures.end(),
                                  [&](const DoubtedFigure& f) { return f.key == key; });
  if (found == group.figures.end()) throw std::out_of_range(key);
  return *found;
}

// The slope of the angle atan(apart/wide) is 1/(wide (1 + tan²)); the breaks lie 4 apart over 33.
TEST(KnifeFigures, SkewIsAsSureAsTheTwoBreaksApart) {
  const Figured figured(worked_order());
  const SolvedTrim& trim = *figured.side.solution.left->trim;
  ASSERT_NEAR(std::tan(trim.skew), 4.0 / 33, 1e-12);
  const FigureGroup knife = knife_figures(figured.foot);
  const DoubtedFigure& skew = figure_of(knife, "trim.skew");
  EXPECT_TRUE(skew.missing.empty()) << skew.missing;
  EXPECT_DOUBLE_EQ(skew.value.value, trim.skew);
  const double slope = 1 / (33 * (1 + 16.0 / (33 * 33)));
  EXPECT_NEAR(skew.value.u, trim.doubt.breaks_apart->u * slope, 1e-9);
}

TEST(KnifeFigures, ASingleBreakHasNoSkewToCompare) {
  Order order = worked_order();
  order.left->foot.arch_break = {measured(95), {}, {}, {}};
  const Figured figured(order);
  EXPECT_EQ(figure_of(knife_figures(figured.foot), "trim.skew").missing, "one arch break only");
}

// The kept length is the board's length less the cut. A source that does not move the board's
// length enters as in the cut, with the other sign.
TEST(KnifeFigures, WhatIsKeptDependsOnTheCutAndOnTheBoardsLengthOnly) {
  const Figured figured(worked_order());
  const FigureGroup knife = knife_figures(figured.foot);
  const auto& cut = figure_of(knife, "trim.final.centre").value.parts;
  const auto& kept = figure_of(knife, "pieces.kept.length").value.parts;
  int same = 0;
  for (std::size_t i = 0; i < kept.size(); ++i) {
    if (knife.sources[i].name.find("board.length") != std::string::npos) {
      if (knife.sources[i].name == "left.board.length") {
        EXPECT_GT(kept[i], 0.1);
      }
      continue;
    }
    EXPECT_NEAR(kept[i], i < cut.size() ? -cut[i] : 0, 1e-12) << knife.sources[i].name;
    ++same;
  }
  EXPECT_GT(same, 5);
}

// A default or a grade by hand is one guess for both shoes; a bending test belongs to its shoe.
TEST(EstimateFigures, AGuessedStiffnessIsSharedAndAMeasuredOneIsTheShoesOwn) {
  const auto own = [](const Stiffness& stiffness) {
    Order order = worked_order();
    order.left->shoe.stiffness = stiffness;
    const Figured figured(order);
    const FigureGroup estimates = estimate_figures(figured.foot);
    const auto found =
        std::find_if(estimates.sources.begin(), estimates.sources.end(), [](const Source& s) {
          return s.name.find("the board's stiffness") != std::string::npos;
        });
    if (found == estimates.sources.end()) throw std::out_of_range("stiffness");
    EXPECT_EQ(found->name == "left.the board's stiffness", !found->shared) << found->name;
    return !found->shared;
  };
  EXPECT_FALSE(own({}));
  EXPECT_FALSE(own(Grade::over_the_knee));
  EXPECT_TRUE(own(BendingStiffness{80000, 4000}));
}

} // namespace
} // namespace shankline::tests::foot_figures_test
