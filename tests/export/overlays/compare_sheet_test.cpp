// Overlays: legible for drawn pairs, and every line of both parts where it was solved.
#include "export/overlays/compare_sheet.hpp"

#include "export/json/solution_json.hpp"
#include "tests/export/layout_check.hpp"
#include "tests/geometry/compared_order.hpp"
#include "tests/geometry/random_orders.hpp"
#include "tests/support/places.hpp"
#include "tests/support/process.hpp"
#include "tests/support/readback.hpp"
#include "tests/support/scratch_directory.hpp"

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>
#include <variant>

namespace shankline::tests::compare_sheet_test {
namespace {

/// The longest words that the order file lets through, on every other order.
void dress(Order& order, int i) {
  order.dancer = i % 2 == 0 ? "M-07" : "MM-WW-0000000000-WWWWWWWWWWWWWWWWWWWWWWW";
  order.pair = i % 2 == 0 ? "touring, second pair"
                          : "touring, spring, the second pair of the six for the long western leg";
  order.date = i % 3 == 0 ? "2026-03-14" : "2026-09-01";
}

/// Two outlines on one page must not be taken for a template: the title strip says so in large
/// type.
bool heading_forbids_cutting(const shankline::Page& page) {
  constexpr double strip = 17.4;
  constexpr double large = 4.5;
  for (const Mark& mark : page.marks)
    if (const Text* text = std::get_if<Text>(&mark))
      if (text->words == "DO NOT CUT FROM THIS PAGE" && text->size >= large &&
          text->weight == Weight::bold && text->at.y > page.paper.height - 10 - strip)
        return true;
  return false;
}

struct Looked {
  int boards = 0;
  int sides = 0;
  int too_large = 0;
};

void look(const Comparison& comparison, const Operand& a, const Operand& b, int i, Looked& looked) {
  for (const Paper& paper : papers()) {
    const SheetSet set =
        comparison_set(comparison, a, b, {paper, Units::mm, "4f9c 2107, 03d1 55ee"});
    looked.too_large += static_cast<int>(set.left_out.size());
    EXPECT_EQ(set.templates.size(), 2 * set.drawing.pages.size());
    EXPECT_EQ(set.proofs.size(), set.drawing.pages.size());
    for (const auto& page : set.drawing.pages) {
      ++(page.title.rfind("Boards", 0) == 0 ? looked.boards : looked.sides);
      EXPECT_TRUE(heading_forbids_cutting(page)) << page.title;
      for (const std::string& fault : layout_faults(page))
        ADD_FAILURE() << "order " << i << ", " << paper.name << ", " << page.title << ": " << fault;
    }
  }
}

void expect_legible(int orders) {
  Draw draw(20260601);
  Draw sides(20260602);
  Looked looked;
  std::optional<ComparedOrder> before;
  for (int i = 0; i < orders; ++i) {
    Order order =
        random_order_with_sides(draw, sides, i % 3 == 0 ? Population::men : Population::women);
    dress(order, i);
    ComparedOrder now(std::move(order));
    const Comparison feet = compare_feet(now.operand());
    look(feet, now.operand(), now.operand(), i, looked);
    if (before)
      look(compare_orders(before->operand(), now.operand(), i % 2 == 0), before->operand(),
           now.operand(), i, looked);
    if (testing::Test::HasFailure()) return; // one order's faults are enough to read
    before.emplace(std::move(now));
  }
  EXPECT_GE(looked.boards, 2 * orders);
  EXPECT_GE(looked.sides, 4 * orders);
  EXPECT_LE(looked.too_large, looked.sides / 10); // two strangers' sides lean differently
}

TEST(CompareSheet, IsLegibleForRandomPairs) {
  expect_legible(10);
}
TEST(LongCompareSheet, IsLegibleForRandomPairs) {
  expect_legible(300);
}

/// One order or two, compared as a user would, and the file read back from outside.
struct Operands {
  const char* name;
  std::vector<const char*> orders;
  std::size_t templates;
};

class OverlayOnPaper : public testing::TestWithParam<std::tuple<Operands, const char*>> {};

TEST_P(OverlayOnPaper, IsTrueToTheMillimetre) {
  const auto& [operands, paper] = GetParam();
  const ScratchDirectory scratch;
  const auto pdf = scratch.path() / "overlay.pdf";
  std::vector<std::string> words{places::program, "compare"};
  for (const char* order : operands.orders)
    words.push_back((std::filesystem::path(places::samples) / order).string());
  words.insert(words.end(), {"--paper", paper, "--lines", "-o", pdf.string()});
  const Finished finished = run(words);
  ASSERT_EQ(finished.exit_code, 0) << finished.err;
  const auto json = nlohmann::json::parse(finished.out);
  EXPECT_EQ(json.at("format"), "shankline-comparison/1");
  ASSERT_EQ(json.at("templates").size(), operands.templates);
  PaperRules rules;
  rules.least_templates = operands.templates;
  expect_true_to_paper(pdf, finished.out, rules);

  // The cuts of both boards as the pages carry them are as far apart as the figures say.
  for (const auto& foot : json.at("feet"))
    for (const auto& figure : foot.at("figures"))
      if (figure.at("difference").is_number()) {
        EXPECT_NEAR(figure.at("difference").get<double>(),
                    figure.at("a").get<double>() - figure.at("b").get<double>(), 1e-8);
      }
}

INSTANTIATE_TEST_SUITE_P(
    Samples, OverlayOnPaper,
    testing::Combine(testing::Values(Operands{"feet", {"pairs/unlike_feet.yaml"}, 6},
                                     Operands{"skew", {"different_feet.yaml"}, 2},
                                     Operands{"orders", {"plain.yaml", "sides_lowered.yaml"}, 4},
                                     Operands{"in_shoe", {"plain.yaml", "board_in_shoe.yaml"}, 4}),
                     testing::Values("a4", "letter")),
    [](const auto& drawn) {
      return std::string(std::get<0>(drawn.param).name) + "_" + std::get<1>(drawn.param);
    });

} // namespace
} // namespace shankline::tests::compare_sheet_test
