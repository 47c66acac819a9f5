// After a try: the next line back from the witness line, or stop, and why.
#include "cli/archive/archive_outbox.hpp"
#include "cli/archive/archive_place.hpp"
#include "cli/archive/archive_tries.hpp"
#include "cli/archive/server_connection.hpp"
#include "cli/job/archive_saving.hpp"
#include "cli/job/last_pair.hpp"
#include "cli/job/solved_order.hpp"
#include "cli/order_file/seen_words.hpp"
#include "cli/report/bench_json.hpp"
#include "cli/text/message.hpp"
#include "cli/verbs/archive_looking.hpp"
#include "cli/verbs/archive_trying.hpp"
#include "cli/verbs/verbs.hpp"
#include "export/drawing/length_text.hpp"
#include "export/wording/work_words.hpp"
#include "geometry/order/figure.hpp"

#include <cmath>
#include <memory>
#include <optional>
#include <ostream>
#include <utility>

namespace shankline {
namespace {

struct ChosenFoot {
  const FootSolution* foot = nullptr;
  std::string fault; ///< where there is none
};

ChosenFoot chosen_foot(const Solution& solution, const std::optional<FootSide>& asked) {
  const auto cut = [](const std::optional<FootSolution>& foot) {
    return foot && foot->trim ? &*foot : nullptr;
  };
  const FootSolution* left = cut(solution.left);
  const FootSolution* right = cut(solution.right);
  if (!asked) {
    if (left && right)
      return {nullptr, "the order cuts both boards: say which, --foot left or --foot right"};
    if (!left && !right) return {nullptr, "the order cuts no board"};
    return {left ? left : right, {}};
  }
  const FootSolution* found = *asked == FootSide::left ? left : right;
  return {found, found ? std::string() : "the order does not cut this foot's board"};
}

/// Only one foot's board is tried on: cautions about the other foot would be taken for this one's.
void drop_cautions_of_the_other(FootSide side, SolvedOrder& order) {
  const FootSide other = side == FootSide::left ? FootSide::right : FootSide::left;
  std::erase_if(order.solution.findings,
                [&](const Finding& finding) { return finding.key.foot() == other; });
  std::erase_if(order.read.messages,
                [&](const Message& message) { return Key(message.key).foot() == other; });
}

std::string back_of(double mm, Units units) {
  return length_text(mm, units, Rounding::up);
}

/// The board's edges as they lie on the bench, foot side up.
std::string back_words(const FootSolution& foot, const CutLine& line, Units units) {
  const double witness = foot.trim->witness.centre;
  const auto back = [&](double station) { return back_of(witness - station, units); };
  if (line.medial == line.lateral) return back(line.centre);
  return "big-toe edge " + back(line.medial) + ", centre " + back(line.centre) +
         ", little-toe edge " + back(line.lateral);
}

std::string words_of(const FootSolution& foot, const Tried& tried, bool on_record,
                     const NextCut& next, const ToleranceWish& tolerances, Units units) {
  const std::string side = foot_name(foot.side);
  const double witness = foot.trim->witness.centre;
  std::string words =
      side + " board, " + (foot.layers ? of_layers(*foot.layers) + " layers, " : std::string()) +
      length_text(tried.cut_off, units) + " cut off" + (on_record ? ", as on record" : "") +
      ", its end " + length_text(witness - tried.cut_off, units) + " back from the witness line\n" +
      "stop band from " + back_of(witness - foot.trim->stop_from.centre, units) + ", stop line " +
      back_of(witness - foot.trim->stop.centre, units) + " back from the witness line, known to " +
      doubt_text(foot.trim->doubt.stop.expanded(), units) + "\n";
  if (next.line) {
    words += "next line " + back_words(foot, *next.line, units) + " " +
             tolerance_text(keep_tolerance(tolerances)) + " back from the witness line\n";
    words += with_inches(next.reason, units) + "\n";
    if (next.left_to_final > 0)
      words += length_text(ruler_back(*foot.trim, next.line->centre) -
                               ruler_back(*foot.trim, foot.trim->final_cut.centre),
                           units, Rounding::down) +
               " then left to the final line. ";
    words += "Tape the edge, baste the ribbons, try at the barre.\n";
    return words;
  }
  return words + with_inches(next.reason, units) + "\n";
}

/// The pair's cut in the archive, or its way there: while the server is away the cut may wait in
/// the outbox.
struct KeptPair {
  CutPair pair;
  std::unique_ptr<Store> store; ///< null while the server is away
};

class NextJob {
public:
  NextJob(const Request& request, std::ostream& out, std::ostream& messages)
      : request_(request), wish_(request.next), out_(out), messages_(messages),
        last_pairs_(request.archive) {}

