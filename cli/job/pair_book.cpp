#include "cli/job/pair_book.hpp"

#include "cli/job/house_history.hpp"
#include "cli/text/characters.hpp"

#include <algorithm>
#include <map>
#include <utility>

namespace shankline {
namespace {

constexpr std::size_t book_heads_at_once = 256;

/// Figures at the beginning of a text, without zeros in front.
std::string_view figures_of(std::string_view text) {
  std::size_t end = 0;
  while (end < text.size() && is_digit(text[end]))
    ++end;
  std::string_view figures = text.substr(0, end);
  while (figures.size() > 1 && figures.front() == '0')
    figures.remove_prefix(1);
  return figures;
}

std::size_t length_of_figures(std::string_view text) {
  std::size_t end = 0;
  while (end < text.size() && is_digit(text[end]))
    ++end;
  return end;
}

PairLife life_of(const BookPair& pair) {
  return {pair.wear.hours(), pair.wear.state() == PairState::ended};
}

std::string pairs_words(int count) {
  return std::to_string(count) + (count == 1 ? " ended pair" : " ended pairs");
}

} // namespace

bool counts_before(std::string_view a, std::string_view b) {
  const std::string_view whole_a = a, whole_b = b;
  while (!a.empty() && !b.empty()) {
    const std::string_view in_a = figures_of(a), in_b = figures_of(b);
    if (!in_a.empty() && !in_b.empty()) {
      if (in_a.size() != in_b.size()) return in_a.size() < in_b.size();
      if (in_a != in_b) return in_a < in_b;
      a.remove_prefix(length_of_figures(a));
      b.remove_prefix(length_of_figures(b));
    } else {
      if (a.front() != b.front()) return a.front() < b.front();
      a.remove_prefix(1);
      b.remove_prefix(1);
    }
  }
  if (a.empty() != b.empty()) return a.empty();
  return whole_a < whole_b; // D-02 and D-2
}

std::vector<BookPair> pair_book(Store& store, const std::string& dancer) {
  std::vector<BookPair> book;
  std::map<std::string, std::vector<EntryHead>> notes; // by the cut's digest
  for (std::int64_t below = newest;;) {
    std::vector<EntryHead> page = dancer.empty()
                                      ? store.older(below, book_heads_at_once)
                                      : store.older_of(dancer, below, book_heads_at_once);
    if (page.empty()) break;
    below = dancer.empty() ? page.back().id : page.back().turn;
    for (EntryHead& head : page) {
      if (head.kind == EntryKind::cut)
        book.push_back({std::move(head), {}, {}});
      else if (head.kind == EntryKind::note) {
        std::string about = head.about;
        notes[std::move(about)].push_back(std::move(head));
      }
    }
  }
  for (BookPair& pair : book) {
    pair.notes = std::move(notes[pair.cut.digest]);
    std::reverse(pair.notes.begin(), pair.notes.end());
    pair.wear = wear_of(pair.notes);
  }
  std::sort(book.begin(), book.end(), [](const BookPair& a, const BookPair& b) {
    if (a.cut.dancer != b.cut.dancer) return counts_before(a.cut.dancer, b.cut.dancer);
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
