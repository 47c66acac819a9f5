// The acceptance sheet of a pair: every line that is measured, what it has to be, what it was found
// to be, and the verdict; or the same with empty boxes, to be filled in by hand.
#pragma once

#include "export/page/sheet_page.hpp"
#include "export/page/sheet_set.hpp"
#include "geometry/fitting/acceptance_lines.hpp"

#include <string>

namespace shankline {

struct AcceptanceWish {
  bool blank = false; ///< nothing is measured yet
  std::string date;   ///< of the measuring; may be empty
  std::string by;     ///< who measured; may be empty
};

/// "accepted", "refused", "not decided"
std::string verdict_words(Acceptance verdict);

/// "65.5 to 67", rounded inwards to tenths, or to hundredths where the limits are close; "1" of
/// what is counted.
std::string limits_words(const AcceptanceLine& line);

/// "66 ±0.4"; "1" of what was counted. The size must have been measured.
std::string made_words(const JudgedLine& judged);

// The same in inches, for lengths. Limits never lie outside those in millimetres; where not even
// one mark of the rule lies inside, there is a dash.
std::string limits_in_inches(const AcceptanceLine& line);
std::string made_in_inches(const JudgedLine& judged);

/// "board judged at the first cut"; empty for a foot of which no board is judged.
std::string judged_at_words(const JudgedPair& pair, FootSide foot);

SheetSet acceptance_set(const Order& order, const JudgedPair& pair, const AcceptanceWish& what,
                        const SheetWish& wish);

} // namespace shankline
