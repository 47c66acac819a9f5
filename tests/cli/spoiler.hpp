// Spoils a text as a slip of the hand, or of the disk, would.
#pragma once

#include <algorithm>
#include <array>
#include <cstddef>
#include <random>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace shankline::tests {

class Spoiler {
public:
  explicit Spoiler(unsigned seed) : draw_(seed) {}

  std::string spoil(std::string text) {
    for (std::size_t times = 1 + below(4); times > 0; --times)
      spoil_once(text);
    return text;
  }

private:
  // The standard's distributions differ between libraries; this is the same everywhere.
  std::size_t below(std::size_t end) { return end == 0 ? 0 : draw_() % end; }

  static std::vector<std::string_view> lines_of(std::string_view text) {
    std::vector<std::string_view> lines;
    while (!text.empty()) {
      const std::size_t end = std::min(text.find('\n'), text.size() - 1);
      lines.push_back(text.substr(0, end + 1));
      text.remove_prefix(end + 1);
    }
    return lines;
  }

  void spoil_once(std::string& text) {
    static constexpr std::string_view pieces[] = {
        ":",   ": ", "{",  "}",    "[",    "]",    "\"", "'",  ",",     "#",
        "&a ", "*a", "!",  "~",    "\n",   "\t",   "- ", "? ", "---\n", "...\n",
        "|\n", "0",  "e9", ".nan", "\xff", "\x1b", "ä",  "%",  "  ",    "\r"};
    const std::size_t at = below(text.size() + 1);
    switch (below(6)) {
    case 0:
      text.erase(at, 1 + below(8));
      break;
    case 1:
      text.insert(at, text.substr(below(text.size() + 1), 1 + below(20)));
      break;
    case 2:
      if (at < text.size()) text[at] = static_cast<char>(below(256));
      break;
    case 3:
      text.insert(at, pieces[below(std::size(pieces))]);
      break;
    default:
      spoil_lines(text);
      break;
    }
  }

  void spoil_lines(std::string& text) {
    auto lines = lines_of(text);
    if (lines.empty()) return;
    const std::size_t one = below(lines.size());
    const std::size_t other = below(lines.size());
    switch (below(4)) {
    case 0:
      lines.erase(lines.begin() + static_cast<std::ptrdiff_t>(one));
      break;
    case 1:
      std::swap(lines[one], lines[other]);
      break;
    case 2:
      lines.resize(one);
      break;
    default:
      lines.insert(lines.begin() + static_cast<std::ptrdiff_t>(one), lines[other]);
      break;
    }
    std::string spoilt;
    for (const std::string_view line : lines)
      spoilt += line;
    text = std::move(spoilt);
  }

  std::mt19937 draw_;
};

} // namespace shankline::tests
