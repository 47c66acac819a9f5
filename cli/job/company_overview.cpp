#include "cli/job/company_overview.hpp"

#include "cli/archive/archive_json.hpp"
#include "cli/archive/archive_tries.hpp"
#include "cli/job/archive_words.hpp"
#include "cli/job/next_order.hpp"
#include "cli/job/solved_order.hpp"
#include "cli/order_file/order_reader.hpp"
#include "cli/surroundings/calendar_day.hpp"
#include "export/wording/comparison_words.hpp"
#include "geometry/comparison/comparison.hpp"
#include "geometry/order/figure.hpp"
#include "geometry/order/reading_guide.hpp"

#include <algorithm>
#include <array>
#include <map>
#include <span>
#include <sstream>
#include <utility>

namespace shankline {
namespace {

constexpr std::array<std::string_view, 10> names{
    "stopped",     "late",         "nearly done", "to judge",    "awaited",
    "no word yet", "old readings", "not taken",   "feet differ", "in use"};

/// Every cut rests on these readings. Others are asked for only by the work that needs them.
constexpr std::array<std::string_view, 4> wanted_readings{"heel_front", "fold", "ball_length",
                                                          "arch_depth"};

std::string joined_words(const std::string& before, const std::string& words) {
  return before.empty() ? words : before + ", " + words;
}

bool tells_how_it_went(const std::vector<EntryHead>& notes) {
  const std::vector<EntryHead> standing = standing_notes(notes);
  return std::any_of(standing.begin(), standing.end(), [](const EntryHead& note) {
    const Outcome outcome = outcome_of(note);
    return !outcome.seen.empty() || outcome.gap || outcome.break_at || outcome.comfort ||
           outcome.hours || outcome.days || !outcome.ended.empty() || !outcome.words.empty();
  });
}

std::string days_words(int days) {
  return std::to_string(days) + (days == 1 ? " day" : " days");
}

std::string hours_words(double hours) {
  return figure(hours) + " h";
}

class Overview {
public:
  Overview(Store& store, CompanyOverview& into) : store_(store), into_(into) {}

  void write() {
    const std::vector<BookPair> book = pair_book(store_);
    into_.life = house_life(book);
    into_.pairs = book.size();
    into_.learned = learned_house(house_history(store_));
    for (std::size_t from = 0; from < book.size();) {
      std::size_t to = from;
      while (to < book.size() && book[to].cut.dancer == book[from].cut.dancer)
        pair(book[to++]);
      dancer(std::span(book).subspan(from, to - from));
      ++into_.dancers;
      from = to;
    }
    std::stable_sort(into_.rows.begin(), into_.rows.end(),
                     [](const OverviewRow& a, const OverviewRow& b) {
                       if (a.what != b.what) return a.what < b.what;
                       const bool by_hours = a.what == ToDo::nearly_done;
                       if (by_hours && a.left && b.left) return a.left->middle < b.left->middle;
                       const bool by_day = a.what == ToDo::late || a.what == ToDo::awaited ||
                                           a.what == ToDo::to_judge;
                       return by_day && a.day < b.day;
                     });
  }

private:
  OverviewRow& add(ToDo what, const EntryHead& cut, std::string day, std::string words) {
    return into_.rows.emplace_back(
        OverviewRow{what, cut.dancer, cut.id, std::move(day), std::move(words), {}, {}});
  }

  void pair(const BookPair& one) {
    const PairWear& wear = one.wear;
    switch (wear.state()) {
    case PairState::ordered:
      not_there(one, "ordered " + wear.sent, due_day(store_, one.cut));
      break;
    case PairState::received:
      // Who tries a pair on pointe has judged it already.
      if (wear.received.empty())
        in_use(one);
      else
        add(ToDo::to_judge, one.cut, wear.received,
            "came " + wear.received + ": shankline accept ORDER MEASURED --at first --save");
      break;
    case PairState::in_use:
      in_use(one);
      break;
    case PairState::saved:
      saved(one);
      break;
    case PairState::accepted:
      untold(one);
      break;
    case PairState::stopped:
      add(ToDo::stopped, one.cut, wear.tried, wear.stopped + ": " + ask_before_wear);
      break;
    case PairState::refused:
    case PairState::ended:
      break;
    }
  }

