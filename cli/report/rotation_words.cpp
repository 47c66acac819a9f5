#include "cli/report/rotation_words.hpp"

#include "cli/archive/archive_tries.hpp"
#include "cli/job/archive_words.hpp"
#include "cli/job/house_history.hpp"
#include "cli/report/wear_words.hpp"
#include "cli/text/csv.hpp"
#include "cli/text/message.hpp"
#include "cli/text/text_columns.hpp"
#include "cli/text/word_list.hpp"
#include "geometry/order/figure.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

namespace shankline {
namespace {

constexpr std::size_t planned_pair_width = 24;

/// "Mon 2027-01-04"
std::string weekday_and(const std::string& day) {
  constexpr std::array<const char*, 7> names{"Sun", "Mon", "Tue", "Wed", "Thu", "Fri", "Sat"};
  const auto read = day_in(day);
  if (!read) return day;
  return std::string(names[std::chrono::weekday(*read).c_encoding()]) + " " + day;
}

/// "below 1 %", "12 %"
std::string chance_words(double chance) {
  const double percent = 100 * chance;
  if (percent < 1) return "below 1 %";
  if (percent > 99) return "over 99 %";
  return figure(percent, 0) + " %";
}

/// "up to 46 %", "over 99 %"
std::string at_most_words(double chance) {
  const std::string words = chance_words(chance);
  return words.starts_with("over") ? words : "up to " + words;
}

std::string entry_words(const RotationDancer& dancer, const PlannedDay& planned) {
  return planned.pair ? std::to_string(dancer.pairs[*planned.pair].cut.id) : "–";
}

std::string pair_words(const RotationDancer& dancer, const PlannedDay& planned) {
  if (!planned.pair) return "no pair is left";
  std::string words = dancer.pairs[*planned.pair].cut.pair;
  if (!planned.dry) words += (words.empty() ? "" : ", ") + std::string("damp");
  if (planned.off_stage) words += (words.empty() ? "" : ", ") + std::string("kept for the stage");
  return words;
}

std::string pairs_of(int count) {
  return std::to_string(count) + (count == 1 ? " pair" : " pairs");
}

/// Returns a sentence that says how many pairs to order, and by when.
std::string order_words(const RotationJob& job, const RotationDancer& dancer) {
  if (!job.lead_days)
    return "When to order is not said: give the maker's time with --lead-time DAYS, or mark when "
           "orders are sent and received (shankline archive mark).";
  const std::string lead = std::to_string(*job.lead_days) + " days from order to arrival" +
                           (job.lead_basis.empty() ? "" : " (" + job.lead_basis + ")");
  if (!dancer.advice)
    return "No pairs need to be ordered for this schedule: the chance of fewer than " +
           std::to_string(wanted_pairs) + " good dry pairs stays below " +
           figure(100 * chance_limit, 0) + " % on every day.";
  const OrderAdvice& advice = *dancer.advice;
  const std::string count =
      (advice.enough ? pairs_of(advice.pairs) : "more than " + pairs_of(advice.pairs));
  if (advice.pairs == 0)
    return "It is too late for this schedule: with " + lead +
           " pairs that are ordered today are there on " + day_of_number(advice.there_on) +
           ", after its last day. There are too few from " + day_of_number(advice.too_few_from) +
           " on, with a chance of " + at_most_words(advice.worst_before) + ".";
  if (advice.too_late)
    return "It is late: order " + count + " today. With " + lead + " they are there on " +
           day_of_number(advice.there_on) + "; too few from " + day_of_number(advice.too_few_from) +
           " on, with a chance of " + at_most_words(advice.worst_before) + " until they come.";
  return "Order " + count + " by " + weekday_and(day_of_number(advice.order_by)) + ": with " +
         lead + " they are there on " + day_of_number(advice.there_on) +
         ", the first day on which the chance of fewer than " + std::to_string(wanted_pairs) +
         " good dry pairs would reach " + figure(100 * chance_limit, 0) + " %.";
}

std::string drawn_words(const RotationJob& job) {
  const double error = 100 * chance_error(chance_limit, job.runs);
  return "Lives of pairs are drawn " + std::to_string(job.runs) +
         " times; a chance of 5 % is drawn to about ±" + figure(2 * error, 0) +
         " %. All of it is an estimate: look at the pair before it is worn.";
}

std::string how_words(const RotationJob& job) {
  return drying_words(job.drying_hours, "longer in humid air") + " " + drawn_words(job);
}

std::string left_out_words(const RotationJob& job, const RotationDancer& dancer) {
  std::string words;
  if (!dancer.not_marked.empty()) {
    std::string ids;
    for (const EntryId id : dancer.not_marked)
      ids += (ids.empty() ? "" : ", ") + std::to_string(id);
    words =
        "Not counted, since nobody marked them as there, tried them or noted any wear: entries " +
        ids + ".";
  }
  for (const BookPair& pair : dancer.stopped)
    words += (words.empty() ? "" : " ") + std::string("Not counted: entry ") +
             std::to_string(pair.cut.id) + ", " + pair.wear.stopped + ": " + ask_before_wear + ".";
  if (job.gone > 0)
    words += (words.empty() ? "" : " ") +
             counted(job.gone, "day of the schedule is", "days of the schedule are") +
             " gone by and left out.";
  return words;
}

/// `below_pairs`: the table of pairs has said already how long pairs last and dry.
std::vector<std::string> closing(const RotationJob& job, const RotationDancer& dancer,
                                 bool below_pairs) {
  std::vector<std::string> words{order_words(job, dancer)};
  if (!below_pairs) words.push_back("How long pairs last: " + dancer.basis + ".");
  words.push_back(below_pairs ? drawn_words(job) : how_words(job));
  if (std::string left_out = left_out_words(job, dancer); !left_out.empty())
    words.push_back(std::move(left_out));
  return words;
}

std::string in_lines(const std::vector<std::string>& sentences) {
  std::string text;
  for (const std::string& words : sentences)
    text += wrapped_text(without_controls(words), archive_width - 2);
  return text;
}

std::string when_words(const ScheduledDay& day) {
  return weekday_and(day.day) + (day.at.empty() ? "" : " " + day.at);
}

std::string title_of(const RotationDancer& dancer) {
  return "Pairs of " + dancer.dancer + ", day by day";
}

/// Without a pair and without a known lead time nothing can be said but that it is urgent.
bool orders_now(const RotationDancer& dancer) {
  return dancer.pairs.empty() && !dancer.advice;
}

/// The most urgent first; without advice last.
std::vector<const RotationDancer*> by_urgency(const RotationJob& job) {
  std::vector<const RotationDancer*> order;
  for (const RotationDancer& dancer : job.dancers)
    order.push_back(&dancer);
  std::stable_sort(order.begin(), order.end(), [](const auto* a, const auto* b) {
    if (orders_now(*a) != orders_now(*b)) return orders_now(*a);
    if (a->advice.has_value() != b->advice.has_value()) return a->advice.has_value();
    if (!a->advice) return false;
    if (a->advice->too_late != b->advice->too_late) return a->advice->too_late;
    return a->advice->order_by != b->advice->order_by
               ? a->advice->order_by < b->advice->order_by
               : a->advice->too_few_from < b->advice->too_few_from;
  });
  return order;
}

/// The first day on which the chance is at its limit; empty if there is none.
std::string too_few_from(const RotationDancer& dancer) {
  for (std::size_t i = 0; i < dancer.chances.size(); ++i)
    if (dancer.chances[i] >= chance_limit) return dancer.said[i].day;
  return {};
}

std::vector<std::string> company_row(const RotationJob& job, const RotationDancer& dancer) {
  const std::string from = too_few_from(dancer);
  std::string order_by = "–", count = "–", words;
  if (const auto& advice = dancer.advice) {
    if (advice->pairs == 0)
      return {dancer.dancer,
              std::to_string(dancer.pairs.size()),
              from.empty() ? "–" : from,
              "too late",
              "–",
              "there only after the last day of the schedule"};
    order_by = advice->too_late ? "today, late" : day_of_number(advice->order_by);
    count = (advice->enough ? "" : "over ") + std::to_string(advice->pairs);
    if (advice->too_late)
      words = "there on " + day_of_number(advice->there_on) + ", until then " +
              at_most_words(advice->worst_before);
  } else if (orders_now(dancer)) {
    order_by = "now";
    words = "no pair is marked as there";
  } else if (job.lead_days) {
    words = "nothing to order";
  }
  return {dancer.dancer,
          std::to_string(dancer.pairs.size()),
          from.empty() ? "–" : from,
          order_by,
          count,
          words};
}

const std::vector<std::string> company_head{"dancer",   "pairs", "too few from",
                                            "order by", "order", "words"};

std::vector<std::string> company_closing(const RotationJob& job) {
  std::vector<std::string> words;
  if (!job.lead_days)
    words.push_back(order_words(job, {}));
  else
    words.push_back("Order so many pairs by that day: with " + std::to_string(*job.lead_days) +
                    " days from order to arrival" +
                    (job.lead_basis.empty() ? "" : " (" + job.lead_basis + ")") +
                    " they are there on the first day on which the chance of fewer than " +
                    std::to_string(wanted_pairs) + " good dry pairs would reach " +
                    figure(100 * chance_limit, 0) + " %.");
  words.push_back(how_words(job));
  std::vector<std::string> without_pair;
  for (const RotationDancer& dancer : job.dancers)
    if (dancer.pairs.empty()) without_pair.push_back(dancer.dancer);
  if (!without_pair.empty())
    words.push_back("No pair is marked as there of " + in_words(without_pair) +
                    ". See what is on order: shankline archive overview.");
  if (std::string unknown = unknown_words(job); !unknown.empty())
    words.push_back(std::move(unknown));
  std::vector<std::string> stopped;
  for (const RotationDancer& dancer : job.dancers)
    for (const BookPair& pair : dancer.stopped)
      stopped.push_back(std::to_string(pair.cut.id) + " of " + dancer.dancer);
  if (!stopped.empty())
    words.push_back("Not counted, since a try speaks against them: " +
                    std::string(stopped.size() == 1 ? "entry " : "entries ") + in_words(stopped) +
                    ". Somebody has to be asked first: shankline archive overview.");
  if (job.gone > 0)
    words.push_back(counted(job.gone, "day of the schedule is", "days of the schedule are") +
                    " gone by and left out.");
  return words;
}

} // namespace

std::string unknown_words(const RotationJob& job) {
  if (job.unknown.empty()) return {};
  return "The archive has nothing of " + in_words(job.unknown) +
         ", whom the schedule names: see whether the code is right.";
}

std::string rotation_text(const RotationJob& job, const RotationDancer& dancer) {
  std::vector<std::vector<std::string>> rows{{"day", "hours", "where", "entry", "too few", "pair"}};
  for (std::size_t i = 0; i < dancer.plan.size(); ++i)
    rows.push_back({when_words(dancer.said[i]), figure(dancer.said[i].hours),
                    dancer.said[i].stage ? "stage" : "class", entry_words(dancer, dancer.plan[i]),
                    chance_words(dancer.chances[i]),
                    fitted(pair_words(dancer, dancer.plan[i]), planned_pair_width + 14)});
  std::string text = fitted(title_of(dancer), archive_width) + "\n\n" + columns_text(rows, 1) +
                     "\n" + pairs_text(dancer.pairs, job.life, job.drying_hours, job.today) + "\n";
  return text + in_lines(closing(job, dancer, true));
}

std::string company_rotation_text(const RotationJob& job) {
  std::vector<std::vector<std::string>> rows{company_head};
  for (const RotationDancer* dancer : by_urgency(job)) {
    rows.push_back(company_row(job, *dancer));
    rows.back()[0] = fitted(rows.back()[0], 12);
  }
  return columns_text(rows, 1) + "\n" + in_lines(company_closing(job));
}

std::string rotation_csv(const RotationJob& job) {
  std::string text = csv_row(
      {"dancer", "day", "at", "hours", "stage", "entry", "pair", "dry", "chance_of_too_few"});
  for (const RotationDancer& dancer : job.dancers)
    for (std::size_t i = 0; i < dancer.plan.size(); ++i) {
      const PlannedDay& planned = dancer.plan[i];
      const ScheduledDay& said = dancer.said[i];
      const BookPair* pair = planned.pair ? &dancer.pairs[*planned.pair] : nullptr;
      text += csv_row({dancer.dancer, said.day, said.at, short_figure(said.hours, 2),
                       said.stage ? "yes" : "no", pair ? std::to_string(pair->cut.id) : "",
                       pair ? pair->cut.pair : "",
                       !pair         ? ""
                       : planned.dry ? "yes"
                                     : "no",
                       figure(dancer.chances[i], 4)});
    }
  return text;
}

std::string company_rotation_csv(const RotationJob& job) {
  std::string text = csv_row({"dancer", "pairs", "too_few_from", "order_by", "there_on", "order",
                              "too_late", "worst_before"});
  for (const RotationDancer* dancer : by_urgency(job)) {
    std::vector<CsvCell> row{dancer->dancer, std::to_string(dancer->pairs.size()),
                             too_few_from(*dancer)};
    if (const auto& advice = dancer->advice)
      row.insert(row.end(), {day_of_number(advice->order_by), day_of_number(advice->there_on),
                             std::to_string(advice->pairs), advice->too_late ? "yes" : "no",
                             advice->too_late ? figure(advice->worst_before, 4) : ""});
    else {
      row.push_back(orders_now(*dancer) ? job.today : "");
      row.insert(row.end(), 4, "");
    }
    text += csv_row(row);
  }
  return text;
}

TablePage rotation_page(const RotationJob& job, const RotationDancer& dancer) {
  TablePage page;
  page.title = title_of(dancer);
  page.before = {order_words(job, dancer)};
  page.columns = {
      {"worn", false, true},      {"day"}, {"hours", true}, {"where"}, {"entry", true}, {"pair"},
      {"chance of too few", true}};
  for (std::size_t i = 0; i < dancer.plan.size(); ++i) {
    const PlannedDay& planned = dancer.plan[i];
    page.rows.push_back({{"", when_words(dancer.said[i]), figure(dancer.said[i].hours),
                          dancer.said[i].stage ? "stage" : "class", entry_words(dancer, planned),
                          pair_words(dancer, planned), chance_words(dancer.chances[i])},
                         !planned.pair || !planned.dry});
  }
  std::string lasts = "Hours left: ";
  for (const BookPair& pair : dancer.pairs)
    lasts += (&pair == dancer.pairs.data() ? "" : "; ") + std::string("entry ") +
             std::to_string(pair.cut.id) + ": " + left_words(hours_left(job.life, pair));
  if (!dancer.pairs.empty())
    page.after.push_back(lasts + ". Half of such pairs last at least so long, eight in ten between "
                                 "the figures in brackets.");
  const std::vector<std::string> rest = closing(job, dancer, false);
  page.after.insert(page.after.end(), rest.begin() + 1, rest.end());
  return page;
}

TablePage company_rotation_page(const RotationJob& job) {
  TablePage page;
  page.title = "Who needs shoes, and by when";
  page.before = {counted(job.dancers.size(), "dancer", "dancers") + ", as of " + job.today +
                 ", the most urgent first"};
  for (std::size_t k = 0; k < company_head.size(); ++k)
    page.columns.push_back({company_head[k], k == 1 || k == 4, false});
  page.columns.push_back({"ordered", false, true});
  for (const RotationDancer* dancer : by_urgency(job)) {
    std::vector<std::string> cells = company_row(job, *dancer);
    cells.emplace_back();
    page.rows.push_back({std::move(cells), dancer->advice && dancer->advice->too_late});
  }
  page.after = company_closing(job);
  return page;
}

std::vector<CalendarEvent> rotation_events(const RotationJob& job, bool company) {
  std::vector<CalendarEvent> events;
  for (const RotationDancer& dancer : job.dancers) {
    std::string day;
    int session = 0;
    for (std::size_t i = 0; !company && i < dancer.plan.size(); ++i) {
      const ScheduledDay& said = dancer.said[i];
      session = said.day == day ? session + 1 : 0;
      day = said.day;
      const PlannedDay& planned = dancer.plan[i];
      CalendarEvent event;
      event.identity = "wear\n" + dancer.dancer + "\n" + said.day + "\n" + std::to_string(session);
      event.day = said.day;
      event.at = said.at;
      event.minutes = static_cast<int>(std::lround(said.hours * 60));
      event.summary = dancer.dancer + ": " +
                      (planned.pair ? "pair " + entry_words(dancer, planned) : "no pair is left") +
                      (planned.pair && !planned.dry ? ", damp" : "") + ", " +
                      short_figure(said.hours, 2) + " h" + (said.stage ? ", stage" : "");
      event.description = "Chance of fewer than " + std::to_string(wanted_pairs) +
                          " good dry pairs: " + chance_words(dancer.chances[i]) +
                          ". An estimate: look at the pair before it is worn.";
      events.push_back(std::move(event));
    }
    if (const auto& advice = dancer.advice; advice && advice->pairs > 0) {
      CalendarEvent event;
      event.identity = "order\n" + dancer.dancer;
      event.day = day_of_number(advice->order_by);
      event.summary = dancer.dancer + ": order " + (advice->enough ? "" : "more than ") +
                      pairs_of(advice->pairs) + (advice->too_late ? ", late" : "");
      event.description = "Too few good dry pairs from " + day_of_number(advice->too_few_from) +
                          " on; there on " + day_of_number(advice->there_on) + ".";
      events.push_back(std::move(event));
    }
  }
  return events;
}

} // namespace shankline
