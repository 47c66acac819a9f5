// Lists the materials for one or more shoes: casing, drawstring, ribbon, elastic and yarn by
// length, fillers and liners by number.
#pragma once

#include "export/drawing/length_text.hpp"
#include "export/wording/work_words.hpp"

#include <string>
#include <vector>

namespace shankline {

/// Returns one line for each material, added up over all feet: "elastic, 20 wide: 412 mm". Lengths
/// are in whole mm, rounded up, and include no allowance for waste.
std::vector<std::string> material_lines(const std::vector<FootWork>& feet, Units units);

} // namespace shankline
