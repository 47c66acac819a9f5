#include "export/rack_shoe.hpp"

#include "export/work_words.hpp"
#include "geometry/figure.hpp"

namespace shankline {
namespace {

constexpr const char* none = "\u2013";

} // namespace

std::vector<RackShoe> rack_shoes(const Order& order, const Solution& solution,
                                 const std::string& digest) {
  std::vector<RackShoe> shoes;
  for (const auto* foot : {&solution.left, &solution.right}) {
    if (!*foot) continue;
    RackShoe shoe{order.dancer, order.pair, order.date, digest, (*foot)->side, {}, {}, {}, {}};
    shoe.also = other_work(**foot);
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
  if (!is_skew(*cut)) return figure(cut->centre);
  return figure(cut->medial) + " / " + figure(cut->centre) + " / " + figure(cut->lateral);
}

std::string side_words(const RackShoe& shoe) {
  if (!shoe.sides) return {};
  const std::string back =
      shoe.sides->back > 0 ? ", back " + short_figure(shoe.sides->back) : std::string();
  return short_figure(shoe.sides->medial) + " / " + short_figure(shoe.sides->lateral) + back;
}

bool same_order(const RackShoe& a, const RackShoe& b) {
  return a.digest == b.digest && a.dancer == b.dancer && a.pair == b.pair && a.date == b.date;
}

bool is_skew(const CutLine& cut) {
  const std::string centre = figure(cut.centre);
  return figure(cut.medial) != centre || figure(cut.lateral) != centre;
}

} // namespace shankline
