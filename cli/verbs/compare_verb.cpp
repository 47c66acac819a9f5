// Left against right, or two orders: differences, how well they are known, and the overlay.
#include "cli/job/finished_sheets.hpp"
#include "cli/job/solved_order.hpp"
#include "cli/report/bench_csv.hpp"
#include "cli/report/comparison_table.hpp"
#include "cli/surroundings/target.hpp"
#include "cli/text/message.hpp"
#include "cli/text/word_list.hpp"
#include "cli/verbs/verbs.hpp"
#include "export/formats/pdf_writer.hpp"
#include "export/json/comparison_json.hpp"
#include "export/overlays/compare_sheet.hpp"
#include "export/page/sheet_page.hpp"
#include "geometry/comparison/comparison.hpp"

#include <ostream>
#include <utility>

namespace shankline {
namespace {

/// One order, solved with its contact figures.
struct Read {
  SolvedOrder solved;
  PairContact contact;

  Operand operand() const { return {solved.order(), solved.solution, contact}; }
};

std::optional<Read> read(const std::string& path, std::ostream& messages) {
  PairContact contact;
  auto solved =
      solve_order(path, messages, [&](SolvedOrder& step) { contact = estimated_contact(step); });
  if (!solved) return {};
  return Read{std::move(*solved), std::move(contact)};
}

ExitCode nothing_to_compare(const Comparison& comparison, bool two, const std::string& file,
                            std::ostream& messages) {
  const std::string why = joined(comparison.left_out, "; ");
  say({{Severity::error, file, 0, 0, "", "there is nothing to compare: " + why,
        two ? "shank work or lowered sides on the same foot in both orders"
            : "shank work or lowered sides on both feet",
        two ? "Compare orders that name the same foot."
            : "Write both feet into the order, or give a second order."}},
      messages);
  return ExitCode::bad_input;
}

/// There are figures to compare, but no cut of the one that the other has too.
ExitCode nothing_to_lay_over(const std::string& file, std::ostream& messages) {
  say({{Severity::error, file, 0, 0, "", "there is nothing to lay over each other",
        "a board that is cut, or sides that are lowered, on both",
        "Leave out -o and --lines: the figures are compared without them."}},
      messages);
  return ExitCode::bad_input;
}

} // namespace

ExitCode run_compare(const Request& request, std::ostream& out, std::ostream& messages) {
  const bool two = request.orders.size() > 1;
  const auto a = read(request.orders.front(), messages);
  const auto b = two ? read(request.orders.back(), messages) : std::optional<Read>();
  if (!a || (two && !b)) return ExitCode::bad_input;
  const Operand of_a = a->operand();
  const Operand of_b = two ? b->operand() : of_a;
  const Comparison comparison =
      two ? compare_orders(of_a, of_b, request.same_reader) : compare_feet(of_a);
  if (comparison.feet.empty())
    return nothing_to_compare(comparison, two, a->solved.read.file, messages);

  std::optional<SheetSet> sheets;
  if (request.lines || !request.output.empty()) {
    const std::string digest = a->solved.digest + (two ? ", " + b->solved.digest : std::string());
    sheets = comparison_set(comparison, of_a, of_b, sheet_wish(request, digest));
    finish_sheets(*sheets, request, asked_printer(request), a->solved.read.file, messages);
    for (const std::string& why : sheets->left_out)
      say({{Severity::caution, a->solved.read.file, 0, 0, "", "a page is left out: " + why, "",
            "Each side has a sheet of its own from shankline cut."}},
          messages);
    if (sheets->drawing.pages.empty()) {
      if (!sheets->left_out.empty()) throw DoesNotFit(sheets->left_out.front());
      return nothing_to_lay_over(a->solved.read.file, messages);
    }
  }
  const std::string target =
      output_file(request.output, named_after(request.orders.front(), "-overlay.pdf"));
  if (!request.output.empty()) write_pdf(request.output, target, pdf_bytes(sheets->drawing));
  if (request.json) {
    out << comparison_json(comparison, of_a, of_b, sheets ? &*sheets : nullptr);
    return ExitCode::done;
  }
  if (request.csv) {
    out << comparison_csv(comparison);
    return ExitCode::done;
  }
  if (request.quiet) return ExitCode::done;
  out << comparison_table(comparison, of_a, of_b);
  if (!request.output.empty()) out << '\n' << wrote_words(target, sheets->drawing.pages.size());
  return ExitCode::done;
}

} // namespace shankline
