#include "cli/job/finished_sheets.hpp"

#include "cli/surroundings/face_finder.hpp"
#include "cli/surroundings/faults.hpp"
#include "cli/surroundings/source_date.hpp"
#include "cli/surroundings/target.hpp"
#include "cli/text/message.hpp"

#include <ostream>
#include <sstream>
#include <utility>
#include <vector>

namespace shankline {
namespace {

void warn_of_missing_characters(const MissingCharacters& missing_characters,
                                const std::string& file, std::ostream& messages) {
  std::vector<Message> said;
  const auto add = [&](const std::vector<std::string>& characters, const char* what,
                       const char* advice) {
    if (characters.empty()) return;
    Message message;
    message.severity = Severity::caution;
    message.file = file;
    message.what = what;
    for (const std::string& character : characters)
      message.what += " " + character;
    message.advice = advice;
    said.push_back(std::move(message));
  };
  add(missing_characters.without_face,
      "no typeface here shows these characters, each is a '?' on the sheets:",
      "Install a TrueType face that has them, or write other letters.");
  add(missing_characters.without_shaping,
      "these characters cannot be set one by one from left to right, each is a '?' on the sheets:",
      "Write a code, such as M-07, or letters of a script that needs no shaping.");
  if (!said.empty()) say(said, messages);
}

} // namespace

std::string target_of(const Request& request, const std::string& order) {
  return output_file(request.output,
                     named_after(order, request.verb == Verb::chart ? "-chart.pdf" : ".pdf"));
}

SheetWish sheet_wish(const Request& request, const std::string& digest) {
  SheetWish wish{request.paper,           request.units, digest,
                 faces_of_this_machine(), request.maker, request.card};
  wish.care = request.care;
  return wish;
}

AskedPrinter asked_printer(const Request& request) {
  if (request.printer.empty()) return {};
  std::ostringstream unheard; // each sheet says it at its own place
  const MessageCollector kept(unheard);
  AskedPrinter asked;
  asked.printer = load_printer(request.printer, unheard);
  asked.said = kept.all();
  return asked;
}

std::optional<PrinterDrawing> finish_sheets(SheetSet& sheets, const Request& request,
                                            const AskedPrinter& asked, const std::string& file,
                                            std::ostream& messages) {
  sheets.drawing.created = source_date();
  warn_of_missing_characters(sheets.missing_characters, file, messages);
  if (request.printer.empty()) return {};
  const auto& printer = asked.printer;
  for (const Message& message : asked.said) // in the order in which they were said
    say({message}, messages);
  if (!printer) throw AlreadyReported{ExitCode::bad_input};
  if (printer->stored.paper != written(request.paper)) {
    Message message;
    message.severity = Severity::caution;
    message.file = file;
    message.what = "printer " + request.printer + " was calibrated on " + printer->stored.paper +
                   ", and these sheets are for " + written(request.paper);
    message.advice = "Measure the bars before cutting, or calibrate it on this paper as well.";
    say({message}, messages);
  }
  PrinterDrawing drawn_for{request.printer, printer->calibration.correction};
  sheets.drawing = corrected_drawing(std::move(sheets.drawing), drawn_for);
  return drawn_for;
}

} // namespace shankline
