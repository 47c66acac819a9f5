#include "export/sets/order_sheets.hpp"

#include "export/templates/board_sheet.hpp"
#include "export/templates/darning_sheet.hpp"
#include "export/templates/liner_sheet.hpp"
#include "export/templates/sewing_sheet.hpp"
#include "export/templates/side_sheet.hpp"
#include "export/wording/caution_words.hpp"
#include "export/work_orders/care_sheet.hpp"
#include "export/work_orders/chart_sheet.hpp"
#include "export/work_orders/dancer_card.hpp"
#include "export/work_orders/maker_sheet.hpp"
#include "export/work_orders/order_sheet.hpp"

#include <algorithm>
#include <iterator>
#include <utility>

namespace shankline {
namespace {

std::vector<FootWork> work_of(const Order& order, const Solution& solution) {
  std::vector<FootWork> feet;
  if (solution.left) feet.push_back({&*solution.left, &*order.left});
  if (solution.right) feet.push_back({&*solution.right, &*order.right});
  return feet;
}

/// Gathers the sheets in the order in which they are used.
class SetMaker {
public:
  SetMaker(const Order& order, const Solution& solution, const Findings& cautions,
           const SheetWish& wish)
      : order_(order), solution_(solution), cautions_(cautions),
        lettering_(lettering_of(order, wish.find_faces)),
        typeface_(lettering_.lettering), context_{order,       typeface_,
                                                  wish.paper,  wish.units,
                                                  wish.digest, page_count(solution, wish)},
        wish_(wish) {}

  SheetSet make() && {
    gather();
    if (set_.drawing.pages.size() != context_.pages) { // some other part goes on
      final_count_ = true;
      context_.pages = set_.drawing.pages.size();
      gather();
    }
    return shown_by(std::move(lettering_), std::move(set_));
  }

private:
  void gather() {
    set_ = named_set("Cutting sheets: " + order_line(order_),
                     "alterations of a pair, order " + context_.digest);
    const std::vector<FootWork> feet = all_work();
    add_first_pages(feet);
    add_board(solution_.left, order_.left);
    add_board(solution_.right, order_.right);
    add_sides(solution_.left, order_.left);
    add_sides(solution_.right, order_.right);
    add_liner(solution_.left);
    add_liner(solution_.right);
    add_darning();
    add_sewing();
    if (wish_.care) add(care_sheet(context_, feet, set_.drawing.pages.size()));
    if (wish_.card)
      add(dancer_card(context_, feet, cautions_, wish_.tried, set_.drawing.pages.size()));
  }

  static SidesOnPage lowered_sides(const SolvedSides& sides) {
    SidesOnPage lowered;
    for (const SolvedSide* side : {&sides.medial, &sides.lateral})
      if (side->is_cut()) lowered.push_back(side);
    return lowered;
  }

  /// The number of pages if every part takes one page, and both sides of a foot share one.
  static std::size_t page_count(const Solution& solution, const SheetWish& wish) {
    std::size_t pages = 1;
    bool darned = false;
    bool sewn = false;
    for (const auto* foot : {&solution.left, &solution.right}) {
      if (!*foot) continue;
      if ((*foot)->trim || (*foot)->thinned) ++pages;
      if ((*foot)->sides && !lowered_sides(*(*foot)->sides).empty()) ++pages;
      if ((*foot)->liner) ++pages;
      darned = darned || (*foot)->darning;
      sewn = sewn || is_sewn(**foot);
    }
    for (const bool one_more : {darned, sewn, wish.maker, wish.care, wish.card})
      if (one_more) ++pages;
    return pages;
  }

  /// Adds the order's sheet and the maker's page. Each may go on overleaf, and every page says how
  /// many there are: the count is put right here, before the rest is drawn.
  void add_first_pages(const std::vector<FootWork>& feet) {
    const std::size_t counted = context_.pages;
    std::vector<Page> order = order_sheet(context_, solution_, cautions_, 0);
    if (!final_count_) context_.pages += order.size() - 1;
    std::vector<Page> maker;
    if (wish_.maker) {
      maker = maker_sheet(context_, feet, cautions_, order.size());
      if (!final_count_ && maker.size() > 1) {
        context_.pages += maker.size() - 1;
        maker = maker_sheet(context_, feet, cautions_, order.size());
      }
    }
    if (context_.pages != counted) order = order_sheet(context_, solution_, cautions_, 0);
    add(std::move(order));
    add(std::move(maker));
  }

  void add(std::vector<Page> pages) {
    std::move(pages.begin(), pages.end(), std::back_inserter(set_.drawing.pages));
  }

  template <class Sheet> void add(Sheet sheet, Template part) {
    set_.drawing.pages.push_back(std::move(sheet.page));
    set_.templates.push_back(std::move(part));
    set_.proofs.push_back(sheet.proof);
  }

