// Copies lines from a worn pair that was right to a new pair.
//
// Both pairs are measured alike by one reader, so that the habit of finding the same two places
// cancels. With P from the platform to the board's end along the worn sole, and N from the platform
// to the board's heel end on the new pair, the new board is cut at X = N − P. A sole stretches in
// wear, and is shorter while it lies bent; a source of its own covers both.
#pragma once

#include "geometry/order/reading.hpp"
#include "geometry/uncertainty/uncertainty.hpp"

#include <optional>
#include <string>
#include <vector>

namespace shankline {

inline constexpr double wear_half_width = 1.5; // mm, sole or cloth; from memory

/// To compare a copied line with the model, use: difference(copied.line, copied.sources,
/// doubt.board, doubt.sources).
struct CopiedLine {
  std::vector<Source> sources;
  Uncertain line; ///< mm, as it ends up on the new pair: print, tracing and knife included
  Uncertain mark; ///< mm, without print, tracing and knife
};

/// Board station of the cut. `owner` is the foot, "left". Returns nullopt if no length would come
/// off.
std::optional<CopiedLine> copied_trim(const Reading& kept_worn, const Reading& whole_new,
                                      const std::string& owner);

/// Height of the top line, as on the worn pair. `key` tells heights apart ("sides.low").
CopiedLine copied_height(const Reading& worn, const std::string& key, const std::string& owner);

} // namespace shankline
