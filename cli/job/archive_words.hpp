// The archive's words for people: every line fits 100 columns, and nothing steers the terminal.
#pragma once

#include "cli/archive/archive_audit.hpp"
#include "cli/archive/archive_json.hpp"

#include <string>
#include <vector>

namespace shankline {

inline constexpr std::size_t archive_width = 100; // characters

/// Returns the text without control characters, cut to so many characters.
std::string fitted(const std::string& text, std::size_t width);

/// "1 entry", "2 entries"
std::string counted(std::size_t count, const std::string& one, const std::string& many);

/// "entry 3", "entries 1, 3 and 4"
std::string entries_words(const std::vector<EntryId>& ids);

/// True if the entry is dated more than 366 days after the day on which it was saved: a slip, which
/// would make it the dancer's last pair for years. A clock from before 2026 is wrong, since the
/// program is younger, and makes no date one.
bool is_dated_far_ahead(const EntryHead& head);

/// The day by which an entry counts: the order's date; the day on which it was saved if the order
/// has no date or is dated far ahead.
std::string day_of(const EntryHead& head);

/// A cut's summary as the archive keeps it, "left final line 62.0, left sides 5.0 and 4.0 lower",
/// with inches behind each of its lengths where the units are inches.
std::string summary_in(const std::string& summary, Units units);

/// "saved as entry 12: M-07, left final line 62.0"
std::string saved_words(const EntryHead& head, Units units);

/// A line an entry; `about` is the id of what a note is about, 0 where that is not known.
struct ListRow {
  EntryHead head;
  EntryId about = 0;
};
std::string list_words(const std::vector<ListRow>& rows, Units units);
/// Returns these rows as comma-separated values, with the kind, the time of saving and the digest
/// of each entry.
std::string list_csv(const std::vector<ListRow>& rows);

/// A table: the cut in the left column, its outcome in the right one.
std::string history_words(const std::vector<CutAndNotes>& cuts, Units units);

std::string entry_words(const EntryHead& head, const EntryBody* body,
                        const std::vector<EntryHead>& notes, Units units);
std::string difference_words(const EntryHead& first, const EntryHead& second,
                             const std::vector<SolutionDifference>& differences);
std::string audit_words(const Audit& audit);

} // namespace shankline
