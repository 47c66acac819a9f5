// Every figure of a solution, whatever it belongs to.
#pragma once

#include "geometry/breaking/pair_contact.hpp"
#include "geometry/solution/solution.hpp"

#include <cstddef>

namespace shankline::tests {

struct FigureCount {
  std::size_t figures = 0;
  std::size_t not_finite = 0;
};

FigureCount all_figures(const Solution& solution);
FigureCount all_figures(const PairContact& contact);

} // namespace shankline::tests
