#include "cli/job/house_history.hpp"

#include "cli/archive/archive_json.hpp"
#include "cli/archive/archive_tries.hpp"
#include "cli/job/archive_words.hpp"
#include "cli/order_file/order_reader.hpp"
#include "geometry/foot/foot_stations.hpp"
#include "geometry/order/foot_estimates.hpp"
#include "geometry/order/order.hpp"
#include "geometry/uncertainty/reading_doubt.hpp"

#include <algorithm>
#include <charconv>
#include <cstdio>
#include <map>
#include <optional>
#include <set>
#include <tuple>
#include <utility>

namespace shankline {
namespace {

constexpr std::size_t heads_at_once = 256; // entries in memory, bodies one by one

std::optional<Day> day_of_entry(const EntryHead& head) {
  return day_in(day_of(head));
}

Answer answer_for(Seen seen) {
  switch (seen) {
  case Seen::low:
  case Seen::too_far_back: // its end still lies too near the heel
    return Answer::too_low;
  case Seen::right:
    return Answer::good;
  case Seen::cut_too_far:
    return Answer::cut_too_far;
  case Seen::over_the_platform:
    return Answer::rolls_over;
  case Seen::pain:
    return Answer::pain;
  }
  return Answer::pain;
}

/// The style of shoe that an order names; empty if it names none.
std::string style_of(const FootOrder& order) {
  return order.shoe.style;
}

/// Returns true if the tool said where the board should end: at the heel front, or where it has
/// learned. With another rule the fitter did.
bool is_promise(const TrimRule& rule) {
  const auto* reach = std::get_if<ReachRule>(&rule);
  return std::holds_alternative<LearnedRule>(rule) || (reach && reach->reach == 1);
}

/// A shoe before it gets a name that no other shoe of its foot has.
struct NamelessShoe {
  std::string pair;   ///< as the order calls it; may be empty
  std::string order;  ///< its text
  std::string digest; ///< of the entry
  TriedShoe shoe;
};

struct FootSoFar {
  FootRecords records;
  std::vector<NamelessShoe> shoes;
  NewestOrder newest;
  std::tuple<Day, std::string> newest_order; ///< its day and text
};

class Historian {
public:
  explicit Historian(Store& store) : store_(store) {}

  HouseHistory read() && {
    gather_heads();
    for (const auto& [digest, cut] : cuts_)
      if (noted_.contains(cut.dancer)) take(cut);
    for (auto& [who, foot] : feet_)
      finish(foot);
    leave_out_faults();
    history_.records = in_order(std::move(history_.records));
    for (const FootRecords& foot : history_.records.feet)
      history_.newest.push_back(feet_.at({foot.dancer, foot.side}).newest);
    for (auto* figures : {&history_.gaps, &history_.breaks})
      std::sort(figures->begin(), figures->end(), [](const NotedFigure& a, const NotedFigure& b) {
        const auto all = [](const NotedFigure& f) {
          return std::tie(f.dancer, f.foot, f.day, f.noted, f.predicted);
        };
        return all(a) < all(b);
      });
    return std::move(history_);
  }

private:
  void gather_heads() {
    for (EntryId below = newest;;) {
      std::vector<EntryHead> page = store_.older(below, heads_at_once);
      if (page.empty()) return;
      below = page.back().id;
      for (EntryHead& head : page) {
        if (head.kind == EntryKind::cut) {
          std::string digest = head.digest;
          cuts_.emplace(std::move(digest), std::move(head));
        } else if (head.kind == EntryKind::note) {
          noted_.insert(head.dancer);
          std::string about = head.about;
          notes_[std::move(about)].push_back(std::move(head));
        }
      }
    }
  }

