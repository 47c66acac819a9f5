// Figures of the JSON contracts.
#pragma once

namespace shankline {

/// To nine decimals, and never a minus zero: what lies below is rounding, not a result.
double json_figure(double value);

} // namespace shankline
