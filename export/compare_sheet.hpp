// Two boards, or two lowered sides, laid over each other at true size: where they part, by how
// much, and whether that is known.
#pragma once

#include "export/sheet_page.hpp"
#include "export/sheet_set.hpp"
#include "export/template.hpp"
#include "geometry/comparison.hpp"

#include <array>
#include <optional>

namespace shankline {

struct OverlaySheet {
  Page page;
  std::array<Template, 2> parts; ///< each in its own frame
  Proof proof;
};

/// What is laid over what. Both feet were compared in `foot`.
struct Overlay {
  const Comparison& comparison;
  const FootComparison& foot;
  const SolvedFoot& a;
  const SolvedFoot& b;
};

/// Both cut boards in the frame of a left foot, big-toe side on the right: a right board shows the
/// side that is glued down. Boards longer than the page are drawn from the heel end as far as it
/// goes.
OverlaySheet board_overlay(const SheetContext& context, const Overlay& overlay, std::size_t number);

/// Both walls of one side laid flat, back seam on back seam, toes to the right. Throws DoesNotFit.
OverlaySheet side_overlay(const SheetContext& context, const Overlay& overlay, Edge edge,
                          std::size_t number);

/// Every overlay of a comparison: of each foot the boards, then the lowered sides; what the paper
/// does not take is left out and said. No page at all where neither boards are cut nor sides
/// lowered on both. `digest` in the wish names both orders.
SheetSet comparison_set(const Comparison& comparison, const Operand& a, const Operand& b,
                        const SheetWish& wish);

} // namespace shankline
