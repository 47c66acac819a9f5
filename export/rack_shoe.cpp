#include "export/rack_shoe.hpp"

#include "export/work_words.hpp"
#include "export/length_text.hpp"
#include "geometry/figure.hpp"

namespace shankline {
namespace {

constexpr const char* none = "\u2013";

std::string cut_off(double mm) {
  return ruler_text(mm, Rounding::down);
}

/// A grave caution of this foot, or a heel front that nobody measured, wants the sheet read first.
std::string see_words(const Solution& solution, const FootSolution& foot) {
  const std::string name = "." + foot_name(foot.side) + ".";
  for (const Finding& finding : solution.findings)
    if (finding.rank > 0 && finding.key.find(name) != std::string::npos) return "! see sheet";
  for (const Estimated& estimated : foot.estimated)
    if (estimated.key == "heel_front") return "! heel front not measured";
  return {};
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

std::string cut_words(const std::optional<CutLine>& cut) {
  if (!cut) return none;
  if (!is_skew(*cut)) return cut_off(cut->centre);
  return "big toe " + cut_off(cut->medial) + " \u00b7 centre " + cut_off(cut->centre) +
         " \u00b7 little toe " + cut_off(cut->lateral);
}

std::string side_words(const RackShoe& shoe) {
  if (!shoe.sides) return {};
  const std::string back =
      shoe.sides->back > 0 ? " \u00b7 back " + short_figure(shoe.sides->back) : std::string();
  return "big toe " + short_figure(shoe.sides->medial) + " \u00b7 little toe " +
         short_figure(shoe.sides->lateral) + back;
}

bool same_order(const RackShoe& a, const RackShoe& b) {
  return a.digest == b.digest && a.dancer == b.dancer && a.pair == b.pair && a.date == b.date;
}

bool is_skew(const CutLine& cut) {
  const std::string centre = cut_off(cut.centre);
  return cut_off(cut.medial) != centre || cut_off(cut.lateral) != centre;
}

} // namespace shankline
