#include "cli/text/figure_slip.hpp"

#include "cli/text/characters.hpp"

#include <algorithm>
#include <array>

namespace shankline {
namespace {

bool has(std::string_view text, std::string_view part) {
  return text.find(part) != std::string_view::npos;
}

template <std::size_t count>
bool has_any(std::string_view text, const std::array<std::string_view, count>& parts) {
  return std::any_of(parts.begin(), parts.end(), [text](auto part) { return has(text, part); });
}

std::string lowered(std::string_view text) {
  std::string low(text);
  std::transform(low.begin(), low.end(), low.begin(), lower);
  return low;
}

std::string_view without_sign(std::string_view text) {
  if (!text.empty() && (text.front() == '-' || text.front() == '+')) text.remove_prefix(1);
  return text;
}

bool is_not_finite(std::string_view text) {
  std::string word = lowered(without_sign(text));
  if (!word.empty() && word.front() == '.') word.erase(0, 1);
  return word == "nan" || word == "inf" || word == "infinity";
}

bool has_fraction_sign(std::string_view text) {
  static constexpr std::array<std::string_view, 13> signs{"½", "¼", "¾", "⅛", "⅜", "⅝", "⅞",
                                                          "⅓", "⅔", "⅙", "⅚", "⁄", "∕"};
  return has_any(text, signs);
}

bool has_inch_mark(std::string_view text) {
  static constexpr std::array<std::string_view, 7> marks{"'", "\"", "’", "”", "″", "′", "“"};
  return has_any(text, marks);
}

bool has_odd_sign(std::string_view text) {
  return text.substr(0, 1) == "+" || has(text, "−") || has(text, "–");
}

bool is_hexadecimal(std::string_view text) {
  return lowered(without_sign(text)).starts_with("0x");
}

bool has_exponent(std::string_view text) {
  const std::size_t e = text.find_first_of("eE");
  if (e == 0 || e == std::string_view::npos || e + 1 >= text.size()) return false;
  const auto after = without_sign(text.substr(e + 1));
  return is_digit(text[e - 1]) && !after.empty() && is_digit(after.front());
}

bool has_comma(std::string_view text) {
  const std::size_t comma = text.find(',');
  return comma != std::string_view::npos && comma > 0 && is_digit(text[comma - 1]);
}

bool has_leading_zero(std::string_view text) {
  text = without_sign(text);
  return text.size() > 1 && text[0] == '0' && is_digit(text[1]);
}

bool has_hyphen_inside(std::string_view text) {
  return text.size() > 1 && has(text.substr(1), "-") && has(text, "/");
}

bool has_digits_and(std::string_view text, char sign) {
  const std::size_t at = text.find(sign);
  return at != std::string_view::npos && at > 0 && is_digit(text[at - 1]);
}

bool has_slash(std::string_view text) {
  return has_digits_and(text, '/');
}
bool has_underscore(std::string_view text) {
  return has_digits_and(text, '_');
}

bool has_many_digits(std::string_view text) {
  std::size_t run = 0;
  for (const char c : text) {
    run = is_digit(c) ? run + 1 : 0;
    if (run > most_digits) return true;
  }
  return false;
}

bool has_two_numbers(std::string_view text) {
  for (std::size_t at = 1; at + 1 < text.size(); ++at)
    if (text[at] == ' ' && is_digit(text[at - 1]) && is_digit(text[at + 1])) return true;
  return false;
}

std::string with_point(std::string_view text) {
  if (std::count(text.begin(), text.end(), ',') != 1 || has(text, "."))
    return "write the number with a point and without commas";
  std::string mended(text);
  std::replace(mended.begin(), mended.end(), ',', '.');
  return "write " + mended;
}

std::string without_zeros(std::string_view text) {
  const bool negative = text.front() == '-';
  text = without_sign(text);
  while (text.size() > 1 && text[0] == '0' && is_digit(text[1]))
    text.remove_prefix(1);
  return "write " + std::string(negative ? "-" : "") + std::string(text);
}

std::string without_underscores(std::string_view text) {
  std::string mended(text);
  std::erase(mended, '_');
  return "write " + mended;
}

struct Slip {
  bool (*seen)(std::string_view text);
  std::string_view what;
  std::string_view advice;
  std::string (*mended)(std::string_view text) = nullptr; ///< advice made from the text itself
};

constexpr Slip slips[] = {
    {is_not_finite, "is not a figure that can be measured",
     "write the reading, or leave the key out"},
    {has_fraction_sign, "has a fraction in a single sign", "write it with a slash: 9 3/8 in"},
    {has_inch_mark, "has quotation marks or feet and inches in it",
     "write inches with the word: 9 3/8 in"},
    {has_odd_sign, "has a sign that cannot be read",
     "leave a plus out; write a minus as a plain hyphen: -5"},
    {is_hexadecimal, "is not in ordinary digits", "write ordinary digits: 31"},
    {has_many_digits, "has more digits than any measurement", "round it: 238.5"},
    {has_exponent, "has an exponent that belongs to no measurement",
     "write the number out: 2400, 0.5"},
    {has_underscore, "has an underscore between its digits", "", without_underscores},
    {has_comma, "is written with a comma", "", with_point},
    {has_leading_zero, "begins with a zero", "", without_zeros},
    {has_hyphen_inside, "has a hyphen between inches and fraction", "write a space: 9 3/8 in"},
    {has_slash, "has a fraction that is on no inch rule",
     "use halves, quarters, 8ths, 16ths, 32nds or 64ths, less than 1: 9 3/8 in"},
    {has_two_numbers, "looks like two numbers",
     "write one number; repeated readings go in a list: [238, 238.5]"},
};

} // namespace

std::optional<Advice> figure_slip(std::string_view text) {
  const auto slip = std::find_if(std::begin(slips), std::end(slips),
                                 [text](const Slip& s) { return s.seen(text); });
  if (slip == std::end(slips)) return std::nullopt;
  return Advice{
      std::string(slip->what), {}, slip->mended ? slip->mended(text) : std::string(slip->advice)};
}

} // namespace shankline
