// A bundle that is refused, and what is said then.
#include "tests/cli/archive_program.hpp"

namespace shankline::tests::archive_import_test {
namespace {

namespace fs = std::filesystem;
using namespace tests;

class ArchiveImport : public ArchiveProgram {
protected:
  void SetUp() override {
    ASSERT_EQ(archive({"save", plain, places::samples + "/inches.yaml"}).exit_code, 0);
    ASSERT_EQ(archive({"export", "-o", "all.yaml"}).exit_code, 0);
    bundle = read_file(scratch.path() / "all.yaml");
  }

  std::string with(const std::string& words, const std::string& others) const {
    std::string changed = bundle;
    const std::size_t at = changed.find(words);
    EXPECT_NE(at, std::string::npos) << words;
    return changed.replace(at, words.size(), others);
  }

  Finished imported(const std::string& text, const std::string& into) {
    write_file(scratch.path() / "tried.yaml", text);
    return archive({"import", "tried.yaml", "--archive", into});
  }

  std::string bundle;
};

// Before, an empty archive in new folders was left, and "nothing was changed here" was said.
TEST_F(ArchiveImport, WhatIsRefusedLeavesNoArchiveBehind) {
  const std::string refused[] = {
      with("dancer: \"M-15\"", "dancer: \"M-16\""), // its digest does not fit
      with("entries: 2", "entries: 3"),             // cut off
      bundle.substr(0, bundle.size() / 2),
      bundle + "---\nkind: cut\n",
      with("\nend: ", "\nend: f"),
  };
  for (const std::string& text : refused) {
    const Finished said = imported(text, "new/folder/archive.sqlite");
    EXPECT_EQ(said.exit_code, 1) << said.out;
    EXPECT_EQ(said.out, "");
    EXPECT_NE(said.err.find("no archive was made"), std::string::npos) << said.err;
    EXPECT_FALSE(fs::exists(scratch.path() / "new")) << said.err;
  }
  const Finished whole = imported(bundle, "new/folder/archive.sqlite");
  EXPECT_EQ(whole.exit_code, 0) << whole.err;
  EXPECT_NE(whole.out.find("2 entries added"), std::string::npos) << whole.out;
}

TEST_F(ArchiveImport, WhatIsRefusedLeavesAnEmptyFileEmpty) {
  write_file(scratch.path() / "empty.sqlite", "");
  EXPECT_EQ(imported(with("entries: 2", "entries: 3"), "empty.sqlite").exit_code, 1);
  EXPECT_EQ(fs::file_size(scratch.path() / "empty.sqlite"), 0u);
}

TEST_F(ArchiveImport, WhatIsRefusedAddsNothingToAnArchive) {
  const std::string before = archive({"list"}).out;
  const Finished said = imported(with("entries: 2", "entries: 3"), path.string());
  EXPECT_EQ(said.exit_code, 1);
  EXPECT_NE(said.err.find("nothing was added"), std::string::npos) << said.err;
  EXPECT_EQ(said.err.find("no archive was made"), std::string::npos) << said.err;
  EXPECT_EQ(archive({"list"}).out, before);
}

// Before: "this is not a bundle", and the advice to bring it "as it was exported", which it was.
TEST_F(ArchiveImport, ABundleOfAnotherVersionIsSaidToBeOne) {
  const Finished said =
      imported(with("shankline-archive/1", "shankline-archive/2"), "new/archive.sqlite");
  EXPECT_EQ(said.exit_code, 1);
  EXPECT_NE(said.err.find("'shankline-archive/2'"), std::string::npos) << said.err;
  EXPECT_NE(said.err.find("reads shankline-archive/1"), std::string::npos) << said.err;
  EXPECT_EQ(said.err.find("not a bundle"), std::string::npos) << said.err;
  EXPECT_EQ(said.err.find("as it was exported"), std::string::npos) << said.err;
  EXPECT_NE(said.err.find("the version that wrote it"), std::string::npos) << said.err;
  const Finished other = imported(with("shankline-archive/1", "shankline-order/1"), "new/x.sqlite");
  EXPECT_NE(other.err.find("not a bundle"), std::string::npos) << other.err;
}

} // namespace
} // namespace shankline::tests::archive_import_test
