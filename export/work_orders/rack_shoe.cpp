#include "export/work_orders/rack_shoe.hpp"

#include "export/wording/caution_words.hpp"
#include "export/wording/line_words.hpp"
#include "geometry/order/figure.hpp"

#include <algorithm>
#include <cstddef>

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
  const std::vector<std::string> one =
      side_lines(shoe, units, {}, [](const std::string&) { return true; });
  return one.empty() ? std::string() : one.front();
}

std::vector<std::string> side_lines(const RackShoe& shoe, Units units, const std::string& before,
                                    const std::function<bool(const std::string&)>& fits) {
  if (!shoe.sides) return {};
  const auto by = [units](const char* name, double depth) {
    return name + short_figure(depth) + inches_beside(depth, units, Rounding::down);
  };
  std::vector<std::string> parts{by("big toe ", shoe.sides->medial),
                                 by("little toe ", shoe.sides->lateral)};
  if (shoe.sides->back > 0) parts.push_back(by("back ", shoe.sides->back));
  std::vector<std::string> lines{before + parts.front()};
  for (std::size_t i = 1; i < parts.size(); ++i) {
    const std::string longer = lines.back() + " \u00b7 " + parts[i];
    if (fits(longer))
      lines.back() = longer;
    else
      lines.push_back(parts[i]);
  }
  return lines;
}

bool same_order(const RackShoe& a, const RackShoe& b) {
  return a.digest == b.digest && a.dancer == b.dancer && a.pair == b.pair && a.date == b.date;
}

} // namespace shankline
