#include "geometry/learning/learned_use.hpp"

namespace shankline {

bool alarm(const LearnedPlace& place) {
  return place.jump_probability > alarming_jump_probability;
}

double learned_hold_back(const LearnedPlace& place) {
  return learned_hold_back(place.U, place.good_after_wear);
}

} // namespace shankline
