#include "cli/text/natural_order.hpp"

#include <algorithm>
#include <gtest/gtest.h>
#include <string>
#include <vector>

namespace shankline::tests::natural_order_test {
namespace {

TEST(NaturalOrder, IsThatOfCounting) {
  const std::vector<std::string> sorted{"",
                                        "D-2",
                                        "D-02",
                                        "D-2a",
                                        "D-10",
                                        "D-10-2",
                                        "D-10-12",
                                        "D-100",
                                        "D-a",
                                        "E",
                                        "E1",
                                        "E01",
                                        "E99999999999999999999",
                                        "E100000000000000000000",
                                        "d-1"};
  for (std::size_t i = 0; i < sorted.size(); ++i)
    for (std::size_t k = 0; k < sorted.size(); ++k)
      EXPECT_EQ(naturally_before(sorted[i], sorted[k]), i < k) << sorted[i] << ", " << sorted[k];
}

} // namespace
} // namespace shankline::tests::natural_order_test
