#include "export/overlays/compare_sheet.hpp"

#include "export/overlays/board_overlay.hpp"
#include "export/overlays/side_overlay.hpp"

#include <utility>

namespace shankline {
namespace {

std::vector<std::string> texts_of(const Order& a, const Order& b) {
  std::vector<std::string> texts;
  for (const Order* order : {&a, &b})
    for (const std::string* words : {&order->dancer, &order->pair, &order->date})
      texts.push_back(*words);
  return texts;
}

/// An order with a title for both orders, for the strip at the head of a page.
Order titled(const Comparison& comparison, const Order& a, const Order& b) {
  if (&a == &b) return a;
  Order title;
  title.dancer = a.dancer == b.dancer ? a.dancer : std::string();
  title.pair = comparison.name_a + " against " + comparison.name_b;
  if (title.dancer.empty()) std::swap(title.dancer, title.pair);
  return title;
}

SolvedFoot foot_of(const Operand& operand, FootSide side) {
  const bool left = side == FootSide::left;
  return {operand.order,
          left ? *operand.order.left : *operand.order.right,
          left ? *operand.solution.left : *operand.solution.right,
          nullptr,
          {}};
}

/// Every page that the paper takes; the context says how many there are.
void lay_over(const Comparison& comparison, const Operand& a, const Operand& b,
              const SheetContext& context, SheetSet& set) {
  const auto add = [&](OverlaySheet sheet) {
    set.drawing.pages.push_back(std::move(sheet.page));
    for (Template& part : sheet.parts)
      set.templates.push_back(std::move(part));
    set.proofs.push_back(sheet.proof);
  };
  for (const FootComparison& foot : comparison.feet) {
    const SolvedFoot of_a = foot_of(a, foot.side_a);
    const SolvedFoot of_b = foot_of(b, foot.side_b);
    const Overlay overlay{comparison, foot, of_a, of_b};
    if (foot.kept) add(board_overlay(context, overlay, set.drawing.pages.size()));
    if (!foot.medial) continue;
    for (const Edge edge : {Edge::medial, Edge::lateral})
      try {
        add(side_overlay(context, overlay, edge, set.drawing.pages.size()));
      } catch (const DoesNotFit& fault) {
        set.left_out.emplace_back(fault.what());
      }
  }
}

} // namespace

SheetSet comparison_set(const Comparison& comparison, const Operand& a, const Operand& b,
                        const SheetWish& wish) {
  ChosenLettering chosen = choose_lettering(texts_of(a.order, b.order), wish.find_faces);
  const Typeface typeface(chosen.lettering);
  const Order title = titled(comparison, a.order, b.order);
  SheetContext context{title, typeface, wish.paper, wish.units, wish.digest, 0};
  SheetSet counted;
  lay_over(comparison, a, b, context, counted);
  context.pages = counted.drawing.pages.size();
  SheetSet set =
      named_set("Comparison: " + order_line(title), "two boards compared, order " + wish.digest);
  lay_over(comparison, a, b, context, set);
  return shown_by(std::move(chosen), std::move(set));
}

} // namespace shankline
