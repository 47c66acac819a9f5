// The page to note readings on: what is asked says from where to where it is measured.
#include "cli/interview/interview_questions.hpp"
#include "geometry/order/reading_guide.hpp"

#include <gtest/gtest.h>

namespace shankline::tests::form_test {
namespace {

// Before, the heel front did not: "Slide a thumb back along the sole until the pad thickens".
TEST(FormQuestions, EveryReadingSaysFromWhereToWhere) {
  int readings = 0;
  for (const Question& question : interview_questions()) {
    const ReadingGuide* guide = reading_guide(question.guide);
    if (!guide || guide->quantity != Quantity::length) continue;
    const std::string words = std::string(guide->how) + " " + std::string(guide->between);
    const bool from = words.find("rom ") != std::string::npos || guide->key == "sides.casing";
    EXPECT_TRUE(from && words.find(" to") != std::string::npos) << guide->key << ": " << words;
    ++readings;
  }
  EXPECT_GE(readings, 25);
}

} // namespace
} // namespace shankline::tests::form_test
