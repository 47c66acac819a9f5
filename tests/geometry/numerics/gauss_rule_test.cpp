// The short rules against those that Boost.Math works out.
#include "geometry/numerics/gauss_rule.hpp"

#include <gtest/gtest.h>

#include <array>
#include <boost/math/quadrature/gauss.hpp>
#include <cstddef>
#include <utility>

namespace shankline::tests::gauss_rule_test {
namespace {

/// Boost gives the places from the middle outwards, and of each pair the positive one.
template <std::size_t n> void expect_rule_of_boost(const std::array<GaussPlace, n>& rule) {
  using Rule = boost::math::quadrature::gauss<double, n>;
  ASSERT_EQ(Rule::abscissa().size(), (n + 1) / 2);
  for (std::size_t i = 0; i < Rule::abscissa().size(); ++i)
    for (const auto& [place, sign] :
         {std::pair{rule[n / 2 + i], 1}, std::pair{rule[(n - 1) / 2 - i], -1}}) {
      EXPECT_NEAR(place.at, sign * Rule::abscissa()[i], 1e-15);
      EXPECT_NEAR(place.weight, Rule::weights()[i], 1e-15);
    }
}

TEST(GaussRule, IsThatOfBoost) {
  expect_rule_of_boost(gauss_of_three);
  expect_rule_of_boost(gauss_of_four);
}

} // namespace
} // namespace shankline::tests::gauss_rule_test
