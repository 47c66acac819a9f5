// Tries read out of notes: which count, in which order, and where a board ends by them.
#include "cli/archive/archive_tries.hpp"

#include "cli/archive/archive_json.hpp"
#include "cli/archive/archive_outcome.hpp"

#include "tests/cli/tried_pairs.hpp"

#include <gtest/gtest.h>

namespace shankline::tests::archive_tries_test {
namespace {

std::vector<EntryHead> heads(const std::vector<ArchiveEntry>& entries) {
  std::vector<EntryHead> all;
  for (const ArchiveEntry& entry : entries)
    all.push_back(entry.head);
  return all;
}

TEST(ArchiveTries, OutcomeIsReadBackAsItWasWritten) {
  Outcome outcome;
  outcome.foot = "right";
  outcome.seen = "cut-too-far";
  outcome.cut_off = 58.5;
  outcome.copied_U = 4.4;
  outcome.worn = true;
  outcome.by = "T-4";
  outcome.break_at = 61;
  outcome.gap = 1.5;
  outcome.words = "as before";
  outcome.withdraws = std::string(64, 'c');
  EntryHead note;
  note.outcome = outcome_json(outcome);
  EXPECT_EQ(outcome_of(note), outcome);
  note.outcome = outcome_json({});
  EXPECT_EQ(note.outcome, "{}");
  EXPECT_EQ(outcome_of(note), Outcome{});
}

TEST(ArchiveTries, ComeAsTheBoardGotShorter) {
  const EntryHead cut = tried_cut().head;
  // Typed in late and out of order.
  const auto notes = heads({tried(cut, {58, "good", true, "", "2026-03-20"}),
                            tried(cut, {58, "good", false, "T-4", "2026-03-18"}),
                            tried(cut, {52, "too-low"}), tried(cut, {55, "too-far-back"})});
  const std::vector<RecordedTry> tries = tries_of(notes);
  ASSERT_EQ(tries.size(), 4u);
  EXPECT_EQ(tries[0].cut_off, 52);
  EXPECT_EQ(tries[0].seen, Seen::low);
  EXPECT_EQ(tries[1].seen, Seen::too_far_back);
  EXPECT_FALSE(tries[2].worn);
  EXPECT_EQ(tries[2].by, "T-4");
  EXPECT_EQ(tries[2].day, "2026-03-18");
  EXPECT_TRUE(tries[3].worn);
  EXPECT_EQ(board_end(notes, FootSide::left), 58.0);
  EXPECT_FALSE(board_end(notes, FootSide::right));
  EXPECT_EQ(boards_words(notes), "left board 58.0 off, seen good after wear");
}

TEST(ArchiveTries, ALaterPainOverrulesAGoodAfterWear) {
  const EntryHead cut = tried_cut().head;
  const auto last = [&cut](const std::string& good_on, const std::string& pain_on) {
    return tries_of(heads({tried(cut, {58, "pain", false, "", pain_on}),
                           tried(cut, {58, "good", true, "", good_on})}))
        .back()
        .seen;
  };
  EXPECT_EQ(last("2026-03-20", "2026-03-21"), Seen::pain);
  EXPECT_EQ(last("2026-03-20", "2026-03-19"), Seen::right) << "good again since";
  // On one day, what was typed in later.
  auto notes = heads({tried(cut, {58, "pain", false, "", "2026-03-20"}),
                      tried(cut, {58, "good", true, "", "2026-03-20"})});
  EXPECT_EQ(boards_words(notes), "left board 58.0 off, seen good after wear");
  notes[0].saved = "2026-03-20T18:00:00Z";
  notes[1].saved = "2026-03-20T17:00:00Z";
  EXPECT_EQ(boards_words(notes), "left board 58.0 off, seen pain");
}

TEST(ArchiveTries, AStopStandsUntilALaterTryIsGood) {
  const EntryHead cut = tried_cut().head;
  const auto stop = [](const std::vector<ArchiveEntry>& notes) {
    const auto found = stop_on_record(heads(notes), FootSide::left);
    return found ? found->cut_off : 0;
  };
  EXPECT_EQ(stop({tried(cut, {54, "too-low"}), tried(cut, {57, "good"})}), 0);
  EXPECT_EQ(stop({tried(cut, {54, "cut-too-far"})}), 54);
  EXPECT_EQ(stop({tried(cut, {54, "rolls-over"}), tried(cut, {57, "too-low"})}), 54)
      << "too low takes nothing back";
  EXPECT_EQ(stop({tried(cut, {54, "pain"}), tried(cut, {55, "pain"})}), 55) << "the last one";
  EXPECT_EQ(stop({tried(cut, {54, "pain"}), tried(cut, {57, "good"})}), 0);
  EXPECT_EQ(stop({tried(cut, {54, "good"}), tried(cut, {57, "pain"})}), 57);
  EXPECT_FALSE(stop_on_record(heads({tried(cut, {54, "pain"})}), FootSide::right));
}

TEST(ArchiveTries, WhatIsCutOffLaterCountsAndACopiedPairDoesNot) {
  const EntryHead cut = tried_cut().head;
  Outcome further; // the note that says "3 more cut off" has its end worked out
  further.foot = "left";
  further.further = 3;
  further.cut_off = 61;
  Outcome copied;
  copied.foot = "left";
  copied.seen = "good";
  copied.cut_off = 66;
  copied.copied_U = 4;
  const auto notes = heads({tried(cut, {58}), noted(cut, further), noted(cut, copied)});
  EXPECT_EQ(board_end(notes, FootSide::left), 61.0);
  EXPECT_EQ(boards_words(notes), "left board 61.0 off");
  EXPECT_EQ(tries_of(notes).size(), 2u);
}

TEST(ArchiveTries, WithdrawnNotesAndNotesOfTheEarlierFormatAreNone) {
  const EntryHead cut = tried_cut().head;
  const ArchiveEntry wrong = tried(cut, {60, "cut-too-far"});
  Outcome withdrawal;
  withdrawal.withdraws = wrong.head.digest;
  Outcome footless;
  footless.seen = "good";
  const auto notes = heads({tried(cut, {52}), wrong, noted(cut, withdrawal), noted(cut, footless)});
  EXPECT_EQ(tries_of(notes).size(), 1u);
  EXPECT_EQ(board_end(notes, FootSide::left), 52.0);
  EXPECT_EQ(standing_notes(notes).size(), 2u);
}

TEST(ArchiveTries, SavedSolutionSaysWhichBoardsAreCut) {
  const SavedCut cut = saved_cut(tried_cut().body.solution);
  ASSERT_TRUE(cut.left && cut.left->board);
  EXPECT_FALSE(cut.right);
  EXPECT_FALSE(cut.two_feet());
  EXPECT_EQ(cut.left->board->witness, 100);
  EXPECT_EQ(cut.left->board->final_cut, 62);
  EXPECT_EQ(cut.left->board->right_U, 12.4);
  EXPECT_EQ(cut.left->gap, 3.0);
  const SavedCut uncut = saved_cut(R"({"feet":{"left":{"trim":null},"right":{"trim":null}}})");
  EXPECT_TRUE(uncut.two_feet());
  EXPECT_FALSE(uncut.left->board);
  for (const char* spoilt : {"", "null", "[]", "{", R"({"feet":7})", R"({"feet":{"left":3}})"})
    EXPECT_FALSE(saved_cut(spoilt).left) << spoilt;
}

} // namespace
} // namespace shankline::tests::archive_tries_test
