#include "geometry/bracketed_root.hpp"

#include <boost/math/tools/roots.hpp>
#include <cstdint>

namespace shankline {

std::optional<double> bracketed_root(const std::function<double(double)>& f, double from,
                                     double to) {
  const double at_from = f(from);
  const double at_to = f(to);
  if (at_from == 0) return from;
  if (at_to == 0) return to;
  if ((at_from < 0) == (at_to < 0)) return {};
  std::uintmax_t steps = 200;
  const auto [low, high] = boost::math::tools::toms748_solve(
      f, from, to, at_from, at_to, boost::math::tools::eps_tolerance<double>(50), steps);
  return (low + high) / 2;
}

} // namespace shankline
