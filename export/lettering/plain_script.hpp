// Tells characters that are set as they come, one after another from left to right, from all
// others.
#pragma once

namespace shankline {

/// False where a text is not right without more: scripts that run from right to left or whose
/// letters change with their neighbours, marks above and below letters, emoji, invisible signs, and
/// whatever is not known to be plain.
bool is_plain_script(char32_t character);

} // namespace shankline
