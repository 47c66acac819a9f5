// A worn pair that was right, measured, and the order that copies it.
#pragma once

#include "geometry/fitting/copied_lines.hpp"
#include "geometry/order/finding.hpp"
#include "geometry/order/order.hpp"

#include <optional>
#include <string>

namespace shankline {

/// Lengths in mm, taken on the worn shoe unless said otherwise. Every one may be absent.
struct WornFoot {
  std::optional<Reading> board_end; ///< platform to the board's end, along the sole
  std::optional<Reading> heel_end;  ///< the same to the heel end of the new, uncut board
  std::optional<Reading> medial;    ///< height of the top line at its low point, big-toe side
  std::optional<Reading> lateral;
  std::optional<Reading> back; ///< at the back seam
};

struct WornPair {
  std::string dancer;
  std::string pair;
  std::string date;
  std::optional<WornFoot> left;
  std::optional<WornFoot> right;
};

/// The lines that were copied; absent where nothing was measured for them.
struct CopiedFoot {
  std::optional<CopiedLine> trim; ///< board station of the cut
  std::optional<CopiedLine> medial;
  std::optional<CopiedLine> lateral;
  std::optional<CopiedLine> back;
};

struct MatchedOrder {
  Order order; ///< as given, but cut at the copied lines
  std::optional<CopiedFoot> left;
  std::optional<CopiedFoot> right;
};

/// Adds errors where a copied line cannot be cut on the new pair; their keys are those of the worn
/// file ("left.board_end"), or of the order's ("shoe.left.sides") where that lacks something.
MatchedOrder copy_lines(const Order& order, const WornPair& worn, Findings& findings);

} // namespace shankline
