// The JSON Schema of the order file, for other programs.
#pragma once

#include <string>

namespace shankline {

/// A schema of draft 2020-12, as indented text. It refuses what one look at a value shows: unknown
/// keys, wrong kinds of value, words that are not allowed, numbers outside their limits, keys that
/// are missing. A figure with a unit ("9 3/8 in") is text to it and is only held to look like a
/// figure; what depends on several keys together is for `shankline check`.
std::string order_schema();

} // namespace shankline