  void not_there(const BookPair& one, const std::string& words, const std::string& due) {
    const bool late = !due.empty() && due < into_.day;
    add(late ? ToDo::late : ToDo::awaited, one.cut, due,
        words + (due.empty() ? ", no day named" : ", due " + due) +
            (late ? ", " + days_words(*days_between(due, into_.day)) + " late" : ""));
  }

  /// A pair that is due is awaited, even if nobody marked its order as sent.
  void saved(const BookPair& one) {
    const std::string due = tells_how_it_went(one.notes) ? "" : due_day(store_, one.cut);
    if (due.empty())
      untold(one);
    else
      not_there(one, "not marked as sent", due);
  }

  void in_use(const BookPair& one) {
    const HoursLeft left = hours_left(into_.life, one);
    const std::string dry = dry_from(one.wear, into_.drying_hours);
    const bool only_tried = one.wear.state() == PairState::received;
    std::string words =
        only_tried ? "first tried " + one.wear.tried + ", no hours noted: shankline archive worn " +
                         std::to_string(one.cut.id) + " --hours HOURS"
                   : hours_words(one.wear.hours()) + " so far, about " + hours_words(left.middle) +
                         " left (" + figure(left.least) + " to " + figure(left.most) + ")";
    if (!one.wear.kept_for.empty()) words += ", kept for " + one.wear.kept_for;
    if (!dry.empty() && dry > into_.day) words += ", dry from " + dry;
    OverviewRow& row = add(left.middle < few_hours_left ? ToDo::nearly_done : ToDo::in_use, one.cut,
                           only_tried ? one.wear.tried : one.wear.last_worn, std::move(words));
    row.hours = one.wear.hours();
    row.left = left;
  }

  void untold(const BookPair& one) {
    const std::string day = day_of(one.cut);
    const auto gone = days_between(day, into_.day);
    if (tells_how_it_went(one.notes) || !gone || *gone < untold_after_days) return;
    add(ToDo::untold, one.cut, day,
        one.cut.summary + "; nobody said how it went in " + std::to_string(*gone) + " days");
  }

  /// A pair that was refused leaves its order open, unless a later one was saved.
  void refused(std::span<const BookPair> book) {
    for (const BookPair& one : book) {
      if (one.wear.state() != PairState::refused) continue;
      const bool replaced = std::any_of(book.begin(), book.end(), [&](const BookPair& other) {
        return other.cut.id > one.cut.id && other.cut.saved.substr(0, 10) >= one.wear.refused;
      });
      if (replaced) continue;
      if (const std::string due = due_day(store_, one.cut); !due.empty())
        not_there(one, "refused " + one.wear.refused + ", and no later order is saved", due);
    }
  }

  /// By the newest order.
  void dancer(std::span<const BookPair> book) {
    refused(book);
    std::vector<CutWithNotes> cuts;
    for (const BookPair& one : book)
      cuts.push_back({one.cut, one.notes});
    const std::vector<RecordedPair> pairs = as_recorded_pairs(std::move(cuts));
    const RecordedPair& newest = pairs.front();
    const EntryBody body = store_.body(newest.cut);
    ReadOrder read = read_order(body.order, "entry " + std::to_string(newest.cut.id));
    if (!read.ok()) {
      ++into_.unread;
      return;
    }
    const Order order = read.order;
    readings(pairs, newest, order);
    std::ostringstream unsaid;
    PairContact contact;
    const auto solved =
        solve_read_order(std::move(read), body.order, unsaid,
                         [&](SolvedOrder& step) { contact = estimated_contact(step); });
    if (!solved) {
      ++into_.unread;
      return;
    }
    differences(newest.cut, {solved->order(), solved->solution, contact});
  }

