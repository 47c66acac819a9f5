// Which foot.
#pragma once

#include <string>

namespace shankline {

enum class FootSide { left, right };

/// "left" or "right", as in keys, JSON and words.
std::string foot_name(FootSide side);

} // namespace shankline
