#include "tests/cli/sketch_order.hpp"

#include <stdexcept>

namespace shankline::tests {

std::string sketch_order() {
  return R"(format: shankline-order/1
dancer: M-07
pair: touring, spring, second pair
date: 2026-03-14
pose: pointed                        # or in_shoe
feet:
  left:
    length: [238, 238.5, 238]        # a list is repeated readings
    ball_length: 172
    heel_front: 61
    arch_break: {medial: 97, lateral: 93}
    arch_depth: 12.5
    fold: 6
    ankle_girth: 208
  right:
    length: 239
    ball_length: 173
    heel_front: {value: 62, within: 2}
    arch_break: 96
    arch_depth: 12
shoe:
  board: {state: loose, length: 220, inset: 5, thickness: 3.2, widths: [[22, 45], [96, 33], [164, 56]]}   # stations from the board's heel end
  sides: {back: 52, low: 41, low_at: 105, wing: 46, wing_at: 158, lean: 10, casing: 9}
  platform: {width: 44, depth: 26}
  stiffness: over the knee           # or {board: 90000, sole: 4000}, or {droop: 11.5, weight: 100 g, free: 150}
  pull: {travel: 4}                  # or a number in N/mm
  clamp: wing                        # or ball
alterations:
  shank: {reach: edge, bevel: 12}    # reach: a preset or a number; or {keep: 0.75}, or {mark: 58}
  sides: {medial: 5, lateral: 4}
  liner: full
  darning: {passes: 2}
  ribbons: {ring: true, stretch: 12%}
)";
}

std::string sketch_with(std::string_view piece, std::string_view instead) {
  std::string text = sketch_order();
  const std::size_t at = text.find(piece);
  if (at == std::string::npos) throw std::logic_error("not in the sketch: " + std::string(piece));
  return text.replace(at, piece.size(), instead);
}

std::string all_text(const std::vector<Message>& messages) {
  std::string text;
  for (const Message& message : messages)
    text += to_text(message) + '\n';
  return text;
}

} // namespace shankline::tests