  ExitCode run() {
    if (request_.orders.empty()) {
      const auto pair = pair_of_entry(*open(), wish_.entry);
      if (!pair) return refuse(pair.why().what, pair.why().advice, messages_);
      if (const auto done = done_with(*pair)) return refuse(*done, messages_);
      kept_ = KeptPair{*pair, std::move(store_)};
      ReadOrder read = read_order(pair->body.order, pair->name());
      if (!read.ok()) {
        say(read.messages, messages_);
        return ExitCode::bad_input;
      }
      solved_ = solve_read_order(std::move(read), pair->body.order, messages_, step());
    } else {
      solved_ = solve_order(order_source(request_, 0), messages_, step());
    }
    if (!solved_) return ExitCode::bad_input;
    const ChosenFoot chosen = chosen_foot(solved_->solution, wish_.foot);
    if (!chosen.foot) return wrong_usage(chosen.fault);
    foot_ = chosen.foot;
    if (!kept_ && needs_archive())
      if (const ExitCode code = find_pair(); code != ExitCode::done) return code;
    return answer();
  }

private:
  FurtherStep step() {
    return [this](SolvedOrder& order) {
      last_pairs_.warn(order);
      const ChosenFoot chosen = chosen_foot(order.solution, wish_.foot);
      if (chosen.foot) drop_cautions_of_the_other(chosen.foot->side, order);
    };
  }

  ExitCode wrong_usage(const std::string& fault) {
    say({plain_error(fault, "see shankline next --help")}, messages_);
    return ExitCode::bad_usage;
  }

  bool end_is_said() const { return wish_.cut_off || wish_.back; }
  bool needs_archive() const {
    return request_.archive.save || wish_.entry > 0 ||
           (!end_is_said() && archive_is_there(request_.archive.file));
  }

  Store* open() {
    const std::string& file = request_.archive.file;
    store_ = open_and_send(file, request_.archive.save ? ArchiveUse::change : ArchiveUse::read,
                           messages_);
    say_others_rights(file, messages_);
    return store_.get();
  }

  ExitCode find_pair() {
    try {
      Store& store = *open();
      const auto pair = wish_.entry > 0 ? pair_of_entry(store, wish_.entry)
                                        : pair_of_order(store, solved_->order(), solved_->text);
      if (!pair) {
        const bool several = !pair.why().allowed.empty();
        if (!several && !request_.archive.save && wish_.entry == 0) return ExitCode::done;
        return refuse(pair.why(), messages_);
      }
      if (pair->cut.dancer != solved_->order().dancer)
        return refuse(pair->name() + " is of another dancer, " + shown(pair->cut.dancer),
                      "give the entry of this order's pair", messages_);
      if (const auto done = done_with(*pair); done && request_.archive.save)
        return refuse(*done, messages_);
      say_twins(*pair, messages_);
      kept_ = KeptPair{*pair, std::move(store_)};
    } catch (const ServerUnreachable&) {
      if (!find_waiting_pair()) throw;
    }
    return ExitCode::done;
  }

  /// Finds the cut of this order among the entries that wait for the server. They have no number
  /// yet, since the server gives it, so only the order identifies them.
  bool find_waiting_pair() {
    if (wish_.entry > 0) return false;
    const Order& order = solved_->order();
    for (ArchiveEntry& entry : Outbox(archive_file(request_.archive.file)).entries()) {
      if (entry.head.kind == EntryKind::cut && entry.head.dancer == order.dancer &&
          entry.body.order == solved_->text) {
        CutPair pair{std::move(entry.head), std::move(entry.body), {}, {}};
        pair.saved = saved_cut(pair.body.solution);
        kept_ = KeptPair{std::move(pair), nullptr};
      } else if (kept_ && entry.head.kind == EntryKind::note &&
                 entry.head.about == kept_->pair.cut.digest) {
        kept_->pair.notes.push_back(std::move(entry.head));
      }
    }
    return kept_.has_value();
  }

  /// A later "too low" does not take back what was said against this board.
  std::optional<ExitCode> stopped() {
    if (!is_too_long(wish_.seen)) return {};
    const auto stop = kept_ ? stop_on_record(kept_->pair.notes, foot_->side)
                            : last_pairs_.stop_of_this_pair(*solved_, foot_->side);
    if (!stop) return {};
    return refuse(
        "this " + foot_name(foot_->side) + " board was " + seen_at_words(*stop) +
            ", and a later word does not take that back",
        "cut nothing more from it: set the pair aside and ask the teacher, the fitter, or "
        "a licensed physiotherapist or podiatrist. If it was said by mistake, or they let "
        "the board go on: shankline archive withdraw " +
            std::to_string(stop->id) +
            (kept_ ? "" : ". If this is another pair of the same order, say --entry ID"),
        messages_);
  }

