#include "cli/job/last_pair.hpp"

#include "cli/archive/archive_opening.hpp"
#include "cli/archive/archive_place.hpp"
#include "cli/archive/archive_tries.hpp"
#include "cli/archive/archive_wear.hpp"
#include "cli/job/dancer_code.hpp"
#include "cli/job/next_order.hpp"
#include "cli/order_file/order_reader.hpp"
#include "cli/order_file/seen_words.hpp"
#include "geometry/board/trim_doubt.hpp"
#include "geometry/fitting/next_cut.hpp"
#include "geometry/order/figure.hpp"
#include "geometry/order/ruler_number.hpp"
#include "geometry/uncertainty/exchanged_feet.hpp"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace shankline {
namespace {

constexpr double little = 1.5; // mm: what a knife may leave standing of a line

std::string length(double mm) {
  return short_figure(mm) + " mm";
}

double as_printed(const CutLine& cut) {
  return ruler_number(cut.centre, Rounding::down);
}

std::string seen_words_of(const RecordedTry& seen) {
  return (seen.seen == Seen::right ? "was good"
                                   : "was seen " + std::string(word_for(seen.seen, seen_words))) +
         (seen.worn ? " after wear" : "");
}

/// A try of a pair's board, and where it ended on the board of the order in question.
struct PlacedTry {
  RecordedTry seen;
  BoardStation there;
  std::string pair; ///< "the last pair's left board (entry 1 of 2026-03-14)"
  bool own = false; ///< the order in question is this pair's
};

class Comparing {
public:
  Comparing(Store& store, SolvedOrder& solved) : store_(store), solved_(solved) {}

  void run() {
    const auto pairs = recorded_pairs(store_, solved_.order().dancer);
    if (pairs.empty()) look_for_other_spelling();
    look_for_exchanged_feet(pairs);
    for (const FootSide side : {FootSide::left, FootSide::right}) {
      const auto& foot = solved_.solution.foot(side);
      if (!foot || !foot->trim) continue;
      const auto stop = standing_stop(pairs, *foot);
      if (stop) compare(*foot, *stop);
      const auto told = telling_try(pairs, *foot);
      if (told && !(stop && told->seen.id == stop->seen.id)) compare(*foot, *told);
    }
  }

private:
  void look_for_other_spelling() {
    const std::string& dancer = solved_.order().dancer;
    const std::string other = other_spelling(store_, dancer);
    if (other.empty()) return;
    solved_.solution.findings.push_back(
        {Severity::caution, "dancer",
         "the archive has nothing of " + dancer + ", but it knows " + other, "",
         "If that is the same dancer, write " + other + " here: the last pair was not looked at.",
         rank_of_last_pair});
  }

  /// Looks at the newest pair of another order.
  void look_for_exchanged_feet(const std::vector<RecordedPair>& pairs) {
    for (const RecordedPair& pair : pairs) {
      const std::string text = store_.body(pair.cut).order;
      if (text == solved_.text) continue;
      compare_readings(pair, read_order(text, "entry"));
      return;
    }
  }

  void compare_readings(const RecordedPair& pair, const ReadOrder& then) {
    if (!then.ok()) return;
    const auto found = exchanged_feet(solved_.order(), then.order);
    if (!found) return;
    const auto two = [](double left, double right) {
      return length(left) + " left, " + length(right) + " right";
    };
    solved_.solution.findings.push_back(
        {Severity::caution, "feet",
         "left and right look exchanged against the last pair (" + named(pair) +
             "): " + found->name + " then " + two(found->left_then, found->right_then) + "; now " +
             two(found->left_now, found->right_now),
         "", "Look which foot is which, and measure one of them again, before cutting.",
         rank_of_last_pair});
  }

  static std::string named(const RecordedPair& pair) {
    return "entry " + std::to_string(pair.cut.id) + " of " + pair.day;
  }

