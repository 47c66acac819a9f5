// cut, check and chart: one order or many, each from its text to numbers and sheets.
#include "cli/job/archive_saving.hpp"
#include "cli/job/archive_words.hpp"
#include "cli/job/finished_sheets.hpp"
#include "cli/job/order_batch.hpp"
#include "cli/job/order_job.hpp"
#include "cli/report/chart_table.hpp"
#include "cli/report/report.hpp"
#include "cli/surroundings/faults.hpp"
#include "cli/surroundings/target.hpp"
#include "cli/text/message.hpp"
#include "cli/verbs/verbs.hpp"
#include "export/formats/digest.hpp"
#include "export/formats/pdf_writer.hpp"
#include "export/json/finding_json.hpp"
#include "export/sets/maker_document.hpp"
#include "export/sets/one_length.hpp"

#include <algorithm>
#include <filesystem>
#include <optional>
#include <ostream>
#include <system_error>
#include <utility>
#include <vector>

namespace shankline {
namespace {

/// The line that stands for the report in a batch; `written` is where the sheets went, if they did.
std::string brief(const SolvedOrder& solved, const std::string& written, Units units) {
  return without_controls(solved.read.file) + ": " +
         brief_text(solved.order(), solved.solution, units) +
         (written.empty() ? "" : "; wrote " + without_controls(written)) + "\n";
}

std::string report(const OrderJob& job, const Request& request) {
  const SolvedOrder& solved = job.solved();
  if (request.verb != Verb::chart)
    return report_text(solved.order(), solved.solution, job.contact(), request.units) +
           (request.verb == Verb::check ? budget_text(solved.solution, request.units)
                                        : std::string()) +
           (request.sampled ? sampled_text(solved.order(), solved.solution, request.units)
                            : std::string());
  std::string text;
  for (const FootChart& foot : job.charts())
    text += (text.empty() ? "" : "\n") +
            chart_table(solved.solved(foot.side), foot.chart, request.units);
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

/// The results of one order, for standard output.
struct OrderResult {
  std::string text;
  std::string numbers;                 ///< --json: the solution, or an order without feet
  OrderAccount account;                ///< --json
  std::optional<ArchiveEntry> entry;   ///< to be kept
  std::optional<MakerOrder> for_maker; ///< for the document of all orders
  std::optional<SheetSet> for_roll;    ///< for the length of all orders
};

void save(const ArchiveEntry& entry, EntrySaver& saver, const Request& request, std::ostream& out) {
  const auto saved = saver.save(entry);
  if (saved && !request.json && !request.quiet) out << saved_words(*saved, request.units);
}

bool writes_sheets(const Request& request) {
  return request.verb == Verb::cut || (request.verb == Verb::chart && !request.output.empty());
}

ExitCode work_out(const Request& request, const AskedPrinter& printer, Records& records,
                  const std::string& order, bool in_batch, std::ostream& messages,
                  OrderResult& result, OrderText& as_read) {
  OrderJob job(request, printer, records, order_source(request, order), messages);
  if (!job.solve(request.json ? &as_read : nullptr)) return ExitCode::bad_input;
  const bool writes = writes_sheets(request);
  if (writes || (request.lines && request.verb != Verb::chart)) job.lay_out();
  const std::string recalled =
      request.verb == Verb::cut && !in_batch && !request.json && !request.quiet
          ? last_time(job.solved().order().dancer, request.archive, request.units, messages)
          : std::string();
  const std::string target = writes ? target_of(request, order) : std::string();
  const std::string wrote = writes ? job.write(target, result.account.written) : std::string();
  if (request.json) {
    result.numbers = job.json();
  } else if (!request.quiet) {
    result.text = in_batch ? brief(job.solved(), target, request.units) : report(job, request);
    if (!recalled.empty()) result.text += '\n' + recalled;
    if (writes && !in_batch) result.text += '\n' + wrote;
  }
  if (request.archive.save) result.entry = job.entry();
  if (in_batch && request.maker)
    result.for_maker = MakerOrder{job.solved().order(), job.solved().solution, job.solved().digest};
  if (in_batch && request.one_length) result.for_roll = std::move(job.loose_sheets());
  return ExitCode::done;
}

std::vector<PlacedFinding> placed(const std::vector<Message>& messages) {
  std::vector<PlacedFinding> findings;
  for (const Message& message : messages)
    findings.push_back(placed(message));
  return findings;
}

/// Also of an order that was refused there is something to tell to other programs.
ExitCode run_one(const Request& request, const AskedPrinter& printer, Records& records,
                 const std::string& order, bool in_batch, std::ostream& messages,
                 OrderResult& result) {
  const MessageCollector kept(messages);
  OrderText as_read;
  const ExitCode code = report_faults(order, messages, [&] {
    return work_out(request, printer, records, order, in_batch, messages, result, as_read);
  });
  if (!request.json) return code;
  result.account.file = order;
  if (!as_read.text.empty()) result.account.digest = sha256(as_read.text);
  result.account.findings = placed(kept.all());
  const Order& read = as_read.read.order;
  if (code != ExitCode::done) result.numbers = refused_json({read.dancer, read.pair, read.date});
  return code;
}

/// One document for one order, an array for several; written as they come.
class JsonList {
public:
  JsonList(bool several, std::ostream& out) : several_(several), out_(out) {
    if (several_) out_ << "[\n";
  }
  void add(const std::string& document) {
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

/// One document for the maker of all these orders, beside their own sheets.
void write_for_maker(const std::vector<MakerOrder>& orders, const Request& request,
                     const AskedPrinter& printer, std::ostream& out, std::ostream& messages) {
  if (orders.empty()) return;
  SheetSet set = maker_document(orders, sheet_wish(request, {}));
  finish_sheets(set, request, printer, {}, messages);
  const std::string target = output_file(request.output, "all-for-the-maker.pdf");
  write_pdf(request.output, target, pdf_bytes(set.drawing));
  if (!request.json && !request.quiet) out << wrote_pages(target, set.drawing.pages.size()) << '\n';
}

/// The sheets of all these orders on one length of the roll, beside their own sheets.
void write_on_one_length(std::vector<SheetSet> sets, const Request& request,
                         const AskedPrinter& printer, std::ostream& out, std::ostream& messages) {
  if (sets.empty()) return;
  std::vector<std::size_t> left_out;
  SheetSet set = joined(std::move(sets), left_out);
  set.drawing.title = "All orders on one length";
  set.drawing.subject = "alterations of several pairs";
  set = on_one_length(std::move(set), request.paper);
  finish_sheets(set, request, printer, {}, messages);
  if (!left_out.empty()) {
    Message message =
        plain_error("some orders need other typefaces and are not on the common length: " +
                        std::to_string(left_out.size()),
                    "print these from their own files");
    message.severity = Severity::caution;
    say({message}, messages);
  }
  const std::string target = output_file(request.output, "all-on-one-length.pdf");
  write_pdf(request.output, target, pdf_bytes(set.drawing));
  if (!request.json && !request.quiet)
    out << wrote_pages(target, set.drawing.pages.size()) << ": " << roll_words(set.drawing) << '\n';
}

std::string_view done_word(Verb verb) {
  return verb == Verb::cut ? "cut" : verb == Verb::chart ? "charted" : "sound";
}

/// The sheets of several orders go into a folder: a name that is none yet becomes one.
Request into_a_folder(Request request) {
  std::error_code unknown;
  const std::string& output = request.output;
  const bool named_pdf = output.ends_with(".pdf") || output == standard_output;
  if (!output.empty() && output.back() != '/' && !named_pdf &&
      !std::filesystem::exists(output, unknown))
    request.output += '/';
  return request;
}

} // namespace

ExitCode run_orders(const Request& asked, std::ostream& out, std::ostream& messages) {
  const OrderList list = list_orders(asked);
  const bool several = is_batch(list);
  const Request request = several ? into_a_folder(asked) : asked;
  if (request.pdf_to_output && list.files.size() > 1) {
    say({plain_error("-o - writes one PDF, and these are " + std::to_string(list.files.size()) +
                         " orders",
                     "name one order, or give a directory with -o")},
        messages);
    return ExitCode::bad_usage;
  }
  if (const auto target = clash(request, list.files);
      several && request.verb != Verb::check && target) {
    say({plain_error("two orders would both be written to " + *target,
                     "give a directory with -o, and orders of different names")},
        messages);
    return ExitCode::bad_usage;
  }
  if (request.archive.save) say_others_rights(request.archive.file, messages);
  if (writes_sheets(request) && several) make_output_folder(request.output);
  // Draws and charts are tables that no line can stand for.
  const bool in_batch = several && request.verb != Verb::chart && !request.sampled;
  const AskedPrinter printer = asked_printer(request);
  Records records(request.archive);
  EntrySaver saver(request.archive.file, messages);
  std::vector<MakerOrder> for_maker;
  std::vector<SheetSet> for_roll;
  std::optional<JsonList> json;
  if (request.json) json.emplace(several, out);
  const BatchCount count = run_batch<OrderResult>(
      list, request, out, messages,
      [&](const std::string& order, std::ostream& said, OrderResult& result) {
        return run_one(request, printer, records, order, in_batch, said, result);
      },
      [&](OrderResult result) {
        out << result.text;
        const MessageCollector kept(messages);
        ExitCode saved = ExitCode::done;
        if (result.entry) // entries follow one another
          saved = report_faults("shankline", messages, [&] {
            save(*result.entry, saver, request, out);
            return ExitCode::done;
          });
        if (json) {
          for (const Message& message : kept.all())
            result.account.findings.push_back(placed(message));
          json->add(with_account(std::move(result.numbers), result.account));
        }
        if (result.for_maker) for_maker.push_back(*std::move(result.for_maker));
        if (result.for_roll) for_roll.push_back(*std::move(result.for_roll));
        return saved;
      });
  if (json) json->end();
  if (!count.ended_early()) { // no page says "all orders" of some
    write_for_maker(for_maker, request, printer, out, messages);
    write_on_one_length(std::move(for_roll), request, printer, out, messages);
  }
  if (is_counted(list, request)) messages << count.words(done_word(request.verb));
  return count.worst();
}

} // namespace shankline
