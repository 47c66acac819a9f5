#include "cli/job/order_job.hpp"

#include "cli/job/archive_saving.hpp"
#include "cli/surroundings/target.hpp"
#include "cli/text/message.hpp"
#include "export/formats/pdf_writer.hpp"
#include "export/formats/whole_file.hpp"
#include "export/json/solution_json.hpp"
#include "export/sets/one_length.hpp"
#include "export/sets/order_sheets.hpp"
#include "export/sets/part_files.hpp"

#include <ostream>
#include <utility>

namespace shankline {
namespace {

Message about_part(const std::string& file, const std::string& part) {
  Message message = about_file(file, part + ": it has no closed line to cut along, and no file",
                               "leave --cut-only out to have all of its lines");
  message.severity = Severity::caution;
  return message;
}

} // namespace

OrderJob::OrderJob(const Request& request, const AskedPrinter& printer, Records& records,
                   OrderSource source, std::ostream& messages)
    : request_(request), asked_printer_(printer), records_(records), source_(std::move(source)),
      messages_(messages) {}

bool OrderJob::solve(OrderText* as_read) {
  const FurtherStep estimate = [this](SolvedOrder& solved) {
    estimate_contact(solved);
    if (request_.verb == Verb::chart) make_charts(solved);
    if (request_.verb != Verb::chart && !request_.at_every_edit) records_.last_pairs.warn(solved);
  };
  const CompletingStep look_up = [this](Order& order) { return records_.learned.fill(order); };
  solved_ = solve_order(source_, messages_, estimate, look_up, as_read);
  return solved_.has_value();
}

void OrderJob::lay_out() {
  const SheetWish wish = sheet_wish(request_, solved_->digest);
  sheets_ = request_.verb == Verb::chart
                ? chart_set(solved_->order(), solved_->solution, charts_, wish)
                : sheet_set(solved_->order(), solved_->solution, solved_->solution.findings, wish);
  if (request_.one_length) {
    loose_ = *sheets_;
    sheets_ = on_one_length(std::move(*sheets_), request_.paper);
  }
  printer_ = finish_sheets(*sheets_, request_, asked_printer_, solved_->read.file, messages_);
}

/// Made once, for the file and for the archive.
const std::string& OrderJob::pdf() {
  if (pdf_.empty()) pdf_ = pdf_bytes(sheets_->drawing);
  return pdf_;
}

PartFiles OrderJob::parts() const {
  return part_files(*sheets_, solved_->order(), solved_->solution, solved_->digest, request_.parts);
}

std::string OrderJob::write(const std::string& target, std::vector<std::string>& written) {
  // Every file is made before the first is written: a fault of ours leaves none behind.
  pdf();
  const PartFiles made = parts();
  for (const std::string& part : made.left_out)
    say({about_part(solved_->read.file, part)}, messages_);
  write_pdf(request_.output, target, pdf());
  written.push_back(target);
  std::string words = wrote_words(target, sheets_->drawing.pages.size());
  if (request_.one_length) words += roll_words(sheets_->drawing) + '\n';
  for (const PartFile& part : made.files) {
    const std::string file = beside_target(target, part.suffix);
    write_whole_file(file, part.bytes);
    written.push_back(file);
    words += wrote_file(file) + '\n';
  }
  return words;
}

ArchiveEntry OrderJob::entry() {
  return entry_of(*solved_, numbers(), sheets_->drawing, pdf(), request_, printer_);
}

std::string OrderJob::json() {
  if (!request_.lines || !sheets_) return numbers();
  return solution_json(solved_->order(), solved_->solution, contact_, charts_,
                       solved_->solution.findings, &*sheets_);
}

/// Returns the JSON without the sheets' lines. It is made once, for the user and for the archive.
const std::string& OrderJob::numbers() {
  if (numbers_.empty())
    numbers_ = solution_json(solved_->order(), solved_->solution, contact_, charts_,
                             solved_->solution.findings, nullptr);
  return numbers_;
}

/// Contact figures are an extra of a cut; a chart is made of them.
void OrderJob::estimate_contact(SolvedOrder& solved) {
  contact_ = estimated_contact(solved);
  // A chart works the doubt out for itself.
  if (request_.verb == Verb::check || (request_.verb == Verb::cut && request_.json))
    add_doubt(contact_, solved.order(), solved.solution);
  if (request_.verb == Verb::cut) return;
  Findings& found = solved.solution.findings;
  found.insert(found.end(), contact_.reasons.begin(), contact_.reasons.end());
}

void OrderJob::make_charts(SolvedOrder& solved) {
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
    solved.solution.findings.push_back(
        {Severity::error, "alterations", "there is nothing to chart",
         "a shank to cut or a board to thin, and the arch's depth or bend",
         "Write a shank or thinned under alterations, and measure the arch depth."});
}

std::optional<ArchiveEntry> solved_entry(const Request& request, const AskedPrinter& printer,
                                         const OrderSource& order, std::ostream& messages) {
  Request cut = request;
  cut.verb = Verb::cut;
  Records records(cut.archive);
  OrderJob job(cut, printer, records, order, messages);
  if (!job.solve()) return std::nullopt;
  job.lay_out();
  return job.entry();
}

} // namespace shankline
