#include "geometry/learning/learned_use.hpp"

#include <algorithm>

namespace shankline {

bool alarm(const LearnedPlace& place) {
  return std::max(place.jump_probability, place.earlier_jump_probability) >
         alarming_jump_probability;
}

double learned_final(const LearnedPlace& place) {
  return is_held_behind(place) ? *place.too_far - right_half_width : place.mean;
}

bool is_held_behind(const LearnedPlace& place) {
  return place.too_far && place.mean > *place.too_far - right_half_width;
}

double learned_hold_back(const LearnedPlace& place) {
  return learned_hold_back(place.U, place.good_after_wear);
}

} // namespace shankline
