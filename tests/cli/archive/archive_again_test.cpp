// `shankline again` as its users meet it: where the order goes, and what is refused.
#include "tests/cli/archive_program.hpp"

#include <fstream>

namespace shankline::tests::archive_again_test {
namespace {

using Words = std::vector<std::string>;

class ArchiveAgain : public ArchiveProgram {
protected:
  void keep() {
    ASSERT_EQ(archive({"save", plain}).exit_code, 0);
    ASSERT_EQ(archive({"tries", "1", "--foot", "left", "55.5:too-low", "58.5:good,worn"}).exit_code,
              0);
    ASSERT_EQ(archive({"tries", "1", "--foot", "right", "56.5:good,worn"}).exit_code, 0);
  }
  Finished again(Words words) const {
    words.insert(words.begin(), "again");
    return run(std::move(words));
  }
  /// At another time, in seconds since 1970.
  Finished at(const std::string& seconds, Words words) const {
    Surroundings there;
    there.directory = scratch.path();
    there.environment = {{"XDG_DATA_HOME", (scratch.path() / "data").string()},
                         {"XDG_CONFIG_HOME", (scratch.path() / "config").string()},
                         {"SOURCE_DATE_EPOCH", seconds}};
    words.insert(words.begin(), places::program);
    return tests::run(words, there);
  }
  std::filesystem::path here(const std::string& name) const { return scratch.path() / name; }
};

TEST_F(ArchiveAgain, PrintsAnOrderThatIsCheckedAndCut) {
  keep();
  const Finished printed = again({"M-07"});
  EXPECT_EQ(printed.exit_code, 0) << printed.err;
  EXPECT_TRUE(printed.out.starts_with("# from entry 1 of 2026-03-14, good after wear\n"))
      << printed.out;
  EXPECT_NE(printed.out.find("\ndate: 2026-03-14\n"), std::string::npos) << "the clock's day";
  EXPECT_EQ(again({"M-07", "-o", "-"}).out, printed.out);
  const Finished wrote = again({"M-07", "-o", "next.yaml"});
  EXPECT_EQ(wrote.exit_code, 0) << wrote.err;
  EXPECT_TRUE(wrote.out.starts_with("from entry 1 of 2026-03-14, good after wear\n")) << wrote.out;
  EXPECT_TRUE(wrote.out.ends_with("\nwrote next.yaml\n")) << wrote.out;
  EXPECT_EQ(read_file(here("next.yaml")), printed.out);
  const Finished older = run({"check", plain});
  const Finished checked = run({"check", "next.yaml"});
  EXPECT_EQ(checked.exit_code, 0) << checked.err;
  EXPECT_EQ(checked.out, older.out) << "the same order on the same day";
  EXPECT_EQ(again({"M-07", "-o", "orders/"}).exit_code, 0);
  EXPECT_EQ(read_file(here("orders/order.yaml")), printed.out);
}

TEST_F(ArchiveAgain, NeverReplacesWhatIsThere) {
  keep();
  ASSERT_EQ(again({"M-07", "-o", "next.yaml"}).exit_code, 0);
  const std::string written = read_file(here("next.yaml"));
  EXPECT_EQ(again({"M-07", "-o", "next.yaml"}).exit_code, 0) << "it is this very order";
  // Measured anew and written into it: nothing of that may be lost.
  for (const std::string& mine : {written + "# mine\n", read_file(plain), std::string("x")}) {
    std::ofstream(here("next.yaml")) << mine;
    const Finished refused = again({"M-07", "-o", "next.yaml"});
    EXPECT_EQ(refused.exit_code, 3);
    EXPECT_EQ(refused.out, "");
    EXPECT_NE(refused.err.find("next.yaml: is there already"), std::string::npos) << refused.err;
    EXPECT_EQ(read_file(here("next.yaml")), mine);
  }
  write_file(here("empty.yaml"), "");
  EXPECT_EQ(again({"M-07", "-o", "empty.yaml"}).exit_code, 0);
  EXPECT_EQ(read_file(here("empty.yaml")), written);
  EXPECT_EQ(again({"M-07", "-o", "no/such/folder.yaml"}).exit_code, 3);
}

TEST_F(ArchiveAgain, RefusesWithoutMakingAnything) {
  const Finished none = again({"M-07", "-o", "next.yaml"});
  EXPECT_EQ(none.exit_code, 3);
  EXPECT_NE(none.err.find("there is no archive here yet"), std::string::npos) << none.err;
  EXPECT_FALSE(std::filesystem::exists(path)) << "no archive is made";
  EXPECT_FALSE(std::filesystem::exists(here("next.yaml")));
  EXPECT_EQ(again({}).exit_code, 2);
  keep();
  const std::string before = read_file(path);
  const Finished unknown = again({"M-99", "-o", "next.yaml"});
  EXPECT_EQ(unknown.exit_code, 1);
  EXPECT_NE(unknown.err.find("the archive has nothing of 'M-99'"), std::string::npos)
      << unknown.err;
  EXPECT_EQ(again({"M-07"}).exit_code, 0);
  EXPECT_EQ(read_file(path), before) << "it only reads";
  ASSERT_EQ(archive({"forget", "M-07", "--yes"}).exit_code, 0);
  const Finished forgotten = again({"M-07", "-o", "next.yaml"});
  EXPECT_EQ(forgotten.exit_code, 1);
  EXPECT_NE(forgotten.err.find("the archive has nothing of 'M-07'"), std::string::npos)
      << forgotten.err;
  EXPECT_FALSE(std::filesystem::exists(here("next.yaml")));
}

// The order that is repeated may itself have been repeated: its readings are no younger for that.
TEST_F(ArchiveAgain, AnOrderMadeAgainKeepsTheDayOfItsReadings) {
  keep();
  const std::string later = "1790000000";       // 2026-09-21
  const std::string later_still = "1805000000"; // 2027-03-14
  const std::string a_day_on = "1805086400";    // 2027-03-15
  ASSERT_EQ(at(later, {"again", "M-07", "-o", "second.yaml"}).exit_code, 0);
  EXPECT_NE(read_file(here("second.yaml")).find("\ndate: 2026-09-21\n"), std::string::npos);
  ASSERT_EQ(at(later, {"archive", "save", "second.yaml"}).exit_code, 0);
  ASSERT_EQ(archive({"tries", "5", "--foot", "left", "58:good,worn"}).exit_code, 0);
  const std::string third = at(later_still, {"again", "M-07"}).out;
  EXPECT_TRUE(third.starts_with("# from entry 5 of 2026-09-21, good after wear\n")) << third;
  EXPECT_NE(third.find("# left foot: readings of 2026-03-14\n"), std::string::npos) << third;
  EXPECT_NE(
      at(a_day_on, {"again", "M-07"})
          .out.find("# left foot: readings of 2026-03-14, older than a year: measure again\n"),
      std::string::npos);
}

} // namespace
} // namespace shankline::tests::archive_again_test
