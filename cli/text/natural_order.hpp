// Names in the order in which people count: D-2 before D-10.
#pragma once

#include <string_view>

namespace shankline {

/// Runs of digits compare as numbers of any length, everything else byte by byte. Of two names that
/// differ in leading zeros alone the one with fewer comes first. A strict weak order.
bool naturally_before(std::string_view a, std::string_view b);

} // namespace shankline
