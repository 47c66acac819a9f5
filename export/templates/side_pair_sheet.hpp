// Both sides of a foot on one page.
#pragma once

#include "export/templates/side_sheet.hpp"

#include <optional>

namespace shankline {

/// `sides` are two. Returns null where the paper has no room for both with all their words, and for
/// a roll, whose pages are as long as one side needs.
std::optional<SideSheet> side_pair_sheet(const SheetContext& context, FootSide foot,
                                         const SidesOnPage& sides, const FootOrder& order,
                                         std::size_t number);

} // namespace shankline
