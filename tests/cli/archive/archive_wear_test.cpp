// Tests the state of a pair by its notes, and that such notes are kept by every store, in bundles,
// moves and the outbox, seen by every bench, and gone when the dancer is forgotten.
#include "cli/archive/archive_wear.hpp"

#include "cli/archive/archive_audit.hpp"
#include "cli/archive/archive_bundle.hpp"
#include "cli/archive/archive_chain.hpp"
#include "cli/archive/archive_json.hpp"
#include "cli/archive/archive_move.hpp"
#include "cli/archive/archive_outbox.hpp"
#include "cli/archive/archive_store.hpp"
#include "cli/archive/archive_tries.hpp"
#include "tests/cli/archive_on_server.hpp"
#include "tests/cli/random_archive.hpp"
#include "tests/support/scratch_directory.hpp"

#include <gtest/gtest.h>

namespace shankline::tests::archive_wear_test {
namespace {

ArchiveEntry note_on(const EntryHead& cut, const std::string& day, const Outcome& outcome) {
  ArchiveEntry entry = random_note(cut, 1);
  entry.head.date = day;
  entry.head.outcome = outcome_json(outcome);
  return entry;
}

Outcome worn(double hours, const std::string& foot = "both", bool wet = false) {
  Outcome outcome;
  outcome.foot = foot;
  outcome.hours = hours;
  outcome.wet = wet;
  return outcome;
}
Outcome marked(const std::string& mark) {
  Outcome outcome;
  outcome.foot = "both";
  outcome.mark = mark;
  return outcome;
}
Outcome ended(const std::string& why) {
  Outcome outcome;
  outcome.foot = "both";
  outcome.ended = why;
  return outcome;
}

Outcome seen(const std::string& word) {
  Outcome outcome;
  outcome.foot = "left";
  outcome.seen = word;
  outcome.cut_off = 52.5;
  return outcome;
}

using Said = std::vector<std::pair<std::string, Outcome>>;

PairWear wear_after(const Said& said) {
  const EntryHead cut = random_cut("M-07", 1).head;
  std::vector<EntryHead> notes;
  for (const auto& [day, outcome] : said) {
    notes.push_back(note_on(cut, day, outcome).head);
    notes.back().id = static_cast<EntryId>(notes.size()) + 1;
    notes.back().digest = "note " + std::to_string(notes.size());
  }
  return wear_of(notes);
}

TEST(ArchiveWear, AnOutcomeIsKeptWithEverythingThatWasSaidOfIt) {
  Outcome all = worn(1.5, "left", true);
  all.where = "stage";
  all.done = {"water on the vamp", "two stitches at the wing"};
  all.ended = "box";
  all.mark = "in-use";
  all.kept_for = "stage";
  EntryHead note;
  note.outcome = outcome_json(all);
  EXPECT_EQ(outcome_of(note), all);
  EXPECT_EQ(outcome_words(all),
            "left, 1.5 h, at stage, wet, water on the vamp, two stitches at the "
            "wing, done: box, in use, kept for stage");
  EXPECT_FALSE(says_nothing(all));
  note.outcome = R"({"done":"text","wet":"yes","where":3})"; // of another program
  EXPECT_EQ(outcome_of(note), Outcome{});
}

TEST(ArchiveWear, AddsHoursFootByFoot) {
  const PairWear wear = wear_after({{"2026-03-02", worn(2)},
                                    {"2026-03-05", worn(1.5, "left")},
                                    {"2026-03-01", worn(1, "right", true)},
                                    {"2026-03-03", worn(0.5, "")}}); // of a version without feet
  EXPECT_DOUBLE_EQ(wear.left_hours, 4);
  EXPECT_DOUBLE_EQ(wear.right_hours, 3.5);
  EXPECT_DOUBLE_EQ(wear.hours(), 4);
  EXPECT_EQ(wear.wears, 4);
  EXPECT_EQ(wear.first_worn, "2026-03-01");
  EXPECT_EQ(wear.last_worn, "2026-03-05");
  EXPECT_FALSE(wear.last_wet);
  // Two wears of the last day, one of them wet.
  EXPECT_TRUE(
      wear_after({{"2026-03-05", worn(1, "both", true)}, {"2026-03-05", worn(1)}}).last_wet);
  EXPECT_FALSE(
      wear_after({{"2026-03-04", worn(1, "both", true)}, {"2026-03-05", worn(1)}}).last_wet);
}

TEST(ArchiveWear, APairThatWasTriedIsThere) {
  const PairWear tried = wear_after({{"2026-03-01", marked("sent")},
                                     {"2026-03-07", seen("good")},
                                     {"2026-03-05", seen("too-low")}});
  EXPECT_EQ(tried.state(), PairState::received);
  EXPECT_TRUE(tried.is_wearable());
  EXPECT_EQ(tried.tried, "2026-03-05");
  EXPECT_EQ(tried.received, "") << "it may have come days before";
  // The line of another, worn pair was copied to this one's order: this one is not there yet.
  Outcome copied = seen("good");
  copied.copied_U = 2;
  EXPECT_EQ(wear_after({{"2026-03-05", copied}}).state(), PairState::saved);
  EXPECT_EQ(
      wear_after({{"2026-03-05", marked("refused")}, {"2026-03-07", seen("too-low")}}).state(),
      PairState::refused);
  EXPECT_EQ(wear_after({{"2026-03-05", ended("box")}, {"2026-03-04", seen("good")}}).state(),
            PairState::ended);
}

TEST(ArchiveWear, AWithdrawnNoteCountsForNothing) {
  const EntryHead cut = random_cut("M-07", 1).head;
  EntryHead note = note_on(cut, "2026-03-02", worn(2)).head;
  note.id = 2;
  note.digest = "first";
  Outcome back;
  back.withdraws = "first";
  EntryHead withdrawing = note_on(cut, "2026-03-03", back).head;
  withdrawing.id = 3;
  withdrawing.digest = "second";
  EXPECT_EQ(wear_of({note, withdrawing}).wears, 0);
  EXPECT_EQ(wear_of({note, withdrawing}).state(), PairState::saved);
  EXPECT_EQ(wear_of({note}).state(), PairState::in_use);
}

TEST(ArchiveWear, AStateFollowsFromWhatWasSaidLast) {
  EXPECT_EQ(wear_after({}).state(), PairState::saved);
  Said said{{"2026-03-01", marked("sent")}};
  EXPECT_EQ(wear_after(said).state(), PairState::ordered);
  EXPECT_FALSE(wear_after(said).is_wearable());
  said.push_back({"2026-04-01", marked("received")});
  EXPECT_EQ(wear_after(said).state(), PairState::received);
  EXPECT_TRUE(wear_after(said).is_wearable());
  said.push_back({"2026-04-02", marked("refused")});
  EXPECT_EQ(wear_after(said).state(), PairState::refused);
  EXPECT_FALSE(wear_after(said).is_wearable());
  said.push_back({"2026-05-01", marked("accepted")}); // mended and sent again
  EXPECT_EQ(wear_after(said).state(), PairState::accepted);
  EXPECT_TRUE(wear_after(said).is_wearable());
  said.push_back({"2026-05-02", worn(1)});
  EXPECT_EQ(wear_after(said).state(), PairState::in_use);
  said.push_back({"2026-05-09", ended("board")});
  EXPECT_EQ(wear_after(said).state(), PairState::ended);
  EXPECT_FALSE(wear_after(said).is_wearable());
  EXPECT_EQ(wear_after(said).why_ended, "board");
  EXPECT_EQ(wear_after(said).day_of_mark("received"), "2026-04-01");
  EXPECT_THROW(wear_after(said).day_of_mark("lost"), std::invalid_argument);
  EXPECT_EQ(wear_after({{"2026-03-01", marked("in-use")}}).state(), PairState::in_use);
  // The free words of an older note end a pair too.
  EXPECT_EQ(wear_after({{"2026-03-01", ended("broke at the bevel")}}).state(), PairState::ended);
}

// Another program may have written such a note.
TEST(ArchiveWear, AnUnknownStepIsNoStep) {
  EXPECT_EQ(wear_after({{"2026-03-01", marked("eaten")}}).state(), PairState::saved);
}

/// The hours, state and words of the first cut.
std::string said_of(Store& store) {
  const PairWear wear = wear_of(notes_about(store, *store.head(1)));
  std::string words = std::to_string(wear.left_hours) + " " +
                      std::string(state_name(wear.state())) + " " + wear.last_worn +
                      (wear.last_wet ? " wet" : "") + " " + wear.kept_for;
  for (const std::string& done : wear.done)
    words += ", " + done;
  return words;
}

void add_wear(Store& store) {
  const EntryHead cut = store.add(random_cut("M-07", 1));
  Outcome one = worn(2.5, "both", true);
  one.where = "stage";
  one.done = {"water on the vamp"};
  Outcome stage;
  stage.foot = "both";
  stage.kept_for = "stage";
  store.add(note_on(cut, "2026-03-02", marked("received")));
  store.add(note_on(cut, "2026-03-05", one));
  store.add(note_on(cut, "2026-03-05", stage));
}
const std::string expected = "2.500000 in use 2026-03-05 wet stage, 2026-03-05 water on the vamp";

void expect_carried_and_forgotten(Store& store) {
  add_wear(store);
  EXPECT_EQ(said_of(store), expected);
  ScratchDirectory scratch;
  std::string bundle;
  write_bundle(store, "", [&](std::string_view piece) { bundle += piece; });
  const std::string file = (scratch.path() / "bundle.yaml").string();
  write_file(file, bundle);
  ArchiveStore imported((scratch.path() / "imported").string(), ArchiveUse::write);
  EXPECT_EQ(read_bundle(imported, file).added, 4u);
  EXPECT_EQ(said_of(imported), expected);
  ArchiveStore moved((scratch.path() / "moved").string(), ArchiveUse::write);
  EXPECT_EQ(move_archive(store, "here", moved, "there").added, 4);
  EXPECT_EQ(said_of(moved), expected);
  EXPECT_TRUE(audit(store).clean());
  EXPECT_EQ(store.forget("M-07", "2026-05-01T00:00:00Z", "0.2.0"), 4u);
  bundle.clear();
  write_bundle(store, "", [&](std::string_view piece) { bundle += piece; });
  for (const char* word : {"M-07", "water on the vamp", "kept_for", "received", "hours"})
    EXPECT_EQ(bundle.find(word), std::string::npos) << word;
  EXPECT_TRUE(audit(store).clean());
}

TEST(ArchiveWear, AFileKeepsCarriesAndForgetsIt) {
  ScratchDirectory scratch;
  ArchiveStore store((scratch.path() / "archive").string(), ArchiveUse::write);
  expect_carried_and_forgotten(store);
}

TEST(ArchiveWear, AServerKeepsCarriesAndForgetsIt) {
  const PreparedDatabase database;
  expect_carried_and_forgotten(*database.open());
}

TEST(ArchiveWear, EveryBenchSeesHoursAndStatesAndNotAnothersFreeWords) {
  const PreparedDatabase database;
  const std::string anna = database.new_role("bench"), berta = database.new_role("bench");
  {
    const auto of_anna = database.open(anna);
    const EntryHead cut = of_anna->add(random_cut("M-07", 1));
    Outcome plain = worn(2.5, "both", true);
    plain.where = "stage";
    of_anna->add(note_on(cut, "2026-03-05", plain));              // 2
    of_anna->add(note_on(cut, "2026-03-06", marked("received"))); // 3
    of_anna->add(note_on(cut, "2026-03-07", ended("box")));       // 4
    Outcome words = worn(1);
    words.done = {"what she told me"};
    of_anna->add(note_on(cut, "2026-03-07", words));                  // 5
    of_anna->add(note_on(cut, "2026-03-07", ended("it fell apart"))); // 6
    Outcome hall = worn(1);
    hall.where = "the hall of somebody";
    of_anna->add(note_on(cut, "2026-03-08", hall));             // 7
    of_anna->add(note_on(cut, "2026-03-08", marked("a word"))); // 8
  }
  const auto of_berta = database.open(berta, ArchiveUse::read);
  for (const EntryId open : {2, 3, 4})
    EXPECT_FALSE(of_berta->head(open)->withheld) << open;
  for (const EntryId kept_back : {5, 6, 7, 8})
    EXPECT_TRUE(of_berta->head(kept_back)->withheld) << kept_back;
  EXPECT_EQ(outcome_of(*of_berta->head(2)).where, "stage");
  EXPECT_TRUE(outcome_of(*of_berta->head(2)).wet);
  EXPECT_EQ(outcome_of(*of_berta->head(3)).mark, "received");
  EXPECT_EQ(outcome_of(*of_berta->head(4)).ended, "box");
  EXPECT_EQ(outcome_of(*of_berta->head(5)).hours, 1);
  EXPECT_TRUE(outcome_of(*of_berta->head(5)).done.empty());
  EXPECT_EQ(outcome_of(*of_berta->head(6)).ended, "other") << "that it is done is for all to know";
  EXPECT_EQ(outcome_of(*of_berta->head(7)).where, "");
  EXPECT_EQ(outcome_of(*of_berta->head(7)).hours, 1);
  EXPECT_EQ(outcome_of(*of_berta->head(8)).mark, "");
  EXPECT_TRUE(audit(*of_berta).clean());
}

TEST(ArchiveWear, WhatWaitsInTheOutboxArrivesWhole) {
  const PreparedDatabase database;
  const auto store = database.open();
  const EntryHead cut = store->add(random_cut("M-07", 1));
  ScratchDirectory scratch;
  const std::string address = database.address();
  Outbox outbox(address);
  ArchiveEntry wear = note_on(cut, "2026-03-05", worn(2.5, "both", true));
  complete(wear);
  outbox.keep(wear);
  EXPECT_EQ(outbox.send(*store).delivered, 1u);
  EXPECT_EQ(said_of(*store), "2.500000 in use 2026-03-05 wet ");
}

} // namespace
} // namespace shankline::tests::archive_wear_test
