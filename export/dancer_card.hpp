// The dancer's card: the work step by step with this pair's numbers, and a table of tries to fill
// in by hand.
#pragma once

#include "export/sheet_page.hpp"
#include "export/work_words.hpp"

#include <string>
#include <vector>

namespace shankline {

/// One page a pair. `number` is the page's, from 0; `warning` stands under its title.
Page dancer_card(const SheetContext& context, const std::vector<FootWork>& feet, std::size_t number,
                 const std::string& warning);

} // namespace shankline
