#include "cli/text/quantity.hpp"

#include <gtest/gtest.h>

#include <clocale>
#include <ostream>
#include <string>
#include <variant>

namespace shankline::tests::quantity_test {
namespace {

struct Read {
  const char* text;
  Quantity wanted;
  double value;
};

std::ostream& operator<<(std::ostream& out, const Read& row) {
  return out << row.text;
}

class QuantityRead : public testing::TestWithParam<Read> {};

TEST_P(QuantityRead, IsTheNumberMeant) {
  const auto parsed = parse_quantity(GetParam().text, GetParam().wanted);
  ASSERT_TRUE(parsed) << parsed.why().what;
  EXPECT_DOUBLE_EQ(*parsed, GetParam().value);
}

INSTANTIATE_TEST_SUITE_P(
    Figures, QuantityRead,
    testing::Values(
        Read{"238", Quantity::length, 238}, Read{"238.5", Quantity::length, 238.5},
        Read{"0.5", Quantity::length, 0.5}, Read{"0", Quantity::length, 0},
        Read{"  238  ", Quantity::length, 238}, Read{"238 mm", Quantity::length, 238},
        Read{"238mm", Quantity::length, 238}, Read{"238 MM", Quantity::length, 238},
        Read{"24.1 cm", Quantity::length, 241}, Read{"9.5in", Quantity::length, 241.3},
        Read{"9 3/8 in", Quantity::length, 238.125}, Read{"9  3/8  in", Quantity::length, 238.125},
        Read{"9 3/8in", Quantity::length, 238.125}, Read{"3/8 in", Quantity::length, 9.525},
        Read{"63/64 inch", Quantity::length, 25.003125}, Read{"2 inches", Quantity::length, 50.8},
        Read{"-5", Quantity::angle, -5}, Read{"10 deg", Quantity::angle, 10},
        Read{"10", Quantity::angle, 10}, Read{"10°", Quantity::angle, 10},
        Read{"10 degrees", Quantity::angle, 10}, Read{"12 %", Quantity::percent, 12},
        Read{"12%", Quantity::percent, 12}, Read{"12\u00a0%", Quantity::percent, 12},
        Read{"12\u202f%", Quantity::percent, 12}, Read{"0.12", Quantity::percent, 12},
        Read{"0", Quantity::percent, 0}, Read{"100 %", Quantity::percent, 100},
        Read{"100 g", Quantity::mass, 100}, Read{"100", Quantity::mass, 100},
        Read{"0.1 kg", Quantity::mass, 100}, Read{"0.8", Quantity::number, 0.8},
        Read{"1e1", Quantity::length, 10}, Read{"1E3", Quantity::length, 1000},
        Read{"2.4e+2", Quantity::length, 240}, Read{"5.0E+00", Quantity::angle, 5},
        Read{"6.11e1 mm", Quantity::length, 61.1}, Read{"62.", Quantity::length, 62},
        Read{".5", Quantity::length, 0.5}, Read{"-.5", Quantity::angle, -0.5},
        Read{"25e-2", Quantity::percent, 25}, Read{"61.099999999999994", Quantity::length, 61.1},
        Read{"61.0994999999999", Quantity::length, 61.099},
        Read{"61.123456789", Quantity::length, 61.123456789},
        Read{"0.71818181818181814", Quantity::number, 0.718182},
        Read{"90000", Quantity::number, 90000}, Read{"123456789", Quantity::number, 123456789}));

struct Refused {
  const char* text;
  Quantity wanted;
  const char* what;
  const char* advice;
};

std::ostream& operator<<(std::ostream& out, const Refused& row) {
  return out << row.text;
}

class QuantityRefused : public testing::TestWithParam<Refused> {};

TEST_P(QuantityRefused, SaysWhyAndWhatToWrite) {
  const auto parsed = parse_quantity(GetParam().text, GetParam().wanted);
  ASSERT_FALSE(parsed) << *parsed;
  const Advice& fault = parsed.why();
  EXPECT_NE(fault.what.find(GetParam().what), std::string::npos) << fault.what;
  EXPECT_NE(fault.advice.find(GetParam().advice), std::string::npos) << fault.advice;
}

INSTANTIATE_TEST_SUITE_P(
    Figures, QuantityRefused,
    testing::Values(
        Refused{"", Quantity::length, "empty", "23.8 cm"},
        Refused{"010", Quantity::length, "zero", "write 10"},
        Refused{"-007", Quantity::length, "zero", "write -7"},
        Refused{"0x1F", Quantity::length, "ordinary digits", "ordinary digits"},
        Refused{"1e999", Quantity::length, "no measurement", "write the number out"},
        Refused{"1e100", Quantity::length, "no measurement", "write the number out"},
        Refused{"1e", Quantity::length, "unit 'e' is not known", "23.8 cm"},
        Refused{"e1", Quantity::length, "not a length", "plain number"},
        Refused{".", Quantity::length, "not a length", "plain number"},
        Refused{"1e1 3/8 in", Quantity::length, "exponent", "write the number out"},
        Refused{".nan", Quantity::length, "measured", "leave the key out"},
        Refused{".NaN", Quantity::length, "measured", "leave the key out"},
        Refused{".NAN", Quantity::length, "measured", "leave the key out"},
        Refused{"nan", Quantity::angle, "measured", "leave the key out"},
        Refused{"NaN", Quantity::percent, "measured", "leave the key out"},
        Refused{".inf", Quantity::length, "measured", "leave the key out"},
        Refused{"-.inf", Quantity::length, "measured", "leave the key out"},
        Refused{"+.INF", Quantity::length, "measured", "leave the key out"},
        Refused{"inf", Quantity::number, "measured", "leave the key out"},
        Refused{"-Infinity", Quantity::mass, "measured", "leave the key out"},
        Refused{"23,8", Quantity::length, "comma", "write 23.8"},
        Refused{"23,8 cm", Quantity::length, "comma", "write 23.8 cm"},
        Refused{"1,238.5", Quantity::length, "comma", "without commas"},
        Refused{"1_000", Quantity::length, "underscore", "write 1000"},
        Refused{"9'3", Quantity::length, "feet and inches", "9 3/8 in"},
        Refused{"9 3/8\"", Quantity::length, "quotation", "9 3/8 in"},
        Refused{"9 3/8″", Quantity::length, "quotation", "9 3/8 in"},
        Refused{"9½ in", Quantity::length, "single sign", "9 3/8 in"},
        Refused{"9 ⅜ in", Quantity::length, "single sign", "9 3/8 in"},
        Refused{"9 3⁄8 in", Quantity::length, "single sign", "9 3/8 in"},
        Refused{"9-3/8 in", Quantity::length, "hyphen", "9 3/8 in"},
        Refused{"9 3/7 in", Quantity::length, "no inch rule", "16ths"},
        Refused{"9 8/8 in", Quantity::length, "no inch rule", "less than 1"},
        Refused{"1/0 in", Quantity::length, "no inch rule", "16ths"},
        Refused{"9 3/8", Quantity::length, "without a unit", "write 9 3/8 in"},
        Refused{"3/4", Quantity::percent, "is a fraction", "write 75 % or 0.75"},
        Refused{"1 1/4", Quantity::percent, "is a fraction", "write 125 %"},
        Refused{"3/4", Quantity::number, "is a fraction", "write 0.75"},
        Refused{"9 3/8 cm", Quantity::length, "not of an inch", "decimal"},
        Refused{"+5", Quantity::angle, "sign", "leave a plus out"},
        Refused{"−5", Quantity::angle, "sign", "plain hyphen"},
        Refused{"00.5", Quantity::length, "zero", "write 0.5"},
        Refused{"1.2.3", Quantity::length, "not a length", "plain number"},
        Refused{"238 238", Quantity::length, "two numbers", "[238, 238.5]"},
        Refused{"12345678901", Quantity::length, "more digits", "round"},
        Refused{"238.12345678901234567890123456", Quantity::length, "more digits", "round"},
        Refused{"238 furlongs", Quantity::length, "unit 'furlongs' is not known", "23.8 cm"},
        Refused{"238 g", Quantity::length, "is a weight, and a length", "plain number"},
        Refused{"12 %", Quantity::length, "is a percentage", "plain number"},
        Refused{"10 mm", Quantity::angle, "is a length, and an angle", "10 deg"},
        Refused{"10 deg", Quantity::percent, "is an angle", "12 %"},
        Refused{"12 %", Quantity::number, "a plain number is wanted", "without a unit"},
        Refused{"12", Quantity::percent, "may be a percentage or a fraction", "12 %"},
        Refused{"1", Quantity::percent, "may be a percentage or a fraction", "1 %"},
        Refused{"-12", Quantity::percent, "may be a percentage or a fraction", "-12 %"},
        Refused{"true", Quantity::length, "not a length", "238"},
        Refused{"about 60", Quantity::length, "not a length", "238"},
        Refused{"60 or so", Quantity::length, "not a length", "238"}));

TEST(Quantity, DoesNotDependOnTheLocale) {
  const std::string before = std::setlocale(LC_ALL, nullptr);
  bool comma = false;
  for (const char* name : {"de_DE.UTF-8", "fr_FR.UTF-8", "C.UTF-8"}) {
    if (!std::setlocale(LC_ALL, name)) continue;
    comma = true;
    EXPECT_EQ(*parse_quantity("238.5", Quantity::length), 238.5) << name;
    EXPECT_EQ(number_text(238.5), "238.5") << name;
  }
  std::setlocale(LC_ALL, before.c_str());
  EXPECT_TRUE(comma) << "no other locale to try";
}

TEST(Quantity, ALongTextIsCutInTheComplaint) {
  const auto parsed = parse_quantity(std::string(10000, 'x'), Quantity::length);
  EXPECT_LT(parsed.why().what.size(), 200u);
}

TEST(Quantity, NumbersAreWrittenShortest) {
  EXPECT_EQ(number_text(0.1), "0.1");
  EXPECT_EQ(number_text(238), "238");
  EXPECT_EQ(number_text(-12.25), "-12.25");
  EXPECT_EQ(quantity_text(10, Quantity::angle), "10 deg");
  EXPECT_EQ(quantity_text(10, Quantity::number), "10");
}

} // namespace
} // namespace shankline::tests::quantity_test
