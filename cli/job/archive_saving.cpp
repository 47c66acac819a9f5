#include "cli/job/archive_saving.hpp"

#include "cli/archive/archive_chain.hpp"
#include "cli/archive/archive_drawing.hpp"
#include "cli/archive/archive_json.hpp"
#include "cli/archive/archive_opening.hpp"
#include "cli/archive/archive_outbox.hpp"
#include "cli/archive/archive_place.hpp"
#include "cli/archive/archive_tries.hpp"
#include "cli/archive/server_address.hpp"
#include "cli/archive/server_connection.hpp"
#include "cli/job/alteration_names.hpp"
#include "cli/job/archive_words.hpp"
#include "cli/surroundings/source_date.hpp"
#include "cli/text/message.hpp"
#include "cli/text/text_columns.hpp"
#include "export/formats/digest.hpp"
#include "export/wording/work_words.hpp"
#include "geometry/order/figure.hpp"

#include <algorithm>
#include <cstdint>
#include <ctime>
#include <map>
#include <optional>
#include <ostream>
#include <utility>
#include <vector>

namespace shankline {
namespace {

/// "left final line 62.0, left sides 5.0 and 4.0 lower, left liner, darning"
std::string summary_of(const Solution& solution) {
  std::string text;
  const auto add = [&text](const std::string& words) {
    text += (text.empty() ? "" : ", ") + words;
  };
  const auto foot = [&](const std::optional<FootSolution>& solved, const std::string& name) {
    if (!solved) return;
    if (solved->trim) // as every sheet has it
      add(name + " final line " + ruler_text(solved->trim->final_cut.centre, Rounding::down));
    if (solved->sides)
      add(name + " sides " + figure(solved->sides->medial.profile.depth) + " and " +
          figure(solved->sides->lateral.profile.depth) + " lower" +
          (solved->sides->medial.profile.back > 0
               ? ", back " + figure(solved->sides->medial.profile.back)
               : std::string()));
    if (const std::string also = other_work(*solved); !also.empty()) add(name + " " + also);
  };
  foot(solution.left, "left");
  foot(solution.right, "right");
  return text;
}

/// The dancer's last pair in words: the one with the latest day (the order's date, else the day of
/// saving), and of two with one day the one that was saved later; with the newest note about it.
std::string recalled(Store& store, const std::string& dancer, Units units) {
  constexpr std::size_t at_once = 256;
  std::optional<EntryHead> last;
  std::map<std::string, std::vector<EntryHead>> notes; ///< by the cut's digest, the newest first
  for (std::int64_t below = newest;;) {
    std::vector<EntryHead> page = store.older_of(dancer, below, at_once);
    const bool done = page.size() < at_once;
    if (!page.empty()) below = page.back().turn;
    for (EntryHead& head : page) {
      if (head.kind == EntryKind::note) {
        std::string about = head.about;
        notes[std::move(about)].push_back(std::move(head));
      } else if (head.kind == EntryKind::cut && (!last || day_of(head) > day_of(*last))) {
        last = std::move(head);
      }
    }
    if (done) break;
  }
  if (!last) return {};
  std::string text = "last time " + day_of(*last) + ", entry " + std::to_string(last->id) + ": " +
                     summary_in(last->summary, units);
  const std::vector<EntryHead> standing = standing_notes(notes[last->digest]);
  const std::string boards = boards_words(standing, units);
  text += "; " + (!boards.empty()    ? "now " + boards
                  : standing.empty() ? std::string("nothing noted since")
                                     : outcome_words(outcome_of(standing.front()), units));
  std::string lines;
  for (const std::string& line : wrapped(without_controls(text), archive_width - 2))
    lines += (lines.empty() ? "" : "  ") + line + "\n";
  return lines;
}

} // namespace

std::string time_now() {
  const auto given = source_date();
  const auto now = given ? static_cast<std::time_t>(*given) : std::time(nullptr);
  std::tm parts{};
  gmtime_r(&now, &parts);
  char text[32];
  const std::size_t size = std::strftime(text, sizeof text, "%Y-%m-%dT%H:%M:%SZ", &parts);
  return {text, size};
}

std::string program_version() {
  return SHANKLINE_VERSION;
}

ArchiveEntry entry_of(const SolvedOrder& solved, const std::string& solution_json,
                      const Drawing& drawing, const std::string& pdf, const Request& request,
                      const std::optional<PrinterDrawing>& printer) {
  const Order& order = solved.order();
  ArchiveEntry entry;
  EntryHead& head = entry.head;
  head.kind = EntryKind::cut;
  head.saved = time_now();
  head.program = program_version();
  head.dancer = order.dancer;
  head.pair = order.pair;
  head.date = order.date;
  head.alterations = alterations_of(order);
  head.summary = summary_of(solved.solution);
  entry.body = {solved.text,
                options_json(request.paper, request.units, printer ? &*printer : nullptr),
                solution_json, drawing_bytes(drawing), sha256(pdf)};
  return entry;
}

namespace {

std::string entries(std::size_t count) {
  return counted(count, "entry", "entries");
}

/// Returns false if something stays in the outbox.
bool say_sent(const Outbox::Sent& sent, std::ostream& out, std::ostream& messages) {
  if (sent.delivered > 0) out << "sent " << entries(sent.delivered) << " from the outbox\n";
  if (sent.refused > 0)
    out << entries(sent.refused) << " in the outbox " << (sent.refused == 1 ? "was" : "were")
        << " erased: the dancer was forgotten after that\n";
  for (const std::string& what : sent.spoilt)
    say({plain_caution(what, "it was not sent; look at this file of the outbox, and delete it")},
        messages);
  return sent.spoilt.empty();
}

} // namespace

std::unique_ptr<Store> open_and_send(const std::string& archive, ArchiveUse use,
                                     std::ostream& messages) {
  const std::string place = archive_file(archive);
  auto store = open_archive(place, use);
  if (!is_server_address(place)) return store;
  const Outbox outbox(place);
  const std::size_t waiting = outbox.waiting().size();
  if (waiting == 0) return store;
  try {
    say_sent(outbox.send(*open_archive(place, ArchiveUse::write)), messages, messages);
  } catch (const ArchiveFault& fault) {
    say({plain_caution(entries(outbox.waiting().size()) +
                           " in the outbox could not be sent: " + fault.what(),
                       fault.advice)},
        messages);
  }
  return store;
}

ExitCode send_waiting(const std::string& place, std::ostream& out, std::ostream& messages) {
  if (!is_server_address(place)) {
    out << "nothing waits: this archive is a file\n";
    return ExitCode::done;
  }
  const Outbox outbox(place);
  if (outbox.is_empty()) {
    out << "nothing waits in the outbox\n";
    return ExitCode::done;
  }
  const bool all = say_sent(outbox.send(*open_archive(place, ArchiveUse::write)), out, messages);
  return all ? ExitCode::done : ExitCode::file_system;
}

namespace {

/// The cuts whose order is word for word the one of `entry`, the oldest first.
std::vector<EntryId> cuts_of_same_order(Store& store, const ArchiveEntry& entry) {
  constexpr std::size_t at_once = 256;
  std::vector<EntryId> same;
  for (std::int64_t below = newest;;) {
    const std::vector<EntryHead> page = store.older_of(entry.head.dancer, below, at_once);
    for (const EntryHead& head : page)
      if (head.kind == EntryKind::cut && head.pair == entry.head.pair &&
          head.date == entry.head.date && store.body(head).order == entry.body.order)
        same.push_back(head.id);
    if (page.size() < at_once) break;
    below = page.back().turn;
  }
  std::reverse(same.begin(), same.end());
  return same;
}

} // namespace

std::optional<EntryHead> EntrySaver::save(ArchiveEntry entry) {
  complete(entry); // sent again, it is the same entry
  const SameOrder same = same_order(entry);
  auto saved = add(entry);
  if (same.kept.empty() && !same.waits) return saved;
  const std::string what =
      same.kept.empty() ? "an entry in the outbox is the same order: this is one more pair"
                        : entries_words(same.kept) + (same.kept.size() == 1 ? " is" : " are") +
                              " the same order: this is one more pair" +
                              (saved ? ", " + entries_words({saved->id}) : std::string());
  say({plain_caution(what, saved ? "if it is no other pair, end it: shankline archive end " +
                                       std::to_string(saved->id) + " --reason other"
                                 : "if it is no other pair, end it when it was sent: shankline "
                                   "archive end ID --reason other")},
      messages_);
  return saved;
}

EntryId EntrySaver::save_once(ArchiveEntry entry, const std::string& file) {
  complete(entry);
  const SameOrder same = same_order(entry);
  if (same.kept.empty() && !same.waits) {
    const bool asked = away_.empty();
    const auto saved = add(entry);
    if (!asked)
      say({plain_caution("the server could not be asked whether the archive has this order already",
                         "when it was sent, see whether it is there twice: shankline archive "
                         "history " +
                             entry.head.dancer)},
          messages_);
    return saved ? saved->id : 0;
  }
  std::string ids;
  for (const EntryId id : same.kept)
    ids += " " + std::to_string(id);
  Message left_out = about_file(
      file,
      (same.kept.empty() ? std::string("waits in the outbox already")
                         : "already kept as " + entries_words(same.kept)) +
          "; not kept again",
      (same.kept.empty() ? std::string()
                         : "for its labels as it is now: shankline archive labels" + ids + "; ") +
          "for one more pair of this order: shankline archive save " + file);
  left_out.severity = Severity::caution;
  say({left_out}, messages_);
  return same.kept.size() == 1 ? same.kept.front() : 0;
}

EntrySaver::SameOrder EntrySaver::same_order(const ArchiveEntry& entry) {
  SameOrder same;
  if (entry.head.kind != EntryKind::cut) return same;
  try {
    if (Store* store = reach()) same.kept = cuts_of_same_order(*store, entry);
  } catch (const ServerUnreachable& away) {
    lose(away.what());
  } catch (const ArchiveDamaged& damage) { // an entry can be added all the same
    say({plain_caution(damage.what(), damage.advice)}, messages_);
  }
  same.waits = waiting_.contains(sha256(entry.body.order));
  return same;
}

Store* EntrySaver::reach() {
  if (!away_.empty()) return nullptr;
  if (!store_) store_ = open_and_send(archive_, ArchiveUse::write, messages_);
  return store_.get();
}

void EntrySaver::lose(const std::string& why) {
  away_ = why;
  store_.reset();
  for (const ArchiveEntry& entry : Outbox(archive_file(archive_)).entries())
    if (entry.head.kind == EntryKind::cut) waiting_.insert(sha256(entry.body.order));
}

std::optional<EntryHead> EntrySaver::add(const ArchiveEntry& entry) {
  if (entry.head.kind == EntryKind::cut && is_dated_far_ahead(entry.head))
    say({plain_caution("the order's date " + entry.head.date +
                           " lies more than a year ahead: the archive counts this pair by " +
                           day_of(entry.head),
                       "if it is a slip, correct it before the order is used again")},
        messages_);
  try {
    if (Store* store = reach()) return store->add(entry);
  } catch (const ServerUnreachable& away) {
    lose(away.what());
  }
  return keep(entry, away_);
}

std::optional<EntryHead> EntrySaver::keep(const ArchiveEntry& entry, const std::string& why) {
  Outbox(archive_file(archive_)).keep(entry);
  if (entry.head.kind == EntryKind::cut) waiting_.insert(sha256(entry.body.order));
  say({plain_caution(why + ": the entry waits in the outbox; shankline archive send delivers it")},
      messages_);
  return std::nullopt;
}

void say_others_rights(const std::string& archive, std::ostream& messages) {
  if (!archive_is_there(archive)) return;
  const std::string file = archive_file(archive);
  if (const std::string what = rights_of_others(file); !what.empty())
    say({plain_caution(file + ": others on this machine may " + what +
                       " it; to stop that, run shankline archive protect")},
        messages);
}

std::string last_time(const std::string& dancer, const ArchiveWish& archive, Units units,
                      std::ostream& messages) {
  if (!archive_is_there(archive.file)) return {};
  try {
    const std::string place = archive_file(archive.file);
    const auto store = open_archive(place, ArchiveUse::read, std::chrono::milliseconds(200));
    if (!archive.save) say_others_rights(archive.file, messages);
    std::string text;
    store->with_snapshot([&] { text = recalled(*store, dancer, units); });
    return text;
  } catch (const ServerUnreachable& away) {
    // The save that follows reports the same fault.
    if (!archive.save) say({plain_caution(away.what(), away.advice)}, messages);
    return {};
  } catch (const ArchiveFault& fault) {
    say({plain_caution(fault.what(), fault.advice)}, messages);
    return {};
  }
}

} // namespace shankline
