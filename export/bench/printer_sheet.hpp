// The sheet that tells what a printer does to a page.
#pragma once

#include "export/drawing/drawing.hpp"
#include "geometry/uncertainty/page_correction.hpp"

#include <string>

namespace shankline {

/// The command that stores what was measured on the sheet of this paper:
/// "shankline printer NAME --measured AB,AD,AC,BD", with the paper where it is not A4.
std::string measured_command(const Paper& paper);

/// Sides in the ratio 3 to 4, so that the diagonals are whole numbers too. As long as the page
/// allows, but no longer than a rule of 300 mm reaches when the printer draws it 6 % too long.
CalibrationFrame calibration_frame(const Paper& paper);

/// One page: four crosses with bars between them, what to measure, and boxes for the four figures.
/// Of a roll as long as A4.
Drawing printer_sheet(const Paper& paper);

} // namespace shankline
