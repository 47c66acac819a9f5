#include "cli/text/text_columns.hpp"

#include <gtest/gtest.h>

namespace shankline::tests::text_columns_test {
namespace {

TEST(TextColumns, CountWideCharactersTwice) {
  EXPECT_EQ(padded("M-07", 6), "M-07  ");
  EXPECT_EQ(padded("\u5c71\u7530", 6), "\u5c71\u7530  ");
  EXPECT_EQ(right_aligned("e\u0301", 3), "  e\u0301");
  EXPECT_EQ(padded("M-07", 4), "M-07");
}

TEST(TextColumns, WrapAtTheWidth) {
  EXPECT_EQ(wrapped("ab cd ef", 5), (std::vector<std::string>{"ab cd", "ef"}));
  EXPECT_EQ(wrapped("ab cd ef", 4), (std::vector<std::string>{"ab", "cd", "ef"}));
  EXPECT_EQ(wrapped("\u5c71 \u7530", 5), (std::vector<std::string>{"\u5c71 \u7530"}));
  EXPECT_EQ(wrapped("\u5c71 \u7530", 4), (std::vector<std::string>{"\u5c71", "\u7530"}));
}

} // namespace
} // namespace shankline::tests::text_columns_test
