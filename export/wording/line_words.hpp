// The lines of a cut board in words, for every sheet that names them: first cut, final cut, stop
// band and stop line.
#pragma once

#include "export/drawing/length_text.hpp"
#include "export/wording/work_words.hpp"

#include <string>

namespace shankline {

/// True if the line has another ruler number at an edge than at the centre.
bool is_skew(const CutLine& cut);

/// "62.0", or for a skew line its three figures: "big-toe edge 64.0, centre 62.0, little-toe edge
/// 60.0". With inches where the units are inches.
std::string line_words(const CutLine& cut, Units units, Rounding rounding = Rounding::down);

/// ", centre" after a figure of a skew line; empty for a line straight across.
std::string at_centre_words(const CutLine& cut);

/// "cut nothing beyond 71.0; the stop line is at 78.0 ±6.8". Of a skew band the limit has its three
/// figures, and the stop line's is called that of the centre.
std::string stop_words(const SolvedTrim& trim, Units units);

/// "±6.5", of the final line as it is drawn.
std::string final_doubt_words(const SolvedTrim& trim, Units units);

/// "known to ±12.4 at 95 %, an estimate: the first cut stays 9.4 short"; before it, where the line
/// was learned, from what.
std::string right_place_words(const SolvedTrim& trim, Units units);

/// "learned from 4 pairs until 2026-08-14"; where an end is known to be too far, it is said too:
/// " (53.5 from the heel was too far)".
std::string learned_words(const LearnedLine& line, Units units);

/// The end of the board by the readings alone, from its heel end: "reach edge, 62.0 ±6.5".
std::string readings_alone_words(const SolvedTrim& trim, Units units);

/// "at 100.0; back from it first 47.5, final 38.0", at the centre.
std::string witness_words(const SolvedTrim& trim, Units units);

/// "167.5 at the first cut; 158.0 +1.5 −0 of 220, 72 %".
std::string keep_words(const FootWork& foot, const SheetContext& context);

/// "loose, 220 long, 3.2 thick, 2 layers".
std::string board_words(const FootOrder& order, Units units);

/// How far from the inside of the shoe's back the cut end of a loose board goes, at the centre:
/// "57.5 (67.0 after the final cut)". Empty where the heel end stays: in the shoe, or cut by the
/// layer.
std::string put_back_words(const FootWork& foot, Units units);

/// Names of the readings that the cut depends on and that were not measured: "heel front, fold".
/// Empty if there are none.
std::string unmeasured_words(const FootSolution& foot);

} // namespace shankline
