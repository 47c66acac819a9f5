#include "cli/report/wear_words.hpp"

#include "cli/archive/archive_tries.hpp"
#include "cli/job/archive_words.hpp"
#include "cli/report/learned_words.hpp"
#include "cli/text/csv.hpp"
#include "cli/text/message.hpp"
#include "cli/text/text_columns.hpp"
#include "geometry/order/figure.hpp"

#include <algorithm>

namespace shankline {
namespace {

constexpr std::size_t pair_width = 24;
constexpr std::size_t words_width = 62;
constexpr std::size_t said_width = archive_width - 2; // of sentences

std::string dry_words(const PairWear& wear, double drying_hours, const std::string& today) {
  const std::string from = dry_from(wear, drying_hours);
  if (from.empty()) return "never worn";
  return from <= today ? "since " + from : "damp until " + from;
}

std::string expected_words(const HouseLife& life) {
  std::string words =
      "Hours left are estimates: half of such pairs last at least so long, and eight "
      "in ten between the figures in brackets. They rest on ";
  if (!life.fitted) return words + life.basis_words({}) + ".";
  words += "the house's " + std::to_string(life.ended) + " ended pairs";
  std::string own;
  for (const DancerLife& one : life.dancers)
    if (one.own_scale)
      own += (own.empty() ? "" : ", ") + without_controls(one.dancer) + " " +
             std::to_string(one.ended);
  return words + (own.empty()
                      ? ", since no dancer has " + std::to_string(ended_pairs_for_own_scale) +
                            " ended pairs of her or his own."
                      : ", and for these dancers on their own ended pairs too: " + own + ".");
}

/// Returns the numbers and the day that the overview is about, so that a sheet on the wall is still
/// understood a month later.
std::string counts_words(const CompanyOverview& overview) {
  return counted(overview.dancers, "dancer", "dancers") + " and " +
         counted(overview.pairs, "pair", "pairs") + " on record, as of " + overview.day;
}

std::string unread_words(const CompanyOverview& overview) {
  if (overview.unread == 0) return {};
  return counted(overview.unread, "dancer's newest order is", "dancers' newest orders are") +
         " not read or solved by this version: nothing is said of those feet.";
}

/// The words of a pair of which nobody said how it went hold the cut's summary.
std::string row_words(const OverviewRow& row, Units units) {
  return row.what == ToDo::untold ? summary_in(row.words, units) : row.words;
}

} // namespace

std::string drying_words(double drying_hours, const std::string& hint) {
  return "A pair is taken to be dry " + short_figure(drying_hours) +
         " hours after it was worn, one worn wet after " + short_figure(drying_hours * wet_factor) +
         " (common practice; " + hint + ").";
}

std::string left_words(const HoursLeft& left) {
  return figure(left.middle) + " (" + figure(left.least) + " to " + figure(left.most) + ")";
}

std::string pairs_text(const std::vector<BookPair>& pairs, const HouseLife& life,
                       double drying_hours, const std::string& today) {
  std::vector<std::vector<std::string>> rows{
      {"entry", "dancer", "pair", "state", "hours", "last worn", "left, h", "dry"}};
  for (const BookPair& pair : pairs) {
    const PairWear& wear = pair.wear;
    rows.push_back({std::to_string(pair.cut.id), fitted(pair.cut.dancer, 12),
                    fitted(pair.cut.pair, pair_width),
                    std::string(state_name(wear.state())) +
                        (wear.kept_for.empty() ? "" : ", " + wear.kept_for),
                    figure(wear.hours()), wear.last_worn.empty() ? "–" : wear.last_worn,
                    wear.stopped.empty() ? left_words(hours_left(life, pair)) : "–",
                    dry_words(wear, drying_hours, today)});
  }
  if (pairs.empty())
    return "no pair is in use: mark one that came, shankline archive mark ID --received DATE, or "
           "note its first wear, shankline archive worn ID --hours 1\n";
  std::string stopped;
  for (const BookPair& pair : pairs)
    if (!pair.wear.stopped.empty())
      stopped += wrapped_text("Entry " + std::to_string(pair.cut.id) + " is stopped, " +
                                  pair.wear.stopped + ": " + ask_before_wear + ".",
                              said_width);
  return columns_text(rows, 4) + "\n" + stopped + wrapped_text(expected_words(life), said_width) +
         wrapped_text(drying_words(drying_hours, "longer in humid air: --drying HOURS"),
                      said_width);
}

std::string overview_text(const CompanyOverview& overview, Units units) {
  std::string text = counts_words(overview) + "\n\n";
  std::vector<std::vector<std::string>> rows{{"what", "dancer", "entry", "words"}};
  for (const OverviewRow& row : overview.rows) {
    bool first = true;
    for (const std::string& line : wrapped(without_controls(row_words(row, units)), words_width)) {
      rows.push_back(
          first
              ? std::vector<std::string>{std::string(to_do_name(row.what)), fitted(row.dancer, 12),
                                         std::to_string(row.entry), fitted(line, words_width)}
              : std::vector<std::string>{"", "", "", fitted(line, words_width)});
      first = false;
    }
  }
  text += overview.rows.empty() ? std::string("nothing needs doing\n") : columns_text(rows, 2);
  text += "\n" + wrapped_text(expected_words(overview.life), said_width);
  for (const std::string& sentence : learned_in_short(overview.learned, units))
    text += wrapped_text(sentence, said_width);
  if (const std::string unread = unread_words(overview); !unread.empty())
    text += wrapped_text(unread, said_width);
  return text;
}

std::string overview_csv(const CompanyOverview& overview) {
  std::string text = csv_row({"what", "dancer", "entry", "day", "words", "hours", "left_least",
                              "left_middle", "left_most"});
  for (const OverviewRow& row : overview.rows) {
    const auto left = [&](double HoursLeft::*which) {
      return row.left ? figure((*row.left).*which, 2) : "";
    };
    text += csv_row({to_do_name(row.what), row.dancer, std::to_string(row.entry), row.day,
                     row.words, row.hours ? figure(*row.hours) : "", left(&HoursLeft::least),
                     left(&HoursLeft::middle), left(&HoursLeft::most)});
  }
  return text;
}

TablePage overview_page(const CompanyOverview& overview, Units units) {
  TablePage page;
  page.title = "The company's pairs";
  page.before = {counts_words(overview) + ", by what needs doing"};
  page.columns = {{"what"}, {"dancer"}, {"entry", true}, {"words"}, {"done", false, true}};
  for (const OverviewRow& row : overview.rows)
    page.rows.push_back({{std::string(to_do_name(row.what)), row.dancer, std::to_string(row.entry),
                          row_words(row, units), ""},
                         row.what <= ToDo::to_judge});
  if (overview.rows.empty()) page.before.push_back("Nothing needs doing.");
  page.after = {expected_words(overview.life)};
  for (std::string& sentence : learned_in_short(overview.learned, units))
    page.after.push_back(std::move(sentence));
  if (std::string unread = unread_words(overview); !unread.empty())
    page.after.push_back(std::move(unread));
  return page;
}

} // namespace shankline
