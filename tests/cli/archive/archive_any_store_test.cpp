// Every store of the archive keeps the same promises; tried through the interface alone. A new
// store joins the list at the end with a type that makes it.
#include "cli/archive/archive_any_store.hpp"
#include "cli/archive/archive_audit.hpp"
#include "cli/archive/archive_bundle.hpp"
#include "cli/archive/archive_chain.hpp"
#include "cli/archive/archive_move.hpp"
#include "cli/archive/archive_store.hpp"
#include "cli/archive/archive_tries.hpp"

#include "tests/cli/archive_on_server.hpp"
#include "tests/cli/random_archive.hpp"
#include "tests/cli/tried_pairs.hpp"
#include "tests/support/scratch_directory.hpp"

#include <gtest/gtest.h>
#include <memory>

namespace shankline::tests::archive_any_store_test {
namespace {

using namespace tests;

constexpr const char* later = "2026-05-01T00:00:00Z";

/// An archive in a file. Each one that is made is another archive.
class InAFile {
public:
  /// Opens it as one more program would; made if it is not there.
  std::unique_ptr<Store> open() const {
    return std::make_unique<ArchiveStore>((scratch_.path() / "archive").string(),
                                          ArchiveUse::write);
  }

private:
  ScratchDirectory scratch_;
};

/// An archive in a database of a server, which is started for it.
class InADatabase {
public:
  std::unique_ptr<Store> open() const { return database_.open(); }

private:
  PreparedDatabase database_;
};

template <class Kind> class EveryStore : public testing::Test {
protected:
  std::vector<EntryHead> filled() {
    std::vector<EntryHead> saved;
    for (int n = 1; n <= 3; ++n)
      for (const char* dancer : {"M-07", "K-12"}) {
        saved.push_back(store->add(random_cut(dancer, n)));
        if (n == 2) saved.push_back(store->add(random_note(saved.back(), n)));
      }
    return saved;
  }
  static std::vector<EntryId> ids(const std::vector<EntryHead>& heads) {
    std::vector<EntryId> all;
    for (const EntryHead& head : heads)
      all.push_back(head.id);
    return all;
  }
  static std::string bundle_of(Store& of) {
    std::string text;
    write_bundle(of, {}, [&text](std::string_view piece) { text += piece; });
    return text;
  }

  Kind place;
  std::unique_ptr<Store> store = place.open();
};

using Kinds = testing::Types<InAFile, InADatabase>;
TYPED_TEST_SUITE(EveryStore, Kinds);

TYPED_TEST(EveryStore, BeginsEmpty) {
  EXPECT_EQ(this->store->end(), (ChainEnd{0, chain_start()}));
  EXPECT_TRUE(this->store->older(newest, 10).empty());
  EXPECT_FALSE(this->store->head(1));
  EXPECT_EQ(this->store->dancers(), 0u);
  EXPECT_TRUE(audit(*this->store).clean());
}

TYPED_TEST(EveryStore, KeepsWhatItWasGiven) {
  const std::vector<EntryHead> saved = this->filled();
  const auto other = this->place.open();
  ASSERT_EQ(saved.size(), 8u);
  for (std::size_t i = 0; i < saved.size(); ++i) {
    EXPECT_EQ(saved[i].id, static_cast<EntryId>(i) + 1);
    const auto head = other->head(saved[i].id);
    ASSERT_TRUE(head);
    EXPECT_EQ(*head, saved[i]);
  }
  EXPECT_EQ(other->body(saved[0]), random_cut("M-07", 1).body);
  EXPECT_FALSE(other->head(9));
  EXPECT_EQ(other->counted("M-07"), 4);
  EXPECT_EQ(other->counted("nobody"), 0);
  EXPECT_EQ(other->newest_of("K-12")->turn, 4);
  EXPECT_FALSE(other->newest_of("nobody"));
  EXPECT_TRUE(audit(*other).clean());
}

TYPED_TEST(EveryStore, TiesEntriesIntoAChain) {
  std::vector<ArchiveEntry> entries{random_cut("M-07", 1), random_cut("K-12", 1)};
  const auto heads = this->store->add(entries);
  ASSERT_EQ(heads.size(), 2u);
  EXPECT_EQ(heads[0].before, chain_start());
  EXPECT_EQ(heads[1].before, chain_hash(heads[0].before, heads[0].digest));
  EXPECT_EQ(this->store->end(), (ChainEnd{2, chain_hash(heads[1].before, heads[1].digest)}));
  EXPECT_NE(heads[0].salt, heads[1].salt);
}

TYPED_TEST(EveryStore, PagesMeet) {
  const std::vector<EntryHead> saved = this->filled();
  EXPECT_EQ(this->ids(this->store->older(newest, 3)), (std::vector<EntryId>{8, 7, 6}));
  EXPECT_EQ(this->ids(this->store->older(6, 3)), (std::vector<EntryId>{5, 4, 3}));
  EXPECT_EQ(this->ids(this->store->older(3, 3)), (std::vector<EntryId>{2, 1}));
  EXPECT_EQ(this->ids(this->store->older_of("M-07", newest, 3)), (std::vector<EntryId>{7, 4, 3}));
  EXPECT_EQ(this->ids(this->store->older_of("M-07", 2, 3)), (std::vector<EntryId>{1}));
}

TYPED_TEST(EveryStore, AddsAllOrNothing) {
  this->filled();
  const ChainEnd before = this->store->end();
  EntryHead nobody;
  nobody.dancer = "nobody";
  EXPECT_THROW(
      this->store->add(std::vector<ArchiveEntry>{random_cut("M-07", 9), random_note(nobody, 1)}),
      ArchiveFault);
  int given = 0;
  EXPECT_THROW(this->store->add_missing([&]() -> std::optional<ArchiveEntry> {
    if (++given == 2) throw BundleFault("spoilt");
    ArchiveEntry entry = random_cut("N-01", 1);
    entry.head.salt = std::string(32, 'a');
    seal(entry);
    return entry;
  }),
               BundleFault);
  EXPECT_EQ(this->store->end(), before);
  EXPECT_EQ(this->place.open()->end(), before);
}

TYPED_TEST(EveryStore, ReadsSteadilyWhileOthersSave) {
  this->filled();
  const auto other = this->place.open();
  this->store->with_snapshot([&] {
    EXPECT_EQ(this->store->end().id, 8);
    other->add(random_cut("M-07", 9));
    EXPECT_EQ(this->store->end().id, 8);
    EXPECT_EQ(this->store->older(newest, 1).front().id, 8);
  });
  EXPECT_EQ(this->store->end().id, 9);
}

TYPED_TEST(EveryStore, ForgetsADancerForGood) {
  this->filled();
  EXPECT_EQ(this->store->forget("K-12", later, "0.2.0"), 4u);
  EXPECT_EQ(this->store->forget("K-12", later, "0.2.0"), 0u);
  EXPECT_FALSE(this->store->is_to_clean());
  EXPECT_EQ(this->store->counted("K-12"), 0);
  EXPECT_EQ(this->store->dancers(), 1u);
  EXPECT_EQ(this->store->end().id, 9);
  EXPECT_EQ(this->store->head(2)->kind, EntryKind::forgotten);
  EXPECT_EQ(this->store->head(9)->kind, EntryKind::forgetting);
  const Audit found = audit(*this->store);
  EXPECT_TRUE(found.clean());
  EXPECT_EQ(found.forgotten, 4u);
  EXPECT_EQ(this->bundle_of(*this->store).find("K-12"), std::string::npos);
}

TYPED_TEST(EveryStore, BundlesGoInAndOut) {
  this->filled();
  this->store->forget("K-12", later, "0.2.0");
  const std::string bundle = this->bundle_of(*this->store);
  ScratchDirectory scratch;
  const std::string file = (scratch.path() / "bundle.yaml").string();
  write_file(file, bundle);
  const TypeParam elsewhere;
  const auto other = elsewhere.open();
  EXPECT_EQ(read_bundle(*other, file).added, 9u);
  EXPECT_EQ(this->bundle_of(*other), bundle);
  EXPECT_EQ(other->end(), this->store->end());
  EXPECT_EQ(read_bundle(*other, file).present, 9u);
}

TYPED_TEST(EveryStore, KeepsTriesCarriesThemAndForgetsThem) {
  const EntryHead cut = this->store->add(tried_cut());
  std::vector<ArchiveEntry> two{tried(cut, {52, "too-low", false, "R2"}), tried(cut, {55, "good"})};
  ASSERT_EQ(this->store->add(two).size(), 2u);
  const auto said = [&](Store& of) { return boards_words(notes_about(of, *of.head(1))); };
  EXPECT_EQ(said(*this->store), "left board 55.0 off, seen good");
  EXPECT_EQ(tries_of(notes_about(*this->store, cut)).front().by, "R2");
  // Several at once are kept all or not at all.
  EntryHead nobody = cut;
  nobody.dancer = "nobody";
  std::vector<ArchiveEntry> spoilt{tried(cut, {58, "good"}), tried(nobody, {58, "good"})};
  EXPECT_THROW(this->store->add(spoilt), ArchiveFault);
  EXPECT_EQ(said(*this->store), "left board 55.0 off, seen good");
  // In a bundle, and in a move to another archive.
  ScratchDirectory scratch;
  const std::string file = (scratch.path() / "bundle.yaml").string();
  write_file(file, this->bundle_of(*this->store));
  const TypeParam elsewhere;
  const auto imported = elsewhere.open();
  EXPECT_EQ(read_bundle(*imported, file).added, 3u);
  EXPECT_EQ(said(*imported), "left board 55.0 off, seen good");
  ArchiveStore moved((scratch.path() / "moved").string(), ArchiveUse::write);
  EXPECT_EQ(move_archive(*this->store, "here", moved, "there").added, 3);
  EXPECT_EQ(said(moved), "left board 55.0 off, seen good");
  EXPECT_TRUE(audit(*this->store).clean());
  EXPECT_EQ(this->store->forget("M-07", later, "0.2.0"), 3u);
  const std::string left = this->bundle_of(*this->store);
  for (const char* word : {"M-07", "cut_off", "too-low", "R2"})
    EXPECT_EQ(left.find(word), std::string::npos) << word;
  EXPECT_TRUE(audit(*this->store).clean());
}

TYPED_TEST(EveryStore, ChainPassesThroughAnEndThatWasNoted) {
  this->filled();
  const std::string known = this->store->end().hash;
  this->store->add(random_cut("M-07", 9));
  EXPECT_TRUE(audit(*this->store, known).clean());
  EXPECT_FALSE(audit(*this->store, std::string(64, '1')).clean());
}

TYPED_TEST(EveryStore, CopiesItselfIntoAFile) {
  this->filled();
  ScratchDirectory scratch;
  const std::string file = (scratch.path() / "copy").string();
  this->store->copy_to(file);
  EXPECT_THROW(this->store->copy_to(file), ArchiveFault);
  ArchiveStore copy(file, ArchiveUse::read);
  EXPECT_EQ(copy.end(), this->store->end());
  EXPECT_TRUE(audit(copy).clean());
}

} // namespace
} // namespace shankline::tests::archive_any_store_test
