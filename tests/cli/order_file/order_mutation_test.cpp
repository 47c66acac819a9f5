// Whatever happens to a file, the reader never falls over, and either the order is good or it says
// where it is not.
#include "cli/order_file/order_reader.hpp"

#include "tests/cli/sketch_order.hpp"
#include "tests/cli/spoiler.hpp"
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

namespace shankline::tests::order_mutation_test {
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
} // namespace shankline::tests::order_mutation_test
