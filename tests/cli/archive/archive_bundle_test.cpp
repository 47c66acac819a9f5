#include "cli/archive/archive_bundle.hpp"

#include "cli/archive/archive_audit.hpp"

#include "tests/cli/random_archive.hpp"
#include "tests/support/scratch_directory.hpp"

#include <gtest/gtest.h>
#include <random>

namespace shankline::tests::archive_bundle_test {
namespace {

namespace fs = std::filesystem;
using namespace tests;

/// Texts that a careless writer or reader of YAML changes.
const char* const awkward_texts[] = {
    "plain\n",
    "no line end",
    "two line ends\n\n",
    "\nbegins with a line end\n",
    " begins with a space\n",
    "trailing space \n",
    "a line\n   \nof spaces\n",
    "a line\n\nempty\n",
    "tab\tinside\n",
    "\ttab first\n",
    "windows\r\nline ends\r\n",
    "\ufeffbyte order mark\n",
    "# comment\n",
    "---\n",
    "a\n---\nb\n",
    "...\n",
    "'quote\n",
    "\"quote\n",
    "\"quote\" and \\ backslash\n",
    "key: value\n- item\n? x\n",
    "&anchor *alias !tag %directive\n",
    "[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[\n",
    "]]]]\n",
    "{{{{{{{{{{{{{{{{{{{{{{{{{{{{{{{{{{{{{{{{{{{{ no end",
    "Żaneta \xe2\x80\xa8 \xe2\x80\xa9 \xc2\x85 \xf0\x9f\xa9\xb0\n",
    "\x01\x1b[31m\x7f\n",
    "null",
    "~",
    "true",
    "1e3",
    "",
};

class ArchiveBundle : public testing::Test {
protected:
  static std::string bundle_of(ArchiveStore& store, const std::string& dancer = {}) {
    std::string text;
    write_bundle(store, dancer, [&text](std::string_view piece) { text += piece; });
    return text;
  }
  ArchiveStore store(const char* name) {
    return ArchiveStore((scratch.path() / name).string(), ArchiveUse::write);
  }
  ArchiveStore::Merged read(ArchiveStore& into, const std::string& text) {
    write_file(scratch.path() / "bundle.yaml", text);
    return read_bundle(into, (scratch.path() / "bundle.yaml").string());
  }
  /// Returns the message about a refused bundle; the archive must stay as it was.
  std::string refused(ArchiveStore& into, const std::string& text) {
    const ChainEnd before = into.end();
    std::string said;
    try {
      read(into, text);
    } catch (const BundleFault& fault) {
      said = fault.what();
    } catch (const ArchiveFault& fault) {
      said = fault.what();
    }
    EXPECT_EQ(into.end(), before);
    EXPECT_TRUE(audit(into).clean());
    return said;
  }
  ScratchDirectory scratch;
};

TEST_F(ArchiveBundle, RoundTripsByteForByte) {
  ArchiveStore first = store("first");
  fill(first);
  for (const char* text : awkward_texts) {
    ArchiveEntry entry = random_cut("M-07", 1);
    entry.body.order = text;
    entry.body.solution = text;
    first.add(entry);
  }
  first.forget("dancer K-12", "2026-05-01T00:00:00Z", "0.1.0");
  const std::string bundle = bundle_of(first);
  ArchiveStore second = store("second");
  const auto merged = read(second, bundle);
  EXPECT_EQ(merged.added, static_cast<std::size_t>(first.end().id));
  EXPECT_EQ(merged.present, 0u);
  EXPECT_EQ(second.end(), first.end());
  EXPECT_EQ(bundle_of(second), bundle);
  EXPECT_TRUE(audit(second).clean());
  const auto heads = first.older(newest, 1000);
  ASSERT_GT(heads.size(), std::size(awkward_texts) + 12);
  for (const EntryHead& head : heads)
    if (head.kind == EntryKind::cut) {
      EXPECT_EQ(second.body(*second.head(head.id)), first.body(head)) << head.id;
    }
}

TEST_F(ArchiveBundle, AwkwardNamesRoundTrip) {
  ArchiveStore first = store("first");
  int n = 0;
  for (const std::string text : awkward_texts) {
    if (text.find_first_of("\n\t\r\x01") != std::string::npos || text.find("\xc2\x85") < 99 ||
        text.empty())
      continue;
    ArchiveEntry entry = random_cut(text, ++n);
    entry.head.pair = text;
    first.add(entry);
  }
  ASSERT_GT(n, 4);
  ArchiveStore second = store("second");
  read(second, bundle_of(first));
  EXPECT_EQ(bundle_of(second), bundle_of(first));
  EXPECT_TRUE(second.newest_of("null"));
}

TEST_F(ArchiveBundle, OfOneDancerHoldsNothingElse) {
  ArchiveStore first = store("first");
  fill(first);
  const std::string bundle = bundle_of(first, "M-07");
  EXPECT_EQ(bundle.find("K-12"), std::string::npos);
  ArchiveStore second = store("second");
  EXPECT_EQ(read(second, bundle).added, 4u);
  EXPECT_EQ(bundle_of(second, "M-07"), bundle);
}

TEST_F(ArchiveBundle, AddsOnlyWhatIsMissing) {
  ArchiveStore first = store("first");
  fill(first);
  const std::string before = bundle_of(first);
  const EntryHead more = first.add(random_cut("N-01", 1));
  ArchiveStore second = store("second");
  read(second, before);
  second.add(random_cut("own", 1));
  auto merged = read(second, bundle_of(first));
  EXPECT_EQ(merged.added, 1u);
  EXPECT_EQ(merged.present, 12u);
  EXPECT_EQ(second.newest_of("N-01")->digest, more.digest);
  EXPECT_EQ(second.newest_of("N-01")->id, 14);
  merged = read(second, bundle_of(first));
  EXPECT_EQ(merged.added, 0u);
  EXPECT_TRUE(audit(second).clean());
}

TEST_F(ArchiveBundle, WhoIsForgottenHereStaysForgotten) {
  ArchiveStore first = store("first");
  fill(first);
  const std::string old = bundle_of(first);
  first.forget("M-07", "2026-05-01T00:00:00Z", "0.1.0");
  EXPECT_EQ(read(first, old).added, 0u);
  EXPECT_FALSE(first.newest_of("M-07"));
}

std::string with(std::string text, const std::string& piece, const std::string& instead) {
  const std::size_t at = text.find(piece);
  EXPECT_NE(at, std::string::npos) << piece;
  return at == std::string::npos ? text : text.replace(at, piece.size(), instead);
}

TEST_F(ArchiveBundle, BrokenOnesChangeNothing) {
  ArchiveStore first = store("first");
  fill(first);
  const std::string good = bundle_of(first);
  const std::size_t second_cut = good.find("---\n", good.find("---\n") + 4);
  const std::size_t third_cut = good.find("---\n", second_cut + 4);
  struct Row {
    const char* name;
    std::string text;
    const char* said;
  };
  const Row rows[] = {
      {"empty", "", "not a bundle"},
      {"an order", "format: shankline-order/1\ndancer: M-07\n", "not a bundle"},
      {"next format", with(good, "shankline-archive/1", "shankline-archive/2"),
       "reads shankline-archive/1"},
      {"cut off in an entry", good.substr(0, good.size() - 700), "bundle.yaml"},
      {"cut off after an entry", good.substr(0, third_cut), "there should be 12 entries"},
      {"one taken out", good.substr(0, second_cut) + good.substr(third_cut), "there should be 12"},
      {"one twice", good.substr(0, third_cut) + good.substr(second_cut), "there should be 12"},
      {"order changed", with(good, "belongs to M-07", "belongs to M-08"), "digest does not fit"},
      {"dancer changed", with(good, "dancer: \"M-07\"", "dancer: \"M-08\""), "digest does not fit"},
      {"unknown key", with(good, "\nsaved:", "\nsaved_by: \"me\"\nsaved:"), "has no meaning"},
      {"key twice", with(good, "\nsaved:", "\nkind: cut\nsaved:"), "written twice"},
      {"unknown kind", with(good, "kind: cut", "kind: gift"), "not a kind of entry"},
      {"no base64", with(good, "drawing: |\n  ", "drawing: |\n  !!!!"), "base64"},
      {"a list", with(good, "pair: \"touring, pair 1\"", "pair: [1, 2]"), "is not a text"},
      {"alias", with(good, "pair: \"touring, pair 1\"", "pair: *x"), "bundle.yaml"},
      {"anchor", with(good, "pair: \"touring, pair 1\"", "pair: &x y"), "bundle.yaml"},
      {"tag", with(good, "pair: \"touring, pair 1\"", "pair: !!binary y"), "bundle.yaml"},
      {"control character", with(good, "pair: \"touring", "pair: \"\\u001btouring"), "control"},
      {"bad bytes", with(good, "touring", "tour\xff\xfeing"), "UTF-8"},
      {"no digest", with(good, "digest: \"", "digest: \"x"), "no digest"},
      {"no salt", with(good, "salt: \"", "salt: \"x"), "salt"},
      {"other end", with(good, "\nend: ", "\nend: 0"), "order in which"},
      {"no count", with(good, "entries: 12\n", ""), "how many"},
      {"odd count", with(good, "entries: 12", "entries: 12x"), "no count"},
      {"forgotten with content", with(good, "kind: cut", "kind: forgotten"), "not empty"},
      {"note with content", with(good, "kind: cut", "kind: note"), "cannot have"},
      {"deep", good + "---\nkind: " + std::string(300, '[') + "\n", "bundle.yaml"},
      {"endless", good + "---\nkind: \"" + std::string(9 << 20, 'x') + "\"\n", "8 MB"},
      {"too large, and ended",
       good + "---\nkind: \"" + std::string((8 << 20) + 100, 'x') + "\"\n---\nkind: cut\n", "8 MB"},
      {"zeros", std::string(100000, '\0'), "bundle.yaml"},
  };
  ArchiveStore into = store("into");
  fill(into);
  for (const Row& row : rows) {
    const std::string said = refused(into, row.text);
    EXPECT_NE(said.find(row.said), std::string::npos) << row.name << ": " << said;
  }
  EXPECT_NE(refused(into, rows[7].text).find("entry 1 "), std::string::npos);
}

TEST_F(ArchiveBundle, MustBeAnOrdinaryFile) {
  ArchiveStore into = store("into");
  EXPECT_THROW(read_bundle(into, (scratch.path() / "none").string()), BundleFault);
  EXPECT_THROW(read_bundle(into, scratch.path().string()), BundleFault);
  EXPECT_THROW(read_bundle(into, "/dev/zero"), BundleFault);
}

/// Any byte of a bundle changed: the same entries come in, or nothing does.
void spoil(ArchiveStore& first, const std::string& good, const fs::path& folder, int rounds) {
  std::mt19937 draw(11);
  int harmless = 0;
  int refusals = 0;
  for (int round = 0; round < rounds; ++round) {
    std::string text = good;
    const std::size_t at = std::uniform_int_distribution<std::size_t>(0, text.size() - 1)(draw);
    switch (round % 3) {
    case 0:
      text[at] = static_cast<char>(std::uniform_int_distribution<>(0, 255)(draw));
      break;
    case 1:
      text.erase(at, std::uniform_int_distribution<std::size_t>(1, 200)(draw));
      break;
    default:
      text.insert(at, text, std::uniform_int_distribution<std::size_t>(0, at)(draw), 100);
    }
    write_file(folder / "spoilt.yaml", text);
    fs::remove(folder / "into");
    ArchiveStore into((folder / "into").string(), ArchiveUse::write);
    try {
      read_bundle(into, (folder / "spoilt.yaml").string());
      ++harmless;
      EXPECT_TRUE(into.end() == first.end() ||
                  text.find("\nend: ") == std::string::npos) // told to be part of an archive
          << "changed at " << at;
    } catch (const BundleFault&) {
      ++refusals;
      EXPECT_EQ(into.end().id, 0);
    }
    EXPECT_TRUE(audit(into).clean());
  }
  EXPECT_GT(refusals, rounds / 2);
  EXPECT_LT(harmless, rounds / 2);
}

TEST_F(ArchiveBundle, SpoiltAnywhereIsRefusedOrHarmless) {
  ArchiveStore first = store("first");
  fill(first);
  spoil(first, bundle_of(first), scratch.path(), 40);
}
using LongArchiveBundle = ArchiveBundle;
TEST_F(LongArchiveBundle, SpoiltAnywhereIsRefusedOrHarmless) {
  ArchiveStore first = store("first");
  fill(first);
  spoil(first, bundle_of(first), scratch.path(), 1000);
}

} // namespace
} // namespace shankline::tests::archive_bundle_test
