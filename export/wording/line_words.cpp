#include "export/wording/line_words.hpp"

#include "geometry/order/figure.hpp"

namespace shankline {

bool is_skew(const CutLine& cut) {
  const std::string centre = ruler_text(cut.centre, Rounding::down);
  return ruler_text(cut.medial, Rounding::down) != centre ||
         ruler_text(cut.lateral, Rounding::down) != centre;
}

std::string line_words(const CutLine& cut, Units units, Rounding rounding) {
  std::string centre = length_text(cut.centre, units, rounding);
  if (!is_skew(cut)) return centre;
  return "big-toe edge " + length_text(cut.medial, units, rounding) + ", centre " + centre +
         ", little-toe edge " + length_text(cut.lateral, units, rounding);
}

std::string at_centre_words(const CutLine& cut) {
  return is_skew(cut) ? ", centre" : "";
}

std::string stop_words(const SolvedTrim& trim, Units units) {
  return "cut nothing beyond " + line_words(trim.stop_from, units) + "; the stop line is at " +
         doubted_text(trim.stop.centre, trim.doubt.stop.expanded(), units, Rounding::down) +
         at_centre_words(trim.stop);
}

std::string final_doubt_words(const SolvedTrim& trim, Units units) {
  return doubt_text(trim.final_doubt().expanded(), units);
}

std::string right_place_words(const SolvedTrim& trim, Units units) {
  std::string words = trim.learned ? learned_words(*trim.learned, units) + ", " : std::string();
  words += "known to " + doubt_text(trim.right_U, units) + " at 95 %, an estimate";
  if (trim.first_cut)
    words += ": the first cut stays " + length_text(shown_hold_back(trim), units) + " short";
  return words;
}

std::string learned_words(const LearnedLine& line, Units units) {
  return "learned from " + std::to_string(line.pairs) + (line.pairs == 1 ? " pair" : " pairs") +
         " until " + line.until +
         (line.too_far ? " (" + length_text(*line.too_far, units) + " from the heel was too far)"
                       : std::string());
}

std::string readings_alone_words(const SolvedTrim& trim, Units units) {
  const Uncertain& heel_front = trim.doubt.heel_front_line;
  return "reach edge, " +
         doubted_text(heel_front.value, heel_front.expanded(), units, Rounding::down);
}

std::string witness_words(const SolvedTrim& trim, Units units) {
  const auto back = [&](const CutLine& line) {
    return length_text(trim.witness.centre - line.centre, units, Rounding::up);
  };
  return "draw it first, at " + length_text(trim.witness.centre, units) + "; back from it " +
         (trim.first_cut ? "first " + back(*trim.first_cut) + ", " : std::string()) + "final " +
         back(trim.final_cut);
}

std::string keep_words(const FootWork& foot, const SheetContext& context) {
  const SolvedPieces& pieces = foot.solution->pieces;
  if (!pieces.kept_length) return "not known: the board stays in the shoe";
  const auto up = [&](double mm) { return length_text(mm, context.units, Rounding::up); };
  std::string words;
  if (foot.solution->trim->first_cut)
    words = up(*foot.solution->pieces_to_cut.kept_length) + " at the first cut; ";
  return words + up(*pieces.kept_length) + " " +
         tolerance_text(keep_tolerance(context.order.tolerances)) + " of " +
         short_length_text(*foot.solution->outline.length(), context.units) + ", " +
         figure(100 * *pieces.kept_fraction, 0) + " %";
}

std::string board_words(const FootOrder& order, Units units) {
  const Board& board = order.shoe.board;
  std::string words = board.state == BoardState::loose ? "loose" : "stays in the shoe";
  if (const auto length = board.loose_length())
    words += ", " + short_length_text(*length, units) + " long";
  if (board.thickness) words += ", " + short_figure(*board.thickness) + " thick";
  if (board.layers.value_or(1) > 1) words += ", " + std::to_string(*board.layers) + " layers";
  return words;
}

std::string put_back_words(const FootWork& foot, Units units) {
  const Board& board = foot.order->shoe.board;
  if (!foot.solution->trim || foot.solution->layers || board.state != BoardState::loose) return {};
  const SolvedTrim& trim = *foot.solution->trim;
  const auto from_back = [&](const CutLine& line) {
    return length_text(board.inset->value() + line.centre, units, Rounding::down);
  };
  const std::string final_place = from_back(trim.final_cut);
  return trim.first_cut ? from_back(*trim.first_cut) + " (" + final_place + " after the final cut)"
                        : final_place;
}

std::string unmeasured_words(const FootSolution& foot) {
  std::string words;
  // The fold is estimated only where it moves the cut.
  for (const char* key : {"heel_front", "fold"})
    for (const Estimated& estimated : foot.estimated)
      if (estimated.key == key) words += (words.empty() ? "" : ", ") + estimated.name;
  return words;
}

} // namespace shankline
