// What every verb does with its sheets between laying them out and writing them.
#pragma once

#include "cli/job/request.hpp"
#include "export/drawing/corrected_drawing.hpp"
#include "export/page/sheet_set.hpp"

#include <iosfwd>
#include <optional>
#include <string>

namespace shankline {

/// Where the sheets of an order, or its chart, go.
std::string target_of(const Request& request, const std::string& order);

/// `digest` is of the order's text, short.
SheetWish sheet_wish(const Request& request, const std::string& digest);

/// Gives the drawing its date, if there is one, draws it for the printer that is asked for, and
/// says which characters come out as '?'. Returns that printer. Throws WasSaid when it cannot be
/// used.
std::optional<PrinterDrawing> finish_sheets(SheetSet& sheets, const Request& request,
                                            const std::string& file, std::ostream& messages);

} // namespace shankline
