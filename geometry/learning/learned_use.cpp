#include "geometry/learning/learned_use.hpp"

namespace shankline {

bool alarm(const LearnedPlace& place) {
  return place.jump_probability > alarming_jump_probability;
}

bool contradicted(const LearnedPlace& place) {
  return place.too_far && place.mean > *place.too_far;
}

bool is_usable(const LearnedPlace& place) {
  return !alarm(place) && !contradicted(place);
}

double learned_hold_back(const LearnedPlace& place) {
  return learned_hold_back(place.U, place.good_after_wear);
}

} // namespace shankline
