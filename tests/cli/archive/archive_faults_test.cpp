// The archive's verbs with every call on a file made to fail in turn, the database's own included,
// and a sample of allocations: each time one clear error and exit code 3, an archive that audits
// clean and holds what it held or all of what was to come in, and nothing left behind.
#include "cli/archive/archive_audit.hpp"
#include "cli/archive/archive_bundle.hpp"
#include "cli/archive/archive_store.hpp"

#include "tests/cli/random_archive.hpp"
#include "tests/support/failing_program.hpp"
#include "tests/support/places.hpp"
#include "tests/support/scratch_directory.hpp"

#include <filesystem>
#include <gtest/gtest.h>
#include <set>

namespace shankline::tests::archive_faults_test {
namespace {

namespace fs = std::filesystem;
using namespace tests;
using Words = std::vector<std::string>;

constexpr const char* older = "format: shankline-archive/1, an older one";
constexpr const char* archive_name = "archive.sqlite";

struct Verb {
  const char* name;
  Words words;
  const char* output = "";    ///< a file that it writes besides
  bool output_exists = false; ///< then there is an older one
  bool archive_exists = true;
};

// GoogleTest prints it.
void PrintTo(const Verb& verb, std::ostream* out) {
  *out << verb.name;
}

class ArchiveFaults : public testing::TestWithParam<Verb> {
protected:
  void SetUp() override {
    fs::create_directory(kept());
    {
      ArchiveStore store((kept() / archive_name).string(), ArchiveUse::write);
      fill(store);
    }
    ArchiveStore other((scratch_.path() / "other").string(), ArchiveUse::write);
    other.add(random_cut("N-01", 1));
    other.add(random_cut("N-01", 2));
    std::string bundle;
    write_bundle(other, {}, [&bundle](std::string_view piece) { bundle += piece; });
    write_file(kept() / "bundle.yaml", bundle);
    fs::copy_file(fs::path(places::samples) / "plain.yaml", kept() / "order.yaml");
  }

  fs::path kept() const { return scratch_.path() / "kept"; }
  fs::path here() const { return scratch_.path() / "here"; }
  fs::path archive() const { return here() / archive_name; }
  bool has_output() const { return GetParam().output[0] != '\0'; }
  fs::path output() const { return here() / GetParam().output; }

  /// Puts everything back as it was before the verb first ran.
  Surroundings anew() const {
    fs::remove_all(here());
    fs::copy(kept(), here());
    if (!GetParam().archive_exists) fs::remove(archive());
    if (GetParam().output_exists) write_file(output(), older);
    Surroundings there;
    there.directory = here();
    there.environment = {{"SOURCE_DATE_EPOCH", "1773480413"}, {"HOME", here().string()}};
    return there;
  }

  Words words() const {
    Words all{"archive"};
    all.insert(all.end(), GetParam().words.begin(), GetParam().words.end());
    all.insert(all.end(), {"--archive", archive_name});
    return all;
  }

  std::set<std::string> files() const {
    std::set<std::string> names;
    for (const auto& entry : fs::directory_iterator(here()))
      names.insert(entry.path().filename().string());
    return names;
  }

  /// The end of the archive's chain. Opening the archive also recovers files that a failed run left
  /// beside it.
  ChainEnd sound_end(const std::string& fail) const {
    if (!fs::exists(archive()) || fs::file_size(archive()) == 0) return {};
    ArchiveStore store(archive().string(), ArchiveUse::write);
    const Audit found = audit(store);
    EXPECT_TRUE(found.clean()) << fail << ": " << found.faults.front().what;
    if (store.is_to_clean()) store.clean();
    return store.end();
  }

  void expect_sound(const FailingCall& failing, const Finished& finished, const ChainEnd& before,
                    const std::set<std::string>& allowed) {
    const std::string fail = failing.words() + "\n" + finished.err;
    const bool done = finished.exit_code == 0;
    if (!done) expect_clear_refusal(failing, finished); // a bundle or an order is input
    if (has_output()) {
      const bool there = fs::exists(output());
      const std::string now = there ? read_file(output()) : "";
      const bool whole = now.size() > 1000;
      if (done)
        EXPECT_TRUE(whole) << fail;
      else
        EXPECT_TRUE(whole || (GetParam().output_exists ? now == older : !there)) << fail;
    }
    const ChainEnd end = sound_end(fail);
    // If there was no archive, an empty one may be left.
    EXPECT_TRUE(end == before || end.id > before.id || (end.id == 0 && before.id == 0)) << fail;
    if (failing.call == "unlink") return; // what cannot be removed stays
    for (const std::string& name : files())
      EXPECT_TRUE(allowed.contains(name)) << fail << "\nleft behind: " << name;
  }

  /// At most so many of each call. Returns how many were refused.
  long fail_in_turn(const std::vector<std::string>& calls, long most) {
    const auto counts = count_calls(words(), anew());
    std::set<std::string> allowed = files();
    allowed.insert(archive_name);
    anew();
    const ChainEnd before = sound_end("nothing");
    long refused = 0;
    for (const std::string& call : calls)
      for (const long n : spread(counts.at(call), most)) {
        const FailingCall failing{call, n};
        const Finished finished = run_failing(words(), anew(), failing);
        expect_sound(failing, finished, before, allowed);
        if (finished.exit_code != 0) ++refused;
      }
    return refused;
  }

private:
  ScratchDirectory scratch_;
};

const std::vector<std::string> file_calls{"open",   "mkstemp", "read",      "write",
                                          "fsync",  "fchmod",  "ftruncate", "close",
                                          "rename", "link",    "mkdir",     "unlink"};

TEST_P(ArchiveFaults, CallsOnFilesFailInTurn) {
  EXPECT_GT(fail_in_turn(file_calls, 3), 3);
}

TEST_P(ArchiveFaults, SampledAllocationsFailInTurn) {
  EXPECT_GT(fail_in_turn({"malloc"}, 8), 1);
}

class LongArchiveFaults : public ArchiveFaults {};

TEST_P(LongArchiveFaults, EveryCallOnAFileFailsInTurn) {
  EXPECT_GT(fail_in_turn(file_calls, 100000), 3);
}

TEST_P(LongArchiveFaults, SampledAllocationsFailInTurn) {
  EXPECT_GT(fail_in_turn({"malloc"}, 200), 50);
}

const Verb verbs[] = {
    {"save", {"save", "order.yaml"}},
    {"first_save", {"save", "order.yaml"}, "", false, false},
    {"note", {"note", "1", "--foot", "left", "--gap", "2"}},
    {"forget", {"forget", "M-07", "--yes"}},
    {"import", {"import", "bundle.yaml"}},
    {"export", {"export", "-o", "out.yaml"}, "out.yaml", true},
    {"backup", {"backup", "copy.sqlite"}, "copy.sqlite", false},
};
const auto verb_name = [](const auto& info) { return std::string(info.param.name); };
INSTANTIATE_TEST_SUITE_P(Verbs, ArchiveFaults, testing::ValuesIn(verbs), verb_name);
INSTANTIATE_TEST_SUITE_P(LongVerbs, LongArchiveFaults, testing::ValuesIn(verbs), verb_name);

} // namespace
} // namespace shankline::tests::archive_faults_test
