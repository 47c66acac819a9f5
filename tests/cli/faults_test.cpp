// Every call by which a file is read or written made to fail in turn, and a sample of allocations:
// each time one clear error and exit code 3, the older file untouched, nothing left behind.
#include "tests/support/places.hpp"
#include "tests/support/process.hpp"
#include "tests/support/scratch_directory.hpp"

#include <filesystem>
#include <gtest/gtest.h>
#include <map>
#include <sstream>

namespace shankline::tests {
namespace {

namespace fs = std::filesystem;

constexpr const char* older = "an older file";

struct Attempt {
  Finished finished;
  std::string there_now; ///< in order.pdf
  std::size_t files = 0; ///< in the folder
};

class Faults : public testing::Test {
protected:
  void SetUp() override {
    fs::copy_file(fs::path(places::samples) / "plain.yaml", folder() / "order.yaml");
  }

  fs::path folder() const { return scratch_.path(); }

  Attempt attempt(const std::string& fail, const std::string& count = {}) {
    write_file(folder() / "order.pdf", older);
    Surroundings there;
    there.directory = folder();
    there.environment["LD_PRELOAD"] = places::failing_calls;
    if (!fail.empty()) there.environment["SHANKLINE_FAIL"] = fail;
    if (!count.empty()) there.environment["SHANKLINE_COUNT"] = count;
    Attempt attempt{run({places::program, "cut", "order.yaml", "-o", "order.pdf"}, there), {}, 0};
    attempt.there_now = read_file(folder() / "order.pdf");
    for ([[maybe_unused]] const auto& entry : fs::directory_iterator(folder()))
      ++attempt.files;
    return attempt;
  }

  /// How often each call is made when nothing fails.
  std::map<std::string, long> counts() {
    const ScratchDirectory elsewhere;
    const std::string file = (elsewhere.path() / "counts").string();
    EXPECT_EQ(attempt({}, file).finished.exit_code, 0);
    std::map<std::string, long> found;
    std::istringstream lines(read_file(file));
    std::string name;
    long count = 0;
    while (lines >> name >> count)
      found[name] = count;
    return found;
  }

  /// Memory may run out when the sheets are in place already and the report is printed.
  static bool is_whole(const Attempt& found) {
    const std::string& pdf = found.there_now;
    return pdf.starts_with("%PDF") && pdf.ends_with("%%EOF\n");
  }

  void expect_refused(const std::string& fail, const Attempt& found) const {
    EXPECT_EQ(found.finished.exit_code, 3) << fail << "\n" << found.finished.err;
    EXPECT_NE(found.finished.err.find("error"), std::string::npos) << fail;
    EXPECT_TRUE(found.there_now == older || is_whole(found)) << fail;
    EXPECT_EQ(found.files, 2u) << fail;
  }

  ScratchDirectory scratch_;
};

TEST_F(Faults, EveryCallOnAFileFailsInTurn) {
  const auto count = counts();
  for (const char* call : {"open", "mkstemp", "write", "fsync", "fchmod", "close", "rename"}) {
    ASSERT_TRUE(count.contains(call)) << call;
    EXPECT_GE(count.at(call), 1) << call;
    for (long n = 1; n <= count.at(call); ++n) {
      const std::string fail = std::string(call) + ":" + std::to_string(n);
      const Attempt found = attempt(fail);
      // An order that cannot be opened is missing input, not a broken disk.
      if (std::string(call) == "open") {
        EXPECT_EQ(found.finished.exit_code, 1) << fail;
        EXPECT_EQ(found.there_now, older) << fail;
      } else if (found.finished.exit_code != 0 || found.there_now == older) {
        expect_refused(fail, found);
      }
    }
  }
}

TEST_F(Faults, SampledAllocationsFailInTurn) {
  const long count = counts().at("malloc");
  ASSERT_GT(count, 400);
  constexpr long sampled = 40;
  for (long i = 0; i < sampled; ++i) {
    const std::string fail = "malloc:" + std::to_string(1 + i * (count - 1) / (sampled - 1));
    const Attempt found = attempt(fail);
    if (found.finished.exit_code == 0) continue; // a library made do without it
    expect_refused(fail, found);
  }
}

using LongFaults = Faults;

TEST_F(LongFaults, SampledAllocationsFailInTurn) {
  const long count = counts().at("malloc");
  constexpr long sampled = 200;
  long refused = 0;
  for (long i = 0; i < sampled; ++i) {
    const std::string fail = "malloc:" + std::to_string(1 + i * (count - 1) / (sampled - 1));
    const Attempt found = attempt(fail);
    if (found.finished.exit_code == 0) continue;
    expect_refused(fail, found);
    ++refused;
  }
  EXPECT_GT(refused, sampled / 2);
}

} // namespace
} // namespace shankline::tests
