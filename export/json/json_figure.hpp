// Figures of the JSON contracts.
#pragma once

namespace shankline {

/// Rounds to nine decimals, and never returns a minus zero: anything smaller is rounding, not a
/// result. Throws std::domain_error for NaN and infinity, which JSON cannot write.
double json_figure(double value);

} // namespace shankline
