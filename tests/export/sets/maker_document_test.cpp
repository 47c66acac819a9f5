// One document for the maker of several dancers' shoes.
#include "export/sets/maker_document.hpp"

#include "tests/export/layout_check.hpp"
#include "tests/export/said_on_page.hpp"

#include <gtest/gtest.h>

namespace shankline::tests::maker_document_test {
namespace {

MakerOrder order_of(const std::string& dancer, std::optional<int> quantity) {
  Order order = doubtful_order();
  order.dancer = dancer;
  order.quantity = quantity;
  order.due = "2027-03-01";
  order.deliver_to = "bench 2";
  order.left->shoe.style = "S4";
  MakerOrder one{order, solve(order), "4f9c 2107"};
  return one;
}

TEST(MakerDocument, SumsTheQuantitiesAndHoldsEveryOrdersPage) {
  const std::vector<MakerOrder> orders{order_of("M-07", 6), order_of("K-12", 3),
                                       order_of("D-2", std::nullopt)};
  const SheetSet set = maker_document(orders, {papers().front(), Units::mm, ""});
  ASSERT_EQ(set.drawing.pages.size(), 4u);
  const std::string table = words_on(set, "Orders for the maker");
  expect_said(table,
              {"3 orders, 9 pairs, and 1 order that does not say how many", "in all 9 ", "M-07",
               "K-12", "D-2", "not said", "2027-03-01", "bench 2", "S4", "page 1 of 4"});
  for (std::size_t i = 0; i < orders.size(); ++i) {
    const Page& page = set.drawing.pages[i + 1];
    EXPECT_EQ(page.title, "Order for the maker");
    std::string words;
    for (const Mark& mark : page.marks)
      if (const auto* text = std::get_if<Text>(&mark)) words += text->words + " ";
    EXPECT_NE(words.find(orders[i].order.dancer), std::string::npos) << i;
    EXPECT_NE(words.find("page " + std::to_string(i + 2) + " of 4"), std::string::npos) << i;
    EXPECT_NE(words.find("A cut board cannot be put back"), std::string::npos) << i;
    EXPECT_TRUE(layout_faults(page).empty()) << layout_faults(page).front();
  }
}

TEST(MakerDocument, DoesNotSumWhatNobodySaid) {
  const SheetSet set = maker_document({order_of("M-07", {}), order_of("D-2", {})},
                                      {papers().front(), Units::mm, ""});
  expect_said(words_on(set, "Orders for the maker"),
              {"2 orders, not said of how many pairs", "in all not said"}, {"0 pairs"});
}

TEST(MakerDocument, ATableOfManyOrdersGoesOn) {
  std::vector<MakerOrder> orders;
  for (int i = 0; i < 45; ++i)
    orders.push_back(order_of("M-" + std::to_string(i), 2));
  const SheetSet set = maker_document(orders, {*read_paper("letter"), Units::mm, ""});
  EXPECT_GT(set.drawing.pages.size(), 46u);
  expect_said(words_on(set, "Orders for the maker, continued"), {"in all 90 "});
  for (const Page& page : set.drawing.pages)
    EXPECT_TRUE(layout_faults(page).empty()) << layout_faults(page).front();
}

} // namespace
} // namespace shankline::tests::maker_document_test
