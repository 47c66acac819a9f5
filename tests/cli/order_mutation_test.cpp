// Whatever happens to a file, the reader never falls over, and either the order is good or it says
// where it is not.
#include "cli/order_reader.hpp"

#include "tests/cli/sketch_order.hpp"
#include "tests/support/places.hpp"
#include "tests/support/scratch_directory.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <chrono>
#include <filesystem>
#include <random>
#include <set>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace shankline::tests {
namespace {

ReadOrder expect_an_answer(const std::string& text) {
  ReadOrder result = read_order(text, "order.yaml");
  if (result.ok()) {
    EXPECT_TRUE(result.order.left || result.order.right) << text;
    return result;
  }
  const auto lines =
      std::count(text.begin(), text.end(), '\n') + std::count(text.begin(), text.end(), '\r') + 1;
  for (const Message& message : result.messages) {
    EXPECT_GE(message.line, 1) << to_text(message) << '\n' << text;
    EXPECT_LE(message.line, lines) << to_text(message) << '\n' << text;
    EXPECT_GE(message.column, 1) << to_text(message) << '\n' << text;
    EXPECT_FALSE(message.what.empty()) << text;
  }
  return result;
}

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

TEST(OrderMutation, EverySpoiltOrderGetsAnAnswer) {
  Spoiler spoiler(20260314);
  int good = 0;
  int bad = 0;
  std::set<std::string> whats;
  for (int i = 0; i < 3000 && !HasFailure(); ++i) {
    const auto result = expect_an_answer(spoiler.spoil(sketch_order()));
    ++(result.ok() ? good : bad);
    for (const Message& message : result.messages)
      whats.insert(message.what);
  }
  // Guards against spoiling nothing, or always in the same way.
  EXPECT_GT(good, 100);
  EXPECT_GT(bad, 2000);
  EXPECT_GT(whats.size(), 200u);
}

TEST(OrderMutation, EveryBeginningOfAnOrderGetsAnAnswer) {
  const std::string text = sketch_order();
  for (std::size_t length = 0; length < text.size(); ++length)
    expect_an_answer(text.substr(0, length));
}

TEST(OrderKept, EveryHostileFileGetsAnAnswerInTime) {
  int tried = 0;
  for (const auto& entry : std::filesystem::directory_iterator(places::kept)) {
    SCOPED_TRACE(entry.path().filename().string());
    const auto begin = std::chrono::steady_clock::now();
    expect_an_answer(read_file(entry.path()));
    EXPECT_LT(std::chrono::steady_clock::now() - begin, std::chrono::seconds(2));
    ++tried;
  }
  EXPECT_GE(tried, 12);
}

} // namespace
} // namespace shankline::tests
