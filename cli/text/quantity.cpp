#include "cli/text/quantity.hpp"

#include "cli/text/characters.hpp"
#include "cli/text/figure_slip.hpp"
#include "cli/text/message.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <optional>
#include <utility>

namespace shankline {
namespace {

struct Unit {
  std::string_view word;
  Quantity quantity;
  double factor;
};

constexpr std::array units{
    Unit{"mm", Quantity::length, 1},        Unit{"cm", Quantity::length, 10},
    Unit{"in", Quantity::length, 25.4},     Unit{"inch", Quantity::length, 25.4},
    Unit{"inches", Quantity::length, 25.4}, Unit{"deg", Quantity::angle, 1},
    Unit{"degrees", Quantity::angle, 1},    Unit{"°", Quantity::angle, 1},
    Unit{"%", Quantity::percent, 1},        Unit{"g", Quantity::mass, 1},
    Unit{"kg", Quantity::mass, 1000},
};

struct QuantityWords {
  std::string_view name;
  std::string_view unit;
  std::string_view example;
};

const QuantityWords& words_of(Quantity quantity) {
  static constexpr QuantityWords length{
      "a length", "mm",
      "write millimetres as a plain number (238), or with the unit: 23.8 cm, 9 3/8 in"};
  static constexpr QuantityWords angle{"an angle", "deg", "write degrees: 10 or 10 deg"};
  static constexpr QuantityWords percent{"a percentage", "%", "write it with its sign: 12 %"};
  static constexpr QuantityWords mass{"a weight", "g", "write grams: 100 g, or 0.1 kg"};
  static constexpr QuantityWords number{"a plain number", "",
                                        "write a plain number without a unit"};
  switch (quantity) {
  case Quantity::length:
    return length;
  case Quantity::angle:
    return angle;
  case Quantity::percent:
    return percent;
  case Quantity::mass:
    return mass;
  case Quantity::number:
    break;
  }
  return number;
}

std::string example(Quantity quantity) {
  return std::string(words_of(quantity).example);
}

void replace_all(std::string& text, std::string_view from, std::string_view to) {
  for (std::size_t at = text.find(from); at != std::string::npos;
       at = text.find(from, at + to.size()))
    text.replace(at, from.size(), to);
}

// No-break spaces (plain, narrow, thin) stand before "%" in many languages' typing.
std::string with_plain_spaces(std::string_view text) {
  std::string plain(text);
  for (const std::string_view space : {"\u00a0", "\u202f", "\u2009", "\t", "\n"})
    replace_all(plain, space, " ");
  return std::string(without_outer_spaces(plain));
}

bool take(std::string_view& rest, char c) {
  if (rest.empty() || rest.front() != c) return false;
  rest.remove_prefix(1);
  return true;
}

std::string_view take_digits(std::string_view& rest) {
  const auto end = std::find_if_not(rest.begin(), rest.end(), is_digit);
  const auto digits = rest.substr(0, static_cast<std::size_t>(end - rest.begin()));
  rest.remove_prefix(digits.size());
  return digits;
}

bool is_whole(std::string_view digits) {
  return !digits.empty() && digits.size() <= most_digits &&
         (digits.size() == 1 || digits.front() != '0');
}

double to_number(std::string_view digits) {
  double value = 0;
  std::from_chars(digits.data(), digits.data() + digits.size(), value);
  return value;
}

// "e1", "E+00"; false where what follows the e is no exponent that a figure can have.
bool take_exponent(std::string_view& rest) {
  if (rest.size() < 2 || lower(rest.front()) != 'e') return true;
  std::string_view ahead = rest.substr(1);
  if (ahead.front() == '-' || ahead.front() == '+') ahead.remove_prefix(1);
  const auto digits = take_digits(ahead);
  if (digits.empty()) return true; // a word, not an exponent
  if (digits.size() > most_exponent_digits) return false;
  rest = ahead;
  return true;
}

struct Decimal {
  double value = 0;
  bool whole = false; ///< digits alone: a fraction of an inch may follow
  std::size_t decimals = 0;
};

// A float as the core schema of YAML 1.2 has it, and so as other programs write it (62.,
// .5, 5.0E+00), but for what another version of YAML reads as something else: no plus, no zeros in
// front.
std::optional<Decimal> take_decimal(std::string_view& rest) {
  const std::string_view start = rest;
  const auto whole = take_digits(rest);
  if (!whole.empty() && !is_whole(whole)) return std::nullopt;
  Decimal number;
  number.whole = !take(rest, '.');
  if (!number.whole) number.decimals = take_digits(rest).size();
  if (whole.empty() && number.decimals == 0) return std::nullopt;
  const std::size_t before = rest.size();
  if (number.decimals > most_decimals || !take_exponent(rest)) return std::nullopt;
  number.whole = number.whole && rest.size() == before;
  number.value = to_number(start.substr(0, start.size() - rest.size()));
  return number;
}

// A program's float may have digits that nobody measured: 61.099999999999994.
double rounded(double value, Quantity quantity) {
  const double parts = quantity == Quantity::length ? 1e3 : 1e6;
  return std::round(value * parts) / parts;
}

// Accepts only fractions that a rule shows: a denominator of 2, 4, … 64, and less than a whole.
std::optional<double> rule_fraction(std::string_view over, std::string_view under) {
  static constexpr std::array<std::string_view, 6> marks{"2", "4", "8", "16", "32", "64"};
  if (!is_whole(over) || std::find(marks.begin(), marks.end(), under) == marks.end())
    return std::nullopt;
  const double value = to_number(over) / to_number(under);
  return value > 0 && value < 1 ? std::optional(value) : std::nullopt;
}

// " 3/8" after the whole inches; leaves `rest` alone when nothing like it follows.
std::optional<double> take_rule_fraction(std::string_view& rest) {
  std::string_view ahead = without_outer_spaces(rest);
  const auto over = take_digits(ahead);
  if (over.empty() || !take(ahead, '/')) return std::nullopt;
  const auto value = rule_fraction(over, take_digits(ahead));
  if (value) rest = ahead;
  return value;
}

struct Amount {
  double value = 0;
  bool fraction = false;
  std::string_view unit;
  bool long_tail = false; ///< more decimals than anybody measures
};

// A number as the format allows it, and whatever word follows.
std::optional<Amount> read_amount(std::string_view text) {
  std::string_view rest = text;
  Amount amount;
  const bool negative = take(rest, '-');
  if (const auto fraction = take_rule_fraction(rest)) {
    amount.value = *fraction;
    amount.fraction = true;
  } else {
    const auto number = take_decimal(rest);
    if (!number) return std::nullopt;
    amount.value = number->value;
    amount.long_tail = number->decimals > most_digits;
    if (const auto more = number->whole ? take_rule_fraction(rest) : std::nullopt) {
      amount.value += *more;
      amount.fraction = true;
    }
  }
  if (negative) amount.value = -amount.value;
  amount.unit = without_outer_spaces(rest);
  return amount;
}

const Unit* find_unit(std::string_view word) {
  const auto same = [word](const Unit& unit) {
    return std::equal(word.begin(), word.end(), unit.word.begin(), unit.word.end(),
                      [](char a, char b) { return lower(a) == b; });
  };
  const auto found = std::find_if(units.begin(), units.end(), same);
  return found == units.end() ? nullptr : &*found;
}

bool is_unit_like(std::string_view word) {
  return std::all_of(word.begin(), word.end(), [](char c) { return is_letter(c) || c == '/'; });
}

Advice diagnose(std::string_view text, const std::optional<Amount>& amount, Quantity wanted) {
  if (auto slip = figure_slip(text))
    return {shown(text) + ' ' + slip->what, {}, std::move(slip->advice)};
  if (amount && is_unit_like(amount->unit))
    return {
        shown(text) + ": the unit " + shown(amount->unit) + " is not known", {}, example(wanted)};
  return {shown(text) + " is not " + std::string(words_of(wanted).name), {}, example(wanted)};
}

Advice fraction_alone(std::string_view text, double value, Quantity wanted) {
  if (wanted == Quantity::length)
    return {shown(text) + " is a fraction without a unit",
            {},
            "fractions are read as inches only: write " + std::string(text) + " in"};
  const std::string what = shown(text) + " is a fraction, and only inches are read as fractions";
  if (wanted != Quantity::percent) return {what, {}, "write " + number_text(value)};
  const std::string percent = "write " + number_text(100 * value) + " %";
  return {what, {}, std::abs(value) < 1 ? percent + " or " + number_text(value) : percent};
}

Result<double> bare(std::string_view text, const Amount& amount, Quantity wanted) {
  if (amount.fraction) return fraction_alone(text, amount.value, wanted);
  if (wanted != Quantity::percent) return amount.value;
  if (std::abs(amount.value) < 1) return amount.value * 100;
  return Advice{shown(text) + " may be a percentage or a fraction",
                {},
                "write it with its sign: " + std::string(text) + " %"};
}

Result<double> with_unit(std::string_view text, const Amount& amount, const Unit& unit,
                         Quantity wanted) {
  const std::string read = shown(text);
  if (unit.quantity != wanted)
    return Advice{read + " is " + std::string(words_of(unit.quantity).name) + ", and " +
                      std::string(words_of(wanted).name) + " is wanted here",
                  {},
                  example(wanted)};
  if (amount.fraction && !unit.word.starts_with("in"))
    return Advice{read + " is a fraction, and not of an inch",
                  {},
                  "write a decimal number with this unit: 9.4"};
  return amount.value * unit.factor;
}

} // namespace

Result<double> parse_quantity(std::string_view text, Quantity wanted) {
  const std::string plain = with_plain_spaces(text);
  if (plain.empty()) return Advice{"'' is empty", {}, example(wanted)};
  const auto amount = read_amount(plain);
  const bool alone = amount && amount->unit.empty();
  const Unit* unit = amount && !alone ? find_unit(amount->unit) : nullptr;
  if (!alone && !unit) return diagnose(plain, amount, wanted);
  auto value = alone ? bare(plain, *amount, wanted) : with_unit(plain, *amount, *unit, wanted);
  if (value && amount->long_tail) return rounded(*value, wanted);
  return value;
}

std::string_view unit_of(Quantity quantity) {
  return words_of(quantity).unit;
}

std::string number_text(double value) {
  std::array<char, 32> buffer;
  const auto end = std::to_chars(buffer.data(), buffer.data() + buffer.size(), value).ptr;
  return {buffer.data(), end};
}

std::string quantity_text(double value, Quantity quantity) {
  const auto unit = unit_of(quantity);
  return number_text(value) + (unit.empty() ? "" : ' ' + std::string(unit));
}

std::string range_text(double least, double most, Quantity quantity) {
  return number_text(least) + " to " + quantity_text(most, quantity);
}

std::string range_text(const ReadingGuide& guide) {
  return range_text(guide.least, guide.most, guide.quantity);
}

} // namespace shankline
