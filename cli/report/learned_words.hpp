// A house's learned figures in words: sentences and rows for the terminal and for the page.
#pragma once

#include "cli/job/learned_house.hpp"
#include "export/drawing/length_text.hpp"

#include <string>
#include <vector>

namespace shankline {

/// A line of a table, or the head of one.
using LearnedRow = std::vector<std::string>;

/// The head of the report: the data that it rests on, and that it is an estimate.
std::string basis_words(const LearnedHouse& house);

/// The house's own shift, each reader and each style, a sentence each. A habit is named only where
/// it is surely not zero.
std::vector<std::string> house_sentences(const LearnedHouse& house, Units units = Units::mm);

/// Returns sentences about dancers who must be measured again, dancers who never said "too low",
/// and records that could not be used.
std::vector<std::string> learned_cautions(const LearnedHouse& house, Units units = Units::mm);

/// The quality of past lines, month by month and in all; the first row is the head.
std::vector<LearnedRow> track_rows(const LearnedHouse& house);

/// How good the lines have been in all, in a sentence; empty where no shoe was tried.
std::string track_words(const LearnedHouse& house);

/// The house in short: what it rests on, how good the lines were, the house's own shift, readers
/// and styles; a sentence each.
std::vector<std::string> learned_in_short(const LearnedHouse& house, Units units = Units::mm);

/// Noted gaps and breaks beside those of the contact model; may be empty.
std::vector<std::string> contact_sentences(const LearnedHouse& house, Units units = Units::mm);

/// Each foot's line; the first row is the head.
std::vector<LearnedRow> foot_rows(const LearnedHouse& house, Units units = Units::mm);

/// All of it, at most 100 columns.
std::string learned_text(const LearnedHouse& house, Units units = Units::mm);

/// A line a foot: "dancer,foot,style,place,U,pairs,first,last,good_after_wear,jump_probability,
/// earlier_jump_probability,too_far,final,measure_again,said_too_low". Figures in mm; ends of lines
/// as RFC 4180 has them.
std::string learned_csv(const LearnedHouse& house);

} // namespace shankline
