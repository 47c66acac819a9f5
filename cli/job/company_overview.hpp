// The whole company at a glance: what is awaited and late, what nobody has said a word about, whose
// readings are old, whose feet differ, which pairs are in use.
#pragma once

#include "cli/job/learned_house.hpp"
#include "cli/job/pair_book.hpp"
#include "geometry/comparison/comparison.hpp"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace shankline {

/// By what needs doing, the most urgent first.
enum class ToDo {
  stopped,      ///< a try speaks against cutting on: somebody has to be asked before it is worn
  late,         ///< due and not there, marked as sent or not
  nearly_done,  ///< in use, and not much is left
  to_judge,     ///< there, and nobody accepted or refused it
  awaited,      ///< ordered or saved with a day, not due yet
  untold,       ///< cut, and nobody said how it went
  old_readings, ///< older than a year
  not_taken,    ///< readings that were never taken
  feet_differ,  ///< by more than their ±
  in_use,       ///< or tried: nothing to do
};

/// "stopped", "late"
std::string_view to_do_name(ToDo what);

struct OverviewRow {
  ToDo what = ToDo::in_use;
  std::string dancer;
  EntryId entry = 0;
  std::string day; ///< that it is about, YYYY-MM-DD; may be empty
  std::string words;
  std::optional<double> hours; ///< of a pair in use
  std::optional<HoursLeft> left;
};

struct CompanyOverview {
  std::string day; ///< on which it is made
  std::vector<OverviewRow> rows;
  std::size_t dancers = 0;
  std::size_t pairs = 0;
  std::size_t unread = 0; ///< newest orders of dancers that this version does not read or solve
  HouseLife life;
  LearnedHouse learned; ///< as by `archive learn`
  double drying_hours = usual_drying_hours;
};

/// A pair with less than this is nearly done: common practice, no source, from memory.
inline constexpr double few_hours_left = 2;
/// A cut is untold when so many days have gone by without a word.
inline constexpr int untold_after_days = 14;

/// The first figure in which the feet differ by more than its ±, and how many more there are; empty
/// where none does.
std::string feet_differ_words(const Comparison& comparison);

/// The first wish in which the two shoes' work differs, or the first work that one of them is
/// without, and how many more there are; empty where the same is asked for on both.
std::string work_differs_words(const Comparison& comparison);

/// Reads every entry, and solves the newest order of each dancer. Throws ArchiveFault.
CompanyOverview company_overview(Store& store, const std::string& day, double drying_hours);

/// The day by which a cut's order is due, from its text; empty if it does not say.
std::string due_day(Store& store, const EntryHead& cut);

} // namespace shankline