  /// Returns the newest try of all pairs that speaks against cutting so far, unless the board of a
  /// newer pair was good or still too long there or farther from the heel. However many newer pairs
  /// are silent about it, it stands.
  std::optional<PlacedTry> standing_stop(const std::vector<RecordedPair>& pairs,
                                         const FootSolution& foot) {
    const auto oldest = std::find_if(pairs.rbegin(), pairs.rend(), [&](const RecordedPair& pair) {
      return stop_on_record(pair.notes, foot.side).has_value();
    });
    std::optional<BoardStation> borne;
    bool none_newer = true;
    for (auto pair = pairs.begin(); pair != oldest.base(); ++pair) {
      const std::vector<RecordedTry> tries = tries_of(pair->notes);
      const auto is_own = [&](const RecordedTry& one) {
        return one.foot == foot.side && !one.copied_U;
      };
      if (std::none_of(tries.begin(), tries.end(), is_own)) continue;
      const std::string text = store_.body(pair->cut).order;
      const auto frames = frames_then(text, foot.side);
      if (!frames) continue;
      const auto placed = [&](const RecordedTry& one) {
        return foot.frames.on_board(frames->on_foot(BoardStation(one.cut_off)));
      };
      if (const auto stop = stop_on_record(pair->notes, foot.side);
          stop && (!borne || placed(*stop) > *borne))
        return PlacedTry{*stop, placed(*stop),
                         board_words(*pair, foot.side, text == solved_.text, none_newer),
                         text == solved_.text};
      for (const RecordedTry& one : tries)
        if (is_own(one) && (one.seen == Seen::right || is_too_long(one.seen)))
          borne = std::max(borne.value_or(placed(one)), placed(one));
      none_newer = false;
    }
    return {};
  }

  /// Returns the frames of that foot in an order of then; nullopt if this version does not solve
  /// it.
  static std::optional<Frames> frames_then(const std::string& text, FootSide side) {
    const ReadOrder read = read_order(text, "entry");
    if (!read.ok()) return {};
    const Solution then = solve(read.order);
    const auto& before = then.foot(side);
    return before ? std::optional(before->frames) : std::nullopt;
  }

  static std::string board_words(const RecordedPair& pair, FootSide side, bool own, bool last) {
    return std::string(own    ? "this order's "
                       : last ? "the last pair's "
                              : "an earlier pair's ") +
           foot_name(side) + " board (" + named(pair) + ")";
  }

  /// Returns the newest try that was not "too long", unless a newer board was still too long there
  /// or farther from the heel. Of one pair, a word against cutting on goes before its last try. A
  /// board that was cut on since its last try tells nothing else; older ones are not asked then.
  std::optional<PlacedTry> telling_try(const std::vector<RecordedPair>& pairs,
                                       const FootSolution& foot) {
    constexpr int most_pairs = 10; // each is solved anew
    BoardStation too_long_at;
    int asked = 0;
    for (const RecordedPair& pair : pairs) {
      auto stop = stop_on_record(pair.notes, foot.side);
      const bool stopped = stop.has_value();
      auto last = stopped ? std::move(stop) : last_try(pair.notes, foot.side);
      if (!last) continue;
      const std::string text = store_.body(pair.cut).order;
      // `next` says how this pair goes on; a further one of the same order is cut like it.
      if (text == solved_.text && !stopped) continue;
      if (!(stopped || still_ends_there(pair.notes, *last)) || ++asked > most_pairs) return {};
      const auto frames = frames_then(text, foot.side);
      if (!frames) return {};
      const BoardStation there = foot.frames.on_board(frames->on_foot(BoardStation(last->cut_off)));
      if (is_too_long(last->seen)) {
        too_long_at = std::max(too_long_at, there);
        continue;
      }
      if (there <= too_long_at) return {};
      return PlacedTry{*std::move(last), there,
                       board_words(pair, foot.side, text == solved_.text, true),
                       text == solved_.text};
    }
    return {};
  }

