#include "export/wording/foot_words.hpp"

namespace shankline {

std::string foot_letter(FootSide side) {
  return side == FootSide::left ? "L" : "R";
}

std::string foot_capitals(FootSide side) {
  return side == FootSide::left ? "LEFT" : "RIGHT";
}

std::string edge_words(Edge edge) {
  return edge == Edge::medial ? "big-toe side" : "little-toe side";
}

Edge left_edge(FootSide side) {
  return side == FootSide::left ? Edge::lateral : Edge::medial;
}

Edge right_edge(FootSide side) {
  return side == FootSide::left ? Edge::medial : Edge::lateral;
}

} // namespace shankline
