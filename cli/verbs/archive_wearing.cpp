#include "cli/verbs/archive_wearing.hpp"

#include "cli/archive/archive_tries.hpp"
#include "cli/archive/archive_wear.hpp"
#include "cli/bench_files/table_cells.hpp"
#include "cli/job/archive_saving.hpp"
#include "cli/job/archive_words.hpp"
#include "cli/job/company_overview.hpp"
#include "cli/job/dancer_code.hpp"
#include "cli/job/finished_sheets.hpp"
#include "cli/job/last_pair.hpp"
#include "cli/job/pair_book.hpp"
#include "cli/job/solved_order.hpp"
#include "cli/order_file/order_text.hpp"
#include "cli/order_file/seen_words.hpp"
#include "cli/report/wear_json.hpp"
#include "cli/report/wear_words.hpp"
#include "cli/surroundings/calendar_day.hpp"
#include "cli/surroundings/target.hpp"
#include "cli/text/characters.hpp"
#include "cli/text/message.hpp"
#include "cli/verbs/archive_looking.hpp"
#include "cli/verbs/archive_trying.hpp"
#include "export/bench/table_sheet.hpp"
#include "export/formats/digest.hpp"
#include "export/formats/pdf_writer.hpp"
#include "export/work_orders/label_sheet.hpp"
#include "geometry/order/figure.hpp"

#include <algorithm>
#include <iterator>
#include <map>
#include <ostream>
#include <set>
#include <utility>
#include <variant>

