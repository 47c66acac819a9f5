// Holds the final lines of an order against where the dancer's last pair was good, or was cut too
// far, and its readings against the last pair's.
#pragma once

#include "cli/archive/archive_any_store.hpp"
#include "cli/archive/archive_tries.hpp"
#include "cli/job/archive_wish.hpp"
#include "cli/job/solved_order.hpp"

#include <memory>
#include <mutex>
#include <optional>

namespace shankline {

/// Adds a caution to the solution's findings for each foot whose final line lies more than 1.5 mm
/// farther from the heel than the board of the last pair ended when it was good, or nearly as far
/// as any pair's board ended when it was too short or hurt. Where the first cut, too, lies less
/// than 6 mm behind such an end, the caution goes before all others and names the hold-back that
/// mends it. "Last" is the newest pair whose last try of this foot was not "still too long", if it
/// is another than this, and if no newer board was still too long there or farther from the heel.
/// A word against cutting so far stands until the board of a newer pair was good or still too long
/// there or farther from the heel. Boards are compared on the foot. A further caution is added
/// where left and right look exchanged against the newest pair of another order, or where the
/// archive knows the dancer by other_spelling() only. Throws ArchiveFault.
void warn_of_last_pair(Store& store, SolvedOrder& solved);

/// The archive is opened when the first order asks, if there is one. Several threads may ask.
class LastPairs {
public:
  /// `archive` outlives it.
  explicit LastPairs(const ArchiveWish& archive) : archive_(archive) {}

  /// Does what warn_of_last_pair does, but says nothing where the archive cannot be read: others
  /// say that.
  void warn(SolvedOrder& solved);

  /// Returns the try that speaks against cutting on this order's own board (stop_on_record), of the
  /// newest pair of this order that has one. Pairs that ended are asked only if none is left.
  /// nullopt if there is none, or if the archive cannot be read.
  std::optional<RecordedTry> stop_of_this_pair(const SolvedOrder& solved, FootSide foot);

private:
  void open();

  const ArchiveWish& archive_;
  std::mutex reading_;
  bool opened_ = false;
  std::unique_ptr<Store> store_; ///< null where there is none
};

} // namespace shankline
