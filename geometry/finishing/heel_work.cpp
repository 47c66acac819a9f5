#include "geometry/finishing/heel_work.hpp"

#include "geometry/order/figure.hpp"
#include "geometry/order/reading_guide.hpp"

#include <algorithm>
#include <cmath>

namespace shankline {
namespace {

constexpr double above_sole = 5; ///< a tuck stops short of the sole's edge: from memory

} // namespace

std::optional<SolvedFiller> solve_filler(const Board& board, const Polygon* removed,
                                         const CutLine* cut, double part, const std::string& name,
                                         Findings& findings) {
  if (!removed || !cut) {
    findings.push_back({Severity::error, "alterations." + name + ".filler",
                        "filler goes where a cut empties the heel seat, and no board is cut here",
                        "together with shank", "Delete it, or write shank: {reach: edge}."});
    return {};
  }
  if (!board.thickness) {
    findings.push_back(
        {Severity::error, "shoe." + name + ".board.thickness", "the board's thickness is missing",
         "needed to know how thick the filler has to be", how_to_take("board.thickness")});
    return {};
  }
  const OutlineExtent extent = outline_extent(*removed);
  // Measure to the cut only: the corners beyond it, which a rounded end takes off, are not in the
  // seat.
  const double length =
      std::min(extent.along_x, std::max({cut->medial, cut->centre, cut->lateral}).mm());
  return SolvedFiller{*removed, length, extent.along_y, part * *board.thickness,
                      signed_area(*removed)};
}

std::optional<SolvedTuck> solve_tuck(const Foot& foot, const TuckWish& wish,
                                     const std::optional<double>& back, const std::string& name,
                                     Findings& findings) {
  const ReadingGuide& limits = *reading_guide("tuck.depth");
  const std::string key = "alterations." + name + ".tuck";
  if (!wish.depth && !foot.fold) {
    findings.push_back({Severity::error, "feet." + name + ".fold",
                        "how deep the tuck has to be is not known: the fold is missing",
                        "fold: 6, or tuck: {depth: 6}", how_to_take("fold")});
    return {};
  }
  const double depth = wish.depth ? *wish.depth : foot.fold->value();
  if (!(depth >= limits.least) || !(depth <= limits.most)) {
    findings.push_back({Severity::error, wish.depth ? key + ".depth" : "feet." + name + ".fold",
                        "a tuck " + short_figure(depth) + " deep is " +
                            (depth < limits.least ? "none" : "more cloth than the seam can take"),
                        limits_in_words(limits), how_to_take("tuck.depth")});
    return {};
  }
  if (back && wish.down > *back - above_sole) {
    findings.push_back({Severity::error, key + ".down",
                        "the tuck would run down " + short_figure(wish.down) +
                            " on a back that is " + short_figure(*back) + " high",
                        "up to " + short_figure(std::floor(*back - above_sole)),
                        how_to_take("tuck.down")});
    return {};
  }
  return SolvedTuck{depth, taken_by_tuck(depth), wish.down};
}

} // namespace shankline
