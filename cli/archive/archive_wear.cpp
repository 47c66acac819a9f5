#include "cli/archive/archive_wear.hpp"

#include "cli/archive/archive_json.hpp"
#include "cli/archive/archive_tries.hpp"

#include <array>
#include <stdexcept>

namespace shankline {
namespace {

constexpr std::array<std::string_view, 8> state_names{"saved",   "ordered", "received", "accepted",
                                                      "refused", "in use",  "ended",    "stopped"};

/// The members of PairWear that keep the days of the steps, in the order of `book_marks`.
constexpr std::array<std::string PairWear::*, book_marks.size()> mark_days{
    &PairWear::sent, &PairWear::received, &PairWear::accepted, &PairWear::refused,
    &PairWear::in_use};

std::string PairWear::*member_of(std::string_view mark) {
  for (std::size_t i = 0; i < book_marks.size(); ++i)
    if (book_marks[i] == mark) return mark_days[i];
  return nullptr;
}

void take_hours(const Outcome& outcome, const std::string& day, PairWear& into) {
  const double hours = outcome.hours.value_or(0);
  const bool worn = hours > 0 || outcome.days.value_or(0) > 0;
  if (!worn) return;
  if (outcome.foot != "right") into.left_hours += hours;
  if (outcome.foot != "left") into.right_hours += hours;
  ++into.wears;
  if (into.first_worn.empty() || day < into.first_worn) into.first_worn = day;
  if (day == into.last_worn) {
    into.last_wet = into.last_wet || outcome.wet;
  } else if (day > into.last_worn) {
    into.last_worn = day;
    into.last_wet = outcome.wet;
  }
}

} // namespace

std::string_view state_name(PairState state) {
  return state_names[static_cast<std::size_t>(state)];
}

PairState PairWear::state() const {
  if (!ended.empty()) return PairState::ended;
  // A pair that came back from the maker and was refused again is refused, whatever came before.
  if (!refused.empty() && refused > accepted && refused >= in_use && refused >= last_worn)
    return PairState::refused;
  if (!stopped.empty()) return PairState::stopped;
  if (wears > 0 || !in_use.empty()) return PairState::in_use;
  if (!accepted.empty()) return PairState::accepted;
  if (!received.empty() || !tried.empty()) return PairState::received;
  return sent.empty() ? PairState::saved : PairState::ordered;
}

bool PairWear::is_wearable() const {
  const PairState now = state();
  return now == PairState::received || now == PairState::accepted || now == PairState::in_use;
}

const std::string& PairWear::day_of_mark(std::string_view mark) const {
  const auto member = member_of(mark);
  if (!member) throw std::invalid_argument("no step of an order");
  return this->*member;
}

PairWear wear_of(const std::vector<EntryHead>& notes) {
  std::vector<EntryHead> standing = standing_notes(notes);
  std::stable_sort(standing.begin(), standing.end(), [](const EntryHead& a, const EntryHead& b) {
    const std::string day_a = day_of_note(a), day_b = day_of_note(b);
    return day_a != day_b ? day_a < day_b : a.id < b.id;
  });
  PairWear wear;
  wear.stopped = stops_words(notes);
  for (const EntryHead& note : standing) {
    const Outcome outcome = outcome_of(note);
    const std::string day = day_of_note(note);
    take_hours(outcome, day, wear);
    if (!outcome.seen.empty() && !outcome.copied_U && wear.tried.empty()) wear.tried = day;
    if (!outcome.ended.empty()) {
      wear.ended = day;
      wear.why_ended = outcome.ended;
    }
    if (const auto member = member_of(outcome.mark)) wear.*member = day;
    if (!outcome.kept_for.empty()) wear.kept_for = outcome.kept_for;
    for (const std::string& done : outcome.done)
      wear.done.push_back(day + " " + done);
  }
  return wear;
}

} // namespace shankline
