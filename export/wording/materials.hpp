// Materials for a pair: cloth, ribbon and yarn by length, pieces by number.
#pragma once

#include "export/drawing/length_text.hpp"
#include "export/wording/work_words.hpp"

#include <string>
#include <vector>

namespace shankline {

/// One line each, lengths of the same stuff for all feet together: "elastic, 20 wide: 412 mm".
/// Whole millimetres, rounded up; nothing is added for waste.
std::vector<std::string> material_lines(const std::vector<FootWork>& feet, Units units);

} // namespace shankline
