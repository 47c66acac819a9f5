// Versions of the program, as entries of the archive name them.
#pragma once

#include <string_view>

namespace shankline {

/// Compares two versions number by number: "0.10.0" comes after "0.2.0". Returns a negative number
/// if `a` comes before `b`, 0 if they are equal, a positive number otherwise. A part that is
/// missing or is not a number counts as 0.
int compare_versions(std::string_view a, std::string_view b);

} // namespace shankline
