// The dancer's card: the work step by step with this pair's numbers, and a table of tries to fill
// in by hand.
#pragma once

#include "export/page/sheet_page.hpp"
#include "export/page/sheet_set.hpp"
#include "export/wording/work_words.hpp"
#include "geometry/order/finding.hpp"

#include <vector>

namespace shankline {

/// One page a pair, or a second one with the tries where the steps leave no room for boxes that a
/// hand can write in. The first has this number, from 0. Only the cautions that may head a sheet
/// are on it. Its table of tries begins with those that were made already, and goes on from where
/// the last one left the board; where that one found the board right, or too short, or the dancer
/// in pain, no further cut is offered.
std::vector<Page> dancer_card(const SheetContext& context, const std::vector<FootWork>& feet,
                              const Findings& cautions, const std::vector<TriedBefore>& tried,
                              std::size_t number);

} // namespace shankline
