// Many orders: the threads' tickets, the bar, and the program itself on folders good and bad.
#include "cli/job/batch.hpp"

#include "cli/surroundings/progress_bar.hpp"
#include "tests/support/places.hpp"
#include "tests/support/process.hpp"
#include "tests/support/scratch_directory.hpp"

#include <algorithm>
#include <array>
#include <atomic>
#include <filesystem>
#include <fstream>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>
#include <sstream>
#include <stdexcept>
#include <vector>

namespace shankline::tests::batch_test {
namespace {

namespace fs = std::filesystem;

TEST(Batch, ResultsComeInOrderWhateverTheThreads) {
  for (const std::size_t threads : {1u, 2u, 3u, 8u}) {
    std::vector<std::size_t> taken;
    std::atomic<int> under_way{0};
    std::atomic<int> most{0};
    work_in_order<std::size_t>(
        2000, threads,
        [&](std::size_t i) {
          const int now = ++under_way;
          for (int seen = most; seen < now && !most.compare_exchange_weak(seen, now);) {
          }
          // Work of uneven length, so that threads overtake one another.
          volatile double sum = 0;
          for (std::size_t k = 0; k < (i * 7919 % 97) * 20; ++k)
            sum = sum + static_cast<double>(k);
          --under_way;
          return i * i;
        },
        [&](std::size_t i, std::size_t square) {
          EXPECT_EQ(square, i * i);
          taken.push_back(i);
          return true;
        });
    ASSERT_EQ(taken.size(), 2000u);
    EXPECT_TRUE(std::is_sorted(taken.begin(), taken.end()));
    EXPECT_LE(most.load(), static_cast<int>(threads));
  }
}

TEST(Batch, NoMoreIsHeldThanTheWindow) {
  std::atomic<std::size_t> farthest{0};
  std::size_t largest_lead = 0;
  work_in_order<int>(
      3000, 2,
      [&](std::size_t i) {
        std::size_t seen = farthest;
        while (seen < i && !farthest.compare_exchange_weak(seen, i)) {
        }
        return 0;
      },
      [&](std::size_t i, int) {
        largest_lead = std::max(largest_lead, farthest.load() - std::min(i, farthest.load()));
        return true;
      });
  EXPECT_LE(largest_lead, 16u);
}

TEST(Batch, AFaultOnEitherSideEndsItWithoutHanging) {
  const auto nothing = [](std::size_t, int) { return true; };
  for (const std::size_t threads : {1u, 2u, 4u}) {
    EXPECT_THROW(work_in_order<int>(
                     500, threads,
                     [](std::size_t i) -> int {
                       if (i == 137) throw std::runtime_error("worker");
                       return 0;
                     },
                     nothing),
                 std::runtime_error);
    EXPECT_THROW(work_in_order<int>(
                     500, threads, [](std::size_t) { return 0; },
                     [](std::size_t i, int) {
                       if (i == 20) throw std::logic_error("taker");
                       return true;
                     }),
                 std::logic_error);
  }
  EXPECT_NO_THROW(work_in_order<int>(
      0, 2, [](std::size_t) { return 0; }, nothing));
}

TEST(Batch, EndsWhereItsResultsAreNotTakenAnyMore) {
  for (const std::size_t threads : {1u, 2u, 4u}) {
    std::atomic<std::size_t> worked{0};
    std::size_t taken = 0;
    work_in_order<int>(
        500, threads, [&](std::size_t) { return static_cast<int>(++worked); },
        [&](std::size_t i, int) {
          ++taken;
          return i < 20;
        });
    EXPECT_EQ(taken, 21u);
    EXPECT_LE(worked.load(), 20u + 8 * threads + 1) << "no more than the window";
  }
}

TEST(Batch, ThreadsAreNeverMoreThanTheWork) {
  EXPECT_EQ(batch_threads(8, 3), 3u);
  EXPECT_EQ(batch_threads(2, 3000), 2u);
  EXPECT_EQ(batch_threads(5, 0), 1u);
  EXPECT_GE(batch_threads(0, 3000), 1u);
}

TEST(ProgressLine, SaysCountRateAndTimeLeftAndFitsTheTerminal) {
  EXPECT_EQ(progress_line(1500, 6000, 15, 80),
            "[#########.............................]  1500 of 6000  100 a second  0:45 left");
  EXPECT_EQ(progress_line(0, 12, 0, 30), "[.................]   0 of 12");
  EXPECT_EQ(progress_line(12, 12, 4, 80),
            "[########################################]  12 of 12  3 a second  0:00 left");
  EXPECT_NE(progress_line(10, 10000, 10, 80).find("166:30 left"), std::string::npos);
  int lines = 0;
  for (std::size_t columns = 1; columns <= 200; ++columns)
    for (const std::size_t done : {0u, 1u, 77u, 10000u}) {
      EXPECT_LT(progress_line(done, 10000, 3.7, columns).size(), columns);
      ++lines;
    }
  EXPECT_EQ(lines, 800);
}

/// A folder of orders: seven good ones, two that are wrong, and things that are no orders.
class BatchOfOrders : public testing::Test {
protected:
  void SetUp() override {
    const fs::path samples(places::samples);
    for (const char* name : {"plain", "sides_lowered", "hand_marked", "different_feet"})
      fs::create_directories(orders_), fs::copy(samples / (std::string(name) + ".yaml"), orders_);
    for (const char* name : {"a", "m", "z"})
      fs::copy(samples / "plain.yaml", orders_ / (std::string(name) + ".yaml"));
    fs::copy(samples / "mistakes" / "misspelt_key.yaml", orders_);
    write_file(orders_ / "broken.yaml", "format: [\n");
    write_file(orders_ / "notes.txt", "no order");
    write_file(orders_ / ".hidden.yaml", "no order");
    fs::create_directory(orders_ / "old.yaml");
    there_.directory = scratch_.path();
    there_.environment["TERM"] = "xterm";
    there_.environment["NO_COLOR"] = std::nullopt;
  }