  void take(const EntryHead& cut) {
    std::vector<EntryHead>& notes = notes_[cut.digest];
    std::reverse(notes.begin(), notes.end()); // the oldest first
    const std::vector<EntryHead> standing = standing_notes(notes);
    for (const EntryHead& note : notes)
      if (!outcome_of(note).withdraws.empty()) ++history_.withdrawn;
    const EntryBody body = store_.body(cut);
    const ReadOrder read = read_order(body.order, "entry");
    const auto day = day_of_entry(cut);
    if (!read.ok() || !day) {
      ++history_.unread;
      return;
    }
    const SavedCut saved = standing.empty() ? SavedCut{} : saved_cut(body.solution);
    for (const FootSide side : {FootSide::left, FootSide::right}) {
      const auto& order = read.order.foot(side);
      if (order && order->alterations.shank)
        take(cut, body.order, read.order, side, *order, saved, standing, *day);
    }
    for (const EntryHead& note : standing) {
      const Outcome outcome = outcome_of(note);
      const auto foot = one_foot(outcome);
      if (outcome.seen.empty()) continue;
      if (!foot)
        ++history_.footless;
      else if (!outcome.cut_off)
        ++history_.endless;
    }
  }

  void take(const EntryHead& cut, const std::string& text, const Order& order, FootSide side,
            const FootOrder& foot, const SavedCut& saved, const std::vector<EntryHead>& notes,
            Day day) {
    Findings findings;
    const auto stations = foot_stations(foot.foot, order.pose, order.estimates_from,
                                        "feet." + foot_name(side), findings);
    if (!stations || !foot.shoe.board.inset || !foot.foot.length) {
      ++history_.unread;
      return;
    }
    FootSoFar& so_far = feet_[{order.dancer, side}];
    so_far.records.dancer = order.dancer;
    so_far.records.side = side;
    if (std::tuple<Day, std::string> here{day, text}; so_far.newest_order <= here) {
      so_far.newest_order = std::move(here);
      const Reading estimate =
          estimated_heel_front(order.estimates_from, foot.foot.length->value());
      so_far.records.estimate = estimate.value();
      so_far.records.estimate_sd = estimate.estimate_sd;
      so_far.newest = {style_of(foot), shoe_u(order)};
    }
    add_session(so_far, order, foot, *stations);
    add_shoes(so_far, cut, text, order, side, foot,
              frames_of(order.pose, stations->fold, foot.shoe.board.inset->value()), saved, notes,
              day);
  }

  static double shoe_u(const Order& order) {
    return order.pose == Pose::in_shoe ? shoe_u_in_shoe : shoe_u_pointed;
  }

  /// Orders of one dancer's pairs repeat the readings that were taken once.
  static void add_session(FootSoFar& so_far, const Order& order, const FootOrder& foot,
                          const FootStations& stations) {
    if (!foot.foot.heel_front || foot.foot.heel_front->estimated) return;
    const ReadingDoubt doubt = reading_doubt(*foot.foot.heel_front);
    ReadingSession session{order.read_by, stations.arch.heel_front.mm(), doubt.fresh(),
                           doubt.finding};
    std::vector<ReadingSession>& there = so_far.records.sessions;
    const auto all = [](const ReadingSession& s) {
      return std::tie(s.reader, s.place, s.scatter_u, s.finding);
    };
    if (std::none_of(there.begin(), there.end(),
                     [&](const ReadingSession& s) { return all(s) == all(session); }))
      there.push_back(std::move(session));
  }

  void add_shoes(FootSoFar& so_far, const EntryHead& cut, const std::string& text,
                 const Order& order, FootSide side, const FootOrder& foot, const Frames& frames,
                 const SavedCut& saved, const std::vector<EntryHead>& notes, Day day) {
    const auto on_foot = [&](double cut_off) {
      return std::max(0.0, frames.on_foot(BoardStation(cut_off)).mm());
    };
    TriedShoe shoe;
    shoe.ordered = day;
    shoe.style = style_of(foot);
    shoe.shoe_u = shoe_u(order);
    const auto& saved_foot = saved.foot(side);
    if (is_promise(foot.alterations.shank->rule) && saved_foot && saved_foot->board &&
        saved_foot->board->right_U)
      shoe.promised =
          PromisedPlace{on_foot(saved_foot->board->final_cut), *saved_foot->board->right_U};
    for (const RecordedTry& one : tries_of(notes)) {
      if (one.foot != side) continue;
      Trial trial{on_foot(one.cut_off), answer_for(one.seen), one.worn, one.by, day_in(one.day)};
      if (!one.copied_U) {
        shoe.trials.push_back(std::move(trial));
        continue;
      }
      // A worn pair that was right, before this one.
      TriedShoe copied;
      copied.ordered = day;
      copied.style = shoe.style;
      copied.shoe_u = *one.copied_U / 2;
      copied.trials.push_back(std::move(trial));
      so_far.shoes.push_back({"copied", text, cut.digest, std::move(copied)});
    }
    if (!shoe.trials.empty()) so_far.shoes.push_back({cut.pair, text, cut.digest, std::move(shoe)});
    add_noted(order, side, saved_foot, notes);
  }

