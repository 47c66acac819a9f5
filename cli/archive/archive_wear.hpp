// Reads from its notes whether a pair is still in the order book, in wear, or no longer used.
#pragma once

#include "cli/archive/archive_entry.hpp"
#include "cli/archive/archive_outcome.hpp"

#include <algorithm>
#include <string>
#include <string_view>
#include <vector>

namespace shankline {

/// By what was said last, of the steps of an order and then of wear. A pair is stopped while a try
/// speaks against one of its boards, if it is neither refused nor ended.
enum class PairState { saved, ordered, received, accepted, refused, in_use, ended, stopped };

/// "saved", "in use"
std::string_view state_name(PairState state);

/// Days are YYYY-MM-DD, empty where nobody said them.
struct PairWear {
  double left_hours = 0; ///< on pointe
  double right_hours = 0;
  int wears = 0; ///< notes of hours
  std::string first_worn;
  std::string last_worn;
  bool last_wet = false; ///< on that day
  std::string ended;
  std::string why_ended; ///< one of `end_reasons`, or words of a note that was not asked for one
  std::string tried;     ///< its own board for the first time; a pair that was tried is there
  std::string stopped;   ///< stops_words() of its boards
  std::string sent;
  std::string received;
  std::string accepted;
  std::string refused;
  std::string in_use;
  std::string kept_for;          ///< "stage", "class", or empty
  std::vector<std::string> done; ///< to the pair since, "2026-03-14 water on the vamp"

  /// A shoe is worn with its fellow, so a pair has the hours of the one with more.
  double hours() const { return std::max(left_hours, right_hours); }
  PairState state() const;
  /// Returns true if somebody may put it on: it is there, nobody refused it, no try speaks against
  /// it, and it is not done.
  bool is_wearable() const;
  /// The day of that step, one of `book_marks`.
  const std::string& day_of_mark(std::string_view mark) const;
};

/// `notes` about one cut in any order; withdrawn ones are left out. Hours of several notes are
/// added; a note that names no foot counts for both. A later day of a step or an end takes the
/// place of an earlier one.
PairWear wear_of(const std::vector<EntryHead>& notes);

} // namespace shankline
