// One shoe among many, as a rack list shows it.
#pragma once

#include "export/drawing/length_text.hpp"
#include "export/work_orders/shoe_since.hpp"
#include "geometry/solution/solution.hpp"

#include <functional>
#include <optional>
#include <string>
#include <vector>

namespace shankline {

/// Depths by which the sides of a shoe are lowered, mm.
struct RackSides {
  double medial = 0;
  double lateral = 0;
  double back = 0;
};

/// One shoe of a rack list. Cuts are distances from the board's heel end, mm.
struct RackShoe {
  std::string dancer;
  std::string pair;
  std::string date;
  std::string digest; ///< short, of the order's text
  FootSide foot = FootSide::left;
  std::optional<CutLine> first_cut;   ///< absent where there is no shank work, or it is filed back
  std::optional<CutLine> final_cut;   ///< absent where there is no shank work
  std::optional<double> from_witness; ///< the final line back from the witness line
  std::optional<RackSides> sides;
  std::string also = {}; ///< other work, by name
  /// "! see sheet" where the order has a caution for this foot, and which readings behind the cut
  /// were not measured; else empty.
  std::string see = {};
  long long entry = 0;  ///< its number in the archive; 0 where it is not kept there
  ShoeSince since = {}; ///< where its board ends now; for labels
};

/// Left before right; a foot that is not in the order is left out.
std::vector<RackShoe> rack_shoes(const Order& order, const Solution& solution,
                                 const std::string& digest);

/// Ruler numbers: "62.0", or for a skew line "big toe 64.0 · centre 62.0 · little toe 60.0".
/// A dash for none.
std::string cut_words(const std::optional<CutLine>& cut, Units units = Units::mm);

/// "big toe 5 · little toe 4", with " · back 3" where the back is lowered; empty where the sides
/// stay.
std::string side_words(const RackShoe& shoe, Units units = Units::mm);

/// Returns the words of side_words in lines that `fits` accepts, broken between two sides. `before`
/// begins the first line.
std::vector<std::string> side_lines(const RackShoe& shoe, Units units, const std::string& before,
                                    const std::function<bool(const std::string&)>& fits);

/// Are they the two shoes of one order?
bool same_order(const RackShoe& a, const RackShoe& b);

} // namespace shankline
