// Pages to note the readings on, in the order in which the interview asks for them.
#include "cli/interview/interview_questions.hpp"
#include "cli/surroundings/target.hpp"
#include "cli/verbs/verbs.hpp"
#include "export/bench/measuring_form.hpp"
#include "export/bench/measuring_strip.hpp"
#include "export/formats/pdf_writer.hpp"
#include "geometry/order/reading_guide.hpp"

#include <algorithm>
#include <array>
#include <ostream>

namespace shankline {
namespace {

using Entry = FormRow::Entry;

constexpr std::string_view first_in_the_shoe = "fold";

/// "in_shoe, loose" as words to tick.
std::vector<std::string> words_of(const Question& question) {
  std::vector<std::string> words;
  for (const std::string_view part : question.choices) {
    std::string word(part);
    std::replace(word.begin(), word.end(), '_', ' ');
    words.push_back(std::move(word));
  }
  return words;
}

/// Returns the meanings of a choice's words, one per line.
std::vector<std::string> meanings_of(const Question& question) {
  if (question.id == "pose")
    return {
        "pointed: seated, leg straight, foot fully pointed; measured along the sole from the back "
        "of the heel",
        "in shoe: standing on pointe in the uncut shoe, marked through the satin; measured from "
        "its back seam"};
  if (question.id == "reach")
    return {
        "edge: the board ends at the heel's front edge; tucked: a little under the heel; short: "
        "a little ahead of it"};
  if (question.id == "feet" || question.id == "work") return {};
  return {question.how};
}

/// Returns how a reading is taken, and from where to where, as long as the page has room for it.
std::string how_of(const Question& question) {
  if (question.id == "widths")
    return "From edge to edge, straight across, and from the board's heel end to each place: heel, "
           "waist and ball; in the shoe: at the heel and where the cut will be.";
  const ReadingGuide* guide = reading_guide(question.guide);
  if (!guide || guide->between.empty()) return question.how;
  return question.how + " " + std::string(guide->between);
}

FormRow row_of(const Question& question) {
  FormRow row{Entry::pair, question.guide, question.title, how_of(question), {}, {}};
  if (const ReadingGuide* guide = reading_guide(question.guide); guide && question.side) {
    row.entry = Entry::feet;
    row.name = question.title.substr(0, question.title.rfind(", "));
  } else if (!question.choices.empty()) {
    row.entry = Entry::choice;
    row.words = words_of(question);
    row.meanings = meanings_of(question);
    row.key = question.id;
  } else if (question.guide.empty()) {
    row.key = question.id;
  }
  return row;
}

/// The form leaves out liner, darning and ribbons: they are decided with the order, not measured on
/// the studio floor, and its pages have no room for them.
bool is_on_the_form(const Question& question) {
  constexpr std::array<std::string_view, 4> elsewhere{"alterations.liner", "alterations.darning",
                                                      "alterations.ribbons", "shoe.platform"};
  return question.guide != "ankle_girth" &&
         std::none_of(elsewhere.begin(), elsewhere.end(),
                      [&](std::string_view path) { return question.path.starts_with(path); });
}

FormPages form_pages() {
  FormPages pages;
  bool in_the_shoe = false;
  bool measured = false;
  for (const Question& question : interview_questions()) {
    if (question.side == FootSide::right || !is_on_the_form(question)) continue;
    FormRow row = row_of(question);
    in_the_shoe = in_the_shoe || row.key == first_in_the_shoe;
    measured = measured || row.entry == Entry::feet;
    if (!measured) { // what the order is called, and what is chosen before anything is measured
      if (row.entry != Entry::choice) row.entry = Entry::line;
      row.key.clear();
    }
    const bool of_sides = row.key.starts_with("sides.");
    (of_sides ? pages.sides : in_the_shoe ? pages.shoe : pages.foot).push_back(std::move(row));
  }
  return pages;
}

} // namespace

ExitCode run_form(const Request& request, std::ostream& out, std::ostream&) {
  const SheetSet form =
      request.strip ? measuring_strips(request.paper) : measuring_form(form_pages(), request.paper);
  const std::string target =
      output_file(request.output, request.strip ? "measuring-strip.pdf" : "measuring-form.pdf");
  write_pdf(request.output, target, pdf_bytes(form.drawing));
  out << wrote_pages(target, form.drawing.pages.size()) << '\n';
  return ExitCode::done;
}

} // namespace shankline
