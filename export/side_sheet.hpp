// The template of one side: the wall laid flat, outside face up, old and new top line, and the same
// line as ruler heights.
#pragma once

#include "export/sheet_page.hpp"
#include "export/template.hpp"
#include "geometry/solution.hpp"

#include <stdexcept>

namespace shankline {

/// A part is longer or taller than the paper takes, in words for the fitter. Nothing is ever
/// shrunk.
struct DoesNotFit : std::runtime_error {
  using std::runtime_error::runtime_error;
};

struct SideSheet {
  Page page;
  Template side;
  Proof proof;
};

/// Throws DoesNotFit. Every side of an ordinary foot fits the long edge of A4 and Letter.
SideSheet side_sheet(const SheetContext& context, FootSide foot, const SolvedSide& side,
                     const FootOrder& order, std::size_t number);

/// The wall's lines by kind, laid flat: back seam at the origin, base leaving it along +x.
std::vector<Stroke> side_lines(const SolvedSide& side, const FootOrder& order);

} // namespace shankline
