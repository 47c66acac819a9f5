// The words for what was seen on pointe, for the command line, the archive and the JSON.
#pragma once

#include "cli/order_values.hpp"
#include "geometry/next_cut.hpp"

namespace shankline {

inline constexpr Word<Seen> seen_words[] = {
    {"low", Seen::low},
    {"right", Seen::right},
    {"too-far-back", Seen::too_far_back},
    {"over", Seen::over_the_platform},
    {"pain", Seen::pain},
};

/// What help says of an option that takes one of them.
inline constexpr const char* seen_help =
    "on pointe: low, right, too-far-back, over (the platform), pain";

} // namespace shankline
