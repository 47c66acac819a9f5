// Two lowered sides laid over each other at true size.
#pragma once

#include "export/overlays/overlay_page.hpp"

namespace shankline {

/// Both walls of one side laid flat, back seam on back seam, toes to the right. Throws DoesNotFit.
OverlaySheet side_overlay(const SheetContext& context, const Overlay& overlay, Edge edge,
                          std::size_t number);

} // namespace shankline
