// The left or the right foot.
#pragma once

#include <string>

namespace shankline {

enum class FootSide { left, right };

/// "left" or "right", as in keys, JSON and words.
inline std::string foot_name(FootSide side) {
  return side == FootSide::left ? "left" : "right";
}

} // namespace shankline
