// Cuts of an invented bench and the tries on them, as entries of an archive.
#pragma once

#include "cli/archive/archive_chain.hpp"
#include "cli/archive/archive_entry.hpp"
#include "cli/archive/archive_json.hpp"

#include <string>

namespace shankline::tests {

struct CutWords {
  std::string dancer = "M-07";
  std::string pair = "first pair";
  std::string date = "2026-03-14";
  std::string heel_front = "61";
  std::string read_by = "R2";
  std::string pose = "pointed";
  std::string rule = "reach: edge";
  std::string style = {};
};

/// An order of one left foot. Pointed, its board's stations lie 1 ahead of the foot's (fold 6,
/// inset 5): a board with 56 cut off ends 55 from the back of the heel.
inline ArchiveEntry tried_cut(const CutWords& words = {}) {
  ArchiveEntry entry;
  EntryHead& head = entry.head;
  head.saved = "2026-03-14T09:26:53Z";
  head.program = "0.2.0";
  head.dancer = words.dancer;
  head.pair = words.pair;
  head.date = words.date;
  head.alterations = "shank";
  head.summary = "left 62.0 off";
  entry.body.order = "format: shankline-order/1\ndancer: " + words.dancer +
                     "\npair: " + words.pair + "\ndate: " + words.date + "\npose: " + words.pose +
                     "\nread_by: " + words.read_by +
                     "\nfeet:\n  left: {length: 238, heel_front: " + words.heel_front +
                     ", arch_break: 95, fold: 6}\nshoe:\n  board: {state: loose, length: 220, "
                     "inset: 5, widths: [[22, 45], [96, 33], [164, 56]]}" +
                     (words.style.empty() ? "" : "\n  style: " + words.style) +
                     "\nalterations: {shank: {" + words.rule + "}}\n";
  entry.body.options = "{}\n";
  entry.body.solution = R"({"format":"shankline-solution/1","feet":{"left":{"trim":{"board":{)"
                        R"("witness":100.0,"final":{"medial":62.0,"centre":62.0,"lateral":62.0},)"
                        R"("U_right":12.4}},"contact":{"cut":{"gap":3.0,"break":61.0}}},)"
                        R"("right":null}})";
  entry.body.drawing = "drawn";
  entry.body.sheets = std::string(64, 'a');
  // One salt for all, so that equal words make equal entries.
  head.salt = std::string(32, 'a');
  seal(entry);
  return entry;
}

struct TryWords {
  double cut_off = 56;
  std::string seen = "too-low";
  bool worn = false;
  std::string by = {};
  std::string date = "2026-03-15";
};

inline ArchiveEntry noted(const EntryHead& cut, const Outcome& outcome,
                          const std::string& date = "2026-03-15") {
  ArchiveEntry entry;
  EntryHead& head = entry.head;
  head.kind = EntryKind::note;
  head.saved = "2026-03-20T09:26:53Z";
  head.program = "0.2.0";
  head.dancer = cut.dancer;
  head.date = date;
  head.about = cut.digest;
  head.outcome = outcome_json(outcome);
  head.salt = std::string(32, 'b');
  seal(entry);
  return entry;
}

inline ArchiveEntry tried(const EntryHead& cut, const TryWords& words) {
  Outcome outcome;
  outcome.foot = "left";
  outcome.cut_off = words.cut_off;
  outcome.seen = words.seen;
  outcome.worn = words.worn;
  outcome.by = words.by;
  return noted(cut, outcome, words.date);
}

} // namespace shankline::tests
