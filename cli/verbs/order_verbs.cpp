// cut, check and chart: one order or many, each from its text to numbers and sheets.
#include "cli/job/archive_saving.hpp"
#include "cli/job/archive_words.hpp"
#include "cli/job/finished_sheets.hpp"
#include "cli/job/order_batch.hpp"
#include "cli/job/order_job.hpp"
#include "cli/report/chart_table.hpp"
#include "cli/report/report.hpp"
#include "cli/surroundings/target.hpp"
#include "cli/text/message.hpp"
#include "cli/verbs/verbs.hpp"

#include <algorithm>
#include <optional>
#include <ostream>
#include <utility>
#include <vector>

namespace shankline {
namespace {

/// The line that stands for the report in a batch; `written` is where the sheets went, if they did.
std::string brief(const SolvedOrder& solved, const std::string& written) {
  return without_controls(solved.read.file) + ": " + brief_text(solved.order(), solved.solution) +
         (written.empty() ? "" : "; wrote " + without_controls(written)) + "\n";
}

std::string report(const OrderJob& job, const Request& request) {
  const SolvedOrder& solved = job.solved();
  if (request.verb != Verb::chart)
    return report_text(solved.order(), solved.solution, job.contact(), request.units) +
           (request.verb == Verb::check ? budget_text(solved.solution) : std::string()) +
           (request.sampled ? sampled_text(solved.order(), solved.solution) : std::string());
  std::string text;
  for (const FootChart& foot : job.charts())
    text += (text.empty() ? "" : "\n") + chart_table(solved.solved(foot.side), foot.chart);
  return text;
}

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

ExitCode run_one(const Request& request, const AskedPrinter& printer, LearnedLookup& lookup,
                 const std::string& order, bool in_batch, std::ostream& messages,
                 OrderResult& result) {
  OrderJob job(request, printer, lookup, order, messages);
  if (!job.solve()) return ExitCode::bad_input;
  const bool writes = writes_sheets(request);
  if (writes || (request.lines && request.verb != Verb::chart)) job.lay_out();
  const std::string recalled =
      request.verb == Verb::cut && !in_batch && !request.json && !request.quiet
          ? last_time(job.solved().order().dancer, request.archive, messages)
          : std::string();
  const std::string target = writes ? target_of(request, order) : std::string();
  const std::string wrote = writes ? job.write(target) : std::string();
  if (request.json) {
    result.json = job.json();
  } else if (!request.quiet) {
    result.text = in_batch ? brief(job.solved(), target) : report(job, request);
    if (!recalled.empty()) result.text += '\n' + recalled;
    if (writes && !in_batch) result.text += '\n' + wrote;
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
  const bool in_batch = several && request.verb != Verb::chart && !request.sampled;
  const AskedPrinter printer = asked_printer(request);
  LearnedLookup lookup(request.archive);
  EntrySaver saver(request.archive.file, messages);
  std::optional<JsonList> json;
  if (request.json) json.emplace(several, out);
  const BatchCount count = run_batch<OrderResult>(
      list, request, messages,
      [&](const std::string& order, std::ostream& said, OrderResult& result) {
        return run_one(request, printer, lookup, order, in_batch, said, result);
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
