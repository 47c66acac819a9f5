// Turns an archive's notes about tries into the records that geometry/learning learns from.
#pragma once

#include "cli/archive/archive_any_store.hpp"
#include "geometry/learning/trial_records.hpp"

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace shankline {

/// A figure that was noted about a worn shoe, and the contact model's figure for it.
struct NotedFigure {
  std::string dancer;
  FootSide foot = FootSide::left;
  Day day;
  double noted = 0;     ///< mm
  double predicted = 0; ///< mm, of the shoe cut at the final line
};

/// Readings for a foot's next shoe, from its newest order.
struct NewestOrder {
  std::string style;
  double shoe_u = shoe_u_pointed; ///< mm
};

struct HouseHistory {
  HouseRecords records;              ///< sound, and in their own order (in_order)
  std::vector<NewestOrder> newest;   ///< of each foot of the records, in their order
  std::vector<NotedFigure> gaps;     ///< by dancer, foot and day
  std::vector<NotedFigure> breaks;   ///< likewise, as the order's pose counts
  std::vector<RecordFault> left_out; ///< what could not be learned from, and why
  std::size_t unread = 0; ///< orders of other versions that this one does not read or solve
  std::size_t footless =
      0;                   ///< notes of what was seen that name no foot: earlier versions kept them
  std::size_t endless = 0; ///< notes of what was seen on a foot without where its board ended
  std::size_t withdrawn = 0; ///< notes that were withdrawn
};

/// Reads "2026-03-14", which was checked when it was saved; nullopt for a text of another form.
std::optional<Day> day_in(std::string_view text);
/// Writes "2026-03-14".
std::string day_text(Day day);

/// Reads every note, and the cuts of all dancers of whom anything was noted. The result depends
/// only on their contents: not on the store, on the numbers of the entries, or on the order of
/// adding. A reading that later orders repeat is counted once. Throws ArchiveFault.
HouseHistory house_history(Store& store);

} // namespace shankline
