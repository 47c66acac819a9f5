// The rotation of one dancer or of a company: records and schedule in, plan and advice out.
#pragma once

#include "cli/bench_files/schedule_reader.hpp"
#include "cli/job/pair_book.hpp"

#include <optional>
#include <string>
#include <vector>

namespace shankline {

/// A chance of too few good dry pairs from which on new ones are wanted.
inline constexpr double chance_limit = 0.05;

struct RotationDancer {
  std::string dancer;
  std::vector<BookPair> pairs;       ///< that somebody may put on
  std::vector<EntryId> not_marked;   ///< saved, and neither marked as there nor tried or worn
  std::vector<BookPair> stopped;     ///< there, but not planned with: a try speaks against them
  std::vector<ScheduledDay> said;    ///< from today on
  std::vector<PlannedDay> plan;      ///< likewise; pairs by their place in `pairs`
  std::vector<double> chances;       ///< of too few good dry pairs, by day
  std::size_t runs = 0;              ///< in which the chances were drawn
  std::optional<OrderAdvice> advice; ///< nothing without a lead time, or where none are needed
  std::string basis;                 ///< of the lives, in words
};

struct RotationJob {
  std::string today;
  double drying_hours = usual_drying_hours;
  std::optional<int> lead_days; ///< from the order until the pairs are there
  std::string lead_basis;       ///< where that comes from, in words; empty where it was given
  std::size_t runs = 0;
  HouseLife life;
  std::vector<RotationDancer> dancers; ///< as people count
  /// Codes of the schedule of whom the archive has nothing, sorted; empty for one dancer's job.
  std::vector<std::string> unknown;
  std::size_t gone = 0; ///< days of the schedule before today, left out
};

/// `dancer` is empty for everybody of whom the archive has an entry and the schedule a day: who
/// has no pair to wear needs one first. Without `lead_days` the longest time from order to arrival
/// on record is taken. Throws ArchiveFault.
RotationJob rotation_job(Store& store, const std::string& dancer, const Schedule& schedule,
                         const std::string& today, double drying_hours,
                         std::optional<int> lead_days);

} // namespace shankline