  void add_noted(const Order& order, FootSide side, const std::optional<SavedFoot>& saved,
                 const std::vector<EntryHead>& notes) {
    if (!saved) return;
    for (const EntryHead& note : notes) {
      const Outcome outcome = outcome_of(note);
      const auto day = day_of_entry(note);
      if (one_foot(outcome) != side || !day) continue;
      if (outcome.gap && saved->gap)
        history_.gaps.push_back({order.dancer, side, *day, *outcome.gap, *saved->gap});
      if (outcome.break_at && saved->break_at)
        history_.breaks.push_back({order.dancer, side, *day, *outcome.break_at, *saved->break_at});
    }
  }

  /// Names its shoes, and hands the foot on.
  void finish(FootSoFar& foot) {
    std::sort(foot.shoes.begin(), foot.shoes.end(),
              [](const NamelessShoe& a, const NamelessShoe& b) {
                const auto all = [](const NamelessShoe& s) {
                  return std::tie(s.shoe.ordered, s.pair, s.order, s.digest);
                };
                return all(a) < all(b);
              });
    std::set<std::string> named;
    for (NamelessShoe& shoe : foot.shoes) {
      const std::string base = shoe.pair.empty() ? "pair" : shoe.pair;
      std::string name = base;
      for (int i = 2; !named.insert(name).second; ++i)
        name = base + " (" + std::to_string(i) + ")";
      shoe.shoe.pair = std::move(name);
      foot.records.shoes.push_back(std::move(shoe.shoe));
    }
    history_.records.feet.push_back(std::move(foot.records));
  }

  void leave_out_faults() {
    history_.left_out = check_records(history_.records);
    for (const RecordFault& fault : history_.left_out)
      for (FootRecords& foot : history_.records.feet) {
        if (foot.dancer != fault.dancer || foot.side != fault.side) continue;
        if (fault.pair.empty())
          foot.dancer.clear(); // all of it
        else
          std::erase_if(foot.shoes, [&](const TriedShoe& shoe) { return shoe.pair == fault.pair; });
      }
    std::erase_if(history_.records.feet,
                  [](const FootRecords& foot) { return foot.dancer.empty(); });
  }

  Store& store_;
  std::set<std::string> noted_;                         ///< dancers of whom anything was noted
  std::map<std::string, EntryHead> cuts_;               ///< by digest
  std::map<std::string, std::vector<EntryHead>> notes_; ///< by the cut's digest
  std::map<std::pair<std::string, FootSide>, FootSoFar> feet_;
  HouseHistory history_;
};

} // namespace

std::optional<Day> day_in(std::string_view text) {
  int parts[3]{};
  const char* at = text.data();
  const char* const end = text.data() + text.size();
  for (int i = 0; i < 3; ++i) {
    const auto [rest, error] = std::from_chars(at, end, parts[i]);
    if (error != std::errc() || (i < 2 && (rest == end || *rest != '-'))) return {};
    at = i < 2 ? rest + 1 : rest;
  }
  const std::chrono::year_month_day day{std::chrono::year(parts[0]),
                                        std::chrono::month(static_cast<unsigned>(parts[1])),
                                        std::chrono::day(static_cast<unsigned>(parts[2]))};
  if (!day.ok()) return {};
  return Day(day);
}

std::string day_text(Day day) {
  const std::chrono::year_month_day date(day);
  char text[16];
  std::snprintf(text, sizeof text, "%04d-%02u-%02u", static_cast<int>(date.year()),
                static_cast<unsigned>(date.month()), static_cast<unsigned>(date.day()));
  return text;
}

HouseHistory house_history(Store& store) {
  return Historian(store).read();
}

} // namespace shankline
