// printer: the calibration sheet, what was measured on it, and which printers are known.
#include "cli/bench_files/printer_store.hpp"
#include "cli/surroundings/source_date.hpp"
#include "cli/surroundings/target.hpp"
#include "cli/text/message.hpp"
#include "cli/verbs/verbs.hpp"
#include "export/bench/printer_sheet.hpp"
#include "export/formats/pdf_writer.hpp"
#include "geometry/order/figure.hpp"

#include <array>
#include <charconv>
#include <cmath>
#include <ostream>
#include <string_view>

namespace shankline {
namespace {

ExitCode wrong(std::ostream& messages, const std::string& words) {
  messages << "shankline: " << without_controls(words) << "\n  see: shankline printer --help\n";
  return ExitCode::bad_usage;
}

/// Four numbers with commas between them.
std::optional<PrintedLengths> lengths_of(std::string_view words) {
  std::array<double, 4> values{};
  for (std::size_t i = 0; i < values.size(); ++i) {
    const std::size_t comma = words.find(',');
    if ((comma == std::string_view::npos) != (i + 1 == values.size())) return std::nullopt;
    std::string_view word = words.substr(0, comma);
    while (word.starts_with(' '))
      word.remove_prefix(1);
    const char* end = word.data() + word.size();
    const auto [rest, error] = std::from_chars(word.data(), end, values[i]);
    if (error != std::errc() || rest != end || !std::isfinite(values[i])) return std::nullopt;
    words.remove_prefix(comma == std::string_view::npos ? words.size() : comma + 1);
  }
  return PrintedLengths{values[0], values[1], values[2], values[3]};
}

ExitCode write_sheet(const Request& request, std::ostream& out) {
  Drawing drawing = printer_sheet(request.paper);
  drawing.created = source_date();
  const std::string target = output_file(request.output, "calibration-sheet.pdf");
  write_pdf(request.output, target, pdf_bytes(drawing));
  out << wrote_file(target)
      << ": print it at 100 %, measure it, then: " << measured_command(request.paper) << '\n';
  return ExitCode::done;
}

std::string summary(const CalibratedPrinter& printer) {
  return printer.stored.name + ", " + printer.stored.paper + ": drawn " +
         correction_words(printer.calibration) +
         (printer.calibration.is_true ? ", true within the ruler's reading" : "") + "\n";
}

ExitCode list(std::ostream& out, std::ostream& messages) {
  const std::vector<std::string> names = printer_names();
  if (names.empty())
    out << "no printer is calibrated here; begin with: shankline printer -o sheet.pdf\n";
  ExitCode code = ExitCode::done;
  for (const std::string& name : names) {
    const auto printer = load_printer(name, messages);
    if (printer) out << summary(*printer);
    if (!printer) code = ExitCode::bad_input;
  }
  return code;
}

ExitCode forget(const std::string& name, std::ostream& out, std::ostream& messages) {
  if (!forget_printer(name)) {
    load_printer(name, messages); // says that there is none
    return ExitCode::bad_input;
  }
  out << "forgot printer " << name << "\n";
  return ExitCode::done;
}

ExitCode measure(const Request& request, std::ostream& out, std::ostream& messages) {
  const PrinterWish& wish = request.calibration;
  const auto lengths = lengths_of(wish.measured);
  if (!lengths)
    return wrong(messages, "--measured " + shown(wish.measured) +
                               " is not four lengths in mm with commas between them, A to B, A to "
                               "D, A to C, B to D, such as 160.1,213.4,266.8,266.7.");
  const Calibration found = calibrate(calibration_frame(request.paper), *lengths);
  std::vector<Message> said;
  for (const Finding& finding : found.findings) {
    Message message{finding.severity, "printer " + wish.name, 0, 0, "", finding.what,
                    finding.allowed,  finding.advice};
    said.push_back(std::move(message));
  }
  say(said, messages);
  if (has_error(said)) return ExitCode::bad_input;
  CalibratedPrinter printer{{wish.name, written(request.paper), *lengths}, found};
  const std::string path = store_printer(printer.stored);
  out << summary(printer) << "the four lengths agree within " << figure(found.residual, 2)
      << " mm\n";
  if (found.is_true)
    out << "this printer prints at true size: sheets need no --printer\n";
  else
    out << "use it:  shankline cut order.yaml --printer " << wish.name << "\n";
  out << wrote_file(path) << "\n";
  return ExitCode::done;
}

} // namespace

ExitCode run_printer(const Request& request, std::ostream& out, std::ostream& messages) {
  const PrinterWish& wish = request.calibration;
  const int asked = (request.output.empty() ? 0 : 1) + (wish.measured.empty() ? 0 : 1) +
                    (wish.list ? 1 : 0) + (wish.forget ? 1 : 0);
  if (asked > 1) return wrong(messages, "one at a time: -o FILE, --measured, --list or --forget.");
  const bool named = !wish.name.empty();
  if (named && !is_printer_name(wish.name))
    return wrong(messages,
                 "a printer's name is of letters, figures, '-' and '_', at most 32, and " +
                     shown(wish.name) + " is not.");
  if (wish.list || !request.output.empty()) {
    if (named)
      return wrong(messages, "the sheet and the list are of no one printer: leave out NAME.");
    return wish.list ? list(out, messages) : write_sheet(request, out);
  }
  if (!named)
    return wrong(messages, "say what to do: -o FILE for the sheet to print, NAME --measured "
                           "AB,AD,AC,BD for what was measured on it, or --list.");
  if (wish.forget) return forget(wish.name, out, messages);
  if (!wish.measured.empty()) return measure(request, out, messages);
  const auto printer = load_printer(wish.name, messages);
  if (!printer) return ExitCode::bad_input;
  out << summary(*printer);
  return ExitCode::done;
}

} // namespace shankline
