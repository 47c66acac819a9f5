// Keeps notes and tries of a cut pair, finds the pair again, and prints the card that continues
// after the tries.
#pragma once

#include "cli/archive/archive_any_store.hpp"
#include "cli/archive/archive_json.hpp"
#include "cli/archive/archive_outcome.hpp"
#include "cli/job/request.hpp"
#include "cli/surroundings/exit_code.hpp"
#include "cli/text/message.hpp"
#include "export/work_orders/shoe_since.hpp"
#include "geometry/numerics/result.hpp"
#include "geometry/order/order.hpp"

#include <iosfwd>
#include <optional>
#include <string>
#include <vector>

namespace shankline {

/// A cut in the archive, and what was noted about it.
struct CutPair {
  EntryHead cut;
  EntryBody body;
  SavedCut saved;
  std::vector<EntryHead> notes; ///< the oldest first
  std::vector<EntryId> twins{}; ///< other entries of the very same order, by pair_of_order

  std::string name() const { return "entry " + std::to_string(cut.id); }
};

/// The cut of that number.
Result<CutPair> pair_of_entry(Store& store, EntryId id);
/// Finds the pair of an order whose text is the very same. An order that was saved twice may be one
/// pair or two: the only entry with tries is taken, else the only one that was neither refused nor
/// ended. Where several are left, the error says their numbers in `allowed`.
Result<CutPair> pair_of_order(Store& store, const Order& order, const std::string& text);

/// Returns where the pair's boards end now and whether it has ended, for pages that are printed
/// now.
PairSince since_ordered(const CutPair& pair);

/// Says as a caution which other entries are of the very same order, if there are any.
void say_twins(const CutPair& pair, std::ostream& messages);

/// Returns why nothing more is noted of a pair that is worn no longer; nullopt if it still is.
std::optional<Advice> done_with(const CutPair& pair);

/// Returns how much was cut off, mm: `cut_off`, or the end that lies `back` from the witness line.
/// Returns the error if the entry does not cut this board, or if the board cannot end there.
Result<double> end_on_board(const CutPair& pair, FootSide foot,
                            const std::optional<double>& cut_off,
                            const std::optional<double>& back);

/// Why the note is not kept: its day lies ahead of today, the pair's board is shorter on record
/// already, or the same try is there already. Empty where all is well. With `in_order` the try is
/// the pair's latest one.
struct RefusedTry {
  std::string what;
  std::string advice;
};
std::optional<RefusedTry> refused_day(const std::string& day);
std::optional<RefusedTry> refused_try(const CutPair& pair, const Outcome& outcome,
                                      const std::string& day, bool in_order);

/// Cautions of a note that is kept all the same: its day comes before the pair was received or
/// ordered, or its board got longer since. `day` is year-month-day.
std::vector<Message> doubts_of_day(const CutPair& pair, const Outcome& outcome,
                                   const std::string& day);

/// The caution of a note of wear, of a further cut or of "still too long" about a board that a try
/// on record speaks against; nothing if none does.
std::vector<Message> doubts_of_stop(const CutPair& pair, const Outcome& outcome);

/// A note about the cut, made now; `day` is when it was seen, empty for today.
ArchiveEntry note_about(const EntryHead& cut, const Outcome& outcome, const std::string& day);

/// "Ask again after wear" in full, where the last try of a foot is a "good" at the barre; else
/// empty.
std::string ask_again_words(const std::vector<EntryHead>& notes);

// Each is an action of `archive`.

ExitCode add_note(Store& store, const Request& request, std::ostream& out, std::ostream& messages);
ExitCode add_tries(Store& store, const Request& request, std::ostream& out, std::ostream& messages);
ExitCode withdraw_note(Store& store, const Request& request, std::ostream& out,
                       std::ostream& messages);
ExitCode write_card(Store& store, const Request& request, std::ostream& out,
                    std::ostream& messages);
ExitCode write_care(Store& store, const Request& request, std::ostream& out,
                    std::ostream& messages);

} // namespace shankline