  void add_board(const std::optional<FootSolution>& foot, const std::optional<FootOrder>& order) {
    if (!foot || !(foot->trim || foot->thinned)) return;
    BoardSheet sheet = board_sheet(context_, *foot, *order, set_.drawing.pages.size(),
                                   first_line(gravest_caution(cautions_, foot->side), wish_.units));
    Template board = std::move(sheet.board);
    add(std::move(sheet), std::move(board));
  }

  void add_sides(const std::optional<FootSolution>& foot, const std::optional<FootOrder>& order) {
    if (!foot || !foot->sides) return;
    const SidesOnPage lowered = lowered_sides(*foot->sides);
    if (lowered.empty()) return;
    for (SideSheet& sheet :
         side_sheets(context_, foot->side, lowered, *order, set_.drawing.pages.size())) {
      set_.drawing.pages.push_back(std::move(sheet.page));
      for (Template& side : sheet.sides)
        set_.templates.push_back(std::move(side));
      set_.proofs.push_back(sheet.proof);
    }
  }

  void add_liner(const std::optional<FootSolution>& foot) {
    if (!foot || !foot->liner) return;
    for (LinerSheet& sheet : liner_sheets(context_, *foot, set_.drawing.pages.size())) {
      Template liner = std::move(sheet.liner);
      add(std::move(sheet), std::move(liner));
    }
  }

  /// Both feet on one page.
  void add_darning() {
    std::vector<const FootSolution*> feet;
    for (const auto* foot : {&solution_.left, &solution_.right})
      if (*foot && (*foot)->darning) feet.push_back(&**foot);
    if (feet.empty()) return;
    DarningSheet sheet = darning_sheet(context_, feet, set_.drawing.pages.size());
    set_.drawing.pages.push_back(std::move(sheet.page));
    for (Template& wrap : sheet.wraps)
      set_.templates.push_back(std::move(wrap));
    set_.proofs.push_back(sheet.proof);
  }

  void add_sewing() {
    std::vector<FootWork> feet;
    for (const FootWork& foot : all_work())
      if (is_sewn(*foot.solution)) feet.push_back(foot);
    if (!feet.empty())
      set_.drawing.pages.push_back(sewing_sheet(context_, feet, set_.drawing.pages.size()));
  }

  std::vector<FootWork> all_work() const { return work_of(order_, solution_); }

  const Order& order_;
  const Solution& solution_;
  const Findings& cautions_;
  ChosenLettering lettering_;
  const Typeface typeface_;
  SheetContext context_;
  const SheetWish& wish_;
  SheetSet set_;
  bool final_count_ = false; ///< of pages
};

} // namespace

SheetSet sheet_set(const Order& order, const Solution& solution, const Findings& cautions,
                   const SheetWish& wish) {
  return SetMaker(order, solution, cautions, wish).make();
}

SheetSet card_set(const Order& order, const Solution& solution, const Findings& cautions,
                  const SheetWish& wish) {
  ChosenLettering chosen = lettering_of(order, wish.find_faces);
  const Typeface typeface(chosen.lettering);
  SheetContext context{order, typeface, wish.paper, wish.units, wish.digest, 1};
  SheetSet set =
      named_set("Dancer's card: " + order_line(order), "dancer's card, order " + wish.digest);
  const std::vector<FootWork> feet = work_of(order, solution);
  set.drawing.pages = dancer_card(context, feet, cautions, wish.tried, 0);
  if (set.drawing.pages.size() != context.pages) {
    context.pages = set.drawing.pages.size();
    set.drawing.pages = dancer_card(context, feet, cautions, wish.tried, 0);
  }
  return shown_by(std::move(chosen), std::move(set));
}

SheetSet care_set(const Order& order, const Solution& solution, const SheetWish& wish,
                  const PairSince& since) {
  ChosenLettering chosen = lettering_of(order, wish.find_faces);
  const Typeface typeface(chosen.lettering);
  const SheetContext context{order, typeface, wish.paper, wish.units, wish.digest, 1};
  SheetSet set = named_set("Breaking in and repair: " + order_line(order),
                           "breaking in and repair, order " + wish.digest);
  set.drawing.pages = care_sheet(context, work_of(order, solution), 0, since);
  return shown_by(std::move(chosen), std::move(set));
}

SheetSet chart_set(const Order& order, const Solution& solution,
                   const std::vector<FootChart>& charts, const SheetWish& wish) {
  ChosenLettering chosen = lettering_of(order, wish.find_faces);
  const Typeface typeface(chosen.lettering);
  const SheetContext context{order, typeface, wish.paper, wish.units, wish.digest, charts.size()};
  SheetSet set =
      named_set("Break chart: " + order_line(order), "break chart, order " + wish.digest);
  for (const FootChart& foot : charts)
    set.drawing.pages.push_back(
        chart_sheet(context, foot.side == FootSide::left ? *solution.left : *solution.right,
                    foot.chart, set.drawing.pages.size()));
  return shown_by(std::move(chosen), std::move(set));
}

} // namespace shankline
