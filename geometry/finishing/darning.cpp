#include "geometry/finishing/darning.hpp"

#include "geometry/board/board_outline.hpp"
#include "geometry/order/reading_guide.hpp"
#include "geometry/order/yarn.hpp"
#include "geometry/plane/superellipse.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace shankline {
namespace {

/// The bump covers the rolling half of the edge: from memory, common practice.
constexpr double raised_part = 0.5;
constexpr int fewest_stitches = 8;

} // namespace

double SolvedDarning::height_at(double s) const {
  const double off = std::abs(std::remainder(s - raise_at, perimeter));
  if (raise == 0 || off >= raise_width / 2) return height;
  return height + raise * (1 + std::cos(2 * std::numbers::pi * off / raise_width)) / 2;
}

std::optional<SolvedDarning> solve_darning(const FootOrder& order, FootSide side,
                                           const std::string& name, Findings& findings) {
  const DarningWish& wish = *order.alterations.darning;
  if (!order.shoe.platform) {
    findings.push_back({Severity::error, "shoe." + name + ".platform",
                        "the platform's width and depth are missing",
                        "platform: {width: 44, depth: 26}",
                        how_to_take("platform.width") + " " + how_to_take("platform.depth")});
    return {};
  }
  const Roll& roll = order.foot.roll;
  const double raise = wish.raise.value_or(roll.side == RollSide::none ? 0 : roll.raise);
  if (raise > 0 && roll.side == RollSide::none) {
    findings.push_back({Severity::error, "feet." + name + ".roll",
                        "the darning is to be raised, and which way the foot rolls is not said",
                        "roll: in, or roll: out",
                        "Look at the worn platform: the side that is worn down is the one."});
    return {};
  }
  const double a = order.shoe.platform->width / 2;
  const double b = order.shoe.platform->depth / 2;
  SolvedDarning darning;
  darning.perimeter = superellipse_perimeter(a, b, end_exponent);
  darning.height = wish.height;
  darning.raise = raise;
  const bool first_quarter = (side == FootSide::left) == (roll.side != RollSide::out);
  darning.raise_at = darning.perimeter * (first_quarter ? 0.25 : 0.75);
  darning.raise_width = raised_part * darning.perimeter;
  darning.stitches =
      std::max(fewest_stitches, static_cast<int>(std::lround(darning.perimeter / wish.pitch)));
  darning.pitch = darning.perimeter / darning.stitches;
  darning.passes = wish.passes;
  darning.wrap_area = darning.height * darning.perimeter + raise * darning.raise_width / 2;
  if (wish.face) darning.face_area = superellipse_area(a, b, end_exponent);
  const double pass =
      2 * (darning.wrap_area + darning.face_area) / darning.pitch + darning.perimeter;
  darning.yarn = wish.passes * pass * (1 + wish.allowance);
  if (wish.tex) darning.grams = yarn_grams(darning.yarn, *wish.tex);
  return darning;
}

} // namespace shankline
