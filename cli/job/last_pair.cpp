#include "cli/job/last_pair.hpp"

#include "cli/archive/archive_opening.hpp"
#include "cli/archive/archive_place.hpp"
#include "cli/archive/archive_tries.hpp"
#include "cli/job/next_order.hpp"
#include "cli/order_file/order_reader.hpp"
#include "cli/order_file/seen_words.hpp"
#include "geometry/fitting/next_cut.hpp"
#include "geometry/order/figure.hpp"

#include <chrono>
#include <cmath>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace shankline {
namespace {

constexpr double little = 1.5;      // mm: what a knife may leave standing of a line
constexpr double same_place = 0.05; // mm; ends are shown to tenths

std::string length(double mm) {
  return short_figure(mm) + " mm";
}

struct LastTry {
  RecordedTry seen;
  const RecordedPair* pair = nullptr;
};

/// Returns the last try of the newest pair with a try of this foot; nullopt if there is none, or if
/// that board was cut on since.
std::optional<LastTry> last_of(const std::vector<RecordedPair>& pairs, FootSide side) {
  for (const RecordedPair& pair : pairs) {
    auto last = last_try(pair.notes, side);
    if (!last) continue;
    const auto end = board_end(pair.notes, side);
    if (end && last->cut_off < *end - same_place) return {};
    return LastTry{*std::move(last), &pair};
  }
  return {};
}

std::string seen_words_of(const RecordedTry& seen) {
  return (seen.seen == Seen::right ? "was good"
                                   : "was seen " + std::string(word_for(seen.seen, seen_words))) +
         (seen.worn ? " after wear" : "");
}

class Comparing {
public:
  Comparing(Store& store, SolvedOrder& solved) : store_(store), solved_(solved) {}

  void run() {
    const auto pairs = recorded_pairs(store_, solved_.order().dancer);
    for (const FootSide side : {FootSide::left, FootSide::right}) {
      const auto& foot = side == FootSide::left ? solved_.solution.left : solved_.solution.right;
      if (!foot || !foot->trim) continue;
      if (const auto last = last_of(pairs, side)) compare(*foot, *last);
    }
  }

private:
  void compare(const FootSolution& foot, const LastTry& last) {
    if (is_too_long(last.seen.seen)) return; // nothing speaks against a line farther from the heel
    const std::string text = store_.body(last.pair->cut).order;
    if (text == solved_.text) return; // it is this pair: `next` says how it goes on
    const ReadOrder read = read_order(text, "entry");
    if (!read.ok()) return;
    const Solution then = solve(read.order);
    const auto& before = foot.side == FootSide::left ? then.left : then.right;
    if (!before) return;
    const BoardStation there =
        foot.frames.on_board(before->frames.on_foot(BoardStation(last.seen.cut_off)));
    const double past = foot.trim->final_cut.centre - there;
    const bool was_good = last.seen.seen == Seen::right;
    if (past <= (was_good ? little : -little)) return;
    const std::string side = foot_name(foot.side);
    std::string words = "the last pair's " + side + " board (entry " +
                        std::to_string(last.pair->cut.id) + " of " + last.pair->day + ") " +
                        seen_words_of(last.seen) + " at " + length(last.seen.cut_off);
    if (std::abs(there.mm() - last.seen.cut_off) > same_place)
      words += ", which is " + length(there.mm()) + " on this board";
    words += "; this final line is at " + length(foot.trim->final_cut.centre.mm());
    solved_.solution.findings.push_back(
        {Severity::caution, "alterations." + side + ".shank", std::move(words), "",
         was_good ? "Stop there and try the shoe before you cut on; ask the teacher or fitter."
                  : "Stop well before that; ask the teacher or fitter where.",
         rank_of_last_pair});
  }

  Store& store_;
  SolvedOrder& solved_;
};

} // namespace

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
    store_->with_snapshot([&] { Comparing(*store_, solved).run(); });
  } catch (const ArchiveFault&) {
    store_.reset();
  }
}

} // namespace shankline
