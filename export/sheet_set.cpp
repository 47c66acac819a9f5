#include "export/sheet_set.hpp"

#include "export/board_sheet.hpp"
#include "export/order_sheet.hpp"
#include "export/winansi.hpp"

#include <algorithm>

namespace shankline {
namespace {

/// The caution that a board sheet carries in its first line.
std::string first_line(const Findings& cautions, const std::string& foot) {
  for (const Finding& caution : cautions)
    if (caution.key.rfind("alterations." + foot + ".shank", 0) == 0) return "Caution: " + caution.what;
  for (const Finding& caution : cautions)
    if (caution.key == "feet." + foot + ".heel_front") return "Caution: " + caution.what;
  return {};
}

} // namespace

SheetSet sheet_set(const Order& order, const Solution& solution, const Findings& cautions,
                   const SheetWish& wish) {
  const Typeface typeface;
  SheetContext context{order, typeface, wish.paper, wish.units, wish.digest, 1};
  context.pages += (solution.left ? 1u : 0u) + (solution.right ? 1u : 0u);

  SheetSet set;
  set.drawing.title = "Cutting sheets: " + order_line(order);
  set.drawing.author = "shankline";
  set.drawing.subject = "three-quarter shank, order " + wish.digest;
  set.drawing.pages.push_back(order_sheet(context, solution, cautions, 0));
  const auto add_board = [&](const std::optional<FootSolution>& foot,
                             const std::optional<FootOrder>& foot_order, const char* name) {
    if (!foot) return;
    BoardSheet sheet = board_sheet(context, *foot, *foot_order, set.drawing.pages.size(),
                                   first_line(cautions, name));
    set.drawing.pages.push_back(std::move(sheet.page));
    set.templates.push_back(std::move(sheet.board));
    set.proofs.push_back(sheet.proof);
  };
  add_board(solution.left, order.left, "left");
  add_board(solution.right, order.right, "right");

  for (const std::string* words : {&order.dancer, &order.pair, &order.date, &order.note})
    for (const std::string& character : to_winansi(*words).missing)
      if (std::find(set.unshown.begin(), set.unshown.end(), character) == set.unshown.end())
        set.unshown.push_back(character);
  return set;
}

} // namespace shankline
