// The words for what was seen on pointe, for the command line, the archive and the JSON.
#pragma once

#include "geometry/next_cut.hpp"

#include <array>
#include <string_view>

namespace shankline {

struct SeenWord {
  Seen seen;
  std::string_view word;
};

inline constexpr std::array seen_words{
    SeenWord{Seen::low, "low"},
    SeenWord{Seen::right, "right"},
    SeenWord{Seen::too_far_back, "too-far-back"},
    SeenWord{Seen::over_the_platform, "over"},
    SeenWord{Seen::pain, "pain"},
};

/// What help says of an option that takes one of them.
inline constexpr const char* seen_help =
    "on pointe: low, right, too-far-back, over (the platform), pain";

} // namespace shankline