  Finished shankline(const std::string& arguments) const {
    return run_shell("'" + places::program + "' " + arguments, there_);
  }

  /// Runs it on a terminal of its own; `out` holds both streams.
  Finished on_terminal(const std::string& arguments) const {
    return run_shell("script -qec \"stty cols 100; '" + places::program + "' " + arguments +
                         "\" /dev/null",
                     there_);
  }

  std::vector<std::string> made(const std::string& folder) const {
    std::vector<std::string> names;
    for (const auto& entry : fs::directory_iterator(scratch_.path() / folder))
      names.push_back(entry.path().filename().string());
    std::sort(names.begin(), names.end());
    return names;
  }

  ScratchDirectory scratch_;
  fs::path orders_ = scratch_.path() / "orders";
  Surroundings there_;
};

TEST_F(BatchOfOrders, AFolderIsCutByNameAndTheBadOnesStopNoOther) {
  const Finished cut = shankline("cut orders -o sheets/");
  EXPECT_EQ(cut.exit_code, 1);
  EXPECT_EQ(made("sheets"),
            (std::vector<std::string>{"a.pdf", "different_feet.pdf", "hand_marked.pdf", "m.pdf",
                                      "plain.pdf", "sides_lowered.pdf", "z.pdf"}));
  std::vector<std::string> lines;
  std::istringstream out(cut.out);
  for (std::string line; std::getline(out, line);)
    lines.push_back(line);
  ASSERT_EQ(lines.size(), 7u);
  EXPECT_TRUE(std::is_sorted(lines.begin(), lines.end()));
  EXPECT_EQ(lines[0], "orders/a.yaml: M-07, left cut off 52.5 then 62.0, right cut off 53.5 then "
                      "63.0; wrote sheets/a.pdf");
  EXPECT_NE(cut.err.find("\n9 orders: 7 cut, 2 refused, 0 failed\n"), std::string::npos);
  EXPECT_EQ(cut.err.find('\r'), std::string::npos) << "a bar where there is no terminal";
  EXPECT_EQ(cut.err.find("notes.txt"), std::string::npos);
  EXPECT_LT(cut.err.find("broken.yaml"), cut.err.find("misspelt_key.yaml:"));
}

TEST_F(BatchOfOrders, EndsWhereNobodyReadsItsLines) {
  // The reader is gone before the first line comes.
  const auto unread = [&](const std::string& arguments) {
    Finished finished = run_shell("{ sleep 0.2; '" + places::program + "' " + arguments +
                                      "; echo $? >code; } | true",
                                  there_);
    EXPECT_EQ(read_file(scratch_.path() / "code"), "3\n") << arguments;
    return finished.err;
  };
  EXPECT_EQ(unread("cut orders -o sheets/ --jobs 1"),
            "error: the batch ended early, since standard output takes no more: 8 of 9 orders are "
            "left\n"
            "  do: run it again with --quiet, or with the results in a file\n"
            "1 order: 1 cut, 0 refused, 0 failed\n");
  EXPECT_EQ(made("sheets"), std::vector<std::string>{"a.pdf"});
  EXPECT_NE(unread("check orders --json --jobs 1").find("8 of 9 orders"), std::string::npos);
  unread("cut orders -o maker/ --jobs 1 --maker");
  EXPECT_EQ(made("maker"), std::vector<std::string>{"a.pdf"}) << "no document of all orders";

  const Finished full = shankline("cut orders -o full/ --jobs 1 >/dev/full");
  EXPECT_EQ(full.exit_code, 3);
  EXPECT_NE(full.err.find("8 of 9 orders are left"), std::string::npos) << full.err;
  EXPECT_EQ(made("full").size(), 1u);
  EXPECT_EQ(shankline("cut orders -q -o quiet/ >/dev/full").exit_code, 1) << "two are wrong";
  EXPECT_EQ(made("quiet").size(), 7u);
}

TEST_F(BatchOfOrders, EveryNumberOfThreadsGivesTheSameBytes) {
  const Finished one = shankline("cut orders -o one/ --jobs 1 2>&1");
  const Finished four = shankline("cut orders -o one/ --jobs 4 2>&1");
  EXPECT_EQ(one.out, four.out);
  shankline("cut orders -o four/ --jobs 4");
  int same = 0;
  for (const std::string& name : made("one"))
    same += read_file(scratch_.path() / "one" / name) == read_file(scratch_.path() / "four" / name);
  EXPECT_EQ(same, 7);
}

TEST_F(BatchOfOrders, WhatIsSaidOfOneOrderStaysTogether) {
  // Every order with a caution of its own, of three lines, and the file's name in the first only.
  for (int i = 0; i < 60; ++i) {
    std::string order = read_file(fs::path(places::samples) / "mistakes" / "misspelt_key.yaml");
    write_file(scratch_.path() / "wrong" / (std::to_string(100 + i) + ".yaml"), order);
  }
  const Finished check = shankline("check wrong --jobs 4");
  EXPECT_EQ(check.exit_code, 1);
  std::istringstream err(check.err);
  std::string first, second, third;
  int told = 0;
  while (std::getline(err, first) && first.rfind("wrong/", 0) == 0) {
    std::getline(err, second);
    std::getline(err, third);
    EXPECT_EQ(first.rfind("wrong/" + std::to_string(100 + told) + ".yaml:", 0), 0u) << first;
    EXPECT_EQ(second.rfind("  allowed: ", 0), 0u) << second;
    EXPECT_EQ(third.rfind("  do: ", 0), 0u) << third;
    ++told;
  }
  EXPECT_EQ(told, 60);
  EXPECT_EQ(first, "60 orders: 0 sound, 60 refused, 0 failed");
}

TEST_F(BatchOfOrders, AFailingFileSystemIsTheWorst) {
  const Finished cut = shankline("cut orders -o nowhere/sheets.pdf");
  EXPECT_EQ(cut.exit_code, 2) << "every order to one file";
  fs::create_directories(scratch_.path() / "sheets" / "plain.pdf");
  const Finished mixed = shankline("cut orders -o sheets/");
  EXPECT_EQ(mixed.exit_code, 3);
  EXPECT_NE(mixed.err.find("9 orders: 6 cut, 2 refused, 1 failed\n"), std::string::npos);
  write_file(scratch_.path() / "file", "");
  EXPECT_EQ(shankline("cut orders -o file/").exit_code, 3) << "a folder that cannot be made";
}

TEST_F(BatchOfOrders, TwoOfOneNameAreFoundBeforeAnythingIsCut) {
  fs::create_directory(scratch_.path() / "more");
  fs::copy(orders_ / "plain.yaml", scratch_.path() / "more");
  const Finished cut = shankline("cut orders more -o sheets/");
  EXPECT_EQ(cut.exit_code, 2);
  EXPECT_EQ(cut.out, "");
  EXPECT_FALSE(fs::exists(scratch_.path() / "sheets"));
}

TEST_F(BatchOfOrders, JsonIsOneArrayWithRefusedOrdersInIt) {
  const Finished check = shankline("check orders --json");
  const auto json = nlohmann::json::parse(check.out);
  ASSERT_EQ(json.size(), 9u);
  int refused = 0;
  for (const auto& solution : json) {
    EXPECT_EQ(solution.at("format"), "shankline-solution/1");
    refused += solution.at("feet").is_null();
  }
  EXPECT_EQ(refused, 2);
  for (const auto& element :
       nlohmann::json::parse(shankline("check orders/broken.yaml orders/missing.yaml --json").out))
    EXPECT_TRUE(element.at("feet").is_null());
}

TEST_F(BatchOfOrders, QuietSaysErrorsOnly) {
  const Finished cut = shankline("cut -q orders -o sheets/");
  EXPECT_EQ(cut.out, "");
  EXPECT_EQ(cut.err.find("9 orders"), std::string::npos);
  EXPECT_NE(cut.err.find("misspelt_key.yaml:"), std::string::npos);
}

TEST_F(BatchOfOrders, AFolderWithoutOrdersIsWrongInput) {
  fs::create_directory(scratch_.path() / "empty");
  const Finished check = shankline("check empty orders/plain.yaml");
  EXPECT_EQ(check.exit_code, 1);
  EXPECT_NE(check.err.find("empty: error: there is no order in this folder"), std::string::npos);
  EXPECT_NE(check.out.find("orders/plain.yaml: M-07"), std::string::npos);
}

TEST_F(BatchOfOrders, TheBarIsDrawnOnATerminalAndGoneAtTheEnd) {
  const Finished cut = on_terminal("cut orders -o sheets/");
  EXPECT_EQ(cut.exit_code, 1);
  EXPECT_NE(cut.out.find("0 of 9"), std::string::npos) << cut.out;
  EXPECT_NE(cut.out.find(" left"), std::string::npos) << cut.out;
  // Erased before anything else is written and at the end.
  const std::size_t summary = cut.out.find("9 orders: ");
  ASSERT_NE(summary, std::string::npos);
  EXPECT_EQ(cut.out.substr(summary - 4, 4), "\r\033[K");
  for (const std::string plain : {"NO_COLOR=1", "TERM=dumb"}) {
    Surroundings without = there_;
    const std::string name = plain.substr(0, plain.find('='));
    without.environment[name] = plain.substr(name.size() + 1);
    const Finished bare = run_shell(
        "script -qec \"'" + places::program + "' cut orders -o sheets/\" /dev/null", without);
    EXPECT_NE(bare.out.find("9 orders: "), std::string::npos);
    EXPECT_EQ(bare.out.find("\033["), std::string::npos) << plain;
  }
  EXPECT_EQ(on_terminal("check orders/plain.yaml").out.find("\033["), std::string::npos)
      << "one order needs no bar";
  EXPECT_EQ(on_terminal("check -q orders").out.find("\033["), std::string::npos);
}

} // namespace
} // namespace shankline::tests::batch_test