  void readings(const std::vector<RecordedPair>& pairs, const RecordedPair& newest,
                const Order& order) {
    std::string old, oldest;
    for (const ReadingDay& reading : reading_days(store_, pairs, newest, order)) {
      const auto age = days_between(reading.day, into_.day);
      if (!age || *age <= readings_keep_days) continue;
      old = joined_words(old, foot_name(reading.foot) + " " + reading.key);
      if (oldest.empty() || reading.day < oldest) oldest = reading.day;
    }
    if (!old.empty())
      add(ToDo::old_readings, newest.cut, oldest,
          "older than a year, " + oldest + " or later: " + old);
    std::string never;
    for (const FootSide side : {FootSide::left, FootSide::right}) {
      const auto& foot = order.foot(side);
      if (!foot || !foot->alterations.shank) continue;
      for (const std::string_view key : wanted_readings)
        if (!reading_guide(key)->in_foot.of(foot->foot) &&
            !(key == "arch_depth" && foot->foot.arch_bend_rad) &&
            !(key == "fold" && order.pose == Pose::in_shoe))
          never = joined_words(never, foot_name(side) + " " + std::string(key));
    }
    if (!never.empty()) add(ToDo::not_taken, newest.cut, newest.day, "never taken: " + never);
  }

  void differences(const EntryHead& cut, const Operand& operand) {
    const std::string words = feet_differ_words(compare_feet(operand));
    if (!words.empty()) add(ToDo::feet_differ, cut, day_of(cut), words);
  }

  Store& store_;
  CompanyOverview& into_;
};

} // namespace

std::string_view to_do_name(ToDo what) {
  return names[static_cast<std::size_t>(what)];
}

std::string due_day(Store& store, const EntryHead& cut) {
  return read_order(store.body(cut).order, "entry").order.due;
}

std::string feet_differ_words(const Comparison& comparison) {
  std::string words;
  std::size_t more = 0;
  for (const FootComparison& foot : comparison.feet)
    for (const ComparedFigure& one : foot.figures) {
      if (one.verdict != Verdict::differs || one.chosen) continue;
      if (!words.empty()) {
        ++more;
        continue;
      }
      words = one.name + " " + operand_words(one, true) + " left, " + operand_words(one, false) +
              " right: " + difference_words(one);
    }
  if (more > 0)
    words += ", and " + std::to_string(more) + (more == 1 ? " more figure" : " more figures");
  return words;
}

std::string work_differs_words(const Comparison& comparison) {
  // Other figures of the knife are missing for want of a reading, not of a wish.
  constexpr std::array<std::string_view, 5> work{"sides.", "thinned.", "darning.", "ribbons.",
                                                 "trim.reach"};
  std::vector<std::string> found;
  const auto add = [&](std::string words) {
    if (std::find(found.begin(), found.end(), words) == found.end())
      found.push_back(std::move(words));
  };
  for (const FootComparison& foot : comparison.feet)
    for (const ComparedFigure& one : foot.figures) {
      const bool wish = std::any_of(work.begin(), work.end(), [&](std::string_view part) {
        return one.rank == FigureRank::knife && one.key.starts_with(part);
      });
      if (one.chosen && one.verdict == Verdict::differs && one.key != "trim.witness")
        add(one.name + " " + operand_words(one, true) + " left, " + operand_words(one, false) +
            " right");
      else if (wish && one.verdict == Verdict::cannot_be_compared && (!one.a || !one.b))
        add((one.a ? "right: " : "left: ") + one.why_not);
    }
  if (found.empty()) return {};
  const std::size_t more = found.size() - 1;
  return found.front() + (more > 0 ? ", and " + std::to_string(more) + " more" : "");
}

CompanyOverview company_overview(Store& store, const std::string& day, double drying_hours) {
  CompanyOverview overview;
  overview.day = day;
  overview.drying_hours = drying_hours;
  Overview(store, overview).write();
  return overview;
}

} // namespace shankline
