// Two cut boards laid over each other at true size.
#pragma once

#include "export/overlays/overlay_page.hpp"

namespace shankline {

/// Both cut boards in the frame of a left foot, big-toe side on the right: a right board shows the
/// side that is glued down. Boards longer than the page are drawn from the heel end as far as it
/// goes.
OverlaySheet board_overlay(const SheetContext& context, const Overlay& overlay, std::size_t number);

} // namespace shankline
