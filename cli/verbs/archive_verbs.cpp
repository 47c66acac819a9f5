// Runs the actions that change or check the archive: save, note, export, import, forget, audit,
// backup, protect, prepare, send, move. Those that only read it are in archive_looking.
#include "cli/archive/archive_audit.hpp"
#include "cli/archive/archive_bundle.hpp"
#include "cli/archive/archive_json.hpp"
#include "cli/archive/archive_move.hpp"
#include "cli/archive/archive_opening.hpp"
#include "cli/archive/archive_place.hpp"
#include "cli/archive/server_address.hpp"
#include "cli/archive/server_prepare.hpp"
#include "cli/job/archive_saving.hpp"
#include "cli/job/archive_words.hpp"
#include "cli/job/order_job.hpp"
#include "cli/job/order_list.hpp"
#include "cli/surroundings/faults.hpp"
#include "cli/surroundings/target.hpp"
#include "cli/text/message.hpp"
#include "cli/verbs/archive_learning.hpp"
#include "cli/verbs/archive_looking.hpp"
#include "cli/verbs/archive_trying.hpp"
#include "cli/verbs/archive_wearing.hpp"
#include "cli/verbs/verbs.hpp"

#include <algorithm>
#include <iostream>
#include <stdexcept>
#include <unistd.h>
#include <utility>

namespace shankline {
namespace {

class ArchiveJob {
public:
  ArchiveJob(const Request& request, std::ostream& out, std::ostream& messages)
      : request_(request), wish_(request.archive), out_(out), messages_(messages) {}

  ExitCode run() {
    switch (wish_.action) {
    case ArchiveAction::save:
      return save();
    case ArchiveAction::list:
      return look(list_archive);
    case ArchiveAction::history:
      return look(show_history);
    case ArchiveAction::show:
      return look(show_entry);
    case ArchiveAction::compare:
      return look(compare_entries);
    case ArchiveAction::reprint:
      return look(reprint);
    case ArchiveAction::note:
      return change(add_note);
    case ArchiveAction::worn:
      return change(add_wear);
    case ArchiveAction::end:
      return change(end_pair);
    case ArchiveAction::mark:
      return change(mark_pairs);
    case ArchiveAction::pairs:
      return look(show_pairs);
    case ArchiveAction::find:
      return look(find_entries);
    case ArchiveAction::labels:
      return look(print_labels);
    case ArchiveAction::overview:
      return look(show_overview);
    case ArchiveAction::tries:
      return change(add_tries);
    case ArchiveAction::withdraw:
      return change(withdraw_note);
    case ArchiveAction::card:
      return look(write_card);
    case ArchiveAction::care:
      return look(write_care);
    case ArchiveAction::learn:
      return look(learn);
    case ArchiveAction::export_bundle:
      return export_bundle();
    case ArchiveAction::import_bundle:
      return import_bundle();
    case ArchiveAction::forget:
      return forget();
    case ArchiveAction::audit:
      return audit_all();
    case ArchiveAction::backup:
      return backup();
    case ArchiveAction::protect:
      return protect();
    case ArchiveAction::prepare:
      return prepare();
    case ArchiveAction::send:
      return send_waiting(archive_file(wish_.file), out_, messages_);
    case ArchiveAction::move:
      return move();
    }
    throw std::logic_error("action without work");
  }

private:
  std::unique_ptr<Store> open(ArchiveUse use) {
    auto store = open_and_send(wish_.file, use, messages_);
    if (!std::exchange(opened_, true) && wish_.action != ArchiveAction::protect)
      say_others_rights(wish_.file, messages_);
    return store;
  }

  using Look = ExitCode (*)(Store&, const Request&, std::ostream& out, std::ostream& messages);
  ExitCode look(Look at) {
    const auto store = open(ArchiveUse::read);
    ExitCode code = ExitCode::done;
    store->with_snapshot([&] { code = at(*store, request_, out_, messages_); });
    return code;
  }

