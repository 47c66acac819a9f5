// Left against right, or two orders: differences, how well they are known, and the overlay.
#include "cli/job/archive_words.hpp"
#include "cli/job/company_overview.hpp"
#include "cli/job/finished_sheets.hpp"
#include "cli/job/order_list.hpp"
#include "cli/job/solved_order.hpp"
#include "cli/report/bench_csv.hpp"
#include "cli/report/comparison_table.hpp"
#include "cli/surroundings/held_output.hpp"
#include "cli/surroundings/target.hpp"
#include "cli/text/message.hpp"
#include "cli/text/natural_order.hpp"
#include "cli/text/text_columns.hpp"
#include "cli/text/word_list.hpp"
#include "cli/verbs/verbs.hpp"
#include "export/formats/pdf_writer.hpp"
#include "export/json/comparison_json.hpp"
#include "export/overlays/compare_sheet.hpp"
#include "export/page/sheet_page.hpp"
#include "geometry/comparison/comparison.hpp"

#include <algorithm>
#include <ostream>
#include <utility>
#include <vector>

namespace shankline {
namespace {

/// One order, solved with its contact figures.
struct Read {
  SolvedOrder solved;
  PairContact contact;

  Operand operand() const { return {solved.order(), solved.solution, contact}; }
};

std::optional<Read> read(const OrderSource& source, std::ostream& messages) {
  PairContact contact;
  auto solved =
      solve_order(source, messages, [&](SolvedOrder& step) { contact = estimated_contact(step); });
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

std::string feet_words(const Comparison& comparison) {
  const std::string differ = feet_differ_words(comparison);
  return differ.empty() ? "too close to call" : "differ: " + differ;
}

std::string work_words(const Comparison& comparison) {
  const std::string differ = work_differs_words(comparison);
  return differ.empty() ? "the same" : differ;
}

bool names_two_readers(const Order& a, const Order& b) {
  return !a.read_by.empty() && !b.read_by.empty() && a.read_by != b.read_by;
}

ExitCode refuse_one_reader(const Order& a, const Order& b, std::ostream& messages) {
  messages << "shankline: --same-reader says that one person read both orders, but they name "
           << without_controls(a.read_by) << " and " << without_controls(b.read_by)
           << "\n  do: leave out --same-reader, or correct read_by in the order that is wrong\n";
  return ExitCode::bad_usage;
}

/// Lists whose feet differ: one line for each order of a folder, in the order in which people
/// count.
ExitCode compare_folder(const OrderList& list, const Request& request, std::ostream& out,
                        std::ostream& messages) {
  say(list.faults, messages);
  ExitCode worst = has_error(list.faults) ? ExitCode::bad_input : ExitCode::done;
  struct Row {
    std::string dancer, pair, feet, work;
  };
  std::vector<Row> rows;
  HeldOutput documents;
  bool any = false;
  for (const std::string& order : list.files) {
    const auto one = read(order, messages);
    if (!one) {
      worst = std::max(worst, ExitCode::bad_input);
      continue;
    }
    const Operand operand = one->operand();
    const Comparison comparison = compare_feet(operand);
    if (request.json) {
      if (comparison.feet.empty()) continue;
      documents.add(any ? ",\n" : "[\n");
      documents.add(comparison_json(comparison, operand, operand, nullptr));
      any = true;
      continue;
    }
    rows.push_back(
        {one->solved.order().dancer, one->solved.order().pair,
         comparison.feet.empty() ? joined(comparison.left_out, "; ") : feet_words(comparison),
         comparison.feet.empty() ? std::string() : work_words(comparison)});
  }
  if (request.json) {
    documents.add(any ? "]\n" : "[\n]\n");
    documents.write_to(out);
    return worst;
  }
  std::stable_sort(rows.begin(), rows.end(),
                   [](const Row& a, const Row& b) { return naturally_before(a.dancer, b.dancer); });
  std::vector<std::vector<std::string>> table{{"dancer", "pair", "left against right", "work"}};
  for (const Row& row : rows)
    table.push_back(
        {fitted(row.dancer, 12), fitted(row.pair, 28), fitted(row.feet, 90), fitted(row.work, 60)});
  if (!rows.empty() && !request.quiet) out << columns_text(table, 4);
  return worst;
}

} // namespace

ExitCode run_compare(const Request& request, std::ostream& out, std::ostream& messages) {
  if (const OrderList list = list_orders(request); list.whole_folder) {
    if (request.orders.size() > 1 || !request.output.empty() || request.lines) {
      messages << "shankline: a folder is compared as a table, left against right of each order\n"
                  "  do: leave out the second order, -o and --lines, or name one order\n";
      return ExitCode::bad_usage;
    }
    return compare_folder(list, request, out, messages);
  }
  const bool two = request.orders.size() > 1;
  const auto a = read(order_source(request, 0), messages);
  const auto b = two ? read(order_source(request, 1), messages) : std::optional<Read>();
  if (!a || (two && !b)) return ExitCode::bad_input;
  const Operand of_a = a->operand();
  const Operand of_b = two ? b->operand() : of_a;
  if (request.same_reader && names_two_readers(of_a.order, of_b.order))
    return refuse_one_reader(of_a.order, of_b.order, messages);
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
  out << comparison_table(comparison, of_a, of_b, request.units);
  if (!request.output.empty()) out << '\n' << wrote_words(target, sheets->drawing.pages.size());
  return ExitCode::done;
}

} // namespace shankline
