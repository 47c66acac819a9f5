// A page of rows: every cell is there, nothing overlaps, the head stands on every page.
#include "export/bench/table_sheet.hpp"

#include "tests/export/layout_check.hpp"

#include <gtest/gtest.h>
#include <string>
#include <variant>

namespace shankline::tests::table_sheet_test {
namespace {

std::string words_of(const Page& page) {
  std::string words;
  for (const Mark& mark : page.marks)
    if (const auto* text = std::get_if<Text>(&mark)) words += text->words + " ";
  return words;
}

TablePage table_of(std::size_t rows, const std::string& words) {
  TablePage table;
  table.title = "Who needs shoes";
  table.before = {"As of a day, by what needs doing", "A second paragraph."};
  table.columns = {{"what"}, {"entry", true}, {"words"}, {"done", false, true}};
  for (std::size_t i = 0; i < rows; ++i)
    table.rows.push_back(
        {{"row " + std::to_string(i), std::to_string(1000 + i), words, ""}, i % 3 == 0});
  table.after = {"The last words."};
  return table;
}

TEST(TableSheet, HoldsEveryRowOnAsManyPagesAsItTakes) {
  std::string sentence;
  while (sentence.size() < 260)
    sentence += "many words ";
  for (const char* paper : {"a4", "letter"})
    for (const std::string& words : {std::string("few"), sentence, std::string(300, 'W')})
      for (const std::size_t rows : {0u, 1u, 25u, 200u}) {
        const SheetSet set =
            table_sheet(table_of(rows, words), {*read_paper(paper), Units::mm, ""});
        std::string all;
        for (std::size_t p = 0; p < set.drawing.pages.size(); ++p) {
          const Page& page = set.drawing.pages[p];
          EXPECT_TRUE(layout_faults(page).empty())
              << paper << rows << words.substr(0, 9) << ": " << layout_faults(page).front();
          const std::string said = words_of(page);
          EXPECT_NE(said.find("page " + std::to_string(p + 1) + " of " +
                              std::to_string(set.drawing.pages.size())),
                    std::string::npos);
          if (said.find("row ") != std::string::npos) {
            EXPECT_NE(said.find("entry"), std::string::npos) << "a head on every page with rows";
          }
          all += said;
        }
        for (std::size_t i = 0; i < rows; ++i)
          EXPECT_NE(all.find(std::to_string(1000 + i)), std::string::npos) << i;
        EXPECT_NE(all.find("The last words."), std::string::npos);
        EXPECT_EQ(set.drawing.pages.size() > 1, rows == 200 || (rows == 25 && words.size() > 200))
            << rows << words.substr(0, 9);
      }
}

TEST(TableSheet, ABoxStandsInEveryRow) {
  const SheetSet set = table_sheet(table_of(12, "few"), {*read_paper("a4"), Units::mm, ""});
  std::size_t boxes = 0;
  for (const Mark& mark : set.drawing.pages.front().marks)
    if (const auto* line = std::get_if<Stroke>(&mark)) boxes += line->closed ? 1 : 0;
  EXPECT_EQ(boxes, 12u);
}

} // namespace
} // namespace shankline::tests::table_sheet_test
