#include "tests/export/said_on_page.hpp"

#include "export/sets/order_sheets.hpp"
#include "geometry/solution/solution.hpp"
#include "tests/geometry/worked_order.hpp"

#include <gtest/gtest.h>
#include <variant>

namespace shankline::tests {

Order doubtful_order() {
  Order order = worked_order();
  Foot& foot = order.left->foot;
  foot.length = measured(238, 1);
  foot.ball_length = measured(172, 2);
  foot.heel_front = measured(61, 3);
  foot.arch_break.medial = measured(97, 4);
  foot.arch_break.lateral = measured(93, 5);
  foot.fold = measured(6, 3);
  order.left->shoe.board.inset = measured(5, 1.5);
  return order;
}

SheetSet every_sheet(const Order& order) {
  const Solution solution = solve(order);
  return sheet_set(order, solution, solution.findings,
                   {papers().front(), Units::mm, "4f9c 2107", {}, true, true});
}

std::string words_on(const SheetSet& set, const std::string& title) {
  std::string words;
  for (const Page& page : set.drawing.pages)
    if (page.title == title)
      for (const Mark& mark : page.marks)
        if (const auto* text = std::get_if<Text>(&mark)) words += text->words + " ";
  return words;
}

std::string page_words(const Order& order, const std::string& title) {
  return words_on(every_sheet(order), title);
}

void expect_said(const std::string& words, std::initializer_list<const char*> said,
                 std::initializer_list<const char*> not_said) {
  for (const char* part : said)
    EXPECT_NE(words.find(part), std::string::npos) << part << ":\n" << words;
  for (const char* part : not_said)
    EXPECT_EQ(words.find(part), std::string::npos) << part << ":\n" << words;
}

} // namespace shankline::tests