  ExitCode answer() {
    if (const auto code = stopped()) return *code;
    const BoardStation witness = foot_->trim->witness.centre;
    Tried tried{BoardStation(), wish_.seen, wish_.past_final};
    bool on_record = false;
    if (end_is_said()) {
      tried.cut_off = wish_.cut_off ? BoardStation(*wish_.cut_off) : witness - *wish_.back;
    } else {
      const auto end = kept_ ? board_end(kept_->pair.notes, foot_->side) : std::nullopt;
      if (!end)
        return wrong_usage("say what is cut off so far: --cut MM from the heel end, or --back MM "
                           "from the witness line.");
      const auto last = last_try(kept_->pair.notes, foot_->side);
      if (last && is_too_long(last->seen) && still_ends_there(kept_->pair.notes, *last))
        return wrong_usage("the board was still too long at " + figure(*end) +
                           ", where it ended at the last try: say where it ends now, --cut MM from "
                           "the heel end or --back MM from the witness line.");
      tried.cut_off = BoardStation(*end);
      on_record = true;
    }
    const auto next = next_cut(foot_->outline, *foot_->trim, tried);
    if (!next) {
      Message nowhere = plain_error("no board of this order ends there: its witness line is at " +
                                    figure(witness, 0) + " from the heel end");
      nowhere.allowed =
          "--cut 0 to " + figure(witness, 0) + ", or --back the same counted from the witness line";
      say({nowhere}, messages_);
      return ExitCode::bad_input;
    }
    if (const auto meant = meant_by_a_slip(*foot_->trim, tried.cut_off); meant && end_is_said())
      say({plain_caution("the board's end, " + figure(tried.cut_off) +
                             " from the heel end, lies short of the order's first line",
                         "if " + figure(*meant) + " is cut off, say --cut " + figure(*meant))},
          messages_);
    Outcome outcome;
    if (kept_) {
      outcome.foot = foot_name(foot_->side);
      outcome.cut_off = tried.cut_off;
      outcome.seen = word_for(tried.seen, seen_words);
      outcome.worn = wish_.worn;
      outcome.by = wish_.by;
      if (const ExitCode code = check_kept(outcome, witness); code != ExitCode::done) return code;
    }
    out_ << (request_.json ? next_json(solved_->order(), *foot_, tried, *next, wish_.worn)
                           : words_of(*foot_, tried, on_record, *next, solved_->order().tolerances,
                                      request_.units));
    if (request_.archive.save) keep(outcome);
    if (!request_.json && wish_.seen == Seen::right && !wish_.worn)
      out_ << "Ask again after some wear: what is said then tells more than at the barre"
           << (request_.archive.save ? ". Keep it with --worn --save.\n" : ".\n");
    return ExitCode::done;
  }

  /// Before anything is said of the next line: a figure that cannot be is a slip.
  ExitCode check_kept(const Outcome& outcome, double witness) {
    const CutPair& pair = kept_->pair;
    const auto end = end_on_board(pair, foot_->side, outcome.cut_off, {});
    if (!end) return refuse(end.why().what, end.why().advice, messages_);
    const double then = pair.saved.foot(foot_->side)->board->witness;
    if (wish_.back && std::abs(then - witness) > 0.05)
      return refuse("the witness line of " + pair.name() + " lies at " + figure(then) +
                        " from the heel end, and this version would draw it at " + figure(witness),
                    "give --cut, the length that is cut off, instead of --back", messages_);
    const auto refusal = request_.archive.save ? refused_try(pair, outcome, wish_.day, true)
                                               : refused_end(pair, outcome);
    if (refusal) return refuse(refusal->what, refusal->advice, messages_);
    return ExitCode::done;
  }

  static std::optional<RefusedTry> refused_end(const CutPair& pair, Outcome outcome) {
    outcome.seen.clear(); // nothing is kept, so nothing can be there twice
    return refused_try(pair, outcome, {}, true);
  }

  void keep(const Outcome& outcome) {
    if (!wish_.day.empty()) say(doubts_of_day(kept_->pair, outcome, wish_.day), messages_);
    ArchiveEntry note = note_about(kept_->pair.cut, outcome, wish_.day);
    std::optional<EntryHead> kept;
    if (kept_->store)
      kept = kept_->store->add(std::move(note));
    else
      kept = EntrySaver(request_.archive.file, messages_).save(std::move(note));
    if (kept && !request_.json)
      out_ << "kept as entry " << kept->id << ": " << outcome_words(outcome, request_.units)
           << '\n';
  }

  const Request& request_;
  const NextWish& wish_;
  std::ostream& out_;
  std::ostream& messages_;
  LastPairs last_pairs_;
  std::unique_ptr<Store> store_;
  std::optional<KeptPair> kept_;
  std::optional<SolvedOrder> solved_;
  const FootSolution* foot_ = nullptr;
};

} // namespace

ExitCode run_next(const Request& request, std::ostream& out, std::ostream& messages) {
  return NextJob(request, out, messages).run();
}

} // namespace shankline
