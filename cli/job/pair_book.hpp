// Every pair of a house or of one dancer with what was noted about it: where it stands, how long
// pairs last, and what is expected of each.
#pragma once

#include "cli/archive/archive_any_store.hpp"
#include "cli/archive/archive_wear.hpp"
#include "geometry/wear/remaining_life.hpp"
#include "geometry/wear/rotation.hpp"

#include <string>
#include <string_view>
#include <vector>

namespace shankline {

struct BookPair {
  EntryHead cut;
  std::vector<EntryHead> notes; ///< about it, the oldest first
  PairWear wear;
};

/// All cuts, or those of one dancer, by dancer (naturally_before), then by entry. Throws
/// ArchiveFault.
std::vector<BookPair> pair_book(Store& store, const std::string& dancer = {});

/// The lifetimes of a house's pairs. The hours of a pair are those of the shoe that has more.
struct HouseLife {
  WeibullLife house;
  bool fitted = false; ///< else too few pairs have ended, and `house` is common practice
  int ended = 0;       ///< pairs of the house
  std::vector<DancerLife> dancers;

  const WeibullLife& of(std::string_view dancer) const;
  /// "the hours of 5 ended pairs of hers and of 31 of the house"
  std::string basis_words(std::string_view dancer) const;
};
HouseLife house_life(const std::vector<BookPair>& book);

/// Hours on pointe until a pair that is still good is done.
struct HoursLeft {
  double least = 0; ///< one pair in ten is done before
  double middle = 0;
  double most = 0; ///< one in ten lasts longer
};
HoursLeft hours_left(const HouseLife& life, const BookPair& pair);

/// The first day on which it is dry, YYYY-MM-DD, if it dries for so many hours, longer if it was
/// worn wet; empty for a pair that was never worn.
std::string dry_from(const PairWear& wear, double drying_hours);

/// These convert a day, such as "2026-03-14", into the planner's count of days since 1970-01-01,
/// and back.
int day_number(std::string_view day);
std::string day_of_number(int number);

RotationPair rotation_pair(const BookPair& pair, double drying_hours);

} // namespace shankline
