// The dancer's next order, made from a pair that the archive has on record: which pair, how old its
// readings are, and what the order says of all that in comments.
#pragma once

#include "cli/archive/archive_any_store.hpp"
#include "cli/archive/archive_tries.hpp"
#include "cli/job/learned_house.hpp"
#include "geometry/order/order.hpp"

#include <string>
#include <vector>

namespace shankline {

/// The result of the tries of a pair. A pair is good if the last try of every foot that was tried
/// said so, with the board ending at the place on record.
enum class PairEnd {
  good_after_wear,   ///< every foot that was tried, after wear
  good_at_the_barre, ///< likewise, but at least one foot was not asked after wear
  not_good,
  no_try,
};

/// A cut of the dancer's.
struct RecordedPair {
  EntryHead cut;
  std::vector<EntryHead> notes; ///< about it, the oldest first
  std::string day;              ///< the order's date, else the day on which it was saved
  PairEnd end = PairEnd::no_try;
};

/// A dancer's cuts that were read before, in the order of recorded_pairs.
std::vector<RecordedPair> as_recorded_pairs(std::vector<CutWithNotes> cuts);

/// All cuts of a dancer, the latest day first, and of one day the one that was saved last. Throws
/// ArchiveFault.
std::vector<RecordedPair> recorded_pairs(Store& store, const std::string& dancer);

/// The first pair that is good after wear, else the first that is good, else the first one. Null if
/// there are none.
const RecordedPair* pair_to_repeat(const std::vector<RecordedPair>& pairs);

/// A reading of an order, and the day of the oldest order that has it. Orders between that one and
/// this one have it as well.
struct ReadingDay {
  FootSide foot = FootSide::left;
  std::string key; ///< as in the reading guide
  std::string day; ///< YYYY-MM-DD
};

/// The readings of the feet of `order`, which is the order of `from`: left before right, by the
/// guide. An order that repeats a reading does not make it younger. `from` is one of `pairs`.
/// Throws ArchiveFault.
std::vector<ReadingDay> reading_days(Store& store, const std::vector<RecordedPair>& pairs,
                                     const RecordedPair& from, const Order& order);

/// Readings that were taken more than so many days ago are to be taken again.
inline constexpr int readings_keep_days = 365;

/// The pair that the next order is made from.
struct NextOrderBasis {
  RecordedPair from;
  Order order; ///< that pair's
  std::vector<ReadingDay> readings;
  /// The latest pair, if it is not this one and was cut by another order.
  std::optional<RecordedPair> newer;
  bool newer_reads_otherwise = false; ///< its feet have other readings
  std::vector<LearnedFoot> learned;   ///< of this dancer's feet; may be empty
  bool never_too_low = false;         ///< the dancer never said "too low"
};

/// Reads all of it, and learns from the whole archive if this dancer's boards were tried. `from`
/// and `order` are as above. Throws ArchiveFault.
NextOrderBasis next_order_basis(Store& store, const std::vector<RecordedPair>& pairs,
                                const RecordedPair& from, Order order);

/// The comments of the next order, a line each: which pair it repeats and why, the age of the
/// readings on the day `today` (YYYY-MM-DD), where the boards ended, what was learned, and what has
/// to be made anew. No text of a user's stands in them.
std::vector<std::string> next_order_remarks(const NextOrderBasis& basis, const std::string& today);

/// The next order as a file: these comments, then the older order with `today` as its date.
std::string next_order_text(const NextOrderBasis& basis, const std::string& today);

} // namespace shankline
