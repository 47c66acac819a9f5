#include "export/drawing/paper.hpp"

#include <gtest/gtest.h>

namespace shankline::tests::paper_test {
namespace {

Paper paper(std::string_view name) {
  const auto read = read_paper(name);
  if (!read) ADD_FAILURE() << name << ": " << read.why().what;
  return read ? *read : Paper{};
}

TEST(PaperNames, AreSheetsPortrait) {
  const struct {
    const char* name;
    double width;
    double height;
  } sheets[]{{"a4", 210, 297},           // ISO 216
             {"a3", 297, 420},           // ISO 216
             {"letter", 215.9, 279.4},   // ANSI/ASME Y14.1: 8.5 × 11 in
             {"legal", 215.9, 355.6},    // 8.5 × 14 in
             {"tabloid", 279.4, 431.8}}; // 11 × 17 in
  EXPECT_EQ(papers().size(), std::size(sheets));
  for (const auto& sheet : sheets) {
    EXPECT_NEAR(paper(sheet.name).width, sheet.width, 1e-9);
    EXPECT_NEAR(paper(sheet.name).height, sheet.height, 1e-9);
    EXPECT_FALSE(paper(sheet.name).roll);
  }
}

TEST(PaperNames, OfRollsTellTheirWidth) {
  const std::pair<const char*, double> rolls[]{
      {"roll:210", 210},    {"roll:914", 914},   {"roll:914mm", 914},  {"roll:91.4cm", 914},
      {"roll:36in", 914.4}, {"roll:1600", 1600}, {"roll:297.5", 297.5}};
  for (const auto& [name, width] : rolls) {
    EXPECT_NEAR(paper(name).width, width, 1e-9) << name;
    EXPECT_TRUE(paper(name).roll);
  }
}

TEST(PaperNames, OtherThanTheseAreRefusedInWords) {
  const std::pair<const char*, const char*> wrong[]{
      {"", "no such paper"},
      {"a5", "no such paper"},
      {"roll", "no such paper"},
      {"roll:", "whole number of millimetres"},
      {"roll:wide", "whole number of millimetres"},
      {"roll:914 mm", "whole number of millimetres"},
      {"roll:914ft", "whole number of millimetres"},
      {"roll:1e3", "whole number of millimetres"},
      {"roll:nan", "whole number of millimetres"},
      {"roll:inf", "whole number of millimetres"},
      {"roll:-914", "too narrow"},
      {"roll:209.9", "too narrow"},
      {"roll:1600.5", "too wide"},
      {"roll:99999999999999999999", "too wide"},
      {"roll:\x1b[31m", "whole number of millimetres"}};
  for (const auto& [name, words] : wrong) {
    const auto read = read_paper(name);
    ASSERT_FALSE(read) << name;
    const std::string& said = read.why().what;
    EXPECT_NE(said.find(words), std::string::npos) << name << ": " << said;
    EXPECT_EQ(said.find('\x1b'), std::string::npos);
  }
}

TEST(PaperNames, AreReadInAnyCase) {
  EXPECT_EQ(written(paper("A4")), "a4");
  EXPECT_EQ(written(paper("LETTER")), "letter");
  EXPECT_EQ(written(paper("Tabloid")), "tabloid");
  EXPECT_EQ(written(paper("Roll:300")), "roll:300");
  EXPECT_EQ(paper("ROLL:36IN").width, paper("roll:36in").width);
}

TEST(PaperPages, OfARollAreAsLongAsTheirPart) {
  const Paper roll = paper("roll:914");
  EXPECT_EQ(upright_page(roll, 333).height, 333);
  EXPECT_EQ(upright_page(roll, 333).width, 914);
  EXPECT_NEAR(upright_page(roll, 9000).height, 5080, 1e-9); // 14400 points of 1/72 in
  EXPECT_EQ(upright_page(paper("a4"), 333).height, 297);
}

} // namespace
} // namespace shankline::tests::paper_test