  void compare(const FootSolution& foot, const PlacedTry& told) {
    const double past = foot.trim->final_cut.centre - told.there;
    const bool was_good = told.seen.seen == Seen::right;
    if (past <= (was_good ? little : -little)) return;
    const std::string side = foot_name(foot.side);
    std::string words =
        told.pair + " " + seen_words_of(told.seen) + " at " + length(told.seen.cut_off);
    if (std::abs(told.there.mm() - told.seen.cut_off) > same_end)
      words += ", which is " + length(told.there.mm()) + " on this board";
    words += "; this final line is at " + length(as_printed(foot.trim->final_cut));
    std::string advice = was_good ? "Stop at " : "Stop well before ";
    advice += length(told.there.mm()) + " cut off, " +
              short_figure(ruler_back(*foot.trim, told.there)) + " back from the witness line" +
              (was_good ? ", and try the shoe; ask the teacher or fitter before more."
                        : "; ask the teacher or fitter where.");
    int rank = rank_of_last_pair;
    if (!was_good && first_cut_repeats(*foot.trim, told.there)) {
      words += ", and the first cut at " + length(as_printed(*foot.trim->first_cut)) +
               " is already too near";
      if (told.seen.seen == Seen::cut_too_far) {
        const double hold_back =
            ruler_number(foot.trim->final_cut.centre - told.there + behind_too_far, Rounding::up);
        advice = "Write hold_back: " + short_figure(hold_back) +
                 " into alterations: shank, and the first cut stays " +
                 short_figure(behind_too_far) + " mm behind that end. " + advice;
      }
      advice = "Do not cut by this sheet. " + advice;
      rank = rank_of_repeated_end;
    }
    if (told.own && !was_good) advice += " Of that pair cut nothing more.";
    solved_.solution.findings.push_back({Severity::caution, "alterations." + side + ".shank",
                                         std::move(words), "", std::move(advice), rank});
  }

  static bool first_cut_repeats(const SolvedTrim& trim, BoardStation end) {
    return trim.first_cut && as_printed(*trim.first_cut) > end - behind_too_far + same_end;
  }

  Store& store_;
  SolvedOrder& solved_;
};

} // namespace

void warn_of_last_pair(Store& store, SolvedOrder& solved) {
  Comparing(store, solved).run();
}

std::optional<RecordedTry> LastPairs::stop_of_this_pair(const SolvedOrder& solved, FootSide foot) {
  const std::lock_guard alone(reading_);
  if (!opened_) open();
  if (!store_) return {};
  std::optional<RecordedTry> stop, of_ended;
  bool open_one = false;
  try {
    store_->with_snapshot([&] {
      for (const RecordedPair& pair : recorded_pairs(*store_, solved.order().dancer)) {
        if (store_->body(pair.cut).order != solved.text) continue;
        const bool ended = wear_of(pair.notes).state() == PairState::ended;
        open_one = open_one || !ended;
        auto& found = ended ? of_ended : stop;
        if (!found) found = stop_on_record(pair.notes, foot);
      }
    });
  } catch (const ArchiveFault&) {
    store_.reset();
    return {};
  }
  return open_one ? stop : of_ended;
}

void LastPairs::open() {
  opened_ = true;
  if (!archive_is_there(archive_.file)) return;
  try {
    store_ =
        open_archive(archive_file(archive_.file), ArchiveUse::read, std::chrono::milliseconds(200));
  } catch (const ArchiveFault&) { // last_time or the save says it
  }
}

void LastPairs::warn(SolvedOrder& solved) {
  const std::lock_guard alone(reading_);
  if (!opened_) open();
  if (!store_) return;
  try {
    store_->with_snapshot([&] { warn_of_last_pair(*store_, solved); });
  } catch (const ArchiveFault&) {
    store_.reset();
  }
}

} // namespace shankline
