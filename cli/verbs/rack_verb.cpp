// Many orders at a glance: one line a shoe, on the terminal and on paper, and labels to stick in.
#include "cli/job/archive_saving.hpp"
#include "cli/job/finished_sheets.hpp"
#include "cli/job/order_batch.hpp"
#include "cli/job/order_job.hpp"
#include "cli/job/solved_order.hpp"
#include "cli/report/bench_csv.hpp"
#include "cli/report/bench_json.hpp"
#include "cli/surroundings/held_output.hpp"
#include "cli/surroundings/target.hpp"
#include "cli/text/text_columns.hpp"
#include "cli/verbs/verbs.hpp"
#include "export/formats/pdf_writer.hpp"
#include "export/work_orders/label_sheet.hpp"
#include "export/work_orders/rack_sheet.hpp"

#include <algorithm>
#include <array>
#include <iterator>
#include <optional>
#include <sstream>

namespace shankline {
namespace {

/// Two boxes to tick with a pencil, for those who print a listing: first cut, final cut.
constexpr const char* boxes = "[ ] [ ]";

constexpr std::size_t cells = 9;
using Row = std::array<std::string, cells>;

Row row_of(const RackShoe& shoe, Units units) {
  return {shoe.dancer,
          shoe.pair,
          shoe.date,
          shoe.foot == FootSide::left ? "L" : "R",
          shoe.final_cut && !shoe.first_cut ? "file back" : cut_words(shoe.first_cut, units),
          cut_words(shoe.final_cut, units),
          side_words(shoe, units),
          shoe.also,
          (shoe.entry > 0 ? "entry " + std::to_string(shoe.entry) + (shoe.see.empty() ? "" : ", ")
                          : std::string()) +
              shoe.see};
}

std::string table(const std::vector<RackShoe>& shoes, Units units) {
  std::vector<Row> rows{
      {"dancer", "pair", "date", "foot", "first cut", "final cut", "sides by", "also", ""}};
  for (const RackShoe& shoe : shoes)
    rows.push_back(row_of(shoe, units));
  std::array<std::size_t, cells> widths{};
  for (const Row& row : rows)
    for (std::size_t i = 0; i < cells; ++i)
      widths[i] = std::max(widths[i], columns_of(row[i]));
  std::string text;
  for (std::size_t i = 0; i < rows.size(); ++i) {
    std::string line = padded(i == 0 ? "1st fin" : boxes, 9);
    for (std::size_t cell = 0; cell < cells; ++cell)
      line += padded(rows[i][cell], widths[cell] + 2);
    line.erase(line.find_last_not_of(' ') + 1);
    text += without_controls(line) + "\n";
  }
  return text;
}

struct OnRack {
  std::string file; ///< the order's
  std::vector<RackShoe> shoes;
  std::optional<ArchiveEntry> entry; ///< to be kept
};

ExitCode put_on_rack(const Request& request, Records& records, const std::string& order,
                     std::ostream& messages, OnRack& rack) {
  const auto solved = solve_order(
      order, messages, [&](SolvedOrder& one) { records.last_pairs.warn(one); },
      [&](Order& read) { return records.learned.fill(read); });
  if (!solved) return ExitCode::bad_input;
  rack.file = order;
  rack.shoes = rack_shoes(solved->order(), solved->solution, solved->digest);
  if (request.archive.save) {
    std::ostringstream said_already;
    rack.entry = solved_entry(request, asked_printer(request), order, said_already);
  }
  return ExitCode::done;
}

/// The rows for other programs, held back until all are there.
class RackRows {
public:
  explicit RackRows(const Request& request) : as_json_(request.json), as_csv_(request.csv) {
    if (as_csv_) held_.add(rack_csv_head());
  }
  void add(const RackShoe& shoe) {
    if (as_json_) held_.add(json_.row(shoe));
    if (as_csv_) held_.add(rack_csv_row(shoe));
  }
  void write_to(std::ostream& out) {
    if (as_json_) held_.add(json_.end());
    held_.write_to(out);
  }

private:
  bool as_json_;
  bool as_csv_;
  RackJson json_;
  HeldOutput held_;
};

/// Returns what was written, in words.
std::string write_sheets(const std::string& wished, const std::string& target, SheetsInTurn sheets,
                         const Request& request, std::ostream& messages) {
  const auto printer = finish_sheets(sheets.set, request, asked_printer(request), target, messages);
  const auto page = [&](std::size_t number) {
    return printer ? corrected_page(sheets.page(number), *printer) : sheets.page(number);
  };
  write_pdf(wished, target, pdf_bytes(sheets.set.drawing, sheets.pages, page));
  return wrote_pages(target, sheets.pages) + '\n';
}

} // namespace

ExitCode run_rack(const Request& request, std::ostream& out, std::ostream& messages) {
  const std::string rack_file = output_file(request.output, "rack.pdf");
  const std::string label_file = output_file(request.labels, "labels.pdf");
  if (!request.output.empty() && !request.labels.empty() && rack_file == label_file) {
    say({plain_error("rack and labels would both be written to " + rack_file,
                     "give -o and --labels a name each, or a directory")},
        messages);
    return ExitCode::bad_usage;
  }
  const OrderList list = list_orders(request.orders);
  const bool for_programs = request.json || request.csv;
  const bool on_paper = !request.output.empty() || !request.labels.empty();
  RackRows rows(request);
  std::vector<RackShoe> shoes; // for the table and for paper, where all have to be known
  if (request.archive.save) say_others_rights(request.archive.file, messages);
  EntrySaver saver(request.archive.file, messages);
  Records records(request.archive);
  const BatchCount count = run_batch<OnRack>(
      list, request, out, messages,
      [&](const std::string& order, std::ostream& said, OnRack& rack) {
        return put_on_rack(request, records, order, said, rack);
      },
      [&](OnRack rack) {
        if (rack.entry) {
          // Run again over a mended folder, it must not make two pairs of one.
          const EntryId kept = saver.save_once(*std::move(rack.entry), rack.file);
          for (RackShoe& shoe : rack.shoes)
            shoe.entry = kept;
        }
        for (const RackShoe& shoe : rack.shoes)
          rows.add(shoe);
        if (for_programs && !on_paper) return ExitCode::done;
        shoes.insert(shoes.end(), std::make_move_iterator(rack.shoes.begin()),
                     std::make_move_iterator(rack.shoes.end()));
        return ExitCode::done;
      });
  if (for_programs)
    rows.write_to(out);
  else if (!request.quiet && !shoes.empty())
    out << table(shoes, request.units);
  const SheetWish wish = sheet_wish(request, {});
  std::string wrote;
  if (!shoes.empty() && !request.output.empty())
    wrote += write_sheets(request.output, rack_file, rack_sheets(shoes, wish), request, messages);
  if (!shoes.empty() && !request.labels.empty())
    wrote += write_sheets(request.labels, label_file, label_sheets(shoes, wish), request, messages);
  if (!for_programs && !request.quiet && !wrote.empty()) out << '\n' << wrote;
  if (is_counted(list, request)) messages << count.words("on the rack");
  return count.worst();
}

} // namespace shankline
