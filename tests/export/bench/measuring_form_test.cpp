// The measuring page: legible on every paper, each number once on a drawing and once in the table.
#include "export/bench/measuring_form.hpp"

#include "geometry/order/reading_guide.hpp"
#include "tests/export/layout_check.hpp"
#include "tests/support/places.hpp"
#include "tests/support/process.hpp"
#include "tests/support/scratch_directory.hpp"

#include <gtest/gtest.h>
#include <map>
#include <variant>

namespace shankline::tests::measuring_form_test {
namespace {

using Entry = FormRow::Entry;

FormRow row(Entry entry, const char* key) {
  const ReadingGuide& guide = *reading_guide(key);
  return {entry, key, std::string(guide.name), std::string(guide.how)};
}

FormPages pages() {
  FormPages pages;
  for (const char* name : {"Dancer", "Pair", "Date"})
    pages.foot.push_back({Entry::line, "", name, ""});
  pages.foot.push_back({Entry::choice, "", "Pose", "", {"pointed", "in shoe"}});
  for (const char* key : {"length", "ball_length", "heel_front", "arch_break.medial",
                          "arch_break.lateral", "arch_depth", "deepest"})
    pages.foot.push_back(row(Entry::feet, key));
  pages.shoe.push_back(row(Entry::feet, "fold"));
  pages.shoe.push_back({Entry::choice, "state", "Board", "", {"in shoe", "loose"}});
  for (const char* key : {"board.length", "board.inset", "board.thickness", "board.sole_length"})
    pages.shoe.push_back(row(Entry::pair, key));
  pages.shoe.push_back({Entry::pair, "widths", "Board widths", "Straight across."});
  pages.shoe.push_back(row(Entry::pair, "pull.travel"));
  for (const char* key : {"sides.back", "sides.low", "sides.low_at", "sides.wing", "sides.wing_at",
                          "sides.width_across", "sides.casing"})
    pages.sides.push_back(row(Entry::pair, key));
  return pages;
}

TEST(MeasuringForm, IsLegibleOnEveryPaper) {
  int drawn = 0;
  for (const Paper& paper : papers()) {
    const SheetSet form = measuring_form(pages(), paper);
    ASSERT_EQ(form.drawing.pages.size(), 3u);
    for (const Page& page : form.drawing.pages) {
      for (const std::string& fault : layout_faults(page))
        ADD_FAILURE() << paper.name << ": " << fault;
      ++drawn;
    }
  }
  EXPECT_GE(drawn, 6);
}

TEST(MeasuringForm, ShowsEveryReadingOnceOnADrawingAndOnceInTheTable) {
  const SheetSet form = measuring_form(pages(), papers().front());
  std::map<std::string, int> times;
  for (const Page& page : form.drawing.pages)
    for (const Mark& mark : page.marks)
      if (const Text* text = std::get_if<Text>(&mark);
          text && text->words.find_first_not_of("0123456789") == std::string::npos)
        ++times[text->words];
  EXPECT_EQ(times.size(), 21u);
  for (const auto& [number, count] : times)
    EXPECT_EQ(count, 2) << number;
}

std::vector<Text> texts(const Page& page) {
  std::vector<Text> found;
  for (const Mark& mark : page.marks)
    if (const Text* text = std::get_if<Text>(&mark)) found.push_back(*text);
  return found;
}

/// The shoe's page as the program asks for it, with every row.
FormPages full_pages() {
  FormPages full = pages();
  std::vector<FormRow>& shoe = full.shoe;
  shoe.insert(shoe.begin() + 1,
              {Entry::pair, "decided_by", "Who decides",
               "A foot shorter than 215 counts as growing. Ask a licensed physiotherapist or "
               "podiatrist first; then give the code of the adult who decides: a teacher, fitter "
               "or parent."});
  const FormRow choice{Entry::choice,
                       "material",
                       "Board's material",
                       "",
                       {"fibreboard", "leather"},
                       {"Moulded plastic boards are not cut."}};
  shoe.insert(shoe.begin() + 3, choice);
  shoe.insert(shoe.end() - 1, choice);
  shoe.push_back(choice);
  shoe.push_back(row(Entry::pair, "shank.bevel"));
  return full;
}

// Before, a row of three lines stood 0.6 mm above the next row's line on Letter.
TEST(MeasuringForm, LeavesAirUnderTheWordsOfARow) {
  for (const Paper& paper : papers()) {
    const SheetSet form = measuring_form(full_pages(), paper);
    const Page& page = form.drawing.pages.at(1);
    for (const std::string& fault : layout_faults(page))
      ADD_FAILURE() << paper.name << ": " << fault;
    std::vector<double> rules;
    for (const Mark& mark : page.marks)
      if (const Stroke* line = std::get_if<Stroke>(&mark); line && line->kind == LineKind::hatch)
        rules.push_back(line->points.front().y);
    ASSERT_GE(rules.size(), 10u);
    for (const Text& text : texts(page)) {
      if (text.size != 2.6 || text.at.y > rules.front()) continue;
      for (const double rule : rules)
        if (rule < text.at.y) {
          EXPECT_GE(text.at.y - rule, 2) << paper.name << ": " << text.words;
        }
    }
  }
}

// Before, the drawing had numbers alone.
TEST(MeasuringForm, NamesThePlacesOfTheFootOnItsDrawing) {
  const SheetSet form = measuring_form(pages(), papers().front());
  const Page& foot = form.drawing.pages.front();
  double table_from = 0; // the heads of the boxes
  for (const Text& text : texts(foot))
    if (text.words == "left") table_from = text.at.y;
  ASSERT_GT(table_from, 0);
  std::map<std::string, int> named;
  for (const Text& text : texts(foot))
    if (text.at.y > table_from) ++named[text.words];
  EXPECT_EQ(named["arch break"], 2); // on either edge
  for (const char* name :
       {"heel front", "arch depth", "deepest point", "ball", "ball length", "foot length"})
    EXPECT_EQ(named[name], 1) << name;
}

// Before, "Who decides" had a number that was on no drawing.
TEST(MeasuringForm, NumbersOnlyWhatIsOnADrawing) {
  FormPages with = pages();
  with.shoe.push_back({Entry::pair, "decided_by", "Who decides", "A code."});
  const auto numbers = [](const SheetSet& form) {
    std::map<std::string, int> times;
    for (const Page& page : form.drawing.pages)
      for (const Text& text : texts(page))
        if (text.words.find_first_not_of("0123456789") == std::string::npos) ++times[text.words];
    return times;
  };
  EXPECT_EQ(numbers(measuring_form(with, papers().front())),
            numbers(measuring_form(pages(), papers().front())));
}

TEST(MeasuringForm, AChoiceSaysWhatItsWordsMeanBelowThem) {
  FormPages with = pages();
  with.foot[3].meanings = {"pointed: seated", "in shoe: standing"};
  with.shoe[1].meanings = {"Does it stay in the shoe?"};
  const SheetSet form = measuring_form(with, papers().front());
  const auto y_of = [&](std::size_t page, const std::string& words) {
    for (const Text& text : texts(form.drawing.pages[page]))
      if (text.words == words) return text.at.y;
    ADD_FAILURE() << words;
    return 0.0;
  };
  EXPECT_GT(y_of(0, "Pose"), y_of(0, "pointed: seated"));
  EXPECT_GT(y_of(0, "pointed: seated"), y_of(0, "in shoe: standing"));
  EXPECT_GT(y_of(1, "Board"), y_of(1, "Does it stay in the shoe?"));
}

// The page as the program prints it.
TEST(MeasuringForm, ExplainsPoseAndReachInALineEach) {
  const ScratchDirectory scratch;
  const std::string pdf = (scratch.path() / "form.pdf").string();
  for (const char* paper : {"a4", "letter"}) {
    ASSERT_EQ(run({places::program, "form", "--paper", paper, "-o", pdf}).exit_code, 0);
    const std::string words = run({"pdftotext", "-layout", pdf, "-"}).out;
    for (const char* line :
         {"pointed: seated, leg straight, foot fully pointed; measured along the sole from the "
          "back of the heel\n",
          "in shoe: standing on pointe in the uncut shoe, marked through the satin; measured from "
          "its back seam\n",
          "edge: the board ends at the heel's front edge; tucked: a little under the heel; short: "
          "a little ahead of it\n"})
      EXPECT_NE(words.find(line), std::string::npos) << paper << ": " << line;
    EXPECT_NE(words.find("From edge to edge, straight across"), std::string::npos) << paper;
  }
}

} // namespace
} // namespace shankline::tests::measuring_form_test
