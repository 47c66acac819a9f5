#include "geometry/order/growing_foot.hpp"

#include "geometry/order/figure.hpp"
#include "geometry/order/foot_estimates.hpp"

namespace shankline {

bool is_growing(const Order& order, const Foot& foot) {
  if (order.growing) return *order.growing;
  return foot.length && foot.length->value() < growing_below;
}

Findings growing_foot(const FootOrder& foot, const Order& order, const std::string& name) {
  const Alterations& wish = foot.alterations;
  if (!is_growing(order, foot.foot) || !(wish.shank || wish.sides || wish.thinned)) return {};
  const std::string why = order.growing ? "the order says that this foot is still growing"
                                        : "a foot of " + short_figure(foot.foot.length->value()) +
                                              " mm counts as growing (shorter than " +
                                              short_figure(growing_below) + " mm)";
  Findings findings{{Severity::caution, "feet." + name + ".length", why, "",
                     "Ask a licensed physiotherapist or podiatrist before anything is cut.",
                     rank_of_growing_foot}};
  if (order.decided_by.empty())
    findings.push_back({Severity::error, "decided_by",
                        why + ", and the order names no adult who decides",
                        "decided_by with the code of a teacher, fitter or parent",
                        "Ask a licensed physiotherapist or podiatrist first, then write "
                        "decided_by: and the code of the adult who decides. For a grown dancer "
                        "with small feet write growing: false."});
  return findings;
}

} // namespace shankline
