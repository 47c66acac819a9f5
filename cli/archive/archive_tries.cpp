#include "cli/archive/archive_tries.hpp"

#include "cli/archive/archive_json.hpp"
#include "cli/archive/archive_outcome.hpp"
#include "cli/order_file/seen_words.hpp"
#include "geometry/order/figure.hpp"

#include <algorithm>
#include <map>
#include <set>
#include <tuple>
#include <utility>

namespace shankline {
namespace {

constexpr std::size_t heads_at_once = 256; // entries in memory while searching
constexpr std::size_t day_letters = 10;

std::optional<RecordedTry> try_in(const EntryHead& note) {
  const Outcome outcome = outcome_of(note);
  const auto foot = one_foot(outcome);
  const std::string word = seen_word(outcome.seen);
  if (!foot || !outcome.cut_off || word.empty()) return {};
  RecordedTry found;
  found.foot = *foot;
  found.cut_off = *outcome.cut_off;
  for (const Word<Seen>& seen : seen_words)
    if (seen.word == word) found.seen = seen.meaning;
  found.worn = outcome.worn;
  found.copied_U = outcome.copied_U;
  found.by = outcome.by;
  found.day = day_of_note(note);
  found.saved = note.saved;
  found.id = note.id;
  return found;
}

/// At one end the later answer stands, at the barre or after wear: a pain that comes after a "good"
/// overrules it.
auto place(const RecordedTry& a) {
  return std::tie(a.foot, a.cut_off, a.day, a.saved);
}

} // namespace

std::string day_of_note(const EntryHead& note) {
  return note.date.empty() ? note.saved.substr(0, day_letters) : note.date;
}

std::vector<EntryHead> standing_notes(const std::vector<EntryHead>& notes) {
  std::set<std::string> withdrawn;
  std::set<std::string> withdrawing;
  for (const EntryHead& note : notes)
    if (std::string of = outcome_of(note).withdraws; !of.empty()) {
      withdrawn.insert(std::move(of));
      withdrawing.insert(note.digest);
    }
  std::vector<EntryHead> standing;
  for (const EntryHead& note : notes)
    if (!withdrawn.contains(note.digest) && !withdrawing.contains(note.digest))
      standing.push_back(note);
  return standing;
}

std::vector<RecordedTry> tries_of(const std::vector<EntryHead>& notes) {
  std::vector<RecordedTry> tries;
  for (const EntryHead& note : standing_notes(notes))
    if (auto found = try_in(note)) tries.push_back(*std::move(found));
  // A board only gets shorter, so its end says the order better than the day of typing in. Tries
  // that were saved in the same second keep the order in which they were typed.
  std::stable_sort(tries.begin(), tries.end(),
                   [](const RecordedTry& a, const RecordedTry& b) { return place(a) < place(b); });
  return tries;
}

std::optional<RecordedTry> last_try(const std::vector<EntryHead>& notes, FootSide foot) {
  std::optional<RecordedTry> last;
  for (RecordedTry& one : tries_of(notes))
    if (one.foot == foot && !one.copied_U) last = std::move(one);
  return last;
}

std::optional<RecordedTry> stop_on_record(const std::vector<EntryHead>& notes, FootSide foot) {
  std::optional<RecordedTry> stop;
  for (RecordedTry& one : tries_of(notes)) {
    if (one.foot != foot || one.copied_U) continue;
    if (one.seen == Seen::right)
      stop.reset();
    else if (!is_too_long(one.seen))
      stop = std::move(one);
  }
  return stop;
}

std::string seen_at_words(const RecordedTry& tried) {
  return "seen " + std::string(word_for(tried.seen, seen_words)) + " at " + figure(tried.cut_off) +
         " on " + tried.day;
}

std::string stops_words(const std::vector<EntryHead>& notes) {
  std::string words;
  for (const FootSide foot : {FootSide::left, FootSide::right})
    if (const auto stop = stop_on_record(notes, foot))
      words += (words.empty() ? "" : "; ") + foot_name(foot) + " board " + seen_at_words(*stop);
  return words;
}

std::optional<double> board_end(const std::vector<EntryHead>& notes, FootSide foot) {
  std::optional<double> end;
  for (const EntryHead& note : standing_notes(notes)) {
    const Outcome outcome = outcome_of(note);
    if (one_foot(outcome) == foot && outcome.cut_off && !outcome.copied_U)
      end = std::max(end.value_or(0), *outcome.cut_off); // a board only gets shorter
  }
  return end;
}

std::optional<double> board_end_on(const std::vector<EntryHead>& notes, FootSide foot,
                                   const std::string& day) {
  std::vector<EntryHead> until = standing_notes(notes);
  std::erase_if(until, [&](const EntryHead& note) { return day_of_note(note) > day; });
  return board_end(until, foot);
}

std::optional<BoardNow> board_now(const std::vector<EntryHead>& notes, FootSide foot) {
  const auto end = board_end(notes, foot);
  if (!end || *end < same_end) return {};
  BoardNow now{*end, {}};
  for (const EntryHead& note : standing_notes(notes)) {
    const Outcome outcome = outcome_of(note);
    if (one_foot(outcome) != foot || outcome.copied_U || !outcome.cut_off ||
        *outcome.cut_off < *end - same_end)
      continue;
    const std::string day = day_of_note(note);
    if (now.day.empty() || day < now.day) now.day = day;
  }
  return now;
}

bool still_ends_there(const std::vector<EntryHead>& notes, const RecordedTry& tried) {
  const auto end = board_end(notes, tried.foot);
  return !end || tried.cut_off >= *end - same_end;
}

std::string boards_words(const std::vector<EntryHead>& notes, Units units) {
  const std::vector<RecordedTry> tries = tries_of(notes);
  std::string text;
  for (const FootSide foot : {FootSide::left, FootSide::right}) {
    const auto end = board_end(notes, foot);
    if (!end) continue;
    text += (text.empty() ? "" : "; ") + foot_name(foot) + " board " + length_text(*end, units) +
            " off";
    const auto last = std::find_if(tries.rbegin(), tries.rend(), [&](const RecordedTry& one) {
      return one.foot == foot && !one.copied_U && one.cut_off == *end;
    });
    if (last != tries.rend())
      text += ", seen " + std::string(word_for(last->seen, seen_words)) +
              (last->worn ? " after wear" : "");
    if (const auto stop = stop_on_record(notes, foot); stop && stop->cut_off < *end - same_end)
      text += ", but " + std::string(word_for(stop->seen, seen_words)) + " at " +
              length_text(stop->cut_off, units) + " before";
  }
  return text;
}

std::vector<CutWithNotes> cuts_with_notes(Store& store, const std::optional<std::string>& dancer) {
  std::vector<CutWithNotes> cuts;
  std::map<std::string, std::vector<EntryHead>> notes; // by the cut's digest, the newest first
  for (std::int64_t below = newest;;) {
    std::vector<EntryHead> page =
        dancer ? store.older_of(*dancer, below, heads_at_once) : store.older(below, heads_at_once);
    if (page.empty()) break;
    below = dancer ? page.back().turn : page.back().id;
    for (EntryHead& head : page) {
      if (head.kind == EntryKind::cut) {
        cuts.push_back({std::move(head), {}});
      } else if (head.kind == EntryKind::note) {
        std::string about = head.about;
        notes[std::move(about)].push_back(std::move(head));
      }
    }
  }
  for (CutWithNotes& one : cuts) {
    one.notes = std::move(notes[one.cut.digest]);
    std::reverse(one.notes.begin(), one.notes.end());
  }
  return cuts;
}

std::vector<EntryHead> notes_about(Store& store, const EntryHead& cut) {
  std::vector<EntryHead> notes;
  // Notes are newer than what they are about, by any number of entries.
  for (std::int64_t below = newest; below > cut.turn;) {
    const std::vector<EntryHead> page = store.older_of(cut.dancer, below, heads_at_once);
    if (page.empty()) break;
    for (const EntryHead& head : page)
      if (head.kind == EntryKind::note && head.about == cut.digest) notes.push_back(head);
    below = page.back().turn;
  }
  std::reverse(notes.begin(), notes.end());
  return notes;
}

} // namespace shankline
