#include "cli/job/pair_book.hpp"

#include "cli/archive/archive_tries.hpp"
#include "cli/job/house_history.hpp"
#include "cli/text/natural_order.hpp"

#include <algorithm>
#include <optional>
#include <utility>

namespace shankline {
namespace {

PairLife life_of(const BookPair& pair) {
  return {pair.wear.hours(), pair.wear.state() == PairState::ended};
}

std::string pairs_words(int count) {
  return std::to_string(count) + (count == 1 ? " ended pair" : " ended pairs");
}

} // namespace

std::vector<BookPair> pair_book(Store& store, const std::string& dancer) {
  std::vector<BookPair> book;
  for (CutWithNotes& one :
       cuts_with_notes(store, dancer.empty() ? std::nullopt : std::optional(dancer))) {
    PairWear wear = wear_of(one.notes);
    book.push_back({std::move(one.cut), std::move(one.notes), std::move(wear)});
  }
  std::sort(book.begin(), book.end(), [](const BookPair& a, const BookPair& b) {
    if (a.cut.dancer != b.cut.dancer) return naturally_before(a.cut.dancer, b.cut.dancer);
    return a.cut.id < b.cut.id;
  });
  return book;
}

const WeibullLife& HouseLife::of(std::string_view dancer) const {
  for (const DancerLife& one : dancers)
    if (one.dancer == dancer) return one.life;
  return house;
}

std::string HouseLife::basis_words(std::string_view dancer) const {
  if (!fitted)
    return "common practice, 4 to 20 hours: " +
           (ended == 0 ? std::string("no pair has ended on record yet")
                       : pairs_words(ended) + " on record " + (ended == 1 ? "is" : "are") +
                             " too few to learn from");
  for (const DancerLife& one : dancers)
    if (one.dancer == dancer && one.own_scale)
      return pairs_words(one.ended) + " of this dancer and the house's " + std::to_string(ended);
  return "the house's " + pairs_words(ended) + "; this dancer has fewer than " +
         std::to_string(ended_pairs_for_own_scale);
}

HouseLife house_life(const std::vector<BookPair>& book) {
  HouseLife life;
  std::vector<PairLife> all;
  std::vector<std::pair<std::string, std::vector<PairLife>>> dancers;
  for (const BookPair& pair : book) {
    const PairLife one = life_of(pair);
    if (!(one.hours > 0)) continue;
    life.ended += one.ended ? 1 : 0;
    all.push_back(one);
    if (dancers.empty() || dancers.back().first != pair.cut.dancer)
      dancers.emplace_back(pair.cut.dancer, std::vector<PairLife>());
    dancers.back().second.push_back(one);
  }
  const auto fitted = fit_lifetimes(all);
  life.fitted = fitted.has_value();
  life.house = fitted.value_or(usual_life());
  if (life.fitted) life.dancers = dancers_lives(life.house, dancers);
  return life;
}

HoursLeft hours_left(const HouseLife& life, const BookPair& pair) {
  const WeibullLife& of_dancer = life.of(pair.cut.dancer);
  const double hours = pair.wear.hours();
  return {hours_left(of_dancer, hours, 0.1), hours_left(of_dancer, hours, 0.5),
          hours_left(of_dancer, hours, 0.9)};
}

std::string dry_from(const PairWear& wear, double drying_hours) {
  if (wear.last_worn.empty()) return {};
  return day_of_number(day_number(wear.last_worn) +
                       drying_days(drying_hours * (wear.last_wet ? wet_factor : 1)));
}

int day_number(std::string_view day) {
  const auto read = day_in(day);
  return read ? static_cast<int>(read->time_since_epoch().count()) : 0;
}

std::string day_of_number(int number) {
  return day_text(Day(std::chrono::days(number)));
}

RotationPair rotation_pair(const BookPair& pair, double drying_hours) {
  RotationPair planned;
  planned.hours = pair.wear.hours();
  if (!pair.wear.last_worn.empty()) {
    planned.last_worn = day_number(pair.wear.last_worn);
    planned.dry_from = day_number(dry_from(pair.wear, drying_hours));
  }
  planned.for_stage = pair.wear.kept_for == "stage";
  return planned;
}

} // namespace shankline
