// How much longer a pair lasts that is still good, by the lifetimes of pairs before it
// (pair_lifetimes.hpp).
//
// The fit knows the scale of life to a standard error only, and the pairs in use are in that fit as
// pairs that have not ended. So the chance of lasting on is the mean, over a normal spread of ln
// scale, of S(h + r)/S(h).
#pragma once

#include "geometry/learning/pair_lifetimes.hpp"

namespace shankline {

/// The life of a pair where a house has no record to fit one to: one pair in ten is done after
/// 4 hours on pointe, nine in ten after 20 (common practice, no source, from memory), with ln scale
/// known to 0.4.
WeibullLife usual_life();

/// The chance that a pair which was still good after `hours` (0 or more) lasts for `more` hours
/// (0 or more) beyond them.
double chance_to_last(const WeibullLife& life, double hours, double more);

/// The hours beyond `hours` by which such a pair is done with probability `share`, between 0 and 1.
double hours_left(const WeibullLife& life, double hours, double share);

} // namespace shankline
