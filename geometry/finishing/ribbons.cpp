#include "geometry/finishing/ribbons.hpp"

#include "geometry/order/reading_guide.hpp"
#include "geometry/sides/sole_edge.hpp"

#include <cmath>

namespace shankline {
namespace {

// Figures of common practice, from memory; lengths in mm.
constexpr double ring_wraps = 2;
constexpr double tied_wraps = 1.5;
constexpr double rise_sd = 15;  ///< of a rise estimated from the ankle's height
constexpr double loop_ease = 4; ///< room for the ribbon to slide
constexpr double ordinary_ribbon = 22;

Reading from_foot_length(const RibbonInput& in, const char* key) {
  return estimated_by_length(in.population, key, in.order.foot.length->value());
}

void list(std::vector<Estimated>& estimated, const char* key, const char* name,
          const Reading& reading) {
  estimated.push_back({key, name, reading.value(), reading.estimate_sd, reading.source});
}

Finding ring_too_firm(const RibbonInput& in) {
  return {Severity::error, "alterations." + in.name + ".ribbons.stretch",
          in.order.alterations.ribbons->stretch == 0
              ? "a ring of ribbon that does not stretch can be neither put on over the heel nor "
                "taken off at once"
              : "ribbon that stretches so little makes a ring that can be neither put on over the "
                "heel nor taken off at once",
          "a working stretch of 5 to 60 % for a ring",
          how_to_take("ribbons.stretch") +
              " For ribbon that does not stretch write ring: false, the ribbons are then tied."};
}

double girth(const RibbonInput& in, std::vector<Estimated>& estimated, Findings& findings) {
  if (in.order.foot.ankle_girth) return in.order.foot.ankle_girth->value();
  const Reading girth = from_foot_length(in, "ankle_girth");
  list(estimated, "ankle_girth", "ankle girth", girth);
  findings.push_back({Severity::caution, "feet." + in.name + ".ankle_girth",
                      "the ankle girth is only estimated, so the ribbon's length is too", "",
                      "Measure it before cutting ribbon. " + how_to_take("ankle_girth")});
  return girth.value();
}

double guessed_rise(const RibbonInput& in, std::vector<Estimated>& estimated) {
  const Reading height = in.order.foot.ankle_height.value_or(from_foot_length(in, "ankle_height"));
  const Reading rise = estimate(height.value(), std::hypot(height.estimate_sd, rise_sd),
                                "outer-ankle height, a rule of thumb");
  list(estimated, "ribbons.rise", "rise of the ribbon", rise);
  return rise.value();
}

/// Marks along the slack ribbon, mm from one end: the sewn ends; on a ring also the places where it
/// reaches the ankle, where each wrap ends, and where it leaves the ankle.
std::vector<double> marks(const SolvedRibbons& ribbons, const RibbonWish& wish) {
  std::vector<double> along{wish.overlap};
  if (!wish.ring) return along;
  const double at_ankle = wish.overlap + slack_length(ribbons.rise, wish.stretch);
  along.push_back(at_ankle);
  for (double wrap = 1; wrap < ribbons.wraps; ++wrap)
    along.push_back(at_ankle + slack_length(wrap * ribbons.wrap, wish.stretch));
  along.push_back(ribbons.cut - at_ankle);
  along.push_back(ribbons.cut - wish.overlap);
  return along;
}

} // namespace

double slack_length(double worn, double stretch) {
  return worn / (1 + stretch);
}

double wrap_length(double girth, double pitch) {
  return std::hypot(girth, pitch);
}

std::optional<SolvedRibbons> solve_ribbons(const RibbonInput& in, std::vector<Estimated>& estimated,
                                           Findings& findings) {
  const RibbonWish& wish = *in.order.alterations.ribbons;
  if (wish.ring && wish.stretch < least_ring_stretch) {
    findings.push_back(ring_too_firm(in));
    return {};
  }
  SolvedRibbons ribbons;
  ribbons.ring = wish.ring;
  ribbons.girth = girth(in, estimated, findings);
  ribbons.rise = wish.rise ? *wish.rise : guessed_rise(in, estimated);
  ribbons.wraps = wish.wraps.value_or(wish.ring ? ring_wraps : tied_wraps);
  ribbons.wrap = wrap_length(ribbons.girth, wish.pitch.value_or(wish.width / 2));
  const double rises = wish.ring ? 2 : 1;
  ribbons.worn = rises * ribbons.rise + ribbons.wraps * ribbons.wrap;
  ribbons.cut = slack_length(ribbons.worn, wish.stretch) +
                (wish.ring ? 2 * wish.overlap : wish.overlap + wish.tie);
  ribbons.pieces = wish.ring ? 1 : 2;
  ribbons.marks = marks(ribbons, wish);
  // Folded in flat, the back reaches as far along the sole as it is high.
  if (wish.sewn_at)
    ribbons.sewn_at = in.frames.on_board(PosedStation(*wish.sewn_at));
  else if (in.back)
    ribbons.sewn_at = BoardStation(*in.back - feather_margin);
  return ribbons;
}

std::optional<SolvedElastics> solve_elastics(const RibbonInput& in, Findings& findings) {
  const ElasticWish& wish = *in.order.alterations.elastics;
  if (!wish.over && !wish.heel_loop) {
    findings.push_back({Severity::error, "alterations." + in.name + ".elastics.over",
                        "how far the elastic goes from side to side is missing",
                        "elastics: {over: 120}, or elastics: {heel_loop: true}",
                        how_to_take("elastics.over")});
    return {};
  }
  SolvedElastics elastics;
  if (wish.over) {
    elastics.over = wish.over;
    elastics.across = slack_length(*wish.over, wish.stretch) + 2 * wish.overlap;
    if (wish.sewn_at) elastics.sewn_at = in.frames.on_board(PosedStation(*wish.sewn_at));
  }
  if (wish.heel_loop) {
    const auto& ribbons = in.order.alterations.ribbons;
    elastics.loop = (ribbons ? ribbons->width : ordinary_ribbon) + loop_ease + 2 * wish.overlap;
  }
  return elastics;
}

} // namespace shankline
