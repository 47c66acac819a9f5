// The template of a board that is thinned over a stretch and not cut.
#pragma once

#include "export/templates/board_sheet.hpp"

namespace shankline {

/// The sheet of a foot with `thinned` and without `trim`. `number` is the page's number, from 0.
/// `warning` becomes the first line of the sheet; it may be empty.
BoardSheet thinned_board_sheet(const SheetContext& context, const FootSolution& foot,
                               std::size_t number, const std::string& warning);

/// Outline, centre line and the thinned stretch in the board's own frame, as far as `front`.
std::vector<Stroke> thinned_board_lines(const FootSolution& foot, double front);

/// Both ends of the thinned stretch; none where the order thins nothing. What lies ahead of `front`
/// is left out.
std::vector<Stroke> thinning_lines(const FootSolution& foot, double front);

/// Draws what fills the stretch, on the page alone and with room for `spared`: a plotter would
/// follow every line of it.
void fill_thinned(SheetPage& page, const FootSolution& foot, double front, const Placement& place,
                  const std::vector<Box>& spared);

} // namespace shankline
