#include "cli/verbs/archive_learning.hpp"

#include "cli/job/finished_sheets.hpp"
#include "cli/job/learned_house.hpp"
#include "cli/report/learned_json.hpp"
#include "cli/report/learned_words.hpp"
#include "cli/surroundings/target.hpp"
#include "export/bench/learned_sheet.hpp"
#include "export/formats/pdf_writer.hpp"

#include <ostream>
#include <utility>

namespace shankline {
namespace {

LearnedPage page_of(const LearnedHouse& house, Units units) {
  LearnedPage page;
  page.basis = basis_words(house);
  for (const FoundPlace& found : house.found)
    page.dots.push_back({found.promised.place, found.promised.U, found.found});
  page.sentences = house_sentences(house, units);
  for (std::string& sentence : contact_sentences(house, units))
    page.sentences.push_back(std::move(sentence));
  if (house.shoes > 0) page.months = track_rows(house);
  page.cautions = learned_cautions(house, units);
  return page;
}

} // namespace

ExitCode learn(Store& store, const Request& request, std::ostream& out, std::ostream& messages) {
  const LearnedHouse house = learned_house(house_history(store));
  std::string wrote;
  if (!request.output.empty()) {
    SheetSet set = learned_sheet(page_of(house, request.units), sheet_wish(request, {}));
    finish_sheets(set, request, asked_printer(request), {}, messages);
    const std::string target = output_file(request.output, "learned.pdf");
    write_pdf(request.output, target, pdf_bytes(set.drawing), Readers::owner);
    wrote = wrote_pages(target, set.drawing.pages.size()) + "\n";
  }
  if (request.json)
    out << learned_json(house);
  else if (request.csv)
    out << learned_csv(house);
  else
    out << learned_text(house, request.units) << (wrote.empty() ? "" : "\n" + wrote);
  return ExitCode::done;
}

} // namespace shankline
