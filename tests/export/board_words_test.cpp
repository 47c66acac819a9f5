// What a board's page says to do at its cut.
#include "export/sheet_set.hpp"
#include "geometry/solution.hpp"
#include "tests/geometry/worked_order.hpp"

#include <gtest/gtest.h>
#include <string>
#include <variant>

namespace shankline::tests {
namespace {

/// All words of the page of that title, a line each.
std::string words_on(const SheetSet& set, const std::string& title) {
  std::string words;
  for (const Page& page : set.drawing.pages)
    if (page.title == title)
      for (const Mark& mark : page.marks)
        if (const auto* text = std::get_if<Text>(&mark)) words += text->words + "\n";
  return words;
}

std::string board_words(const Order& order) {
  const Solution solution = solve(order);
  return words_on(
      sheet_set(order, solution, solution.findings, {papers().front(), Units::mm, "4f9c 2107"}),
      "Board, left foot");
}

TEST(BoardWords, OnlyWhatIsToBeBevelledIs) {
  Order order = worked_order();
  const std::string with = board_words(order);
  EXPECT_NE(with.find("After the last cut only: bevel the last 12 of the board"), std::string::npos)
      << with;
  order.left->alterations.shank->bevel = 0;
  const std::string without = board_words(order);
  EXPECT_NE(without.find("After the last cut only: seal"), std::string::npos) << without;
  EXPECT_EQ(without.find("bevel"), std::string::npos) << without;
}

// Who holds this page must not cut through what stays.
TEST(BoardWords, ABoardCutByTheLayerSaysSoInTheBoxOnThePieceAndInTheSteps) {
  Order order = worked_order();
  const std::string through = board_words(order);
  order.left->shoe.board.layers = 3;
  order.left->alterations.shank->layers = 2;
  const std::string by_layer = board_words(order);
  for (const char* words : {"Cut 2 of 3 layers only, from the foot side", "\n2 of 3 layers\n",
                            "Part the layers at the heel end."}) {
    EXPECT_NE(by_layer.find(words), std::string::npos) << words << ":\n" << by_layer;
    EXPECT_EQ(through.find(words), std::string::npos) << words;
  }
}

TEST(BoardWords, TheBevelSaysWhereItEnds) {
  Order order = worked_order();
  const std::string through = board_words(order);
  EXPECT_NE(through.find("edge 0.8 ±0.2"), std::string::npos) << through;
  EXPECT_EQ(through.find("layer"), std::string::npos) << through;

  order.left->shoe.board.layers = 2;
  order.left->alterations.shank->layers = 1;
  const std::string by_layer = board_words(order);
  EXPECT_NE(by_layer.find("to the layer that stays"), std::string::npos) << by_layer;
  EXPECT_EQ(by_layer.find("edge 0.8"), std::string::npos) << by_layer;
}

} // namespace
} // namespace shankline::tests
