#include "cli/job/next_order.hpp"

#include "cli/archive/archive_tries.hpp"
#include "cli/job/archive_words.hpp"
#include "cli/order_file/order_reader.hpp"
#include "cli/order_file/order_writer.hpp"
#include "cli/order_file/seen_words.hpp"
#include "cli/surroundings/calendar_day.hpp"
#include "cli/text/text_columns.hpp"
#include "cli/text/word_list.hpp"
#include "geometry/learning/learned_use.hpp"
#include "geometry/order/figure.hpp"
#include "geometry/order/reading_guide.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>
#include <tuple>
#include <utility>
#include <variant>

namespace shankline {
namespace {

constexpr std::size_t remark_width = 100; // characters of a comment line after its "# "
// Numbers in an order file have six decimals, so a reading that was given in inches or degrees may
// come back with a rounding error.
constexpr double same_reading = 2e-6;
constexpr FootSide both_sides[] = {FootSide::left, FootSide::right};

/// Returns true if the board was good after wear where it ends now, and nothing else was seen
/// since.
bool is_good_after_wear(const std::vector<EntryHead>& notes, FootSide side) {
  const std::vector<RecordedTry> tries = tries_of(notes);
  const RecordedTry* good = nullptr;
  for (const RecordedTry& one : tries) {
    if (one.foot != side || one.copied_U) continue;
    if (one.seen == Seen::right && one.worn)
      good = &one;
    else if (good && (one.seen != Seen::right || one.cut_off != good->cut_off))
      good = nullptr;
  }
  return good != nullptr;
}

PairResult result_of(const std::vector<EntryHead>& notes) {
  bool tried = false, worn = true;
  for (const FootSide side : both_sides) {
    const auto last = last_try(notes, side);
    if (!last) continue;
    tried = true;
    worn = worn && is_good_after_wear(notes, side);
    // A board that was cut again after the last try has not been tried as it is now.
    if (last->seen != Seen::right || !still_ends_there(notes, *last)) return PairResult::not_good;
  }
  if (!tried) return PairResult::no_try;
  return worn ? PairResult::good_after_wear : PairResult::good_at_the_barre;
}

bool is_same_reading(const Reading& a, const Reading& b) {
  const auto near = [](double x, double y) { return std::abs(x - y) <= same_reading; };
  return near(a.finding, b.finding) &&
         std::equal(a.values.begin(), a.values.end(), b.values.begin(), b.values.end(), near);
}

/// Returns true if the other order has the same reading: equal values, by the same reader, counted
/// from the same place.
bool has_reading(const Order& other, const Order& order, FootSide side, const ReadingGuide& row) {
  const auto& foot = other.foot(side);
  if (!foot || other.read_by != order.read_by || (row.posed && other.pose != order.pose))
    return false;
  const auto& reading = row.in_foot.of(foot->foot);
  return reading && is_same_reading(*reading, *row.in_foot.of(order.foot(side)->foot));
}

/// The readings of the order's feet: which foot, and the row of the guide.
std::vector<std::pair<FootSide, const ReadingGuide*>> readings_of(const Order& order) {
  std::vector<std::pair<FootSide, const ReadingGuide*>> readings;
  for (const FootSide side : both_sides)
    if (const auto& foot = order.foot(side))
      for (const ReadingGuide& row : reading_guides())
        if (row.in_foot && row.in_foot.of(foot->foot)) readings.emplace_back(side, &row);
  return readings;
}

bool reads_otherwise(const Order& newer, const Order& order) {
  const auto readings = readings_of(order);
  return readings_of(newer).size() != readings.size() ||
         std::any_of(readings.begin(), readings.end(), [&](const auto& reading) {
           return !has_reading(newer, order, reading.first, *reading.second);
         });
}

/// Collects comments, wrapped into lines of at most remark_width characters.
class Remarks {
public:
  void add(const std::string& words) {
    for (std::string& line : wrapped(words, remark_width))
      lines_.push_back(std::move(line));
  }
  std::vector<std::string> lines() && { return std::move(lines_); }

private:
  std::vector<std::string> lines_;
};

std::string day_words(const RecordedPair& pair) {
  // The day was checked when it was saved here; in an archive from elsewhere it may be any text.
  return is_calendar_day(pair.day) ? pair.day : "an unknown day";
}

std::string entry_and_day(const RecordedPair& pair) {
  return "entry " + std::to_string(pair.cut.id) + " of " + day_words(pair);
}

std::string why_words(PairResult result) {
  switch (result) {
  case PairResult::good_after_wear:
    return "good after wear";
  case PairResult::good_at_the_barre:
    return "good at the barre; no pair was found good after wear";
  case PairResult::not_good:
    return "the last pair; no pair was found good";
  case PairResult::no_try:
    return "the last pair, without a try on record; no pair was found good";
  }
  return {};
}

/// "left seen too-low after wear, right seen good", or "no try on record".
std::string last_seen_words(const RecordedPair& pair) {
  std::string words;
  for (const FootSide side : both_sides)
    if (const auto last = last_try(pair.notes, side))
      words += (words.empty() ? "" : ", ") + foot_name(side) + " seen " +
               std::string(word_for(last->seen, seen_words)) + (last->worn ? " after wear" : "");
  return words.empty() ? "no try on record" : words;
}

/// The warning for anyone who cuts another board like this pair's; empty if there is none.
std::string warning_of(const RecordedPair& pair) {
  std::string words;
  for (const FootSide side : both_sides) {
    const auto stop = stop_on_record(pair.notes, side);
    if (!stop) continue;
    if (stop->seen == Seen::pain)
      return "It hurt on " + entry_and_day(pair) + ": ask the teacher, the fitter, or a licensed " +
             "physiotherapist or podiatrist before another board is cut.";
    if (stop->seen == Seen::over_the_platform)
      words = "The foot rolled over the platform on " + entry_and_day(pair) +
              ": ask a teacher or fitter before another board is cut.";
    else if (stop->seen == Seen::cut_too_far && words.empty())
      words = "A board of " + entry_and_day(pair) +
              " was cut too far: the new one has to be longer. Ask the fitter for another rule, or "
              "for a hold_back: shankline cut says how much.";
  }
  return words;
}

void remark_newer(const NextOrderBasis& basis, Remarks& remarks) {
  if (!basis.newer) return;
  remarks.add(entry_and_day(*basis.newer) +
              " is newer, but not used: " + last_seen_words(*basis.newer) +
              (basis.newer_reads_otherwise ? ". Its readings are not these: compare them." : "."));
}

void remark_readings(const NextOrderBasis& basis, FootSide side, const std::string& today,
                     Remarks& remarks) {
  std::map<std::string, std::vector<std::string>> keys_by_day;
  for (const ReadingDay& reading : basis.readings)
    if (reading.foot == side) keys_by_day[reading.day].push_back(reading.key);
  if (keys_by_day.empty()) remarks.add(foot_name(side) + " foot: no readings");
  for (const auto& [day, keys] : keys_by_day) {
    const auto age = days_between(day, today);
    std::string words = foot_name(side) + " foot: readings of " + (age ? day : "an unknown day");
    if (!age)
      words += ": measure again";
    else if (*age > readings_keep_days)
      words += ", older than a year: measure again";
    if (keys_by_day.size() > 1) words += " (" + joined(keys, ", ") + ")";
    remarks.add(words);
  }
}

void remark_board(const NextOrderBasis& basis, FootSide side, Remarks& remarks) {
  const auto last = last_try(basis.from.notes, side);
  const auto end = board_end(basis.from.notes, side);
  std::string words = foot_name(side) + " board: ";
  if (!end) {
    remarks.add(words + "where it ended is not on record");
    return;
  }
  words += figure(*end) + " cut off where it ended";
  if (last && still_ends_there(basis.from.notes, *last))
    words += ", seen " + std::string(word_for(last->seen, seen_words)) +
             (last->worn ? " after wear" : " at the barre");
  else
    words += ", not tried there";
  remarks.add(words);
}

void remark_learned(const NextOrderBasis& basis, FootSide side, Remarks& remarks) {
  for (const LearnedFoot& foot : basis.learned) {
    if (foot.side != side || foot.place.pairs == 0) continue;
    const LearnedPlace& place = foot.place;
    std::string words = foot_name(side) + ": learned from " + std::to_string(place.pairs) +
                        (place.pairs == 1 ? " pair: " : " pairs: ") + figure(place.mean) + " ±" +
                        figure(place.U) + " from the heel, an estimate; ";
    if (is_held_behind(place)) words += held_words(place) + "; ";
    words += foot.measure_again
                 ? "not to be used: the right place may have moved before one of the last two "
                   "pairs. Measure again."
                 : "write reach: learned to cut by it";
    remarks.add(words);
  }
}

/// Names the wishes that the next order does not take over.
void remark_wishes(const Order& order, FootSide side, Remarks& remarks) {
  const auto& shank = order.foot(side)->alterations.shank;
  if (!shank) return;
  if (std::holds_alternative<MarkRule>(shank->rule))
    remarks.add(foot_name(side) +
                " board: the mark was made on that pair's board. Mark the new one.");
  if (shank->accept_outside_window || shank->accept_in_stop_band)
    remarks.add(foot_name(side) +
                " board: accept was a fitter's word for that pair, and is left out. Ask again.");
}

} // namespace

std::vector<RecordedPair> recorded_pairs(Store& store, const std::string& dancer) {
  return as_recorded_pairs(cuts_with_notes(store, dancer));
}

std::vector<RecordedPair> as_recorded_pairs(std::vector<CutWithNotes> cuts) {
  std::vector<RecordedPair> pairs;
  for (CutWithNotes& one : cuts) {
    std::string day = day_of(one.cut);
    const PairResult result = result_of(one.notes);
    pairs.push_back({std::move(one.cut), std::move(one.notes), std::move(day), result});
  }
  std::sort(pairs.begin(), pairs.end(), [](const RecordedPair& a, const RecordedPair& b) {
    return std::tie(b.day, b.cut.turn) < std::tie(a.day, a.cut.turn);
  });
  return pairs;
}

const RecordedPair* pair_to_repeat(const std::vector<RecordedPair>& pairs) {
  for (const PairResult wished : {PairResult::good_after_wear, PairResult::good_at_the_barre})
    for (const RecordedPair& pair : pairs)
      if (pair.result == wished) return &pair;
  return pairs.empty() ? nullptr : &pairs.front();
}

std::vector<ReadingDay> reading_days(Store& store, const std::vector<RecordedPair>& pairs,
                                     const RecordedPair& from, const Order& order) {
  struct Traced {
    FootSide side;
    const ReadingGuide* row;
    std::string day;
    bool goes_on; ///< every order that was read so far has this reading
  };
  std::vector<Traced> traced;
  for (const auto& [side, row] : readings_of(order))
    traced.push_back({side, row, from.day, true});
  const auto at = std::find_if(pairs.begin(), pairs.end(), [&](const RecordedPair& pair) {
    return pair.cut.digest == from.cut.digest;
  });
  for (auto older = at; older != pairs.end(); ++older) {
    if (std::none_of(traced.begin(), traced.end(), [](const Traced& one) { return one.goes_on; }))
      break;
    const ReadOrder read = read_order(store.body(older->cut).order, "entry");
    // An order that this version cannot read is skipped: an older one may still have the reading.
    if (!read.ok()) continue;
    for (Traced& one : traced) {
      one.goes_on = one.goes_on && has_reading(read.order, order, one.side, *one.row);
      if (one.goes_on) one.day = older->day;
    }
  }
  std::vector<ReadingDay> days;
  for (Traced& one : traced)
    days.push_back({one.side, std::string(one.row->key), std::move(one.day)});
  return days;
}

NextOrderBasis next_order_basis(Store& store, const std::vector<RecordedPair>& pairs,
                                const RecordedPair& from, Order order) {
  NextOrderBasis basis;
  basis.from = from;
  basis.readings = reading_days(store, pairs, from, order);
  const std::string text = store.body(from.cut).order;
  for (const RecordedPair& pair : pairs) {
    if (pair.cut.digest == from.cut.digest) break;
    const std::string its_text = store.body(pair.cut).order;
    if (its_text == text) continue; // the same order was saved again
    const ReadOrder read = read_order(its_text, "entry");
    basis.newer_reads_otherwise = read.ok() && reads_otherwise(read.order, order);
    basis.newer = pair;
    break;
  }
  for (const RecordedPair& pair : pairs) {
    if (pair.result == PairResult::good_after_wear || pair.result == PairResult::good_at_the_barre)
      break;
    if (stops_words(pair.notes).empty()) continue;
    basis.stopped = pair;
    break;
  }
  if (std::any_of(pairs.begin(), pairs.end(),
                  [](const RecordedPair& pair) { return !tries_of(pair.notes).empty(); })) {
    LearnedHouse house = learned_house(house_history(store));
    for (LearnedFoot& foot : house.feet)
      if (foot.dancer == order.dancer) basis.learned.push_back(std::move(foot));
    basis.never_too_low =
        std::any_of(house.never_too_low.begin(), house.never_too_low.end(),
                    [&](const NeverTooLow& never) { return never.dancer == order.dancer; });
  }
  basis.order = std::move(order);
  return basis;
}

std::vector<std::string> next_order_remarks(const NextOrderBasis& basis, const std::string& today) {
  Remarks remarks;
  remarks.add("from " + entry_and_day(basis.from) + ", " + why_words(basis.from.result));
  remark_newer(basis, remarks);
  std::vector<std::string> warned;
  for (const auto* pair : {basis.newer ? &*basis.newer : nullptr, &basis.from,
                           basis.stopped ? &*basis.stopped : nullptr}) {
    const std::string warning = pair ? warning_of(*pair) : std::string();
    if (warning.empty() || std::find(warned.begin(), warned.end(), warning) != warned.end())
      continue;
    remarks.add(warning);
    warned.push_back(warning);
  }
  for (const FootSide side : both_sides) {
    if (!basis.order.foot(side)) continue;
    remark_readings(basis, side, today, remarks);
    if (basis.order.foot(side)->alterations.shank) remark_board(basis, side, remarks);
    remark_learned(basis, side, remarks);
    remark_wishes(basis.order, side, remarks);
  }
  if (!basis.order.decided_by.empty())
    remarks.add(
        "Who decides for this dancer has decided for that pair: ask, then write decided_by.");
  if (!basis.order.note.empty()) remarks.add("The note of that pair is left out.");
  if (basis.never_too_low)
    remarks.add("The dancer never said \"too low\": ask what could be better.");
  remarks.add(
      "The shoe's figures are those of that pair: measure the new shoes, and name the pair.");
  return std::move(remarks).lines();
}

std::string next_order_text(const NextOrderBasis& basis, const std::string& today) {
  Order order = basis.order;
  order.date = today;
  order.due.clear(); // it was the due date of the older pair
  // Somebody decides anew for this pair. The order is refused until then where that is needed.
  order.decided_by.clear();
  order.note.clear();
  for (auto* foot : {&order.left, &order.right})
    if (*foot && (*foot)->alterations.shank)
      (*foot)->alterations.shank->accept_outside_window =
          (*foot)->alterations.shank->accept_in_stop_band = false;
  return order_file_text(order, {next_order_remarks(basis, today), {}});
}

} // namespace shankline
