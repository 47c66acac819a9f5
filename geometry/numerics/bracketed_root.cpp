#include "geometry/numerics/bracketed_root.hpp"

#include <boost/math/tools/roots.hpp>
#include <cmath>
#include <cstdint>

namespace shankline {

std::optional<double> bracketed_root(const std::function<double(double)>& f, double from,
                                     double to) {
  return bracketed_root(f, from, to, f(from), f(to));
}

std::optional<double> bracketed_root(const std::function<double(double)>& f, double from, double to,
                                     double at_from, double at_to) {
  if (std::isnan(at_from) || std::isnan(at_to)) return {};
  if (at_from == 0) return from;
  if (at_to == 0) return to;
  if ((at_from < 0) == (at_to < 0)) return {};
  // A NaN has no sign, so the search would end at a place that is not a root.
  bool failed = false;
  const auto watched = [&](double x) {
    const double value = f(x);
    failed = failed || std::isnan(value);
    return value;
  };
  std::uintmax_t steps = 200;
  const auto [low, high] = boost::math::tools::toms748_solve(
      watched, from, to, at_from, at_to, boost::math::tools::eps_tolerance<double>(50), steps);
  if (failed) return {};
  return (low + high) / 2;
}

} // namespace shankline
