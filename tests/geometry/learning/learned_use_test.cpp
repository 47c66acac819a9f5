#include "geometry/learning/learned_use.hpp"

#include <gtest/gtest.h>

#include <cmath>

namespace shankline::tests::learned_use_test {
namespace {

// The bound itself is no alarm; the least bit more is one, before either of the last two pairs.
TEST(LearnedUse, TheAlarmHasItsBound) {
  const double over = std::nextafter(alarming_jump_probability, 1);
  LearnedPlace place;
  place.jump_probability = place.earlier_jump_probability = alarming_jump_probability;
  EXPECT_FALSE(alarm(place));
  place.jump_probability = over;
  EXPECT_TRUE(alarm(place));
  place.jump_probability = 0;
  place.earlier_jump_probability = over;
  EXPECT_TRUE(alarm(place));
}

} // namespace
} // namespace shankline::tests::learned_use_test
