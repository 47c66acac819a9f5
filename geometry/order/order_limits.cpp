#include "geometry/order/order_limits.hpp"

#include "geometry/numerics/degree.hpp"
#include "geometry/order/figure.hpp"
#include "geometry/order/reading_guide.hpp"

#include <cmath>
#include <optional>
#include <string_view>

namespace shankline {
namespace {

constexpr double in_percent = 100;

class LimitCheck {
public:
  explicit LimitCheck(std::string foot) : foot_(std::move(foot)) {}

  /// `key` as in the guide, `value` times `scale` in the guide's unit.
  void figure(const char* section, std::string_view key, double value, double scale = 1) {
    figure_as(section, key, key, value, scale);
  }
  /// Checks a key that has no row of its own in the guide and uses another key's.
  void figure_as(const char* section, std::string_view key, std::string_view row, double value,
                 double scale = 1) {
    const ReadingGuide& guide = *reading_guide(row);
    const double shown = value * scale;
    // Radians that came from whole degrees may miss them by a little.
    constexpr double rounding_error = 1e-9;
    if (std::isfinite(shown) && shown >= guide.least - rounding_error &&
        shown <= guide.most + rounding_error)
      return;
    const std::string words = std::isfinite(shown) ? short_figure(shown, 2) : "no number";
    findings_.push_back({Severity::error, section + ("." + foot_) + "." + std::string(key),
                         std::string(guide.name) + " is " + words, "from " + limits_in_words(guide),
                         std::string(guide.how)});
  }
  void figure(const char* section, std::string_view key, const std::optional<double>& value) {
    if (value) figure(section, key, *value);
  }
  void reading(const char* section, std::string_view key, const std::optional<Reading>& reading,
               double scale = 1) {
    if (!reading) return;
    for (const double value : reading->values)
      figure(section, key, value, scale);
  }

