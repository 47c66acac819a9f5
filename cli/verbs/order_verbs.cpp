// cut, check and chart: one order or many, each from its text to numbers and sheets.
#include "cli/job/archive_saving.hpp"
#include "cli/job/archive_words.hpp"
#include "cli/job/finished_sheets.hpp"
#include "cli/job/order_batch.hpp"
#include "cli/job/solved_order.hpp"
#include "cli/report/chart_table.hpp"
#include "cli/report/report.hpp"
#include "cli/surroundings/target.hpp"
#include "cli/text/message.hpp"
#include "cli/verbs/verbs.hpp"
#include "export/formats/pdf_writer.hpp"
#include "export/formats/whole_file.hpp"
#include "export/json/solution_json.hpp"
#include "export/sets/order_sheets.hpp"
#include "export/sets/part_files.hpp"
#include "geometry/breaking/break_chart.hpp"
#include "geometry/breaking/pair_contact.hpp"

#include <algorithm>
#include <optional>
#include <ostream>
#include <utility>
#include <vector>

namespace shankline {
namespace {

class OrderJob {
public:
  OrderJob(const Request& request, std::string path, std::ostream& messages)
      : request_(request), path_(std::move(path)), messages_(messages) {}

  /// Reads and solves; false if there is an error, which has been said.
  bool solve() {
    solved_ =
        solve_order(path_, messages_, [this](SolvedOrder& solved) { estimate_contact(solved); });
    return solved_.has_value();
  }

  void lay_out() {
    const SheetWish wish = sheet_wish(request_, solved_->digest);
    sheets_ =
        request_.verb == Verb::chart
            ? chart_set(solved_->order(), solved_->solution, charts_, wish)
            : sheet_set(solved_->order(), solved_->solution, solved_->solution.findings, wish);
    printer_ = finish_sheets(*sheets_, request_, solved_->read.file, messages_);
  }

  /// Worked out once, for the file and for the archive.
  const std::string& pdf() {
    if (pdf_.empty()) pdf_ = pdf_bytes(sheets_->drawing);
    return pdf_;
  }

  /// Returns what was written, in words.
  std::string write(const std::string& target) {
    // Every file is made before the first is written: a fault of ours leaves none behind.
    pdf();
    const std::vector<PartFile> parts =
        part_files(*sheets_, solved_->order(), solved_->solution, solved_->digest, request_.parts);
    write_pdf(request_.output, target, pdf());
    written_ = target;
    std::string words = wrote_words(target, sheets_->drawing.pages.size());
    for (const PartFile& part : parts) {
      const std::string file = beside_target(target, part.suffix);
      write_whole_file(file, part.bytes);
      words += wrote_file(file) + '\n';
    }
    return words;
  }

  ArchiveEntry entry() {
    return entry_of(*solved_, numbers(), sheets_->drawing, pdf(), request_, printer_);
  }
  const std::string& dancer() const { return solved_->order().dancer; }

  std::string json() {
    if (!request_.lines || !sheets_) return numbers();
    return solution_json(solved_->order(), solved_->solution, contact_, charts_,
                         solved_->solution.findings, &*sheets_);
  }

  /// The line that stands for the report in a batch.
  std::string brief() const {
    return without_controls(solved_->read.file) + ": " +
           brief_text(solved_->order(), solved_->solution) +
           (written_.empty() ? "" : "; wrote " + without_controls(written_)) + "\n";
  }

  std::string report() const {
    if (request_.verb != Verb::chart)
      return report_text(solved_->order(), solved_->solution, contact_, request_.units) +
             (request_.verb == Verb::check ? budget_text(solved_->solution) : std::string()) +
             (request_.sampled ? sampled_text(solved_->order(), solved_->solution) : std::string());
    std::string text;
    for (const FootChart& foot : charts_)
      text += (text.empty() ? "" : "\n") + chart_table(solved_->solved(foot.side), foot.chart);
    return text;
  }

private:
  /// The solution's JSON without the sheets' lines. Worked out once, for the user and the archive.
  const std::string& numbers() {
    if (numbers_.empty())
      numbers_ = solution_json(solved_->order(), solved_->solution, contact_, charts_,
                               solved_->solution.findings, nullptr);
    return numbers_;
  }

  /// Contact figures are an extra of a cut; a chart is made of them.
  void estimate_contact(SolvedOrder& solved) {
    contact_ = estimated_contact(solved);
    Findings& found = solved.solution.findings;
    // A chart works it out for itself.
    if (request_.verb == Verb::check || (request_.verb == Verb::cut && request_.json))
      add_doubt(contact_, solved.order(), solved.solution);
    if (request_.verb == Verb::cut) return;
    found.insert(found.end(), contact_.reasons.begin(), contact_.reasons.end());
    if (request_.verb != Verb::chart) return;
    const auto add = [&](FootSide side, const std::optional<FootContact>& contact,
                         std::optional<ContactDoubt>& doubt) {
      if (!contact) return;
      auto chart = break_chart(solved.order(), solved.solved(side), *contact);
      if (!chart) return;
      doubt = chart->doubt;
      charts_.push_back({side, std::move(*chart)});
    };
    add(FootSide::left, contact_.left, contact_.left_doubt);
    add(FootSide::right, contact_.right, contact_.right_doubt);
    if (charts_.empty())
      found.push_back({Severity::error, "alterations", "there is nothing to chart",
                       "a shank to cut, and the arch's depth or bend",
                       "Write a shank under alterations, and measure the arch depth."});
  }

