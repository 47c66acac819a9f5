#include "geometry/numerics/result.hpp"

#include <gtest/gtest.h>
#include <memory>

namespace shankline::tests::result_test {
namespace {

TEST(Result, HoldsAValueOrTheReason) {
  const Result<double> value = 2.5;
  ASSERT_TRUE(value);
  EXPECT_EQ(*value, 2.5);
  EXPECT_THROW(static_cast<void>(value.why()), std::bad_variant_access);

  const Result<double> none = Advice{"too far", "up to 3", "Measure again."};
  ASSERT_FALSE(none);
  EXPECT_EQ(none.why(), (Advice{"too far", "up to 3", "Measure again."}));
  EXPECT_THROW(static_cast<void>(*none), std::bad_variant_access);
}

TEST(Result, GivesItsValueAway) {
  Result<std::unique_ptr<int>> owned = std::make_unique<int>(7);
  const std::unique_ptr<int> taken = *std::move(owned);
  EXPECT_EQ(*taken, 7);
}

} // namespace
} // namespace shankline::tests::result_test