  Findings found() && { return std::move(findings_); }

private:
  std::string foot_;
  Findings findings_;
};

void check_foot(LimitCheck& check, const Foot& foot) {
  for (const ReadingGuide& row : reading_guides())
    if (row.in_foot)
      check.reading("feet", row.key, row.in_foot.of(foot), 1 / order_units(row.quantity));
  check.figure("feet", "arch_break.across", foot.arch_break.across);
}

void check_board_figures(LimitCheck& check, const Board& board) {
  check.reading("shoe", "board.inset", board.inset);
  if (board.state == BoardState::loose) check.reading("shoe", "board.length", board.length);
  check.figure("shoe", "board.thickness", board.thickness);
  check.figure("shoe", "board.edge_thickness", board.edge_thickness);
  check.figure("shoe", "board.sole_length", board.sole_length);
}

/// Checks the heights of one side, or those that both sides share: `inside` is "sides.medial" or
/// "sides".
template <class Heights>
void check_heights(LimitCheck& check, const std::string& inside, const Heights& heights) {
  const auto figure = [&](const std::string& name, const std::optional<double>& value) {
    if (value) check.figure_as("shoe", inside + "." + name, "sides." + name, *value);
  };
  figure("low", heights.low);
  figure("low_at", heights.low_at);
  figure("wing", heights.wing);
  figure("wing_at", heights.wing_at);
  for (const SideHeight& height : heights.heights) {
    check.figure_as("shoe", inside + ".heights", "sides.heights.station", height.station);
    check.figure_as("shoe", inside + ".heights", "sides.heights.height", height.height);
  }
}

void check_stock_sides(LimitCheck& check, const StockSides& sides) {
  check.figure("shoe", "sides.back", sides.back);
  check_heights(check, "sides", sides);
  if (sides.medial) check_heights(check, "sides.medial", *sides.medial);
  if (sides.lateral) check_heights(check, "sides.lateral", *sides.lateral);
  if (sides.lean_rad) check.figure("shoe", "sides.lean", *sides.lean_rad, 1 / degree);
  check.figure("shoe", "sides.width_across", sides.width_across);
  check.figure("shoe", "sides.casing", sides.casing);
  check.figure("shoe", "sides.throat", sides.throat);
}

void check_lowered_sides(LimitCheck& check, const SideWish& wish) {
  const char* const section = "alterations";
  check.figure(section, "sides.medial", wish.medial);
  check.figure(section, "sides.lateral", wish.lateral);
  check.figure_as(section, "sides.back", "sides.back_depth", wish.back);
  check.figure(section, "sides.turn", wish.turn);
  check.figure(section, "sides.keep", wish.keep);
  check.figure(section, "sides.slope", wish.slope);
  check.figure(section, "sides.run_out", wish.run_out);
  check.figure(section, "sides.deepest_at", wish.deepest_at);
  check.figure(section, "sides.deepest_length", wish.deepest_length);
  check.figure(section, "sides.stretch", wish.stretch, in_percent);
}

void check_shank(LimitCheck& check, const ShankWish& wish) {
  if (const auto* reach = std::get_if<ReachRule>(&wish.rule))
    check.figure("alterations", "shank.reach", reach->reach);
  if (const auto* learned = std::get_if<LearnedRule>(&wish.rule); learned && learned->line) {
    const LearnedLine& line = *learned->line;
    check.figure("alterations", "shank.reach.learned", line.station);
    check.figure("alterations", "shank.reach.U", line.U);
    check.figure("alterations", "shank.reach.pairs", static_cast<double>(line.pairs));
    check.figure("alterations", "shank.reach.worn_good", static_cast<double>(line.worn_good));
    check.figure("alterations", "shank.reach.model", static_cast<double>(line.model));
    if (line.too_far) check.figure("alterations", "shank.reach.too_far", *line.too_far);
  }
  if (const auto* keep = std::get_if<KeepRule>(&wish.rule))
    check.figure("alterations", "shank.keep", keep->keep, in_percent);
  if (const auto* mark = std::get_if<MarkRule>(&wish.rule))
    check.reading("alterations", "shank.mark", mark->mark);
  check.figure("alterations", "shank.bevel", wish.bevel);
  if (wish.end == BoardEnd::rounded) check.figure("alterations", "shank.corner", wish.corner);
  check.figure("alterations", "shank.tuck_max", wish.tuck_max);
  check.figure("alterations", "shank.bearing_min", wish.bearing_min);
  check.figure("alterations", "shank.hold_back", wish.hold_back);
}

void check_other_work(LimitCheck& check, const Alterations& wish) {
  const auto figure = [&](const char* key, const auto& value, double scale = 1) {
    const std::optional<double> given = value;
    if (given) check.figure("alterations", key, *given, scale);
  };
  if (wish.thinned) {
    figure("thinned.from", wish.thinned->from);
    figure("thinned.to", wish.thinned->to);
    figure("thinned.thickness", wish.thinned->thickness);
  }
  if (wish.liner) {
    figure("liner.clearance", wish.liner->clearance);
    figure("liner.length", wish.liner->length);
  }
  if (wish.darning) {
    figure("darning.passes", wish.darning->passes);
    figure("darning.height", wish.darning->height);
    figure("darning.raise", wish.darning->raise);
    figure("darning.pitch", wish.darning->pitch);
    figure("darning.allowance", wish.darning->allowance, in_percent);
    figure("darning.yarn", wish.darning->tex);
  }
  if (wish.ribbons) {
    figure("ribbons.stretch", wish.ribbons->stretch, in_percent);
    figure("ribbons.width", wish.ribbons->width);
    figure("ribbons.wraps", wish.ribbons->wraps);
    figure("ribbons.pitch", wish.ribbons->pitch);
    figure("ribbons.overlap", wish.ribbons->overlap);
    figure("ribbons.rise", wish.ribbons->rise);
    figure("ribbons.tie", wish.ribbons->tie);
    figure("ribbons.sewn_at", wish.ribbons->sewn_at);
  }
  if (wish.elastics) {
    figure("elastics.stretch", wish.elastics->stretch, in_percent);
    figure("elastics.width", wish.elastics->width);
    figure("elastics.over", wish.elastics->over);
    figure("elastics.sewn_at", wish.elastics->sewn_at);
    figure("elastics.overlap", wish.elastics->overlap);
  }
  if (wish.tuck) {
    figure("tuck.depth", wish.tuck->depth);
    figure("tuck.down", wish.tuck->down);
  }
}

} // namespace

Findings outside_limits(const FootOrder& order, const std::string& foot) {
  LimitCheck check(foot);
  check_foot(check, order.foot);
  check_board_figures(check, order.shoe.board);
  if (order.shoe.sides) check_stock_sides(check, *order.shoe.sides);
  if (order.alterations.darning && order.shoe.platform) {
    check.figure("shoe", "platform.width", order.shoe.platform->width);
    check.figure("shoe", "platform.depth", order.shoe.platform->depth);
  }
  if (order.alterations.shank) check_shank(check, *order.alterations.shank);
  if (order.alterations.sides) check_lowered_sides(check, *order.alterations.sides);
  check_other_work(check, order.alterations);
  return std::move(check).found();
}

} // namespace shankline
