// Figures of the JSON contracts.
#pragma once

namespace shankline {

/// To nine decimals, and never a minus zero: what lies below is rounding, not a result. Throws
/// std::domain_error for what is not finite: JSON has no word for it.
double json_figure(double value);

} // namespace shankline
