#include "cli/archive/archive_outcome.hpp"

#include "cli/order_file/seen_words.hpp"
#include "geometry/order/figure.hpp"

#include <algorithm>

namespace shankline {

bool says_nothing(const Outcome& outcome) {
  return outcome == Outcome{};
}

std::optional<FootSide> one_foot(const Outcome& outcome) {
  for (const FootSide side : {FootSide::left, FootSide::right})
    if (outcome.foot == foot_name(side)) return side;
  return {};
}

std::string outcome_words(const Outcome& outcome, Units units) {
  std::string text;
  const auto add = [&text](const std::string& words) {
    text += (text.empty() ? "" : ", ") + words;
  };
  const auto days = [](int count) {
    return std::to_string(count) + (count == 1 ? " day" : " days");
  };
  if (!outcome.withdraws.empty()) add(std::string(withdraws_words));
  const std::string foot = outcome.foot == "both" ? "both feet" : outcome.foot;
  if (outcome.cut_off)
    add((foot.empty() ? "" : foot + " ") +
        (outcome.copied_U ? doubted_text(*outcome.cut_off, *outcome.copied_U, units)
                          : length_text(*outcome.cut_off, units)) +
        " off");
  else if (!foot.empty())
    add(foot);
  if (outcome.copied_U) add("copied from a worn pair");
  if (!outcome.seen.empty()) {
    // Notes of earlier versions hold words that are no longer offered.
    const std::string word = seen_word(outcome.seen);
    add("seen " + (word.empty() ? outcome.seen : word) + (outcome.worn ? " after wear" : ""));
  }
  if (!outcome.by.empty()) add("by " + outcome.by);
  if (outcome.gap) add("gap " + length_text(*outcome.gap, units));
  if (outcome.break_at) add("breaks at " + length_text(*outcome.break_at, units));
  if (outcome.comfort) add("comfort " + std::to_string(*outcome.comfort) + " of 5");
  if (outcome.hours)
    add(figure(*outcome.hours) + " h" + (outcome.days ? " on " + days(*outcome.days) : ""));
  else if (outcome.days)
    add("worn on " + days(*outcome.days));
  if (!outcome.where.empty()) add("at " + outcome.where);
  if (outcome.wet) add("wet");
  for (const std::string& done : outcome.done)
    add(done);
  if (outcome.further) add(length_text(*outcome.further, units) + " more cut off");
  if (!outcome.ended.empty()) {
    const bool reason =
        std::find(end_reasons.begin(), end_reasons.end(), outcome.ended) != end_reasons.end();
    add(reason ? "done: " + outcome.ended : outcome.ended);
  }
  if (!outcome.mark.empty()) add(outcome.mark == "in-use" ? "in use" : outcome.mark);
  if (!outcome.kept_for.empty()) add("kept for " + outcome.kept_for);
  if (!outcome.words.empty()) add(outcome.words);
  return text;
}

} // namespace shankline
