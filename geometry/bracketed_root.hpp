// Where a continuous function changes its sign.
#pragma once

#include <functional>
#include <optional>

namespace shankline {

/// A root of `f` between `from` and `to`, or nothing if the sign does not change there.
std::optional<double> bracketed_root(const std::function<double(double)>& f, double from,
                                     double to);

} // namespace shankline
