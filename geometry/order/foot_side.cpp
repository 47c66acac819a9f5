#include "geometry/order/foot_side.hpp"

namespace shankline {

std::string foot_name(FootSide side) {
  return side == FootSide::left ? "left" : "right";
}

} // namespace shankline
