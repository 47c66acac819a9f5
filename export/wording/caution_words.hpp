// The cautions of an order as its sheets print them: which is the gravest, and all of them in
// words.
#pragma once

#include "export/drawing/length_text.hpp"
#include "geometry/order/finding.hpp"
#include "geometry/order/foot_side.hpp"

#include <optional>
#include <string>
#include <vector>

namespace shankline {

/// True if the finding is about this foot: its key has "left" or "right" as a part.
bool is_about(const Finding& finding, FootSide foot);

/// The caution that heads a sheet, of one foot or of the whole order: the highest rank, else one
/// about the shank, else a heel front that was not measured. One with a rank that names no foot
/// heads the sheets of both. Null if there is none of these. The pointer is into `cautions`.
const Finding* gravest_caution(const Findings& cautions, std::optional<FootSide> foot = {});

/// "Caution: " and the words of `gravest_caution`, with its advice where it has a rank; empty for
/// null. Inches stand beside millimetres where the units are inches.
std::string first_line(const Finding* caution, Units units);

struct CautionLine {
  std::string words;  ///< "Both feet, heel front: The heel front is only estimated. Measure it."
  bool grave = false; ///< may head a sheet, see gravest_caution
};

/// Returns every caution in whole sentences, the gravest first. A caution that is the same for both
/// feet is one line. Inches stand beside millimetres where the units are inches.
std::vector<CautionLine> caution_lines(const Findings& cautions, Units units);

} // namespace shankline
