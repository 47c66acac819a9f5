#include "geometry/order/yarn.hpp"

#include <gtest/gtest.h>

namespace shankline::tests::yarn_test {
namespace {

TEST(Yarn, IsReadInTexOrAsAMetricNumber) {
  EXPECT_EQ(parse_yarn("50 tex"), 50);
  EXPECT_EQ(parse_yarn("Nm 20"), 50) << "20 m weigh a gram: 1,000 m weigh 50 g";
  EXPECT_EQ(parse_yarn("Nm 40/2"), 50) << "two threads of 25 tex";
}

TEST(Yarn, IsReadWithSpacesAroundItsPartsOrWithout) {
  for (const char* text : {"50tex", "  50 tex", "50   tex  ", "Nm20", "  Nm 20 ", "Nm  20",
                           "Nm 40 / 2", "Nm40/2", " Nm 40/ 2 "})
    EXPECT_EQ(parse_yarn(text), 50) << text;
}

TEST(Yarn, AnythingElseIsNone) {
  for (const char* text :
       {"", " ", "50", "tex", " tex", "Nm", "Nm ", "Nm 0", "Nm 40/", "Nm 40/0", "Nm /2",
        "Nm 40/2/2", "-50 tex", "1e3 tex", "5 0 tex", "1.2.3 tex", "nm 20", "50 TEX", "Nm nan"})
    EXPECT_FALSE(parse_yarn(text)) << text;
}

} // namespace
} // namespace shankline::tests::yarn_test
