#include "geometry/breaking/pair_contact.hpp"

#include <iterator>
#include <utility>

namespace shankline {

PairContact pair_contact(const Order& order, const Solution& solution) {
  PairContact pair;
  const auto add = [&](const std::optional<FootOrder>& foot_order,
                       const std::optional<FootSolution>& foot, std::optional<FootContact>& into) {
    if (!foot || (!foot->trim && !foot->thinned)) return;
    FootContactResult result = foot_contact(*foot_order, *foot);
    if (result.reason)
      (result.reason->severity == Severity::error ? pair.cautions : pair.reasons)
          .push_back(std::move(*result.reason));
    if (!result.contact) return;
    std::copy(result.contact->cautions.begin(), result.contact->cautions.end(),
              std::back_inserter(pair.cautions));
    into = std::move(result.contact);
  };
  add(order.left, solution.left, pair.left);
  add(order.right, solution.right, pair.right);
  return pair;
}

void add_doubt(PairContact& pair, const Order& order, const Solution& solution) {
  if (pair.left) pair.left_doubt = contact_doubt(order, *solution.left, *pair.left);
  if (pair.right) pair.right_doubt = contact_doubt(order, *solution.right, *pair.right);
}

} // namespace shankline
