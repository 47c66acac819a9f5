#include "export/work_orders/rack_shoe.hpp"

#include "export/wording/caution_words.hpp"
#include "export/wording/line_words.hpp"
#include "geometry/order/figure.hpp"

#include <algorithm>

namespace shankline {
namespace {

constexpr const char* no_figure = "\u2013";

/// A foot whose order has cautions, or whose readings are estimates, wants its sheet read first.
std::string see_words(const Solution& solution, const FootSolution& foot) {
  std::string words;
  if (foot.trim && foot.trim->growing) words = "! growing foot, ask first";
  if (std::any_of(solution.findings.begin(), solution.findings.end(),
                  [&](const Finding& finding) { return is_about(finding, foot.side); }))
    words += words.empty() ? "! see sheet" : ", see sheet";
  const std::string unmeasured = foot.trim ? unmeasured_words(foot) : std::string();
  if (!unmeasured.empty()) words += (words.empty() ? "" : ": ") + unmeasured + " not measured";
  return words;
}

} // namespace

std::vector<RackShoe> rack_shoes(const Order& order, const Solution& solution,
                                 const std::string& digest) {
  std::vector<RackShoe> shoes;
  for (const auto* foot : {&solution.left, &solution.right}) {
    if (!*foot) continue;
    RackShoe shoe{order.dancer, order.pair, order.date, digest, (*foot)->side, {}, {}, {}, {}};
    shoe.also = other_work(**foot);
    shoe.see = see_words(solution, **foot);
    if (const auto& trim = (*foot)->trim) {
      shoe.first_cut = trim->first_cut;
      shoe.final_cut = trim->final_cut;
      shoe.from_witness = trim->witness.centre - trim->final_cut.centre;
    }
    if (const auto& sides = (*foot)->sides)
      shoe.sides = {sides->medial.profile.depth, sides->lateral.profile.depth,
                    sides->medial.profile.back};
    shoes.push_back(std::move(shoe));
  }
  return shoes;
}

std::string cut_words(const std::optional<CutLine>& cut, Units units) {
  if (!cut) return no_figure;
  const auto off = [units](double mm) { return length_text(mm, units, Rounding::down); };
  if (!is_skew(*cut)) return off(cut->centre);
  return "big toe " + off(cut->medial) + " \u00b7 centre " + off(cut->centre) +
         " \u00b7 little toe " + off(cut->lateral);
}

std::string side_words(const RackShoe& shoe, Units units) {
  if (!shoe.sides) return {};
  const auto by = [units](double depth) {
    return short_figure(depth) + inches_beside(depth, units, Rounding::down);
  };
  const std::string back =
      shoe.sides->back > 0 ? " \u00b7 back " + by(shoe.sides->back) : std::string();
  return "big toe " + by(shoe.sides->medial) + " \u00b7 little toe " + by(shoe.sides->lateral) +
         back;
}

bool same_order(const RackShoe& a, const RackShoe& b) {
  return a.digest == b.digest && a.dancer == b.dancer && a.pair == b.pair && a.date == b.date;
}

} // namespace shankline
