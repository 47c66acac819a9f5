// Predicts how much longer a pair lasts that is still good, from the lifetimes of earlier pairs
// (pair_lifetimes.hpp).
//
// The fit knows the scale of life to a standard error only, and the pairs in use are in that fit as
// pairs that have not ended. So the chance of lasting on is the mean, over a normal spread of ln
// scale, of S(h + r)/S(h).
#pragma once

#include "geometry/learning/pair_lifetimes.hpp"

namespace shankline {

/// Returns the life of a pair for a house that has no records to fit it to: one pair in ten is done
/// after 4 hours on pointe, nine in ten after 20 (common practice, no source, from memory), with ln
/// scale known to 0.4.
WeibullLife usual_life();

/// Returns the chance that a pair which was still good after `hours` (0 or more) lasts for `more`
/// hours (0 or more) beyond them.
double chance_to_last(const WeibullLife& life, double hours, double more);

/// Returns the hours beyond `hours` within which such a pair is done with probability `share`,
/// between 0 and 1.
double hours_left(const WeibullLife& life, double hours, double share);

} // namespace shankline
