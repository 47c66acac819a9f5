#include "geometry/strip/strip_stiffness.hpp"

#include <algorithm>
#include <array>

namespace shankline {
namespace {

/// t/t₀ away from the places where it steps.
double thickness_ratio(const Strip& strip, double u) {
  if (u > strip.board_end) return 0;
  double ratio = 1;
  if (strip.thinned && u < strip.thinned->to) {
    const double ahead = strip.thinned->from - u;
    if (ahead < 0)
      ratio = strip.thinned->ratio;
    else if (ahead < strip.thinned->bevel)
      ratio = strip.thinned->ratio + (1 - strip.thinned->ratio) * ahead / strip.thinned->bevel;
  }
  const double to_end = strip.board_end - u;
  if (to_end < strip.bevel)
    ratio = std::min(ratio, strip.edge_ratio + (1 - strip.edge_ratio) * to_end / strip.bevel);
  return ratio;
}

/// Just off a step, on one side of it; far below what is measured, far above rounding.
constexpr double beside = 1e-7;

} // namespace

std::vector<StripPiece> strip_pieces(const Strip& strip, double from, double to) {
  std::array<double, 9> knots{from, to, strip.board_end};
  std::size_t count = 3;
  if (strip.bevel > 0) knots[count++] = strip.board_end - strip.bevel;
  if (strip.thinned) {
    const ThinnedStretch& thinned = *strip.thinned;
    knots[count++] = thinned.from;
    knots[count++] = thinned.to;
    if (strip.bevel > 0 && thinned.ratio > strip.edge_ratio) // where the bevel gets thinner
      knots[count++] = strip.board_end -
                       strip.bevel * (thinned.ratio - strip.edge_ratio) / (1 - strip.edge_ratio);
    if (thinned.bevel > 0) knots[count++] = thinned.from - thinned.bevel;
    if (thinned.bevel > 0 && strip.bevel > 0) { // where the two bevels are equally thick
      const double step = (1 - thinned.ratio) / thinned.bevel;
      const double end_step = (1 - strip.edge_ratio) / strip.bevel;
      if (step != end_step)
        knots[count++] =
            (step * thinned.from - end_step * strip.board_end + thinned.ratio - strip.edge_ratio) /
            (step - end_step);
    }
  }
  for (double& knot : knots)
    knot = std::clamp(knot, from, to);
  std::sort(knots.begin(), knots.begin() + static_cast<std::ptrdiff_t>(count));
  std::vector<StripPiece> pieces;
  pieces.reserve(count);
  for (std::size_t i = 1; i < count; ++i) {
    const double a = knots[i - 1];
    const double b = knots[i];
    if (b - a <= beside) { // too short to bend: what follows reaches back over it
      continue;
    }
    // A straight line is known by two places inside, where nothing steps.
    const double first = thickness_ratio(strip, a + 0.25 * (b - a));
    const double second = thickness_ratio(strip, a + 0.75 * (b - a));
    const double step = second - first;
    const double start = pieces.empty() ? from : pieces.back().to;
    pieces.push_back({start, b, first - step / 2, second + step / 2});
  }
  if (!pieces.empty()) pieces.back().to = to;
  return pieces;
}

double board_part(const Strip& strip, double u, Side side) {
  const double ratio = thickness_ratio(strip, side == Side::heel ? u + beside : u - beside);
  return strip.board * ratio * ratio * ratio;
}

double bending_stiffness(const Strip& strip, double u, Side side) {
  return strip.sole + board_part(strip, u, side);
}

double own_curvature(const Strip& strip, double u, Side side) {
  if (!strip.pre_arch) return 0;
  const double board = board_part(strip, u, side);
  return board / (strip.sole + board) * curvature(*strip.pre_arch, u);
}

} // namespace shankline
