#include "tests/support/case_file.hpp"

#include <gtest/gtest.h>

namespace shankline::tests::case_file_test {
namespace {

constexpr const char* worked = "# What it is for.\n"
                               "== file order.yaml\n"
                               "format: shankline-order/1\n"
                               "\\== no heading\n"
                               "== file bare\n"
                               "one line\n"
                               "\\ no line end\n"
                               "== run shankline check order.yaml\n"
                               "== in\n"
                               "yes\n"
                               "== out\n"
                               "first\n"
                               "...\n"
                               "== exit 1\n"
                               "== run true\n";

std::string refusal(const std::string& text) {
  try {
    parse_case(text, "a.case");
  } catch (const std::runtime_error& error) {
    return error.what();
  }
  return {};
}

TEST(CaseFile, ReadsEveryPart) {
  const CaseFile file = parse_case(worked, "a.case");
  EXPECT_EQ(file.head, "# What it is for.\n");
  ASSERT_EQ(file.files.size(), 2u);
  EXPECT_EQ(file.files[0].name, "order.yaml");
  EXPECT_EQ(file.files[0].text, "format: shankline-order/1\n== no heading\n");
  EXPECT_EQ(file.files[1].text, "one line");
  ASSERT_EQ(file.runs.size(), 2u);
  EXPECT_EQ(file.runs[0].line, 8);
  EXPECT_EQ(file.runs[0].command, "shankline check order.yaml");
  EXPECT_EQ(file.runs[0].in, "yes\n");
  EXPECT_EQ(file.runs[0].out, "first\n...\n");
  EXPECT_EQ(file.runs[0].err, "");
  EXPECT_EQ(file.runs[0].exit_code, 1);
  EXPECT_EQ(file.runs[1].exit_code, 0);
}

TEST(CaseFile, WritesWhatItRead) {
  EXPECT_EQ(written_case(parse_case(worked, "a.case")), worked);
}

TEST(CaseFile, RefusesWhatIsNoCaseWithItsPlace) {
  EXPECT_EQ(refusal("== run true\n== outt\n"),
            "a.case:2: unknown heading 'outt': file, run, in, out, err, exit are known");
  EXPECT_EQ(refusal("== out\n"), "a.case:1: 'out' before any run");
  EXPECT_EQ(refusal("== run true\nstray\n"), "a.case:2: text after a heading that takes none");
  EXPECT_EQ(refusal("== run true\n== exit one\n"), "a.case:2: 'one' is not an exit code");
  EXPECT_EQ(refusal("== run true\n== out\n== out\n"), "a.case:3: a second 'out' for one run");
  EXPECT_EQ(refusal("== run true\n== file late\n"), "a.case:2: files stand before the first run");
  EXPECT_EQ(refusal("# nothing\n"), "a.case:1: nothing is run");
}

TEST(CaseFile, ThreeDotsStandForAnyNumberOfLines) {
  EXPECT_TRUE(fits("a\n...\nd\n", "a\nb\nc\nd\n"));
  EXPECT_TRUE(fits("a\n...\nd\n", "a\nd\n"));
  EXPECT_TRUE(fits("...\n", ""));
  EXPECT_TRUE(fits("...\nb\n...\nb\n", "a\nb\nb\n"));
  EXPECT_FALSE(fits("a\n...\nd\n", "a\nb\n"));
  EXPECT_FALSE(fits("...\nb\n", "a\nb\nc\n"));
}

TEST(CaseFile, OtherwiseComparesExactly) {
  EXPECT_TRUE(fits("", ""));
  EXPECT_FALSE(fits("", "a\n"));
  EXPECT_FALSE(fits("a\n", ""));
  EXPECT_FALSE(fits("a\n", "a"));
  EXPECT_FALSE(fits("a\n", "a \n"));
}

TEST(CaseFile, AnExpectedBlockStandsForExactlyWhatWasSaid) {
  for (const char* said : {"...\n", "\\...\n", "a\n...", "", "== b\n"}) {
    EXPECT_TRUE(fits(expected_block(said), said)) << said;
    EXPECT_FALSE(fits(expected_block(said), "something else\n")) << said;
    CaseFile file;
    file.runs.push_back({1, "true", {}, expected_block(said), {}, 0});
    EXPECT_TRUE(fits(parse_case(written_case(file), "a.case").runs.at(0).out, said)) << said;
  }
}

TEST(CaseFile, ShowsTheDifferenceLineByLine) {
  EXPECT_EQ(difference("a\nb\nc\n", "a\nx\nc\n"), "  a\n- b\n+ x\n  c\n");
  EXPECT_EQ(difference("a\n", "a"), "- a\n+ a\n\\ no line end\n");
}

} // namespace
} // namespace shankline::tests::case_file_test
