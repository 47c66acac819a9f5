// Too few open files: every verb either does its work or says that this is the cause, with exit
// code 3, and never blames the order, the folder or the printer's file.
#include "tests/support/fewer_cases.hpp"
#include "tests/support/places.hpp"
#include "tests/support/process.hpp"
#include "tests/support/scratch_directory.hpp"

#include <filesystem>
#include <gtest/gtest.h>
#include <ostream>
#include <set>

namespace shankline::tests::handles_test {
namespace {

namespace fs = std::filesystem;

struct Work {
  const char* name;
  const char* words;
};

// GoogleTest prints it.
void PrintTo(const Work& work, std::ostream* out) {
  *out << work.name;
}

class Handles : public testing::TestWithParam<Work> {
protected:
  Finished shell(const std::string& command) const {
    Surroundings there;
    there.directory = scratch_.path() / "here";
    there.environment = {{"XDG_CONFIG_HOME", (scratch_.path() / "config").string()},
                         {"XDG_DATA_HOME", (scratch_.path() / "data").string()},
                         {"SHANKLINE", places::program}};
    return run_shell(command, there);
  }

  void begin() const {
    for (const auto& entry : fs::directory_iterator(scratch_.path()))
      fs::remove_all(entry.path());
    fs::create_directories(scratch_.path() / "here/orders");
    const fs::path samples = places::samples;
    for (const char* to : {"here/order.yaml", "here/orders/a.yaml", "here/orders/b.yaml"})
      fs::copy_file(samples / "plain.yaml", scratch_.path() / to);
    write_file(scratch_.path() / "config/shankline/config.yaml", "units: mm\n");
    ASSERT_EQ(shell("\"$SHANKLINE\" archive save order.yaml -q && "
                    "\"$SHANKLINE\" printer hall --measured 160.1,213.4,266.8,266.7 -q && "
                    "\"$SHANKLINE\" archive export -q -o bundle.yaml")
                  .exit_code,
              0);
  }

  std::set<std::string> files() const {
    std::set<std::string> names;
    for (const auto& entry : fs::recursive_directory_iterator(scratch_.path()))
      names.insert(entry.path().string());
    return names;
  }

  ScratchDirectory scratch_;
};

TEST_P(Handles, TooFewAreSaidToBeTheCause) {
  if (under_sanitizers) GTEST_SKIP() << "these open files themselves, and fail without";
  begin();
  constexpr int streams = 3;
  for (int most = streams + 1;; ++most) {
    ASSERT_LT(most, 24) << "refused with as many as that";
    const std::set<std::string> there = files();
    // The program that runs the tests may have left files open, and they would count.
    const Finished finished =
        shell("exec 3>&- 4>&- 5>&- 6>&- 7>&- 8>&- 9>&-; ulimit -n " + std::to_string(most) +
              "; exec \"$SHANKLINE\" " + GetParam().words);
    if (finished.exit_code == 0) break;
    const std::string about = std::to_string(most) + ": " + finished.err;
    EXPECT_EQ(finished.exit_code, 3) << about;
    EXPECT_NE(finished.err.find("too many files are open: only " + std::to_string(most)),
              std::string::npos)
        << about;
    EXPECT_NE(finished.err.find("ulimit -n 256"), std::string::npos) << about;
    for (const char* wrong : {"check the folder", "copy the file", "as it stands", "choose another",
                              "a fault of this program", "spoilt", "damaged"})
      EXPECT_EQ(finished.err.find(wrong), std::string::npos) << about;
    for (const std::string& file : files()) {
      // Sheets are written before their order is saved; whole ones may stay.
      const bool sheets = file.ends_with(".pdf") && read_file(file).ends_with("%%EOF\n");
      // The database's own log, without a byte in it: the next run takes it away.
      const bool log = file.ends_with("-wal") && fs::file_size(file) == 0;
      EXPECT_TRUE(sheets || log || there.contains(file)) << about << file;
    }
  }
}

const Work works[] = {
    {"cut", "cut order.yaml -o a.pdf"},
    {"cut_and_save", "cut order.yaml -o a.pdf --save"},
    {"cut_for_printer", "cut order.yaml -o a.pdf --printer hall"},
    {"cut_batch", "cut orders -q -o ."},
    {"check", "check order.yaml"},
    {"check_batch", "check orders"},
    {"rack", "rack orders"},
    {"rack_on_paper", "rack orders -o rack.pdf"},
    {"compare", "compare order.yaml"},
    {"compare_folder", "compare orders"},
    {"printer", "printer hall"},
    {"printer_list", "printer --list"},
    {"printer_measured", "printer desk --measured 160.1,213.4,266.8,266.7"},
    {"save", "archive save order.yaml"},
    {"save_several", "archive save orders"},
    {"list", "archive list"},
    {"audit", "archive audit"},
    {"backup", "archive backup copy.sqlite"},
    {"export_bundle", "archive export -o b.yaml"},
    {"import_bundle", "archive import bundle.yaml"},
    {"again", "again M-07 -o next.yaml"},
};
INSTANTIATE_TEST_SUITE_P(Works, Handles, testing::ValuesIn(works),
                         [](const auto& info) { return std::string(info.param.name); });

} // namespace
} // namespace shankline::tests::handles_test
