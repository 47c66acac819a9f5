// Learned lines that an order asks for, looked up in the archive and written into the order.
#pragma once

#include "cli/job/archive_wish.hpp"
#include "cli/job/learned_house.hpp"
#include "geometry/order/finding.hpp"
#include "geometry/order/order.hpp"

#include <mutex>
#include <optional>
#include <string>

namespace shankline {

/// The archive is opened, and the house fitted, when the first order asks; never where none does.
/// Several threads may ask.
class LearnedLookup {
public:
  /// `archive` outlives it.
  explicit LearnedLookup(const ArchiveWish& archive) : archive_(archive) {}

  /// Gives each foot with `reach: learned` the figures that the archive's records teach of it, for
  /// the order's style and day. The place is rounded to 0.1 mm and its U up to 0.1 mm. Returns the
  /// errors: there is no archive or it cannot be read, there are no tries of this foot, or its
  /// place may have jumped (alarm). A foot with an error is left as it is.
  Findings fill(Order& order);

private:
  void open();
  Finding refused(const std::string& key, std::string what, std::string advice) const;
  std::optional<Finding> fill(const Order& order, FootSide side, FootOrder& foot);
  LearnedPlace place_of(const FootRecords& foot, const AskedPlace& asked);

  const ArchiveWish& archive_;
  std::once_flag opened_;
  std::optional<LearnedHouse> house_;
  std::optional<PlacePredictor> predictor_; ///< there is one where there is a house
  std::mutex predicting_;                   ///< the predictor makes its tables while it is asked
  Finding no_house_;                        ///< why there is none; without its key
};

} // namespace shankline
