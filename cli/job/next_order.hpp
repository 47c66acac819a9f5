// Makes a dancer's next order from a pair in the archive: chooses the pair, finds out how old its
// readings are, and explains both in comments at the top of the new order file.
#pragma once

#include "cli/archive/archive_any_store.hpp"
#include "cli/archive/archive_tries.hpp"
#include "cli/job/learned_house.hpp"
#include "geometry/order/order.hpp"

#include <optional>
#include <string>
#include <vector>

namespace shankline {

/// How the tries of a pair came out. A pair is good if the last try of every foot that was tried
/// found the board right, and that board has not been cut since.
enum class PairResult {
  good_after_wear,   ///< good, and every foot that was tried was asked again after wear
  good_at_the_barre, ///< good, but at least one foot was asked only at the barre
  not_good,
  no_try,
};

/// A pair that was cut for the dancer, as the archive has it.
struct RecordedPair {
  EntryHead cut;
  std::vector<EntryHead> notes; ///< the notes about this cut, the oldest first
  std::string day;              ///< the order's date, else the day on which it was saved
  PairResult result = PairResult::no_try;
};

/// Returns all pairs of a dancer: the latest day first, and within one day the one that was saved
/// last. Throws ArchiveFault.
std::vector<RecordedPair> recorded_pairs(Store& store, const std::string& dancer);

/// Like recorded_pairs, for the cuts of one dancer that were already read from the archive.
std::vector<RecordedPair> as_recorded_pairs(std::vector<CutWithNotes> cuts);

/// Returns the first pair that is good after wear. If there is none, returns the first that is good
/// at the barre, else the first of all. Returns null if `pairs` is empty. The pointer is into
/// `pairs`.
const RecordedPair* pair_to_repeat(const std::vector<RecordedPair>& pairs);

/// The day on which one reading of an order was taken, as far as the archive shows: the day of the
/// oldest order since when every order of the dancer has had this reading.
struct ReadingDay {
  FootSide foot = FootSide::left;
  std::string key; ///< the reading's key in the reading guide
  std::string day; ///< YYYY-MM-DD; in an archive from elsewhere it may be any text
};

/// Returns the day of every reading in `order`: the left foot's first, then the right foot's, each
/// in the order of the reading guide. An order that only repeats an older reading does not make it
/// younger. `from` must be one of `pairs`, and `order` must be its order. Throws ArchiveFault.
std::vector<ReadingDay> reading_days(Store& store, const std::vector<RecordedPair>& pairs,
                                     const RecordedPair& from, const Order& order);

/// Readings older than this many days are to be taken again.
inline constexpr int readings_keep_days = 365;

/// Everything that the next order is made from.
struct NextOrderBasis {
  RecordedPair from; ///< the pair that is repeated
  Order order;       ///< the order of that pair
  std::vector<ReadingDay> readings;
  /// The latest of the pairs that are later than `from` and have another order; nullopt if there is
  /// none.
  std::optional<RecordedPair> newer;
  /// The newest pair with a try that speaks against cutting so far (stop_on_record), if no pair
  /// after it was good.
  std::optional<RecordedPair> stopped;
  bool newer_reads_otherwise = false; ///< the readings in the order of `newer` are not the same
  std::vector<LearnedFoot> learned;   ///< what was learned about this dancer's feet; may be empty
  bool never_too_low = false;         ///< this dancer was tried and never said "too low"
};

/// Reads the basis from the archive. If a board of this dancer was ever tried, it also learns from
/// the whole archive, which takes longer. `from` must be one of `pairs`, and `order` must be its
/// order. Throws ArchiveFault.
NextOrderBasis next_order_basis(Store& store, const std::vector<RecordedPair>& pairs,
                                const RecordedPair& from, Order order);

/// Returns the comments of the next order, one per line: which pair it repeats and why, how old the
/// readings are on the day `today` (YYYY-MM-DD), where the boards ended, what was learned, and what
/// has to be measured or decided again. They contain no text that a user wrote.
std::vector<std::string> next_order_remarks(const NextOrderBasis& basis, const std::string& today);

/// Returns the next order as the text of an order file: the comments of next_order_remarks, then
/// the older order with `today` as its date and without its due date.
std::string next_order_text(const NextOrderBasis& basis, const std::string& today);

} // namespace shankline
