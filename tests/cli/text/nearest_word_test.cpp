#include "cli/text/nearest_word.hpp"

#include <gtest/gtest.h>

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace shankline::tests::nearest_word_test {
namespace {

const std::vector<std::string_view> keys{"length",     "ball_length", "heel_front", "arch_break",
                                         "arch_depth", "fold",        "in",         "out"};

struct Meant {
  std::string_view written;
  std::optional<std::string_view> meant;
};

class NearestWord : public testing::TestWithParam<Meant> {};

TEST_P(NearestWord, IsWhatWasMeant) {
  EXPECT_EQ(nearest_word(GetParam().written, keys), GetParam().meant);
}

INSTANTIATE_TEST_SUITE_P(
    Words, NearestWord,
    testing::Values(Meant{"heel_frnt", "heel_front"}, Meant{"heel_fronts", "heel_front"},
                    Meant{"hele_front", "heel_front"}, Meant{"heel-front", "heel_front"},
                    Meant{"heelfront", "heel_front"}, Meant{"Heel_Front", "heel_front"},
                    Meant{"lenght", "length"}, Meant{"archbreak", "arch_break"},
                    Meant{"arch_brake", "arch_break"}, Meant{"fodl", "fold"}, Meant{"ni", "in"},
                    Meant{"colour", std::nullopt}, Meant{"", std::nullopt},
                    Meant{"xy", std::nullopt}, Meant{"heel", std::nullopt}));

TEST(NearestWordOf, SwappedLettersAreOneSlip) {
  const std::vector<std::string_view> words{"abxd", "abdc"};
  EXPECT_EQ(nearest_word("abcd", words), "abxd") << "equally near: the first";
  const std::vector<std::string_view> apart{"axxd", "abdc"};
  EXPECT_EQ(nearest_word("abcd", apart), "abdc");
}

TEST(NearestWordOf, NothingAmongNothing) {
  EXPECT_FALSE(nearest_word("length", {}));
}

TEST(NearestWordOf, AVeryLongWordIsFarFromAll) {
  EXPECT_FALSE(nearest_word(std::string(60000, 'l'), keys));
}

} // namespace
} // namespace shankline::tests::nearest_word_test
