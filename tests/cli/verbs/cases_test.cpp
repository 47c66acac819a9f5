// Runs every golden case; tests/support/case_file.hpp says what a case looks like.
#include <cctype>
#include <cstdlib>
#include <gtest/gtest.h>

#include "tests/support/case_file.hpp"
#include "tests/support/places.hpp"
#include "tests/support/process.hpp"
#include "tests/support/scratch_directory.hpp"

namespace shankline::tests::cases_test {
namespace {

namespace fs = std::filesystem;

/// Raise it with the cases: a directory that is not found must not pass.
constexpr std::size_t least_cases = 21;

constexpr std::string_view samples_mark = "@SAMPLES@";

std::string replaced(std::string text, std::string_view what, std::string_view with) {
  for (std::size_t at = text.find(what); at != std::string::npos;
       at = text.find(what, at + with.size()))
    text.replace(at, what.size(), with);
  return text;
}

/// Every case runs alike: a home of its own, no terminal, no colour, no place, no date.
Surroundings surroundings_in(const fs::path& scratch) {
  const char* const path = std::getenv("PATH");
  Surroundings surroundings;
  surroundings.directory = scratch / "bench";
  surroundings.environment = {
      {"PATH", fs::path(places::program).parent_path().string() + ":" + (path ? path : "")},
      {"HOME", (scratch / "home").string()},
      {"TMPDIR", (scratch / "tmp").string()},
      {"LC_ALL", "C"},
      {"TZ", "UTC"},
      {"XDG_DATA_HOME", std::nullopt},
      {"XDG_CONFIG_HOME", std::nullopt},
      {"SOURCE_DATE_EPOCH", std::nullopt},
      {"NO_COLOR", std::nullopt},
      {"COLUMNS", std::nullopt},
      {"TERM", std::nullopt},
  };
  return surroundings;
}

std::string name_of(const testing::TestParamInfo<fs::path>& info) {
  std::string name = info.param.stem().string();
  for (char& letter : name)
    if (std::isalnum(static_cast<unsigned char>(letter)) == 0) letter = '_';
  return name;
}

class Cases : public testing::TestWithParam<fs::path> {};

TEST_P(Cases, SaysWhatItShould) {
  CaseFile file = parse_case(read_file(GetParam()), GetParam().filename().string());
  const ScratchDirectory scratch;
  for (const char* folder : {"bench", "home", "tmp"})
    fs::create_directory(scratch.path() / folder);
  for (const CaseInput& input : file.files)
    write_file(scratch.path() / "bench" / input.name,
               replaced(input.text, samples_mark, places::samples));

  const char* const wish = std::getenv("SHANKLINE_ACCEPT");
  const bool accept = wish != nullptr && std::string_view(wish) == "1";
  bool changed = false;
  for (CaseRun& run : file.runs) {
    Surroundings surroundings = surroundings_in(scratch.path());
    surroundings.input = run.in;
    const Finished finished =
        run_shell(replaced(run.command, samples_mark, places::samples), surroundings);
    const std::string place =
        GetParam().string() + ":" + std::to_string(run.line) + ": " + run.command + "\n";
    ASSERT_FALSE(finished.timed_out) << place;

    const auto compare = [&](std::string& expected, const std::string& bytes, const char* stream) {
      const std::string said = replaced(bytes, places::samples, samples_mark);
      if (fits(expected, said)) return;
      if (accept) {
        expected = expected_block(said);
        changed = true;
      } else {
        ADD_FAILURE() << place << stream << " (- expected, + said):\n"
                      << difference(expected, said);
      }
    };
    compare(run.out, finished.out, "out");
    compare(run.err, finished.err, "err");
    if (accept && run.exit_code != finished.exit_code) {
      run.exit_code = finished.exit_code;
      changed = true;
    }
    EXPECT_EQ(finished.exit_code, run.exit_code) << place;
  }
  if (changed) {
    write_file(GetParam(), written_case(file));
    GTEST_SKIP() << GetParam().string() << " rewritten";
  }
}

INSTANTIATE_TEST_SUITE_P(Golden, Cases, testing::ValuesIn(case_paths(places::cases)), name_of);

TEST(CasesCount, IsNotVacuous) {
  EXPECT_GE(case_paths(places::cases).size(), least_cases);
}

} // namespace
} // namespace shankline::tests::cases_test
