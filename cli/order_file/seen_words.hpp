// The words for what was seen on pointe, for the command line, the archive and the JSON.
#pragma once

#include "cli/order_file/order_values.hpp"
#include "geometry/fitting/next_cut.hpp"

#include <string>
#include <string_view>

namespace shankline {

inline constexpr Word<Seen> seen_words[] = {
    {"good", Seen::right},
    {"too-low", Seen::low},
    {"too-far-back", Seen::too_far_back},
    {"cut-too-far", Seen::cut_too_far},
    {"rolls-over", Seen::over_the_platform},
    {"pain", Seen::pain},
};

/// The help text of an option that takes one of these words.
inline constexpr const char* seen_help =
    "on pointe: good; too-low (bends too low) or too-far-back (bends at the board's end, near the "
    "heel): the board is still too long; cut-too-far: it is already too short; rolls-over (the "
    "platform); pain";

/// Returns the word of `seen_words` for a typed word, which may have any case and spaces or
/// underscores for hyphens. It also accepts the words of earlier versions (right, low, over), since
/// archives still hold them and people remember them. Returns an empty string for any other word.
std::string seen_word(std::string_view typed);

} // namespace shankline
