// A board planed thinner, over a stretch or layer by layer, in place of being cut right through.
#pragma once

#include "geometry/order/finding.hpp"
#include "geometry/order/order.hpp"

#include <optional>
#include <string>

namespace shankline {

/// A thinned stretch: distances from the board's heel end, mm.
struct SolvedThinning {
  double from = 0;
  double to = 0;
  double thickness = 0; ///< mm that are left
  double ratio = 1;     ///< over the full thickness; the stiffness there falls with its cube
};

/// Errors: a figure or the board's thickness is missing, a stretch off the board or the wrong way
/// round, nothing taken off. `name` is "left".
std::optional<SolvedThinning> solve_thinning(const Board& board, const ThinWish& wish,
                                             const std::string& name, Findings& findings);

/// The layers of a board that are cut; the others go on to the heel.
struct CutLayers {
  int cut = 0;
  int of = 0;

  /// Thickness that stays behind the cut over the full one, layers being alike.
  double ratio() const { return static_cast<double>(of - cut) / of; }
};

/// Returns nullopt if the cut goes through all layers, or is to go through more than there are.
std::optional<CutLayers> layers_left(const Board& board, const ShankWish& wish);

/// Like layers_left, but reports an error if the wish is to cut more layers than the board has.
std::optional<CutLayers> cut_layers(const Board& board, const ShankWish& wish,
                                    const std::string& name, Findings& findings);

} // namespace shankline
