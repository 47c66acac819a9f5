// Ribbons and elastics: how long they are cut and where they are sewn.
#pragma once

#include "geometry/order/finding.hpp"
#include "geometry/order/foot_estimates.hpp"
#include "geometry/order/order.hpp"
#include "geometry/order/station.hpp"

#include <optional>
#include <string>
#include <vector>

namespace shankline {

/// Elongation as in ASTM D4964 and ISO 20932 (from memory), 100 (L − L₀)/L₀ per cent: so a strip
/// that works at `worn` is cut at worn/(1 + stretch). `stretch` as a fraction.
double slack_length(double worn, double stretch);

/// Length of one wrap round a limb: √(girth² + pitch²).
double wrap_length(double girth, double pitch);

/// Below this a ring of ribbon can be neither put on nor taken off: from memory, common practice.
inline constexpr double least_ring_stretch = 0.05;

/// Lengths in mm.
struct SolvedRibbons {
  bool ring = true;
  double girth = 0; ///< of the ankle, where the ribbon lies
  double rise = 0;  ///< from a sewn end to the ankle
  double wraps = 0;
  double wrap = 0;           ///< length of one, worn
  double worn = 0;           ///< without the sewn ends and the knot
  double cut = 0;            ///< of the ring, or of each of the two ribbons
  int pieces = 1;            ///< for each shoe
  std::vector<double> marks; ///< along the slack ribbon from one end, sewn ends first and last
  std::optional<BoardStation> sewn_at; ///< the sewn end's middle; absent where it is not known
};

struct RibbonInput {
  const FootOrder& order;
  Population population;
  const Frames& frames;
  std::optional<double> back; ///< finished height of the back, mm; absent if not known
  std::string name;           ///< "left"
};

/// A ring: both ends sewn to the sides, (2 rise + wraps·wrap)/(1 + stretch) + 2 overlap. Tied: each
/// of two ribbons overlap + (rise + wraps·wrap)/(1 + stretch) + tie. Adds what had to be estimated
/// to `estimated`. Error: a ring of ribbon that does not stretch.
std::optional<SolvedRibbons> solve_ribbons(const RibbonInput& input,
                                           std::vector<Estimated>& estimated, Findings& findings);

/// Lengths in mm.
struct SolvedElastics {
  std::optional<double> across; ///< cut length, over instep or vamp
  std::optional<double> over;   ///< worn, from side to side
  std::optional<double> loop;   ///< cut length of the heel loop
  std::optional<BoardStation> sewn_at;
};
/// over/(1 + stretch) + 2 overlap; a loop is as long as the ribbon is wide, with ease and both
/// ends. Error: the order gives neither `over` nor a loop.
std::optional<SolvedElastics> solve_elastics(const RibbonInput& input, Findings& findings);

} // namespace shankline
