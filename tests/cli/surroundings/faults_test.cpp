// Every call by which a file is read or written made to fail in turn, and a sample of allocations:
// each time one clear error and exit code 3, the older file untouched, nothing left behind. Where
// there was no file before, all of the new ones are there or none.
#include "tests/support/failing_program.hpp"
#include "tests/support/places.hpp"
#include "tests/support/scratch_directory.hpp"

#include <filesystem>
#include <gtest/gtest.h>
#include <set>

namespace shankline::tests::faults_test {
namespace {

namespace fs = std::filesystem;

constexpr const char* older = "%PDF-1.3, an older one";
constexpr const char* older_printer = "format: shankline-printer/1\nname: hall\npaper: a4\n"
                                      "measured: {across: 160.0, up: 213.3, rising: 266.7, "
                                      "falling: 266.7}\n";
constexpr const char* printer_file = "config/shankline/printers/hall.yaml";

struct Work {
  const char* name;
  std::vector<std::string> words;
  const char* output;      ///< that it replaces
  const char* whole_begin; ///< how what it writes begins and ends
  const char* whole_end;
};

// GoogleTest prints it.
void PrintTo(const Work& work, std::ostream* out) {
  *out << work.name;
}

class Faults : public testing::TestWithParam<Work> {
protected:
  fs::path folder() const { return scratch_.path(); }
  fs::path output() const { return folder() / GetParam().output; }

  const char* before() const {
    return GetParam().output == std::string(printer_file) ? older_printer : older;
  }

  Surroundings anew() const {
    for (const auto& entry : fs::directory_iterator(folder()))
      fs::remove_all(entry.path());
    fs::copy_file(fs::path(places::samples) / "plain.yaml", folder() / "order.yaml");
    write_file(folder() / printer_file, older_printer);
    write_file(output(), before());
    Surroundings there;
    there.directory = folder();
    there.environment = {{"XDG_CONFIG_HOME", (folder() / "config").string()}};
    return there;
  }

  std::set<std::string> files() const {
    std::set<std::string> names;
    for (const auto& entry : fs::recursive_directory_iterator(folder()))
      names.insert(entry.path().string());
    return names;
  }

  /// Memory may run out when the file is in place already and the report is printed.
  bool is_whole() const {
    if (GetParam().whole_begin[0] == '\0') return !fs::exists(output());
    const std::string now = read_file(output());
    return now.starts_with(GetParam().whole_begin) && now.ends_with(GetParam().whole_end);
  }
  bool is_older() const { return fs::exists(output()) && read_file(output()) == before(); }

  void expect_refused(const FailingCall& failing, const Finished& finished) const {
    const std::string fail = failing.words() + "\n" + finished.err;
    // An order that cannot be opened or read is missing input, not a broken disk; an older PDF is
    // read before it is written over.
    const bool opened = failing.call == "open" || failing.call == "read";
    const bool input = opened && finished.err.find("is there already") == std::string::npos;
    EXPECT_EQ(finished.exit_code, input ? 1 : 3) << fail;
    expect_clear_refusal(failing, finished);
    EXPECT_TRUE(is_older() || is_whole()) << fail;
  }

