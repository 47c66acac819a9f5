// Finds a place where a continuous function changes its sign: Boost.Math's TOMS 748 (Alefeld, Potra
// and Shi, ACM Trans. Math. Softw. 21 (1995) 327–344; from memory), with its preconditions checked.
#pragma once

#include <functional>
#include <optional>

namespace shankline {

/// A root of `f` between `from` and `to` to the last few bits; nullopt if the sign does not change
/// there, or if `f` is not a number at either end or where it is tried in between.
std::optional<double> bracketed_root(const std::function<double(double)>& f, double from,
                                     double to);

/// Like the function above, for a costly function: the caller gives its values at both ends.
std::optional<double> bracketed_root(const std::function<double(double)>& f, double from, double to,
                                     double at_from, double at_to);

} // namespace shankline
