#include "cli/text/nearest_word.hpp"

#include "cli/text/characters.hpp"

#include <algorithm>
#include <array>
#include <vector>

namespace shankline {
namespace {

bool same(char a, char b) {
  return lower(a) == lower(b);
}

// Optimal string alignment, three rows kept.
std::size_t slips_between(std::string_view a, std::string_view b) {
  std::array<std::vector<std::size_t>, 3> rows;
  for (auto& row : rows)
    row.resize(b.size() + 1);
  auto& [before, last, row] = rows;
  for (std::size_t j = 0; j <= b.size(); ++j)
    last[j] = j;
  for (std::size_t i = 1; i <= a.size(); ++i) {
    row[0] = i;
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const std::size_t other = same(a[i - 1], b[j - 1]) ? 0 : 1;
      row[j] = std::min({last[j] + 1, row[j - 1] + 1, last[j - 1] + other});
      const bool swapped = i > 1 && j > 1 && same(a[i - 1], b[j - 2]) && same(a[i - 2], b[j - 1]);
      if (swapped) row[j] = std::min(row[j], before[j - 2] + 1);
    }
    before.swap(last);
    last.swap(row);
  }
  return last[b.size()];
}

// One slip in a short word, about one in three letters of a long one.
std::size_t slips_allowed(std::string_view word) {
  return word.size() < 3 ? 1 : (word.size() + 1) / 3;
}

std::size_t difference(std::size_t a, std::size_t b) {
  return a > b ? a - b : b - a;
}

} // namespace

std::optional<std::string_view> nearest_word(std::string_view word,
                                             std::span<const std::string_view> known) {
  std::optional<std::string_view> nearest;
  std::size_t fewest = 0;
  for (const std::string_view candidate : known) {
    const std::size_t allowed = slips_allowed(candidate);
    if (difference(word.size(), candidate.size()) > allowed) continue;
    const std::size_t count = slips_between(word, candidate);
    if (count >= candidate.size() || count > allowed || (nearest && count >= fewest)) continue;
    nearest = candidate;
    fewest = count;
  }
  return nearest;
}

std::string guess_words(std::string_view word, std::span<const std::string_view> known) {
  const auto near = nearest_word(word, known);
  return near ? " Did you mean '" + std::string(*near) + "'?" : std::string();
}

std::string guess_words(std::string_view word, const std::vector<std::string>& known) {
  const std::vector<std::string_view> views(known.begin(), known.end());
  return guess_words(word, views);
}

} // namespace shankline