  const Request& request_;
  std::string path_;
  std::ostream& messages_;
  std::optional<SolvedOrder> solved_;
  PairContact contact_;
  std::vector<FootChart> charts_;
  std::optional<SheetSet> sheets_;
  std::optional<PrinterDrawing> printer_; ///< whom the sheets were drawn for
  std::string pdf_;
  std::string numbers_;
  std::string written_; ///< where the sheets went
};

/// Two orders that would overwrite each other's sheets are wrong usage, found before any is cut.
std::optional<std::string> clash(const Request& request, const std::vector<std::string>& orders) {
  std::vector<std::string> targets;
  for (const std::string& order : orders)
    targets.push_back(target_of(request, order));
  std::sort(targets.begin(), targets.end());
  const auto twice = std::adjacent_find(targets.begin(), targets.end());
  return twice == targets.end() ? std::nullopt : std::optional<std::string>(*twice);
}

/// What one order came to, as text for standard output.
struct OrderResult {
  std::string text;
  std::string json;
  std::optional<ArchiveEntry> entry; ///< to be kept
};

void save(const ArchiveEntry& entry, EntrySaver& saver, const Request& request, std::ostream& out) {
  const auto saved = saver.save(entry);
  if (saved && !request.json && !request.quiet) out << saved_words(*saved);
}

bool writes_sheets(const Request& request) {
  return request.verb == Verb::cut || (request.verb == Verb::chart && !request.output.empty());
}

ExitCode run_one(const Request& request, const std::string& order, bool brief,
                 std::ostream& messages, OrderResult& result) {
  OrderJob job(request, order, messages);
  if (!job.solve()) return ExitCode::bad_input;
  const bool writes = writes_sheets(request);
  if (writes || (request.lines && request.verb != Verb::chart)) job.lay_out();
  const std::string recalled =
      request.verb == Verb::cut && !brief && !request.json && !request.quiet
          ? last_time(job.dancer(), request.archive, messages)
          : std::string();
  const std::string wrote = writes ? job.write(target_of(request, order)) : std::string();
  if (request.json) {
    result.json = job.json();
  } else if (!request.quiet) {
    result.text = brief ? job.brief() : job.report();
    if (!recalled.empty()) result.text += '\n' + recalled;
    if (writes && !brief) result.text += '\n' + wrote;
  }
  if (request.archive.save) result.entry = job.entry();
  return ExitCode::done;
}

/// One document for one order, an array for several; written as they come.
class JsonList {
public:
  JsonList(bool several, std::ostream& out) : several_(several), out_(out) {
    if (several_) out_ << "[\n";
  }
  void add(const std::string& document) {
    if (document.empty()) return;
    out_ << (any_ ? ",\n" : "") << document;
    any_ = true;
  }
  void end() {
    if (several_) out_ << "]\n";
  }

private:
  bool several_;
  bool any_ = false;
  std::ostream& out_;
};

std::string_view done_word(Verb verb) {
  return verb == Verb::cut ? "cut" : verb == Verb::chart ? "charted" : "sound";
}

} // namespace

std::optional<ArchiveEntry> solved_entry(const Request& request, const std::string& order,
                                         std::ostream& messages) {
  Request cut = request;
  cut.verb = Verb::cut;
  OrderJob job(cut, order, messages);
  if (!job.solve()) return std::nullopt;
  job.lay_out();
  return job.entry();
}

ExitCode run_orders(const Request& request, std::ostream& out, std::ostream& messages) {
  const OrderList list = list_orders(request.orders);
  const bool several = is_batch(list);
  if (const auto target = clash(request, list.files);
      several && request.verb != Verb::check && target) {
    messages << "shankline: two orders would both be written to " << without_controls(*target)
             << "\n  do: give a directory with -o, and orders of different names\n";
    return ExitCode::bad_usage;
  }
  if (request.archive.save) say_others_rights(request.archive.file, messages);
  if (writes_sheets(request) && several) make_output_folder(request.output);
  // Draws and charts are tables that no line can stand for.
  const bool brief = several && request.verb != Verb::chart && !request.sampled;
  EntrySaver saver(request.archive.file, messages);
  std::optional<JsonList> json;
  if (request.json) json.emplace(several, out);
  const BatchCount count = run_batch<OrderResult>(
      list, request, messages,
      [&](const std::string& order, std::ostream& said, OrderResult& result) {
        return run_one(request, order, brief, said, result);
      },
      [&](const OrderResult& result) {
        out << result.text;
        if (json) json->add(result.json);
        if (result.entry) save(*result.entry, saver, request, out); // entries follow one another
        if (request.progress_columns > 0) out.flush(); // before the bar is drawn below it
        return ExitCode::done;
      });
  if (json) json->end();
  if (is_counted(list, request)) messages << count.words(done_word(request.verb));
  return count.worst();
}

} // namespace shankline
