#include "export/drawing/paper.hpp"

#include "geometry/order/figure.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <optional>

namespace shankline {
namespace {

constexpr std::array sheets{
    Paper{"a4", 210, 297}, // first: text on a roll is as long
    Paper{"a3", 297, 420},
    Paper{"letter", 8.5 * mm_per_inch, 11 * mm_per_inch},
    Paper{"legal", 8.5 * mm_per_inch, 14 * mm_per_inch},
    Paper{"tabloid", 11 * mm_per_inch, 17 * mm_per_inch},
};

constexpr std::string_view roll_word = "roll:";

struct LengthUnit {
  std::string_view name;
  double mm;
};
constexpr std::array units{LengthUnit{"", 1}, LengthUnit{"mm", 1}, LengthUnit{"cm", 10},
                           LengthUnit{"in", mm_per_inch}};

std::optional<double> roll_width(std::string_view words) {
  double width = 0;
  const char* const end = words.data() + words.size();
  const auto [rest, error] = std::from_chars(words.data(), end, width, std::chars_format::fixed);
  if (error != std::errc() || !std::isfinite(width)) return std::nullopt;
  const std::string_view name(rest, static_cast<std::size_t>(end - rest));
  const auto unit =
      std::find_if(units.begin(), units.end(), [&](const LengthUnit& u) { return u.name == name; });
  return unit == units.end() ? std::nullopt : std::optional<double>(width * unit->mm);
}

std::string known_papers() {
  std::string words;
  for (const Paper& sheet : sheets)
    words += std::string(sheet.name) + ", ";
  return "give " + words + "or roll:WIDTH for a roll of that many mm (or 91.4cm, 36in)";
}

} // namespace

std::span<const Paper> papers() {
  return sheets;
}

Result<Paper> read_paper(std::string_view any_case) {
  std::string lower_case(any_case);
  for (char& c : lower_case)
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  const std::string_view name = lower_case;
  const auto found = std::find_if(sheets.begin(), sheets.end(),
                                  [name](const Paper& paper) { return paper.name == name; });
  if (found != sheets.end()) return *found;
  if (name.substr(0, roll_word.size()) != roll_word)
    return Advice{"no such paper; " + known_papers()};
  const std::optional<double> width = roll_width(name.substr(roll_word.size()));
  if (!width)
    return Advice{"a roll's width is a whole number of millimetres, as in roll:900; " +
                  known_papers()};
  if (*width < narrowest_roll || *width > widest_roll)
    return Advice{
        std::string(*width < narrowest_roll ? "the roll is too narrow" : "the roll is too wide") +
        "; give " + short_figure(narrowest_roll) + " to " + short_figure(widest_roll) + " mm"};
  return Paper{"roll", *width, 0, true};
}

std::string written(const Paper& paper) {
  return paper.roll ? std::string(roll_word) + short_figure(paper.width, 2)
                    : std::string(paper.name);
}

Paper landscape(const Paper& paper) {
  return {paper.name, paper.height, paper.width};
}

Paper upright_page(const Paper& paper, double height) {
  if (!paper.roll) return paper;
  return {paper.name, paper.width, std::min(height, longest_page)};
}

Paper text_page(const Paper& paper) {
  return upright_page(paper, papers().front().height);
}

} // namespace shankline
