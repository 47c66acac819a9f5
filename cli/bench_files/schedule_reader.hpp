// Reads a schedule: a small YAML or CSV file of the days and hours on pointe.
#pragma once

#include "cli/order_file/bench_file.hpp"

#include <string>
#include <string_view>
#include <vector>

namespace shankline {

inline constexpr std::string_view schedule_format = "shankline-schedule/1";

struct ScheduledDay {
  std::string day;    ///< YYYY-MM-DD
  double hours = 0;   ///< on pointe, over 0
  bool stage = false; ///< on stage; else in class or rehearsal
  std::string at;     ///< "19:30", or empty
  std::string dancer; ///< of one dancer; empty for everyone
};

struct Schedule {
  std::vector<ScheduledDay> days; ///< by rising day and time, then as written
};

/// The most days that a schedule holds.
inline constexpr std::size_t most_scheduled = 20000;

/// A file whose name ends in .csv is read as comma-separated values with the head
/// day,hours[,stage][,at][,dancer]; any other one as YAML:
///
///     format: shankline-schedule/1
///     days:
///       - {day: 2027-01-04, hours: 2}
///       - {day: 2027-01-05, hours: 1.5, stage: true, at: "19:30", dancer: M-07}
///
/// Every wrong cell or key is named.
BenchFile<Schedule> read_schedule_file(const std::string& path);
BenchFile<Schedule> read_schedule_csv(std::string_view text, const std::string& file_name);
BenchFile<Schedule> read_schedule_text(std::string_view text, const std::string& file_name);

} // namespace shankline
