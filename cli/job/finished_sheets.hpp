// Steps that every verb takes between laying its sheets out and writing them.
#pragma once

#include "cli/bench_files/printer_store.hpp"
#include "cli/job/request.hpp"
#include "cli/text/message.hpp"
#include "export/drawing/corrected_drawing.hpp"
#include "export/page/sheet_set.hpp"

#include <iosfwd>
#include <optional>
#include <string>
#include <vector>

namespace shankline {

/// Returns the file for the sheets of an order, or for its chart.
std::string target_of(const Request& request, const std::string& order);

/// `digest` is the short digest of the order's text.
SheetWish sheet_wish(const Request& request, const std::string& digest);

/// The printer that a request names, read once for all its orders.
struct AskedPrinter {
  std::optional<CalibratedPrinter> printer; ///< nullopt where none is named, or it cannot be used
  std::vector<Message> said;                ///< the errors about it, for every order's messages
};
AskedPrinter asked_printer(const Request& request);

/// Gives the drawing its date, if there is one, draws it for `printer`, and says which characters
/// come out as '?'. Returns that printer. Throws AlreadyReported when it cannot be used.
std::optional<PrinterDrawing> finish_sheets(SheetSet& sheets, const Request& request,
                                            const AskedPrinter& printer, const std::string& file,
                                            std::ostream& messages);

} // namespace shankline
