#include "cli/verbs/archive_trying.hpp"

#include "cli/archive/archive_tries.hpp"
#include "cli/archive/archive_wear.hpp"
#include "cli/job/archive_saving.hpp"
#include "cli/job/finished_sheets.hpp"
#include "cli/job/last_pair.hpp"
#include "cli/job/solved_order.hpp"
#include "cli/job/typed_try.hpp"
#include "cli/order_file/seen_words.hpp"
#include "cli/surroundings/calendar_day.hpp"
#include "cli/surroundings/target.hpp"
#include "cli/text/message.hpp"
#include "cli/verbs/archive_looking.hpp"
#include "export/formats/digest.hpp"
#include "export/formats/pdf_writer.hpp"
#include "export/sets/order_sheets.hpp"
#include "geometry/order/figure.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <ostream>
#include <utility>

namespace shankline {
namespace {

constexpr std::size_t orders_at_once = 256; // entries in memory while searching
constexpr std::size_t letters_of_day = 10;

CutPair pair_of(Store& store, EntryHead cut, EntryBody body) {
  CutPair pair{std::move(cut), std::move(body), {}, {}};
  pair.saved = saved_cut(pair.body.solution);
  pair.notes = notes_about(store, pair.cut);
  return pair;
}

/// Returns the foot that a note is about: the one that was given, or the only one of the pair.
Result<std::string> foot_of(const CutPair& pair, const std::string& said, bool both_allowed) {
  const bool left = pair.saved.left.has_value();
  const bool right = pair.saved.right.has_value();
  if (!left && !right) return said; // whoever saved it kept no solution that tells
  if (said.empty()) {
    if (left != right) return foot_name(left ? FootSide::left : FootSide::right);
    return Advice{pair.name() + " has two feet: say which",
                  both_allowed ? "--foot left, --foot right or --foot both"
                               : "--foot left or --foot right",
                  ""};
  }
  if ((said == "both" && left && right) || (said == "left" && left) || (said == "right" && right))
    return said;
  return Advice{pair.name() + " has only the " + (left ? "left" : "right") + " foot",
                std::string("--foot ") + (left ? "left" : "right"), ""};
}

bool is_same_try(const RecordedTry& there, const Outcome& outcome) {
  return !there.copied_U && foot_name(there.foot) == outcome.foot &&
         std::abs(there.cut_off - *outcome.cut_off) < same_end &&
         word_for(there.seen, seen_words) == outcome.seen && there.worn == outcome.worn;
}

bool says_too_long(const Outcome& outcome) {
  return std::any_of(std::begin(seen_words), std::end(seen_words), [&](const Word<Seen>& seen) {
    return seen.word == outcome.seen && is_too_long(seen.meaning);
  });
}

std::string number_words(EntryId id) {
  return "entry " + std::to_string(id);
}

/// "entry 3 and entry 1"
std::string numbers_words(const std::vector<EntryId>& ids, const char* joined) {
  std::string words;
  for (const EntryId id : ids)
    words += (words.empty() ? "" : " " + std::string(joined) + " ") + number_words(id);
  return words;
}

/// Returns the pair that is meant of those that were saved from one order.
Result<CutPair> only_pair(std::vector<CutPair> pairs) {
  if (pairs.size() == 1) return std::move(pairs.front());
  std::vector<CutPair> open, tried;
  for (const CutPair& pair : pairs) {
    const PairState state = wear_of(pair.notes).state();
    if (state == PairState::ended || state == PairState::refused) continue;
    open.push_back(pair);
    if (!tries_of(pair.notes).empty()) tried.push_back(pair);
  }
  if (open.empty()) return std::move(pairs.front());
  const std::vector<CutPair>& left = tried.empty() ? open : tried;
  if (left.size() > 1) {
    std::vector<EntryId> ids; // untried ones as well: this may be a first try
    std::string options;
    for (const CutPair& pair : open) {
      ids.push_back(pair.cut.id);
      options += (options.empty() ? "--entry " : " or --entry ") + std::to_string(pair.cut.id);
    }
    return Advice{"the archive has this order " + std::to_string(ids.size()) +
                      " times, and each may be a pair of its own",
                  numbers_words(ids, "or"), "say which pair it is: " + options};
  }
  CutPair found = left.front();
  for (const CutPair& pair : open)
    if (pair.cut.id != found.cut.id) found.twins.push_back(pair.cut.id);
  return found;
}

/// Solves the entry's pair again and writes the sheets that `sheets` makes of it, as "card-12.pdf"
/// if `name` is "card" and the request names no file.
ExitCode write_sheets_of_entry(Store& store, const Request& request, const std::string& name,
                               const std::function<SheetSet(const CutPair&, SolvedOrder&)>& sheets,
                               std::ostream& out, std::ostream& messages) {
  const auto pair = pair_of_entry(store, request.archive.id);
  if (!pair) return refuse(pair.why(), messages);
  ReadOrder read = read_order(pair->body.order, pair->name());
  if (!read.ok()) {
    say(read.messages, messages);
    return ExitCode::bad_input;
  }
  auto solved = solve_read_order(std::move(read), pair->body.order, messages);
  if (!solved) return ExitCode::bad_input;
  SheetSet set = sheets(*pair, *solved);
  finish_sheets(set, request, asked_printer(request), solved->read.file, messages);
  const std::string target =
      output_file(request.output, name + "-" + std::to_string(pair->cut.id) + ".pdf");
  write_pdf(request.output, target, pdf_bytes(set.drawing));
  out << wrote_words(target, set.drawing.pages.size());
  return ExitCode::done;
}

} // namespace

Result<CutPair> pair_of_entry(Store& store, EntryId id) {
  FoundEntry found = find_cut(store, id);
  if (!found.fault.empty()) return Advice{found.fault, "", found.advice};
  EntryBody body = store.body(found.head);
  return pair_of(store, std::move(found.head), std::move(body));
}

Result<CutPair> pair_of_order(Store& store, const Order& order, const std::string& text) {
  EntryId alike = 0;
  std::vector<CutPair> pairs; // the newest first
  for (std::int64_t below = newest;;) {
    const std::vector<EntryHead> page = store.older_of(order.dancer, below, orders_at_once);
    for (const EntryHead& head : page) {
      if (head.kind != EntryKind::cut || head.pair != order.pair || head.date != order.date)
        continue;
      EntryBody body = store.body(head);
      if (body.order == text)
        pairs.push_back(pair_of(store, head, std::move(body)));
      else if (alike == 0)
        alike = head.id;
    }
    if (page.size() < orders_at_once) break;
    below = page.back().turn;
  }
  if (!pairs.empty()) return only_pair(std::move(pairs));
  if (alike > 0)
    return Advice{"the archive has this order with another text only, as " + number_words(alike),
                  "",
                  "if it is the same pair, add --entry " + std::to_string(alike) +
                      "; else save the order first: shankline archive save ORDER"};
  return Advice{"the archive has no entry of this order", "",
                "save it first: shankline archive save ORDER"};
}

PairSince since_ordered(const CutPair& pair) {
  const PairWear wear = wear_of(pair.notes);
  const auto shoe = [&](FootSide foot) {
    ShoeSince since;
    if (const auto now = board_now(pair.notes, foot)) {
      since.cut_off = now->cut_off;
      since.day = now->day;
    }
    if (!wear.ended.empty()) since.ended = wear.ended + ": " + wear.why_ended;
    if (const auto stop = stop_on_record(pair.notes, foot))
      since.stopped = "seen " + std::string(word_for(stop->seen, seen_words)) + " " + stop->day;
    return since;
  };
  return {shoe(FootSide::left), shoe(FootSide::right)};
}

void say_twins(const CutPair& pair, std::ostream& messages) {
  if (pair.twins.empty()) return;
  say({plain_caution("this is about " + pair.name() + ", which has tries; the same order is also " +
                         numbers_words(pair.twins, "and"),
                     "for that pair add --entry " + std::to_string(pair.twins.front()))},
      messages);
}

std::optional<Advice> done_with(const CutPair& pair) {
  const PairWear wear = wear_of(pair.notes);
  if (wear.state() != PairState::ended) return {};
  return Advice{
      pair.name() + " is worn no longer since " + wear.ended, "",
      "give another pair with --entry, or take that note back: shankline archive history " +
          pair.cut.dancer + " shows its number, shankline archive withdraw NUMBER"};
}

Result<double> end_on_board(const CutPair& pair, FootSide foot,
                            const std::optional<double>& cut_off,
                            const std::optional<double>& back) {
  const auto& saved = pair.saved.foot(foot);
  if (!saved || !saved->board)
    return Advice{pair.name() + " does not cut the " + foot_name(foot) + " board", "",
                  "give the other foot, or the entry of another pair"};
  const double witness = saved->board->witness;
  const double end = cut_off ? *cut_off : witness - back.value_or(0);
  if (end >= 0 && end < witness) return end;
  return Advice{"the " + foot_name(foot) + " board of " + pair.name() +
                    " cannot end there: its witness line is at " + figure(witness, 0) +
                    " from the heel end",
                "0 to " + figure(witness, 0) + ", cut off or back from the witness line",
                "measure the board's end once more"};
}

std::optional<RefusedTry> refused_day(const std::string& day) {
  if (!lies_ahead(day)) return {};
  return RefusedTry{day + " lies ahead of today", "say when it was seen: --day DATE"};
}

std::optional<RefusedTry> refused_try(const CutPair& pair, const Outcome& outcome,
                                      const std::string& day, bool in_order) {
  if (auto refusal = refused_day(day)) return refusal;
  const auto foot = one_foot(outcome);
  if (!foot || !outcome.cut_off) return {};
  const std::vector<RecordedTry> tries = tries_of(pair.notes);
  if (const auto end = board_end(pair.notes, *foot);
      in_order && end && *outcome.cut_off < *end - same_end) {
    RefusedTry refusal{"on record " + figure(*end) +
                           " is cut off this board already, and a board " +
                           "gets no longer than that: " + figure(*outcome.cut_off) + " was given",
                       "measure it once more"};
    for (const RecordedTry& one : tries)
      if (one.foot == *foot && one.cut_off == *end)
        refusal.advice =
            "measure it once more, or, if the record is wrong, take it back: shankline "
            "archive withdraw " +
            std::to_string(one.id);
    return refusal;
  }
  for (const RecordedTry& one : tries)
    if (is_same_try(one, outcome) && (day.empty() || day == one.day))
      return RefusedTry{"this try is on record already, as " + number_words(one.id) + " of " +
                            one.day,
                        "if it was another one, say when: --day DATE"};
  return {};
}

std::vector<Message> doubts_of_day(const CutPair& pair, const Outcome& outcome,
                                   const std::string& day) {
  constexpr const char* advice =
      "if the day is wrong, take the note back, shankline archive withdraw ID, and note it again";
  std::vector<Message> doubts;
  const PairWear wear = wear_of(pair.notes);
  if (!wear.received.empty() && day < wear.received)
    doubts.push_back(plain_caution(
        day + " comes before " + pair.name() + " was received, on " + wear.received, advice));
  else if (!pair.cut.date.empty() && day < pair.cut.date)
    doubts.push_back(plain_caution(day + " comes before the date of the order of " + pair.name() +
                                       ", " + pair.cut.date,
                                   advice));
  const auto foot = one_foot(outcome);
  if (!foot || !outcome.cut_off || outcome.seen.empty() || outcome.copied_U) return doubts;
  for (const RecordedTry& one : tries_of(pair.notes)) {
    if (one.foot != *foot || one.copied_U) continue;
    // Two tries of one day came in the order in which they were noted.
    const bool grew = one.day > day ? one.cut_off < *outcome.cut_off - same_end
                                    : one.cut_off > *outcome.cut_off + same_end;
    if (!grew) continue;
    std::string earlier = figure(*outcome.cut_off) + " cut off on " + day;
    std::string later = figure(one.cut_off) + " cut off on " + one.day;
    if (one.day <= day) std::swap(earlier, later);
    doubts.push_back(plain_caution("the " + foot_name(*foot) + " board of " + pair.name() +
                                       " got longer: " + earlier + ", and " + later,
                                   advice));
    break; // one is enough to look at the card again
  }
  return doubts;
}

std::vector<Message> doubts_of_stop(const CutPair& pair, const Outcome& outcome) {
  if (outcome.copied_U || (!outcome.seen.empty() && !says_too_long(outcome))) return {};
  for (const FootSide foot : {FootSide::left, FootSide::right}) {
    if (one_foot(outcome) && one_foot(outcome) != foot) continue;
    if (const auto stop = stop_on_record(pair.notes, foot))
      return {plain_caution("the " + foot_name(foot) + " board of " + pair.name() + " was " +
                                seen_at_words(*stop) + ", and a later word does not take that back",
                            std::string("cut nothing more from it, and ") + ask_before_wear +
                                "; if it was said by mistake: shankline archive withdraw " +
                                std::to_string(stop->id))};
  }
  return {};
}

ArchiveEntry note_about(const EntryHead& cut, const Outcome& outcome, const std::string& day) {
  ArchiveEntry entry;
  EntryHead& head = entry.head;
  head.kind = EntryKind::note;
  head.saved = time_now();
  head.program = program_version();
  head.dancer = cut.dancer;
  head.date = day.empty() ? head.saved.substr(0, letters_of_day) : day;
  head.about = cut.digest;
  head.outcome = outcome_json(outcome);
  return entry;
}

std::string ask_again_words(const std::vector<EntryHead>& notes) {
  std::string feet;
  const std::vector<RecordedTry> tries = tries_of(notes);
  for (const FootSide foot : {FootSide::left, FootSide::right}) {
    const auto end = board_end(notes, foot);
    bool good = false, asked = false;
    for (const RecordedTry& one : tries)
      if (one.foot == foot && !one.copied_U && end && one.cut_off == *end) {
        good = good || one.seen == Seen::right;
        asked = asked || one.worn;
      }
    if (good && !asked && !stop_on_record(notes, foot))
      feet += (feet.empty() ? "" : " and ") + foot_name(foot);
  }
  if (feet.empty()) return {};
  return feet + ": ask again after some wear, and note it with --worn: a \"good\" after wear says "
                "more than one at the barre\n";
}

ExitCode add_note(Store& store, const Request& request, std::ostream& out, std::ostream& messages) {
  const ArchiveWish& wish = request.archive;
  const auto pair = pair_of_entry(store, wish.id);
  if (!pair) return refuse(pair.why(), messages);
  Outcome outcome = wish.outcome;
  // Notes of hours are notes of wear.
  outcome.worn = !outcome.seen.empty() &&
                 (outcome.worn || outcome.hours.value_or(0) > 0 || outcome.days.value_or(0) > 0);
  const auto named = foot_of(*pair, outcome.foot, true);
  if (!named) return refuse(named.why(), messages);
  if (const auto refusal = refused_day(wish.day))
    return refuse(refusal->what, refusal->advice, messages);
  if (!outcome.ended.empty())
    if (const auto done = done_with(*pair)) return refuse(*done, messages);
  outcome.foot = *named;
  const auto foot = one_foot(outcome);
  const bool said = outcome.cut_off || wish.back;
  if (foot && said) {
    const auto end = end_on_board(*pair, *foot, outcome.cut_off, wish.back);
    if (!end) return refuse(end.why(), messages);
    outcome.cut_off = *end;
  } else if (foot && (!outcome.seen.empty() || outcome.further)) {
    if (const auto before = board_end(pair->notes, *foot)) {
      const auto end = end_on_board(*pair, *foot, *before + outcome.further.value_or(0), {});
      if (!end) return refuse(end.why(), messages);
      outcome.cut_off = *end;
    }
  }
  if (!outcome.seen.empty() && outcome.cut_off)
    if (const auto refusal = refused_try(*pair, outcome, wish.day, said))
      return refuse(refusal->what, refusal->advice, messages);
  if (!wish.day.empty()) say(doubts_of_day(*pair, outcome, wish.day), messages);
  if (!outcome.seen.empty() || outcome.further || outcome.hours.value_or(0) > 0)
    say(doubts_of_stop(*pair, outcome), messages);
  const EntryHead noted = store.add(note_about(pair->cut, outcome, wish.day));
  out << "noted on entry " << wish.id << ", as entry " << noted.id << '\n';
  if (!outcome.seen.empty() && foot && !outcome.cut_off && pair->saved.foot(*foot)->board)
    messages << "caution: it is not on record where the " << outcome.foot
             << " board ended: nothing is learned from this note\n"
                "  do: shankline archive withdraw "
             << noted.id << ", then note it again with --cut or --back\n";
  return ExitCode::done;
}

ExitCode add_tries(Store& store, const Request& request, std::ostream& out,
                   std::ostream& messages) {
  const ArchiveWish& wish = request.archive;
  auto pair = pair_of_entry(store, wish.id);
  if (!pair) return refuse(pair.why(), messages);
  const auto named = foot_of(*pair, wish.outcome.foot, false);
  if (!named) return refuse(named.why(), messages);
  Outcome of_foot;
  of_foot.foot = *named;
  const auto side = one_foot(of_foot);
  if (!side) return refuse("say whose board it was", "--foot left or --foot right", messages);
  std::vector<ArchiveEntry> entries;
  std::vector<Message> doubts;
  CutPair so_far = *pair;
  double last = 0;
  for (const std::string& word : wish.tries) {
    const TypedTry typed = *read_typed_try(word);
    Outcome outcome = wish.outcome;
    outcome.foot = *named;
    outcome.seen = typed.seen;
    outcome.worn = typed.worn;
    const std::string day = typed.day.empty() ? wish.day : typed.day;
    const auto end = wish.from_witness ? end_on_board(so_far, *side, {}, typed.end)
                                       : end_on_board(so_far, *side, typed.end, {});
    if (!end)
      return refuse({shown(word) + ": " + end.why().what, end.why().allowed,
                     end.why().advice + "; nothing was kept"},
                    messages);
    if (*end < last - same_end)
      return refuse(shown(word) + ": the board would be longer than at the try before it",
                    "write the tries as the board got shorter" +
                        std::string(wish.from_witness
                                        ? ""
                                        : ", and --back if the ends count from the witness line") +
                        "; nothing was kept",
                    messages);
    last = *end;
    outcome.cut_off = *end;
    if (const auto refusal = refused_try(so_far, outcome, day, false))
      return refuse(shown(word) + ": " + refusal->what, refusal->advice + "; nothing was kept",
                    messages);
    for (Message& doubt : doubts_of_day(so_far, outcome, day.empty() ? today() : day))
      doubts.push_back(std::move(doubt));
    entries.push_back(note_about(pair->cut, outcome, day));
    so_far.notes.push_back(entries.back().head); // so that the same try twice is found
  }
  const std::vector<EntryHead> kept = store.add(std::move(entries));
  say(doubts, messages);
  for (const EntryHead& head : kept)
    out << "kept as entry " << head.id << ": " << outcome_words(outcome_of(head), request.units)
        << '\n';
  pair->notes.insert(pair->notes.end(), kept.begin(), kept.end());
  const auto latest = last_try(pair->notes, *side);
  if (latest && is_too_long(latest->seen))
    say(doubts_of_stop(*pair, outcome_of(kept.back())), messages);
  out << "now " << boards_words(pair->notes, request.units) << '\n' << ask_again_words(pair->notes);
  return ExitCode::done;
}

ExitCode withdraw_note(Store& store, const Request& request, std::ostream& out,
                       std::ostream& messages) {
  const ArchiveWish& wish = request.archive;
  const FoundEntry found = find_entry(store, wish.id);
  if (!found.fault.empty()) return refuse(found.fault, found.advice, messages);
  if (found.head.kind != EntryKind::note)
    return refuse(number_words(wish.id) + " is not a note",
                  "shankline archive history DANCER shows "
                  "what was noted",
                  messages);
  EntryHead cut;
  cut.dancer = found.head.dancer;
  cut.digest = found.head.about;
  const std::vector<EntryHead> notes = notes_about(store, cut);
  const std::vector<EntryHead> standing = standing_notes(notes);
  if (std::none_of(standing.begin(), standing.end(),
                   [&](const EntryHead& note) { return note.id == wish.id; }))
    return refuse("note " + std::to_string(wish.id) + " was withdrawn, or withdraws another one",
                  "note again what is right", messages);
  Outcome outcome;
  outcome.withdraws = found.head.digest;
  outcome.words = wish.outcome.words;
  const EntryHead kept = store.add(note_about(cut, outcome, {}));
  out << "note " << wish.id << " is withdrawn by entry " << kept.id
      << ": it stays readable, and nothing is learned from it\n";
  return ExitCode::done;
}

ExitCode write_card(Store& store, const Request& request, std::ostream& out,
                    std::ostream& messages) {
  const auto card = [&](const CutPair& pair, SolvedOrder& solved) {
    warn_of_last_pair(store, solved);
    SheetWish wish = sheet_wish(request, solved.digest);
    wish.card = true;
    for (const RecordedTry& one : tries_of(pair.notes))
      if (!one.copied_U)
        wish.tried.push_back(
            {one.foot, BoardStation(one.cut_off),
             std::string(word_for(one.seen, seen_words)) + (one.worn ? ", worn" : ""), one.day,
             is_too_long(one.seen), !is_too_long(one.seen) && one.seen != Seen::right});
    return card_set(solved.order(), solved.solution, solved.solution.findings, wish);
  };
  return write_sheets_of_entry(store, request, "card", card, out, messages);
}

ExitCode write_care(Store& store, const Request& request, std::ostream& out,
                    std::ostream& messages) {
  const auto care = [&](const CutPair& pair, const SolvedOrder& solved) {
    return care_set(solved.order(), solved.solution, sheet_wish(request, solved.digest),
                    since_ordered(pair));
  };
  return write_sheets_of_entry(store, request, "care", care, out, messages);
}

} // namespace shankline
