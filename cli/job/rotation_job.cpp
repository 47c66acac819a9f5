#include "cli/job/rotation_job.hpp"

#include "cli/surroundings/calendar_day.hpp"

#include <algorithm>
#include <set>
#include <utility>

namespace shankline {
namespace {

struct LeadTime {
  int days = 0;
  std::string dancer;
  EntryId entry = 0;
};

/// The longest from order to arrival, so that an order by it is not late.
std::optional<LeadTime> longest_lead(const std::vector<BookPair>& book) {
  std::optional<LeadTime> longest;
  for (const BookPair& pair : book) {
    const auto days = days_between(pair.wear.sent, pair.wear.received);
    if (days && *days > 0 && (!longest || *days > longest->days))
      longest = LeadTime{*days, pair.cut.dancer, pair.cut.id};
  }
  return longest;
}

RotationDancer planned(RotationDancer dancer, const RotationJob& job) {
  std::vector<RotationPair> pairs;
  for (const BookPair& pair : dancer.pairs)
    pairs.push_back(rotation_pair(pair, job.drying_hours));
  std::vector<DanceDay> days;
  for (const ScheduledDay& day : dancer.said)
    days.push_back({day_number(day.day), day.hours, day.stage});
  RotationRule rule;
  rule.drying_hours = job.drying_hours;
  const WeibullLife& life = job.life.of(dancer.dancer);
  dancer.plan = rotation_plan(pairs, days, life, rule);
  dancer.chances = chance_of_too_few(pairs, days, life, rule);
  dancer.runs = rule.runs;
  dancer.basis = job.life.basis_words(dancer.dancer);
  if (job.lead_days)
    dancer.advice =
        order_advice(pairs, days, life, day_number(job.today), *job.lead_days, chance_limit, rule);
  return dancer;
}

} // namespace

RotationJob rotation_job(Store& store, const std::string& dancer, const Schedule& schedule,
                         const std::string& today, double drying_hours,
                         std::optional<int> lead_days) {
  RotationJob job;
  job.today = today;
  job.drying_hours = drying_hours;
  job.lead_days = lead_days;
  job.runs = RotationRule{}.runs;
  const std::vector<BookPair> book = pair_book(store); // life is learned from all of it
  job.life = house_life(book);
  if (!lead_days)
    if (const auto longest = longest_lead(book)) {
      job.lead_days = longest->days;
      job.lead_basis =
          "the longest from order to arrival on record, entry " + std::to_string(longest->entry);
    }
  std::vector<ScheduledDay> ahead;
  for (const ScheduledDay& day : schedule.days)
    if (day.day >= today) ahead.push_back(day);
  job.gone = schedule.days.size() - ahead.size();
  if (dancer.empty()) {
    std::set<std::string> unknown;
    for (const ScheduledDay& day : ahead)
      if (!day.dancer.empty()) unknown.insert(day.dancer);
    for (const BookPair& pair : book)
      unknown.erase(pair.cut.dancer);
    job.unknown.assign(unknown.begin(), unknown.end());
  }
  for (std::size_t from = 0; from < book.size();) {
    RotationDancer one;
    one.dancer = book[from].cut.dancer;
    for (; from < book.size() && book[from].cut.dancer == one.dancer; ++from) {
      if (book[from].wear.is_wearable()) one.pairs.push_back(book[from]);
      if (book[from].wear.state() == PairState::saved) one.not_marked.push_back(book[from].cut.id);
      if (book[from].wear.state() == PairState::stopped) one.stopped.push_back(book[from]);
    }
    if (!dancer.empty() && one.dancer != dancer) continue;
    for (const ScheduledDay& day : ahead)
      if (day.dancer.empty() || day.dancer == one.dancer) one.said.push_back(day);
    if (one.said.empty()) continue;
    job.dancers.push_back(planned(std::move(one), job));
  }
  return job;
}

} // namespace shankline
