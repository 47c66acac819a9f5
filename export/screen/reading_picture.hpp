// Where one reading is taken, as a small picture for a screen.
#pragma once

#include <string>
#include <string_view>

namespace shankline {

/// The drawing of the measuring page that shows the reading `key`, with this reading alone marked:
/// a length from where to where, or the place that a word asks about. Not to scale. Empty if no
/// drawing shows it. Classes: those of line kinds for the body, `m-line` and `m-end` for the mark,
/// `t-side` for words.
std::string reading_picture(std::string_view key);

} // namespace shankline