  /// At most so many of each call. Returns how many were refused.
  long fail_in_turn(const std::vector<std::string>& calls, long most) const {
    const auto counts = count_calls(GetParam().words, anew());
    anew();
    const std::set<std::string> there = files();
    long refused = 0;
    for (const std::string& call : calls)
      for (const long n : spread(counts.at(call), most)) {
        const FailingCall failing{call, n};
        const Finished finished = run_failing(GetParam().words, anew(), failing);
        if (finished.exit_code != 0) {
          expect_refused(failing, finished);
          ++refused;
        } else {
          EXPECT_TRUE(is_whole()) << failing.words(); // a library made do without it
        }
        for (const std::string& file : files())
          EXPECT_TRUE(there.contains(file)) << failing.words() << " left behind " << file;
      }
    return refused;
  }

private:
  ScratchDirectory scratch_;
};

const std::vector<std::string> calls_on_files{"open",   "mkstemp",   "read",  "write",  "fsync",
                                              "fchmod", "ftruncate", "close", "rename", "unlink"};

TEST_P(Faults, EveryCallOnAFileFailsInTurn) {
  EXPECT_GE(fail_in_turn(calls_on_files, 1000), 1);
}

TEST_P(Faults, SampledAllocationsFailInTurn) {
  EXPECT_GT(fail_in_turn({"malloc"}, 20), 5);
}

class LongFaults : public Faults {};

TEST_P(LongFaults, SampledAllocationsFailInTurn) {
  EXPECT_GT(fail_in_turn({"malloc"}, 200), 50);
}

const Work works[] = {
    {"cut", {"cut", "order.yaml", "-o", "order.pdf"}, "order.pdf", "%PDF", "%%EOF\n"},
    {"cut_with_json",
     {"cut", "order.yaml", "--json", "-o", "order.pdf"},
     "order.pdf",
     "%PDF",
     "%%EOF\n"},
    {"printer_sheet", {"printer", "-o", "sheet.pdf"}, "sheet.pdf", "%PDF", "%%EOF\n"},
    {"printer_measured",
     {"printer", "hall", "--measured", "160.1,213.4,266.8,266.7"},
     printer_file,
     "format: shankline-printer/1\nname: hall\npaper: a4\nmeasured: {across: 160.1",
     "falling: 266.7}\n"},
    {"printer_forgotten", {"printer", "hall", "--forget"}, printer_file, "", ""},
    {"cut_for_printer",
     {"cut", "order.yaml", "--printer", "hall", "-o", "order.pdf"},
     "order.pdf",
     "%PDF",
     "%%EOF\n"},
    {"rack", {"rack", "order.yaml", "-o", "rack.pdf"}, "rack.pdf", "%PDF", "%%EOF\n"},
    {"blank_acceptance",
     {"accept", "order.yaml", "--blank", "-o", "blank.pdf"},
     "blank.pdf",
     "%PDF",
     "%%EOF\n"},
};
const auto work_name = [](const auto& info) { return std::string(info.param.name); };
INSTANTIATE_TEST_SUITE_P(Works, Faults, testing::ValuesIn(works), work_name);
INSTANTIATE_TEST_SUITE_P(LongWorks, LongFaults, testing::ValuesIn(works), work_name);

struct NewFiles {
  const char* name;
  std::vector<std::string> words;
  const char* folder; ///< where all of them are
  std::size_t count;
  const char* whole_begin;
  const char* whole_end;
};

// GoogleTest prints it.
void PrintTo(const NewFiles& made, std::ostream* out) {
  *out << made.name;
}

class NewFileFaults : public testing::TestWithParam<NewFiles> {
protected:
  Surroundings anew() const {
    for (const auto& entry : fs::directory_iterator(here()))
      fs::remove_all(entry.path());
    const fs::path samples = places::samples;
    fs::copy_file(samples / "plain.yaml", here() / "order.yaml");
    fs::copy_file(samples / "roster/dancers.csv", here() / "dancers.csv");
    fs::copy_file(samples / "roster/common.yaml", here() / "common.yaml");
    Surroundings there;
    there.directory = here();
    there.environment = {{"XDG_CONFIG_HOME", (here() / "config").string()},
                         {"HOME", here().string()}};
    return there;
  }

  void expect_all_or_none(const FailingCall& failing, const Finished& finished) const {
    const std::string fail = failing.words() + "\n" + finished.err;
    const bool done = finished.exit_code == 0;
    std::size_t made = 0;
    for (const auto& entry : fs::recursive_directory_iterator(here())) {
      const fs::path path = entry.path().lexically_relative(here());
      if (!entry.is_regular_file() || !path.has_parent_path()) continue;
      ++made;
      EXPECT_TRUE(path.string().starts_with(GetParam().folder)) << fail << " left " << path;
      const std::string text = read_file(entry.path());
      EXPECT_TRUE(text.starts_with(GetParam().whole_begin) && text.ends_with(GetParam().whole_end))
          << fail << " wrote half of " << path;
    }
    EXPECT_TRUE(made == GetParam().count || (made == 0 && !done)) << made << " " << fail;
    if (!done) expect_clear_refusal(failing, finished);
  }

  /// At most so many of each call. Returns how many were refused.
  long fail_in_turn(const std::vector<std::string>& calls, long most) const {
    const auto counts = count_calls(GetParam().words, anew());
    expect_all_or_none({}, {0, false, "", ""});
    long refused = 0;
    for (const std::string& call : calls)
      for (const long n : spread(counts.at(call), most)) {
        const FailingCall failing{call, n};
        const Finished finished = run_failing(GetParam().words, anew(), failing);
        expect_all_or_none(failing, finished);
        if (finished.exit_code != 0) ++refused;
      }
    return refused;
  }

private:
  fs::path here() const { return scratch_.path(); }

  ScratchDirectory scratch_;
};

TEST_P(NewFileFaults, EveryCallOnAFileFailsInTurn) {
  EXPECT_GE(fail_in_turn(calls_on_files, 1000), 3);
}

TEST_P(NewFileFaults, SampledAllocationsFailInTurn) {
  EXPECT_GT(fail_in_turn({"malloc"}, 20), 5);
}

class LongNewFileFaults : public NewFileFaults {};

TEST_P(LongNewFileFaults, SampledAllocationsFailInTurn) {
  EXPECT_GT(fail_in_turn({"malloc"}, 200), 50);
}

const NewFiles new_files[] = {
    {"roster",
     {"roster", "dancers.csv", "--common", "common.yaml", "-o", "orders"},
     "orders/",
     3,
     "format: shankline-order/1\n",
     "\n"},
    // Nobody listens there, and the refusal comes at once.
    {"outbox",
     {"archive", "save", "order.yaml", "--archive", "postgresql://b@127.0.0.1:1/x"},
     "config/shankline/outbox/",
     1,
     "format: shankline-archive/1\n",
     "\n"},
};
INSTANTIATE_TEST_SUITE_P(NewFiles, NewFileFaults, testing::ValuesIn(new_files), work_name);
INSTANTIATE_TEST_SUITE_P(LongNewFiles, LongNewFileFaults, testing::ValuesIn(new_files), work_name);

} // namespace
} // namespace shankline::tests::faults_test
