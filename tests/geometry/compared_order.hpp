// An order with what a comparison needs of it, and all that its operand points to.
#pragma once

#include "geometry/breaking/pair_contact.hpp"
#include "geometry/comparison/comparison.hpp"
#include "geometry/solution/solution.hpp"

#include <utility>

namespace shankline::tests {

struct ComparedOrder {
  explicit ComparedOrder(Order given)
      : order(std::move(given)), solution(solve(order)), contact(pair_contact(order, solution)) {}

  Operand operand() const { return {order, solution, contact}; }

  Order order;
  Solution solution;
  PairContact contact;
};

} // namespace shankline::tests
