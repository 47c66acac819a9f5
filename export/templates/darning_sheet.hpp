// The darning wraps of a pair on one page: strips to lay round the platforms' edges.
#pragma once

#include "export/drawing/template.hpp"
#include "export/page/sheet_page.hpp"
#include "geometry/solution/solution.hpp"

#include <vector>

namespace shankline {

struct DarningSheet {
  Page page;
  std::vector<Template> wraps; ///< a strip a foot
  Proof proof;
};

/// Takes one foot or two that are darned. `number` is the page's number, from 0.
DarningSheet darning_sheet(const SheetContext& context,
                           const std::vector<const FootSolution*>& feet, std::size_t number);

} // namespace shankline