  ExitCode save() {
    const OrderList list = list_orders(request_);
    say(list.faults, messages_);
    ExitCode worst = has_error(list.faults) ? ExitCode::bad_input : ExitCode::done;
    std::vector<EntryHead> saved;
    const AskedPrinter printer = asked_printer(request_);
    EntrySaver saver(wish_.file, messages_);
    for (const std::string& order : list.files)
      worst = std::max(worst, report_faults(order, messages_, [&] {
                         auto entry = solved_entry(request_, printer, order_source(request_, order),
                                                   messages_);
                         if (!entry) return ExitCode::bad_input;
                         const auto head = saver.save(*std::move(entry));
                         if (!std::exchange(opened_, true))
                           say_others_rights(wish_.file, messages_);
                         if (!head) return ExitCode::done;
                         saved.push_back(*head);
                         if (!request_.json) out_ << saved_words(*head, request_.units);
                         return ExitCode::done;
                       }));
    if (request_.json) out_ << list_json(saved, 0);
    return worst;
  }

  ExitCode change(Look at) {
    const auto store = open(ArchiveUse::change);
    return at(*store, request_, out_, messages_);
  }

  ExitCode export_bundle() {
    const auto store = open(ArchiveUse::read);
    if (!wish_.dancer.empty() && store->counted(wish_.dancer) == 0)
      return refuse_unknown(*store, wish_.dancer, messages_);
    if (request_.output.empty() || request_.output == "-") {
      write_bundle(*store, wish_.dancer, [this](std::string_view piece) { out_ << piece; });
      return ExitCode::done;
    }
    std::string bundle;
    write_bundle(*store, wish_.dancer, [&bundle](std::string_view piece) { bundle += piece; });
    // It says as much of the dancers as the archive does.
    write_over_its_like(request_.output, bundle, "format: shankline-archive/", "a bundle",
                        Readers::owner);
    out_ << wrote_file(request_.output) << '\n';
    return ExitCode::done;
  }

  ExitCode import_bundle() {
    try {
      // Read to its end before an archive is made for it.
      if (!archive_is_begun(wish_.file)) require_bundle(wish_.path);
      const auto store = open(ArchiveUse::write);
      const auto merged = read_bundle(*store, wish_.path);
      out_ << counted(merged.added, "entry", "entries") << " added, " << merged.present
           << " known here already\n";
    } catch (const BundleFault& fault) {
      // An archive is there even so if the bundle was changed while it was read.
      messages_ << without_controls(fault.what()) << "\n  do: " << fault.advice << "; "
                << (archive_is_there(wish_.file) ? "nothing was added" : "no archive was made")
                << '\n';
      return ExitCode::bad_input;
    }
    return ExitCode::done;
  }

  ExitCode forget() {
    const auto store = open(ArchiveUse::change);
    if (wish_.finish) return finish_forgetting(*store);
    const auto entries = static_cast<std::size_t>(store->counted(wish_.dancer));
    if (entries == 0 && !store->is_to_clean())
      return refuse_unknown(*store, wish_.dancer, messages_);
    if (!wish_.yes)
      if (const ExitCode code = asked(entries); code != ExitCode::done) return code;
    const std::size_t erased = store->forget(wish_.dancer, time_now(), program_version());
    out_ << counted(erased, "entry", "entries")
         << " erased. What was exported, printed or backed up "
         << "earlier is still there.\n";
    if (on_server()) say_what_a_server_holds();
    store->with_snapshot([&] { say_mentions(*store); });
    return ExitCode::done;
  }

  ExitCode finish_forgetting(Store& store) {
    if (store.is_to_clean()) store.clean();
    if (on_server())
      say_what_a_server_holds();
    else
      out_ << "nothing of what was erased is left in the archive's file\n";
    return ExitCode::done;
  }

  bool on_server() const { return is_server_address(archive_file(wish_.file)); }

  /// Erased rows are gone from the tables; this program cannot reach what else a server keeps.
  void say_what_a_server_holds() {
    out_ << "The tables were vacuumed: no row is left. The server may still hold the text\n"
         << "  in free pages, until other entries take their place. To write the tables anew, "
            "while\n"
         << "    nobody works: VACUUM FULL shankline.entries, shankline.bodies\n"
         << "  in its write-ahead log and its archive, until these are recycled: CHECKPOINT helps\n"
         << "  on standbys, until they have followed\n"
         << "  in backups, until they are deleted\n"
         << "Another bench's outbox does not bring the dancer back: send refuses such entries "
            "there.\n";
  }

