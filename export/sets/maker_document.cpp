#include "export/sets/maker_document.hpp"

#include "export/bench/table_sheet.hpp"
#include "export/page/sheet_page.hpp"
#include "export/work_orders/maker_sheet.hpp"

#include <iterator>
#include <utility>

namespace shankline {
namespace {

std::string pairs_in_words(int count) {
  return std::to_string(count) + (count == 1 ? " pair" : " pairs");
}

/// A maker's style of shoe as the first foot names it.
std::string style_of(const Order& order) {
  const auto& foot = order.left ? order.left : order.right;
  return foot ? foot->shoe.style : std::string();
}

TablePage orders_table(const std::vector<MakerOrder>& orders) {
  TablePage page;
  page.title = "Orders for the maker";
  page.columns = {{"dancer"}, {"pair"}, {"style"}, {"pairs", true},
                  {"due"},    {"to"},   {"order"}, {"received", false, true}};
  int sum = 0, unsaid = 0;
  for (const MakerOrder& one : orders) {
    const Order& order = one.order;
    sum += order.quantity.value_or(0);
    unsaid += order.quantity ? 0 : 1;
    page.rows.push_back({{order.dancer, order.pair, style_of(order),
                          order.quantity ? std::to_string(*order.quantity) : "not said", order.due,
                          order.deliver_to, one.digest, ""}});
  }
  const bool all_unsaid = unsaid == static_cast<int>(orders.size());
  page.rows.push_back(
      {{"in all", "", "", all_unsaid ? "not said" : std::to_string(sum), "", "", "", ""}, true});
  const std::string several =
      unsaid == 1 ? " order that does not say how many" : " orders that do not say how many";
  page.before = {std::to_string(orders.size()) + (orders.size() == 1 ? " order" : " orders") +
                 (all_unsaid ? ", not said of how many pairs"
                  : unsaid > 0
                      ? ", " + pairs_in_words(sum) + ", and " + std::to_string(unsaid) + several
                      : ", " + pairs_in_words(sum))};
  page.after = {"Each order has a page of its own below, with its cautions. Only first cuts are "
                "ordered; a final line is cut where it is signed on that page."};
  return page;
}

} // namespace

SheetSet maker_document(const std::vector<MakerOrder>& orders, const SheetWish& wish) {
  std::vector<std::string> texts;
  for (const MakerOrder& one : orders)
    for (std::string& text : texts_of(one.order))
      texts.push_back(std::move(text));
  ChosenLettering chosen = choose_lettering(texts, wish.find_faces);
  const Typeface typeface(chosen.lettering);
  const TablePage table = orders_table(orders);
  SheetSet set = named_set(table.title, "orders of several dancers");
  const auto draw = [&](std::size_t pages) {
    const Order nobody;
    set.drawing.pages =
        table_pages({nobody, typeface, wish.paper, wish.units, {}, pages}, table, 0);
    for (const MakerOrder& one : orders) {
      std::vector<FootWork> feet;
      if (one.solution.left) feet.push_back({&*one.solution.left, &*one.order.left});
      if (one.solution.right) feet.push_back({&*one.solution.right, &*one.order.right});
      const SheetContext context{one.order, typeface, wish.paper, wish.units, one.digest, pages};
      std::vector<Page> own =
          maker_sheet(context, feet, one.solution.findings, set.drawing.pages.size());
      std::move(own.begin(), own.end(), std::back_inserter(set.drawing.pages));
    }
  };
  draw(orders.size() + 1);
  if (const std::size_t pages = set.drawing.pages.size(); pages != orders.size() + 1) draw(pages);
  return shown_by(std::move(chosen), std::move(set));
}

} // namespace shankline
