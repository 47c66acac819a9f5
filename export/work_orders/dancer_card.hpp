// The dancer's card: the work step by step with this pair's numbers, and a table of tries to fill
// in by hand.
#pragma once

#include "export/page/sheet_page.hpp"
#include "export/page/sheet_set.hpp"
#include "export/wording/work_words.hpp"
#include "geometry/order/finding.hpp"

#include <vector>

namespace shankline {

/// Returns one page for a pair, and a second one with the tries if the steps leave no room for
/// boxes that a hand can write in. `number` is the first page's number, from 0. Only those cautions
/// are on it that may head a sheet. The table of tries begins with those that were made already,
/// and goes on from the board's present end. It offers no further cut if the last try found the
/// board right or too short, or the dancer in pain; nor where an earlier one did the latter two and
/// none found it right since.
std::vector<Page> dancer_card(const SheetContext& context, const std::vector<FootWork>& feet,
                              const Findings& cautions, const std::vector<TriedBefore>& tried,
                              std::size_t number);

} // namespace shankline