  /// Returns true if the user means it.
  ExitCode asked(std::size_t entries) {
    if (isatty(STDIN_FILENO) == 0 || isatty(STDERR_FILENO) == 0) {
      messages_ << "shankline: nothing was erased: say --yes to forget "
                << without_controls(shown(wish_.dancer)) << '\n';
      return ExitCode::bad_usage;
    }
    messages_ << "This erases " << counted(entries, "entry", "entries") << " of "
              << without_controls(shown(wish_.dancer))
              << " for good.\nType the dancer's code to go on: " << std::flush;
    std::string typed;
    std::getline(std::cin, typed);
    if (typed == wish_.dancer) return ExitCode::done;
    messages_ << "nothing was erased\n";
    return ExitCode::bad_input;
  }

  /// Other dancers' entries are not touched, even where they speak of this one.
  void say_mentions(Store& store) {
    std::string ids;
    for (EntryId below = newest;;) {
      const std::vector<EntryHead> page = store.older(below, 64);
      if (page.empty()) break;
      for (const EntryHead& head : page)
        if (mentions(store, head)) ids += (ids.empty() ? "" : ", ") + std::to_string(head.id);
      below = page.back().id;
    }
    if (!ids.empty())
      messages_ << "caution: entries of other dancers hold the same word: " << ids
                << "\n  do: look at them with shankline archive show\n";
  }

  bool mentions(Store& store, const EntryHead& head) const {
    const auto in = [this](const std::string& text) {
      return text.find(wish_.dancer) != std::string::npos;
    };
    if (in(head.pair) || in(head.outcome) || in(head.dancer)) return true;
    return head.kind == EntryKind::cut && in(store.body(head).order);
  }

  ExitCode audit_all() {
    const auto store = open(ArchiveUse::read);
    Audit found;
    store->with_snapshot([&] { found = audit(*store, wish_.known); });
    out_ << (request_.json ? audit_json(found) : audit_words(found));
    return found.clean() && !found.erasing ? ExitCode::done : ExitCode::file_system;
  }

  ExitCode backup() {
    open(ArchiveUse::read)->copy_to(wish_.path);
    out_ << wrote_file(wish_.path) << '\n';
    return ExitCode::done;
  }

  ExitCode protect() {
    const bool done = open(ArchiveUse::read)->protect();
    const std::string file = archive_file(wish_.file);
    out_ << "only its owner may read and change " << without_controls(file)
         << (done ? " now\n" : " already\n");
    return ExitCode::done;
  }

  ExitCode prepare() {
    const Prepared prepared = prepare_server(wish_.path, usual_patience);
    const auto role = [](const std::string& name) { return without_controls(as_identifier(name)); };
    for (const std::string& what : prepared.done)
      out_ << without_controls(what) << '\n';
    if (prepared.done.empty()) out_ << "everything is there already: nothing was changed\n";
    out_ << "Let somebody in with a role of her or his own on the server:\n"
         << "  GRANT " << role(prepared.bench) << " TO name;    -- append and read\n"
         << "  GRANT " << role(prepared.reader) << " TO name;   -- read\n"
         << "  GRANT " << role(prepared.keeper)
         << " TO name;   -- forget, move and prepare as well\n";
    return ExitCode::done;
  }

  ExitCode move() {
    const auto from = open_and_send(wish_.path, ArchiveUse::read, messages_);
    const auto to = open_archive(wish_.target, ArchiveUse::write);
    const auto name = [](const std::string& place) {
      return is_server_address(place) ? shown_address(place) : place;
    };
    Moved moved;
    from->with_snapshot(
        [&] { moved = move_archive(*from, name(wish_.path), *to, name(wish_.target)); });
    out_ << counted(static_cast<std::size_t>(moved.added), "entry", "entries") << " added, "
         << moved.present << " were there already\n"
         << "both end with entry " << moved.end.id << ", " << moved.end.hash << '\n'
         << without_controls(name(wish_.path))
         << " is as it was: put it away, so that nobody saves into it\n";
    return ExitCode::done;
  }

  const Request& request_;
  const ArchiveWish& wish_;
  std::ostream& out_;
  std::ostream& messages_;
  bool opened_ = false; ///< at least once
};

} // namespace

ExitCode run_archive(const Request& request, std::ostream& out, std::ostream& messages) {
  return ArchiveJob(request, out, messages).run();
}

} // namespace shankline