namespace shankline {
namespace {

constexpr std::size_t entries_at_once = 256;
constexpr std::size_t longest_words = 1000; // bytes of one note
constexpr std::size_t longest_code = 40;
constexpr std::size_t accepted_mark = 2, in_use_mark = 4; // their places in book_marks
static_assert(book_marks[accepted_mark] == "accepted" && book_marks[in_use_mark] == "in-use");

/// A pair that is being noted on: what the archive has of it, and what is about to be added.
struct NotedPair {
  CutPair pair;
  PairWear wear() const { return wear_of(pair.notes); }
};

std::string of_dancer(const CutPair& pair) {
  return pair.name() + " of " + pair.cut.dancer;
}

/// The pair's feet: "both", or the only one.
std::string feet_of(const CutPair& pair) {
  const bool left = pair.saved.left.has_value(), right = pair.saved.right.has_value();
  return left == right ? "both" : left ? "left" : "right";
}

Advice done_advice(const CutPair& pair, const PairWear& wear, const char* allowed) {
  return {of_dancer(pair) + " is done since " + wear.ended, allowed,
          "give another pair, or take the end back: shankline archive show " +
              std::to_string(pair.cut.id) +
              " names the note, shankline archive withdraw takes it back"};
}

/// `mending`, with what parts it from the words before, says how the pair is marked as accepted.
Advice refused_advice(const CutPair& pair, const PairWear& wear, const std::string& mending) {
  return {of_dancer(pair) + " was refused on " + wear.refused + ", and not accepted since",
          "a pair that is there",
          "check the number on the label; if the pair is used all the same" + mending};
}

/// Why this wear cannot be noted; empty where it can. Fills in the feet and where the board ends.
Advice completed_wear(const CutPair& pair, const std::string& day, Outcome& outcome) {
  if (day > today())
    return {day + " lies ahead of today, " + today(), "today or an earlier day",
            "note wear when it is done"};
  const std::string feet = feet_of(pair);
  if (outcome.foot.empty()) outcome.foot = feet;
  if (feet != "both" && outcome.foot != feet)
    return {of_dancer(pair) + " has only the " + feet + " foot", "", "leave the foot out"};
  const PairWear wear = wear_of(pair.notes);
  if (!wear.ended.empty() && day > wear.ended) return done_advice(pair, wear, "a day until then");
  if (wear.state() == PairState::refused && day >= wear.refused)
    return refused_advice(pair, wear,
                          ": shankline archive mark " + std::to_string(pair.cut.id) +
                              " --accepted " + today());
  if (outcome.seen.empty()) return {};
  const auto foot = one_foot(outcome);
  if (!foot) return {"what was seen is noted foot by foot", "left, right", "say which foot it was"};
  outcome.worn = true;
  outcome.cut_off = board_end_on(pair.notes, *foot, day);
  if (outcome.cut_off)
    if (const auto refusal = refused_try(pair, outcome, day, false))
      return {refusal->what, "", refusal->advice};
  return {};
}

bool is_on_record(const CutPair& pair, const Outcome& outcome, const std::string& day,
                  std::string& where) {
  for (const EntryHead& note : standing_notes(pair.notes)) {
    const Outcome there = outcome_of(note);
    if (note.date != day || there.hours != outcome.hours || there.foot != outcome.foot) continue;
    where = note.id > 0 ? "entry " + std::to_string(note.id) : "an earlier row of this table";
    return true;
  }
  return false;
}

Message repeated_hours(const std::string& where, const std::string& whose) {
  return plain_caution(whose + "as many hours of that day are on record already, as " + where,
                       "if it was the same wear, take one back: shankline archive withdraw ID");
}

std::string now_words(const CutPair& pair, const PairWear& wear, double drying_hours) {
  std::string words = of_dancer(pair) + ": " + figure(wear.hours()) + " h so far";
  if (wear.left_hours != wear.right_hours)
    words += " (left " + figure(wear.left_hours) + ", right " + figure(wear.right_hours) + ")";
  const std::string dry = dry_from(wear, drying_hours);
  if (wear.state() == PairState::ended) return words + ", done: " + wear.why_ended;
  return words + (dry.empty() ? "" : ", dry from " + dry);
}

ExitCode add_one_wear(Store& store, const Request& request, std::ostream& out,
                      std::ostream& messages) {
  const ArchiveWish& wish = request.archive;
  auto pair = pair_of_entry(store, wish.id);
  if (!pair) return refuse(pair.why(), messages);
  const std::string day = wish.day.empty() ? today() : wish.day;
  Outcome outcome = wish.outcome;
  if (const Advice why = completed_wear(*pair, day, outcome); !why.what.empty())
    return refuse(why, messages);
  if (std::string where; is_on_record(*pair, outcome, day, where))
    say({repeated_hours(where, {})}, messages);
  if (!wish.day.empty()) say(doubts_of_day(*pair, outcome, day), messages);
  say(doubts_of_stop(*pair, outcome), messages);
  const EntryHead kept = store.add(note_about(pair->cut, outcome, day));
  pair->notes.push_back(kept);
  out << "kept as entry " << kept.id << ": " << day << ", " << outcome_words(outcome) << '\n'
      << without_controls(now_words(*pair, wear_of(pair->notes), wish.drying)) << '\n';
  return ExitCode::done;
}

constexpr TableColumnName wear_columns[] = {
    {"entry", true}, {"hours", true}, {"day", true}, {"foot"}, {"where"},
    {"wet"},         {"seen"},        {"done"},      {"by"},   {"words"}};

/// Splits a cell of the column `done` into its items, which semicolons separate.
std::vector<std::string> things_done(const std::string& cell) {
  std::vector<std::string> done;
  for (std::size_t at = 0; at < cell.size();) {
    const std::size_t end = std::min(cell.find(';', at), cell.size());
    std::string one = cell.substr(at, end - at);
    one.erase(0, one.find_first_not_of(' '));
    one.erase(one.find_last_not_of(' ') + 1);
    if (!one.empty()) done.push_back(std::move(one));
    at = end + 1;
  }
  return done;
}

/// A row's own cells; what does not hold is said by `cells`.
Outcome wear_in(TableCells& cells, std::size_t row) {
  Outcome outcome;
  if (const auto hours = cells.number(row, "hours", 0, 24)) outcome.hours = *hours;
  constexpr std::string_view feet[] = {"left", "right", "both"};
  if (auto foot = cells.word(row, "foot", feet)) outcome.foot = *std::move(foot);
  if (const auto wet = cells.flag(row, "wet")) outcome.wet = *wet;
  std::vector<std::string_view> words;
  for (const Word<Seen>& seen : seen_words)
    words.push_back(seen.word);
  if (auto seen = cells.word(row, "seen", words)) outcome.seen = *std::move(seen);
  if (auto where = cells.text(row, "where", longest_words)) outcome.where = *std::move(where);
  if (auto by = cells.text(row, "by", longest_code)) outcome.by = *std::move(by);
  if (auto said = cells.text(row, "words", longest_words)) outcome.words = *std::move(said);
  if (const auto done = cells.text(row, "done", longest_words)) outcome.done = things_done(*done);
  return outcome;
}

ExitCode add_wear_table(Store& store, const Request& request, std::ostream& out,
                        std::ostream& messages) {
  const std::string& path = request.archive.path;
  auto text = read_table_text(path);
  if (const Message* refused = std::get_if<Message>(&text)) {
    say({*refused}, messages);
    return ExitCode::bad_input;
  }
  TableCells cells(std::get<std::string>(text), path == "-" ? "standard input" : path,
                   wear_columns);
  if (cells.ok() && cells.rows() == 0)
    cells.error({"there is no wear in this table", "entry,hours,day", "write a wear on each line"});
  std::map<EntryId, Result<CutPair>> pairs;
  std::vector<ArchiveEntry> entries;
  std::vector<Message> doubts;
  for (std::size_t row = 0; row < cells.rows(); ++row) {
    const auto id = cells.whole(row, "entry", 1, 1LL << 53);
    const auto day = cells.day(row, "day");
    Outcome outcome = wear_in(cells, row);
    if (!id) continue;
    auto found = pairs.find(*id);
    if (found == pairs.end()) found = pairs.emplace(*id, pair_of_entry(store, *id)).first;
    Result<CutPair>& pair = found->second;
    if (!pair) {
      cells.error(row, "entry", pair.why());
      continue;
    }
    if (!day) continue;
    if (const Advice why = completed_wear(*pair, *day, outcome); !why.what.empty()) {
      const bool of_day = why.what.find(" lies ahead") != std::string::npos ||
                          why.what.find(" is done since ") != std::string::npos;
      cells.error(row, of_day ? "day" : outcome.seen.empty() ? "foot" : "seen", why);
      continue;
    }
    for (Message& doubt : doubts_of_day(*pair, outcome, *day))
      doubts.push_back(std::move(doubt));
    for (Message& doubt : doubts_of_stop(*pair, outcome))
      doubts.push_back(std::move(doubt));
    if (std::string where; is_on_record(*pair, outcome, *day, where))
      doubts.push_back(repeated_hours(where, of_dancer(*pair) + ", " + *day + ": "));
    entries.push_back(note_about(pair->cut, outcome, *day));
    // A later row that says the same is then found as a repeat.
    pair->notes.push_back(entries.back().head);
  }
  if (!cells.ok()) {
    say(cells.take_messages(), messages);
    messages << "nothing was kept\n";
    return ExitCode::bad_input;
  }
  const std::vector<EntryHead> kept = store.add(std::move(entries));
  say(doubts, messages);
  out << counted(kept.size(), "wear", "wears") << " kept, as entries " << kept.front().id << " to "
      << kept.back().id << '\n';
  for (const auto& [id, pair] : pairs)
    out << without_controls(now_words(*pair, wear_of(pair->notes), request.archive.drying)) << '\n';
  return ExitCode::done;
}

/// "4f9c 2107" and "4f9c2107" alike; nothing for what is no beginning of a digest.
std::string digest_in(std::string_view text) {
  constexpr std::size_t least = 4;
  std::string digits;
  for (const char c : text) {
    if (c == ' ') continue;
    const char small = c >= 'A' && c <= 'F' ? static_cast<char>(c - 'A' + 'a') : c;
    if (!((small >= '0' && small <= '9') || (small >= 'a' && small <= 'f'))) return {};
    digits += small;
  }
  return digits.size() < least ? std::string() : digits;
}

/// The number in "12", "#12" and "entry 12"; 0 for anything else.
EntryId number_in(std::string_view text) {
  for (const std::string_view before : {std::string_view("entry "), std::string_view("#")})
    if (text.starts_with(before)) text.remove_prefix(before.size());
  EntryId id = 0;
  constexpr std::size_t longest = 15;
  if (text.empty() || text.size() > longest) return 0;
  for (const char c : text) {
    if (!is_digit(c)) return 0;
    id = id * 10 + (c - '0');
  }
  return id;
}

/// Cuts that the text may mean, the newest first: by dancer's code or a part of the pair's name,
/// else by the beginning of the digest of their order.
std::vector<EntryHead> meant_by(Store& store, const std::string& text, std::size_t most) {
  std::vector<EntryHead> found;
  const std::string digest = digest_in(text);
  for (EntryId below = newest; found.size() < most;) {
    const std::vector<EntryHead> page = store.older(below, entries_at_once);
    if (page.empty()) break;
    below = page.back().id;
    for (const EntryHead& head : page) {
      if (head.kind != EntryKind::cut || found.size() == most) continue;
      if (head.dancer == text || head.pair.find(text) != std::string::npos ||
          (!digest.empty() && sha256(store.body(head).order).starts_with(digest)))
        found.push_back(head);
    }
  }
  return found;
}

ExitCode say_found(const std::vector<EntryHead>& found, const Request& request, std::ostream& out) {
  if (request.json) {
    out << list_json(found, 0);
    return ExitCode::done;
  }
  std::vector<ListRow> rows;
  for (const EntryHead& head : found)
    rows.push_back({head, 0});
  out << list_words(rows, request.units);
  return ExitCode::done;
}

std::string write_page(const TablePage& page, const Request& request, const std::string& usual,
                       std::ostream& messages) {
  SheetSet set = table_sheet(page, sheet_wish(request, {}));
  finish_sheets(set, request, asked_printer(request), {}, messages);
  const std::string target = output_file(request.output, usual);
  write_pdf(request.output, target, pdf_bytes(set.drawing), Readers::owner);
  return wrote_pages(target, set.drawing.pages.size()) + "\n";
}

} // namespace

ExitCode add_wear(Store& store, const Request& request, std::ostream& out, std::ostream& messages) {
  return request.archive.path.empty() ? add_one_wear(store, request, out, messages)
                                      : add_wear_table(store, request, out, messages);
}

ExitCode end_pair(Store& store, const Request& request, std::ostream& out, std::ostream& messages) {
  const ArchiveWish& wish = request.archive;
  auto pair = pair_of_entry(store, wish.id);
  if (!pair) return refuse(pair.why(), messages);
  const std::string day = wish.day.empty() ? today() : wish.day;
  const PairWear wear = wear_of(pair->notes);
  if (!wear.ended.empty())
    return refuse(of_dancer(*pair) + " is done since " + wear.ended + ": " + wear.why_ended,
                  "if that was wrong, take it back first: shankline archive withdraw ID", messages);
  if (day > today() || day < wear.last_worn)
    return refuse({day > today()
                       ? day + " lies ahead of today, " + today()
                       : of_dancer(*pair) + " was worn on " + wear.last_worn + ", after " + day,
                   (wear.last_worn.empty() ? "a day until " : wear.last_worn + " to ") + today(),
                   "say when it was done: --on DATE"},
                  messages);
  Outcome outcome = wish.outcome;
  outcome.foot = feet_of(*pair);
  const EntryHead kept = store.add(note_about(pair->cut, outcome, day));
  pair->notes.push_back(kept);
  out << "kept as entry " << kept.id << '\n'
      << without_controls(now_words(*pair, wear_of(pair->notes), wish.drying)) << '\n';
  if (wear.wears == 0)
    messages
        << "caution: no hours are on record of this pair: nothing is learned of how long pairs "
           "last\n  do: note its hours as well: shankline archive worn "
        << wish.id << " --hours HOURS --on DATE\n";
  return ExitCode::done;
}

namespace {

/// Returns the notes of what is marked now, or why a step cannot be.
Result<std::vector<ArchiveEntry>> marks_of(const CutPair& pair, const ArchiveWish& wish) {
  const PairWear wear = wear_of(pair.notes);
  std::vector<ArchiveEntry> entries;
  std::string before_mark = "sent", before = wear.sent;
  for (std::size_t i = 0; i < book_marks.size(); ++i) {
    const std::string& day = wish.marks[i];
    const std::string mark(book_marks[i]);
    const std::string& there = wear.day_of_mark(mark);
    if (day.empty()) {
      if (i < 2 && !there.empty()) {
        before = there;
        before_mark = mark;
      }
      continue;
    }
    if (there == day)
      return Advice{of_dancer(pair) + " is marked as " + mark + " on " + day + " already", "",
                    "give another day, or leave it"};
    if (mark != "sent" && day > today())
      return Advice{day + " lies ahead of today, " + today(), "today or an earlier day",
                    "mark it when it is so"};
    if (!before.empty() && i > 0 && day < before)
      return Advice{of_dancer(pair) + ": " + mark + " on " + day + " comes before " + before_mark +
                        " on " + before,
                    before + " or later", "mend the day"};
    if (mark == "in-use" && !wear.ended.empty())
      return done_advice(pair, wear, "a pair that is there");
    if (mark == "in-use" && wear.state() == PairState::refused && wish.marks[accepted_mark].empty())
      return refused_advice(pair, wear, ", add --accepted " + day);
    before = day;
    before_mark = mark;
    Outcome outcome;
    outcome.foot = feet_of(pair);
    outcome.mark = mark;
    entries.push_back(note_about(pair.cut, outcome, day));
  }
  if (!wish.outcome.kept_for.empty()) {
    Outcome outcome;
    outcome.foot = feet_of(pair);
    outcome.kept_for = wish.outcome.kept_for;
    entries.push_back(note_about(pair.cut, outcome, today()));
  }
  return entries;
}

} // namespace

ExitCode mark_pairs(Store& store, const Request& request, std::ostream& out,
                    std::ostream& messages) {
  const ArchiveWish& wish = request.archive;
  std::vector<CutPair> pairs;
  std::vector<ArchiveEntry> entries;
  std::vector<std::size_t> counts; // of each pair's entries
  for (const EntryId id : std::set<EntryId>(wish.ids.begin(), wish.ids.end())) {
    auto pair = pair_of_entry(store, id);
    if (!pair) return refuse(pair.why(), messages);
    auto marks = marks_of(*pair, wish);
    if (!marks) return refuse(marks.why(), messages);
    if (!wish.marks[in_use_mark].empty() || !wish.outcome.kept_for.empty())
      say(doubts_of_stop(*pair, {}), messages);
    counts.push_back(marks->size());
    std::move(marks->begin(), marks->end(), std::back_inserter(entries));
    pairs.push_back(*std::move(pair));
  }
  const std::vector<EntryHead> kept = store.add(std::move(entries));
  auto next = kept.begin();
  for (std::size_t i = 0; i < pairs.size(); ++i) {
    for (const auto end = next + static_cast<std::ptrdiff_t>(counts[i]); next != end; ++next) {
      pairs[i].notes.push_back(*next);
      out << "kept as entry " << next->id << ": " << outcome_words(outcome_of(*next)) << '\n';
    }
    const PairWear now = wear_of(pairs[i].notes);
    out << without_controls(of_dancer(pairs[i])) << " is now: " << state_name(now.state())
        << (now.kept_for.empty() ? "" : ", kept for " + now.kept_for) << '\n';
  }
  return ExitCode::done;
}

ExitCode show_pairs(Store& store, const Request& request, std::ostream& out,
                    std::ostream& messages) {
  const ArchiveWish& wish = request.archive;
  if (!wish.dancer.empty() && store.counted(wish.dancer) == 0)
    return refuse_unknown(store, wish.dancer, messages);
  // Life is learned from the whole house.
  std::vector<BookPair> book = pair_book(store);
  const HouseLife life = house_life(book);
  std::erase_if(book, [&](const BookPair& pair) {
    const bool there = pair.wear.is_wearable() || pair.wear.state() == PairState::stopped;
    return !there || (!wish.dancer.empty() && pair.cut.dancer != wish.dancer);
  });
  out << (request.json ? pairs_json(book, life, wish.drying, today())
                       : pairs_text(book, life, wish.drying, today()));
  return ExitCode::done;
}

ExitCode find_entries(Store& store, const Request& request, std::ostream& out,
                      std::ostream& messages) {
  const std::string& text = request.archive.text;
  if (const EntryId id = number_in(text); id > 0)
    if (const auto head = store.head(id); head && head->kind == EntryKind::cut)
      return say_found({*head}, request, out);
  const std::vector<EntryHead> found = meant_by(store, text, request.archive.rows);
  if (found.empty() && !request.json) {
    const std::string other = other_spelling(store, text);
    return refuse(
        "no entry has " + shown(text) + " on its label",
        (other.empty() ? std::string() : "did you mean " + without_controls(other) + "? ") +
            "give the entry's number, the order's digest, the dancer's code or a part of "
            "the pair's name",
        messages);
  }
  return say_found(found, request, out);
}

ExitCode print_labels(Store& store, const Request& request, std::ostream& out,
                      std::ostream& messages) {
  std::vector<RackShoe> shoes;
  for (const EntryId id : request.archive.ids) {
    const auto pair = pair_of_entry(store, id);
    if (!pair) return refuse(pair.why(), messages);
    ReadOrder read = read_order(pair->body.order, pair->name());
    if (!read.ok()) {
      say(read.messages, messages);
      return ExitCode::bad_input;
    }
    auto solved = solve_read_order(std::move(read), pair->body.order, messages);
    if (!solved) return ExitCode::bad_input;
    warn_of_last_pair(store, *solved);
    const PairSince since = since_ordered(*pair);
    for (RackShoe& shoe : rack_shoes(solved->order(), solved->solution, solved->digest)) {
      shoe.entry = id;
      shoe.since = shoe.foot == FootSide::left ? since.left : since.right;
      shoes.push_back(std::move(shoe));
    }
  }
  SheetSet set = label_set(shoes, sheet_wish(request, {}));
  finish_sheets(set, request, asked_printer(request), {}, messages);
  const std::string target = output_file(request.output, "labels.pdf");
  write_pdf(request.output, target, pdf_bytes(set.drawing));
  out << wrote_pages(target, set.drawing.pages.size()) << '\n';
  return ExitCode::done;
}

ExitCode show_overview(Store& store, const Request& request, std::ostream& out,
                       std::ostream& messages) {
  const CompanyOverview overview = company_overview(store, today(), request.archive.drying);
  std::string wrote;
  if (!request.output.empty())
    wrote = write_page(overview_page(overview, request.units), request, "overview.pdf", messages);
  if (request.json)
    out << overview_json(overview);
  else if (request.csv)
    out << overview_csv(overview);
  else
    out << overview_text(overview, request.units) << (wrote.empty() ? "" : "\n" + wrote);
  return ExitCode::done;
}

} // namespace shankline
