#include "cli/text/text_columns.hpp"

#include <algorithm>
#include <sys/ioctl.h>
#include <unistd.h>

namespace shankline {

std::size_t output_columns() {
  static constexpr std::size_t narrowest = 40; // tables need that
  static constexpr std::size_t widest = 120;   // longer lines are hard to read
  static const std::size_t columns = [] {
    winsize size{};
    const bool known = ::isatty(STDOUT_FILENO) != 0 &&
                       ::ioctl(STDOUT_FILENO, TIOCGWINSZ, &size) == 0 && size.ws_col > 0;
    return known ? std::clamp<std::size_t>(size.ws_col, narrowest, widest) : terminal_width;
  }();
  return columns;
}

std::string padded(std::string text, std::size_t width) {
  const std::size_t length = columns_of(text);
  if (length < width) text.append(width - length, ' ');
  return text;
}

std::string right_aligned(const std::string& text, std::size_t width) {
  const std::size_t length = columns_of(text);
  return length < width ? std::string(width - length, ' ') + text : text;
}

std::string columns_text(const std::vector<std::vector<std::string>>& rows, std::size_t left) {
  std::vector<std::size_t> widths;
  for (const auto& row : rows)
    for (std::size_t k = 0; k < row.size(); ++k) {
      if (widths.size() <= k) widths.push_back(0);
      widths[k] = std::max(widths[k], columns_of(row[k]));
    }
  std::string text;
  for (const auto& row : rows) {
    std::string line;
    for (std::size_t k = 0; k < row.size(); ++k)
      line += (k > 0 ? "  " : "") + (k < left || k + 1 == row.size()
                                         ? padded(row[k], widths[k])
                                         : right_aligned(row[k], widths[k]));
    line.erase(line.find_last_not_of(' ') + 1);
    text += line + "\n";
  }
  return text;
}

std::vector<std::string> wrapped(std::string_view words, std::size_t width) {
  std::vector<std::string> lines;
  while (!words.empty()) {
    const std::string word(words.substr(0, words.find(' ')));
    words.remove_prefix(std::min(words.size(), word.size() + 1));
    if (word.empty()) continue;
    const bool fits = !lines.empty() && columns_of(lines.back()) + 1 + columns_of(word) <= width;
    if (fits)
      lines.back() += ' ' + word;
    else
      lines.push_back(word);
  }
  return lines;
}

std::string wrapped_text(std::string_view words, std::size_t width) {
  std::string text;
  for (const std::string& line : wrapped(words, width))
    text += line + "\n";
  return text;
}

} // namespace shankline
