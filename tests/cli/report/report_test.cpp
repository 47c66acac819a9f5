// The terminal's report about one order.
#include "cli/report/report.hpp"

#include "geometry/breaking/pair_contact.hpp"
#include "geometry/solution/solution.hpp"
#include "tests/geometry/worked_order.hpp"

#include <gtest/gtest.h>
#include <string>

namespace shankline::tests::report_test {
namespace {

std::string report_at_reach(double reach) {
  Order order = worked_order();
  order.left->alterations.shank->rule = ReachRule{reach, ""};
  const Solution solution = solve(order);
  PairContact contact = pair_contact(order, solution);
  add_doubt(contact, order, solution);
  return report_text(order, solution, contact, Units::mm);
}

// Before: "estimated heel  pry 0 %, gap 0 % of uncut" and "known to  break ±4, pry ±0 %, gap ±0 %".
TEST(Report, AShareAtItsBoundIsNeverKnownToZero) {
  const std::string text = report_at_reach(0.6);
  EXPECT_EQ(text.find("±0"), std::string::npos) << text;
  EXPECT_NE(text.find("pry up to "), std::string::npos) << text;
  EXPECT_NE(text.find("gap up to "), std::string::npos) << text;
  EXPECT_EQ(text.find("up to 0 "), std::string::npos) << text;
  const std::string usual = report_at_reach(1);
  EXPECT_NE(usual.find("pry ±"), std::string::npos) << usual;
  EXPECT_EQ(usual.find("up to"), std::string::npos) << usual;
}

TEST(Report, SaysWhatALineWasLearnedFromAndWhatTheReadingsAloneSay) {
  Order order = worked_order();
  const auto said = [&] {
    const Solution solution = solve(order);
    return report_text(order, solution, {}, Units::mm);
  };
  EXPECT_EQ(said().find("learned"), std::string::npos);
  order.left->alterations.shank->rule = LearnedRule{LearnedLine{57, 4.5, 1, "2026-08-14", 1, 0}};
  const std::string text = said();
  EXPECT_NE(text.find("from 1 pair until 2026-08-14"), std::string::npos) << text;
  EXPECT_NE(text.find("readings alone"), std::string::npos) << text;
  EXPECT_NE(text.find("edge, 62.0 ±"), std::string::npos) << text;
  EXPECT_NE(text.find("known to ±4.5, held back 6.0"), std::string::npos) << text;
}

} // namespace
} // namespace shankline::tests::report_test
