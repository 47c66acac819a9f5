#include "geometry/learning/learned_use.hpp"

#include "geometry/board/trim_line.hpp"

#include <algorithm>

namespace shankline {

bool alarm(const LearnedPlace& place) {
  return place.jump_probability > alarming_jump_probability;
}

double learned_hold_back(const LearnedPlace& place) {
  const bool trusted = place.good_after_wear >= pairs_to_trust;
  return std::max(place.U - right_half_width,
                  trusted ? least_hold_back_when_trusted : first_cut_in_hand);
}

} // namespace shankline
