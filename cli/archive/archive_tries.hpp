// Tries on pointe as the archive has them: each is a note about a cut that says which foot, where
// the board ended then, and what was seen.
#pragma once

#include "cli/archive/archive_any_store.hpp"
#include "export/drawing/length_text.hpp"
#include "geometry/fitting/next_cut.hpp"
#include "geometry/order/foot_side.hpp"

#include <optional>
#include <string>
#include <vector>

namespace shankline {

struct RecordedTry {
  FootSide foot = FootSide::left;
  double cut_off = 0; ///< mm from the board's heel end on the centre line
  Seen seen = Seen::low;
  bool worn = false;              ///< after wear; else at the barre
  std::optional<double> copied_U; ///< of a worn pair that was copied, mm at 95 %
  std::string by;                 ///< a code, or empty
  std::string day;                ///< YYYY-MM-DD
  std::string saved;              ///< when it was typed in, YYYY-MM-DDTHH:MM:SSZ
  EntryId id = 0;                 ///< of the note; which one it is differs from archive to archive
};

/// The day that a note is about, YYYY-MM-DD: the one that was given, else that of saving.
std::string day_of_note(const EntryHead& note);

/// Returns the notes about one cut that still hold, in their order. Notes that withdraw others are
/// left out, and so are those that were withdrawn.
std::vector<EntryHead> standing_notes(const std::vector<EntryHead>& notes);

/// The tries among `notes` about one cut, withdrawn ones left out: left before right, as the board
/// got shorter, and at one end by the day and then the time of typing in. Notes of the earlier
/// format, which name no foot or no end, are no tries.
std::vector<RecordedTry> tries_of(const std::vector<EntryHead>& notes);

/// Returns the last try of this pair's own board, by the order of tries_of; nullopt if there was
/// none. A copied worn pair does not count.
std::optional<RecordedTry> last_try(const std::vector<EntryHead>& notes, FootSide foot);

/// Returns the last try of this pair's own board that was seen cut-too-far, pain or rolls-over,
/// unless a later one, by the order of tries_of, was good. That it was "too low" later takes
/// nothing back. nullopt if there is none. A copied worn pair does not count.
std::optional<RecordedTry> stop_on_record(const std::vector<EntryHead>& notes, FootSide foot);

/// "seen pain at 52.5 on 2026-03-20"
std::string seen_at_words(const RecordedTry& tried);

/// "left board seen pain at 52.5 on 2026-03-20; right board ..." of the tries that stop_on_record
/// gives; empty if there are none.
std::string stops_words(const std::vector<EntryHead>& notes);

/// For pairs with such a try.
inline constexpr const char* ask_before_wear =
    "ask the teacher, the fitter, or a licensed physiotherapist or podiatrist before it is worn";

/// mm: board ends so close are one; they are shown to tenths.
inline constexpr double same_end = 0.05;

/// Returns true if the board still ends where it was tried: no note says that it was cut on since.
bool still_ends_there(const std::vector<EntryHead>& notes, const RecordedTry& tried);

/// Returns the end of one foot's board by the notes about its cut, mm cut off from its heel end;
/// nullopt if no note gives it. A copied worn pair does not count.
std::optional<double> board_end(const std::vector<EntryHead>& notes, FootSide foot);

/// Like board_end, from the notes about `day`, YYYY-MM-DD, and the days before it.
std::optional<double> board_end_on(const std::vector<EntryHead>& notes, FootSide foot,
                                   const std::string& day);

/// Where a board ends now, and since when.
struct BoardNow {
  double cut_off = 0; ///< mm from its heel end
  std::string day;    ///< YYYY-MM-DD, the first on which it ended there
};
/// Like board_end; nullopt also for a board that is whole as yet.
std::optional<BoardNow> board_now(const std::vector<EntryHead>& notes, FootSide foot);

/// "left board 58.5 off, seen good after wear; right board 57.0 off"; empty where no note says it.
/// A word against cutting on that was said of an earlier end is added.
std::string boards_words(const std::vector<EntryHead>& notes, Units units = Units::mm);

struct CutWithNotes {
  EntryHead cut;
  std::vector<EntryHead> notes; ///< about it, the oldest first
};

/// Returns every cut, or every cut of one dancer, the newest first, each with the notes about it.
std::vector<CutWithNotes> cuts_with_notes(Store& store, const std::optional<std::string>& dancer);

/// Notes about a cut, the oldest first.
std::vector<EntryHead> notes_about(Store& store, const EntryHead& cut);

} // namespace shankline
