// The measuring page: legible on every paper, each number once on a drawing and once in the table.
#include "export/measuring_form.hpp"

#include "geometry/reading_guide.hpp"
#include "tests/export/layout_check.hpp"

#include <gtest/gtest.h>
#include <map>
#include <variant>

namespace shankline::tests {
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

} // namespace
} // namespace shankline::tests
