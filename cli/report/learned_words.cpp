#include "cli/report/learned_words.hpp"

#include "cli/text/csv.hpp"
#include "cli/text/message.hpp"
#include "cli/text/text_columns.hpp"
#include "export/wording/sentence.hpp"
#include "geometry/learning/learned_use.hpp"
#include "geometry/order/figure.hpp"

#include <algorithm>
#include <cmath>
#include <cstdio>

namespace shankline {
namespace {

constexpr std::size_t learned_width = 100;

std::string how_many(int count, const std::string& one, const std::string& many) {
  return std::to_string(count) + " " + (count == 1 ? one : many);
}

/// "R2", or words for a reader without a code.
std::string reader_name(const std::string& code) {
  return code.empty() ? "a reader without a code (read_by)" : without_controls(code);
}
std::string style_name(const std::string& style) {
  return style.empty() ? "shoes without a style" : "style " + without_controls(style);
}

/// "4.1 ±1.6 too far forward"
std::string side_words(const LearnedFigure& figure_of, const char* ahead, const char* behind,
                       Units units) {
  return doubted_text(std::abs(figure_of.mean), figure_of.U(), units) +
         (figure_of.mean < 0 ? behind : ahead);
}

std::string month_text(std::chrono::year_month month) {
  char text[16];
  std::snprintf(text, sizeof text, "%04d-%02u", static_cast<int>(month.year()),
                static_cast<unsigned>(month.month()));
  return text;
}

std::string share_words(int part, int whole) {
  return whole > 0 ? short_figure(100.0 * part / whole) + " %" : "–";
}
std::string optional_figure(const std::optional<double>& value) {
  return value ? figure(*value) : "–";
}

/// "2026-03" or "2025-09 to 2026-08": orders of the pairs that were learned from.
std::string months_text(const LearnedPlace& place) {
  if (!place.first || !place.last) return {};
  const std::string first = day_text(*place.first).substr(0, 7);
  const std::string last = day_text(*place.last).substr(0, 7);
  return first == last ? first : first + " to " + last;
}

LearnedRow track_row(const TrackRecord& record) {
  return {record.month ? month_text(*record.month) : "all",
          std::to_string(record.shoes),
          std::to_string(record.ended_good),
          optional_figure(record.tries_until_good),
          share_words(record.cut_too_far, record.shoes),
          std::to_string(record.stopped),
          optional_figure(record.mean_off),
          optional_figure(record.sd_off),
          record.promised > 0 ? share_words(record.inside_U, record.promised) : "–"};
}

std::string compared(const std::vector<NotedFigure>& figures, const std::string& what,
                     Units units) {
  if (figures.empty()) return {};
  double mean = 0;
  for (const NotedFigure& f : figures)
    mean += (f.noted - f.predicted) / static_cast<double>(figures.size());
  double squares = 0;
  for (const NotedFigure& f : figures)
    squares += (f.noted - f.predicted - mean) * (f.noted - f.predicted - mean);
  const double n = static_cast<double>(figures.size());
  return what + ", noted less predicted, " +
         how_many(static_cast<int>(figures.size()), "shoe", "shoes") + ": mean " +
         length_text(mean, units) +
         (figures.size() > 1 ? ", spread " + length_text(std::sqrt(squares / (n - 1)), units)
                             : "") +
         " (the model's figure is for the shoe cut at the final line)";
}

bool said_too_low(const LearnedHouse& house, const std::string& dancer) {
  return std::none_of(house.never_too_low.begin(), house.never_too_low.end(),
                      [&](const NeverTooLow& never) { return never.dancer == dancer; });
}

/// On one foot at least; else nobody knows what the dancer would have said.
bool was_tried(const LearnedHouse& house, const std::string& dancer) {
  return std::any_of(house.feet.begin(), house.feet.end(), [&](const LearnedFoot& foot) {
    return foot.dancer == dancer && foot.place.pairs > 0;
  });
}

} // namespace

std::string basis_words(const LearnedHouse& house) {
  if (house.shoes == 0)
    return "No tries are on record yet. Keep each one: shankline next ORDER --save, or type in the "
           "dancer's card: shankline archive tries.";
  return "Learned from " + how_many(house.trials, "answer", "answers") + " on " +
         how_many(house.shoes, "shoe", "shoes") + ", ordered from " + day_text(*house.first) +
         " to " + day_text(*house.last) +
         ". All of it is an estimate; ± is at 95 %. Places are mm along the sole from the back of "
         "the pointed foot's heel.";
}

std::vector<std::string> house_sentences(const LearnedHouse& house, Units units) {
  std::vector<std::string> sentences;
  if (house.shoes == 0) return sentences;
  const LearnedFigure& m = house.fit.house;
  sentences.push_back("The house: boards are right " +
                      side_words(m, " ahead of", " behind", units) +
                      " the place where the heel pad begins" +
                      (m.surely_not_zero() ? "." : ", which may be no shift at all."));
  for (const ReaderHabit& reader : house.fit.readers) {
    if (reader.sessions == 0) continue;
    const std::string readings = how_many(reader.sessions, "reading", "readings");
    const std::string name = reader_name(reader.reader);
    sentences.push_back(
        reader.habit.surely_not_zero()
            ? (reader.reader.empty() ? capital(name) : name) + " marks the heel front " +
                  side_words(reader.habit, " too far forward", " too far back", units) + " (" +
                  readings + ")."
            : "It is not certain that " + name +
                  " has a habit: " + doubted_text(reader.habit.mean, reader.habit.U(), units) +
                  " (" + readings + ").");
  }
  for (const ReaderDifference& found : reader_differences(house))
    if (found.difference.surely_not_zero())
      sentences.push_back(
          (found.reader.empty() ? capital(reader_name(found.reader)) : reader_name(found.reader)) +
          " marks the heel front " +
          doubted_text(found.difference.mean, found.difference.U(), units) +
          " farther forward than " + reader_name(found.than) + ".");
  if (!house.fit.readers.empty())
    sentences.push_back(
        "Habits are counted from the heel front that the foot length lets expect. If "
        "that is off for the whole company, all habits are off by as much, and only "
        "the differences between readers hold.");
  // If there is only one style, it cannot be told from the house.
  if (house.fit.styles.size() > 1)
    for (const StyleShift& style : house.fit.styles)
      sentences.push_back(
          "In " + style_name(style.style) + " boards are right " +
          side_words(style.shift, " farther ahead", " farther back", units) + " (" +
          how_many(style.shoes, "shoe", "shoes") + ")" +
          (style.shift.surely_not_zero() ? "." : ", which may be no shift at all."));
  return sentences;
}

std::vector<std::string> learned_cautions(const LearnedHouse& house, Units units) {
  std::vector<std::string> cautions;
  for (const LearnedFoot& foot : house.feet) {
    const double last = foot.place.jump_probability, earlier = foot.place.earlier_jump_probability;
    const bool earlier_is_likelier = earlier > last;
    if (foot.measure_again)
      cautions.push_back(without_controls(foot.dancer) + ", " + foot_name(foot.side) +
                         ": measure again. The right place may have moved before the last pair" +
                         (earlier_is_likelier ? " but one" : "") + " (probability " +
                         figure(earlier_is_likelier ? earlier : last, 2) +
                         "); the learned line is not to be used until then.");
  }
  for (const LearnedFoot& foot : house.feet)
    if (is_held_behind(foot.place))
      cautions.push_back(without_controls(foot.dancer) + ", " + foot_name(foot.side) + ": " +
                         held_words(foot.place, units) + " and no later pair says otherwise.");
  for (const NeverTooLow& never : house.never_too_low)
    cautions.push_back(without_controls(never.dancer) + " never said \"too low\" in " +
                       how_many(never.trials, "answer", "answers") +
                       ". First cuts are short on purpose, so this may be politeness: then the "
                       "learned place is farther off than its ±. Ask what could be better.");
  const HouseHistory& history = house.history;
  const auto left_out = [&](std::size_t count, const std::string& one, const std::string& many) {
    if (count > 0)
      cautions.push_back("Not learned from: " + how_many(static_cast<int>(count), one, many) + ".");
  };
  left_out(history.footless, "note of an earlier version, which names no foot",
           "notes of earlier versions, which name no foot");
  left_out(history.endless, "note that does not say where the board ended",
           "notes that do not say where the board ended");
  left_out(history.withdrawn, "note that was withdrawn", "notes that were withdrawn");
  left_out(history.unread, "order that this version does not read",
           "orders that this version does not read");
  for (const RecordFault& fault : history.left_out)
    cautions.push_back("Not learned from: " + without_controls(fault.where()) + ": " + fault.what +
                       " (allowed: " + fault.allowed + ").");
  return cautions;
}

std::vector<LearnedRow> track_rows(const LearnedHouse& house) {
  std::vector<LearnedRow> rows{{"month", "shoes", "ended good", "tries until good", "cut too far",
                                "stopped", "good − line", "spread", "inside ±"}};
  for (const TrackRecord& record : house.track.months)
    rows.push_back(track_row(record));
  rows.push_back(track_row(house.track.all));
  return rows;
}

std::string track_words(const LearnedHouse& house) {
  const TrackRecord& all = house.track.all;
  if (all.shoes == 0) return {};
  const auto of = [](int part, int whole) {
    return std::to_string(part) + " of " + std::to_string(whole);
  };
  std::string words =
      "How good the lines were: " + of(all.ended_good, all.shoes) +
      (all.shoes == 1 ? " shoe" : " shoes") + " ended good" +
      (all.tries_until_good ? ", after " + figure(*all.tries_until_good) + " tries on average"
                            : std::string()) +
      ", " + std::to_string(all.cut_too_far) + " cut too far";
  if (all.promised > 0)
    words += "; the place found good was inside the promised \u00b1 in " +
             of(all.inside_U, all.promised);
  return words + ".";
}

std::vector<std::string> learned_in_short(const LearnedHouse& house, Units units) {
  std::vector<std::string> sentences{basis_words(house)};
  if (std::string words = track_words(house); !words.empty()) sentences.push_back(std::move(words));
  for (std::string& sentence : house_sentences(house, units))
    sentences.push_back(std::move(sentence));
  return sentences;
}

std::vector<std::string> contact_sentences(const LearnedHouse& house, Units units) {
  std::vector<std::string> sentences;
  for (const std::string& words : {compared(house.history.gaps, "Gap", units),
                                   compared(house.history.breaks, "Place of the break", units)})
    if (!words.empty()) sentences.push_back(words + ".");
  return sentences;
}

std::vector<LearnedRow> foot_rows(const LearnedHouse& house, Units units) {
  std::vector<LearnedRow> rows{{"dancer", "foot", "right place", "pairs", "orders", ""}};
  for (const LearnedFoot& foot : house.feet) {
    const LearnedPlace& place = foot.place;
    std::string said;
    const auto say = [&said](const std::string& words) {
      said += (said.empty() ? "" : "; ") + words;
    };
    if (foot.measure_again) say("measure again");
    if (is_held_behind(place)) say("held at " + length_text(learned_final(place), units));
    if (!said_too_low(house, foot.dancer)) say("never said too low");
    if (place.pairs == 0) say("readings and house only");
    if (place.good_after_wear > 0) say(std::to_string(place.good_after_wear) + " good after wear");
    rows.push_back({without_controls(foot.dancer), foot_name(foot.side),
                    doubted_text(place.mean, place.U, units), std::to_string(place.pairs),
                    months_text(place), said});
  }
  return rows;
}

std::string learned_text(const LearnedHouse& house, Units units) {
  std::string text = wrapped_text(basis_words(house), learned_width);
  const auto add = [&text](const std::vector<std::string>& sentences) {
    if (!sentences.empty()) text += "\n";
    for (const std::string& sentence : sentences)
      text += wrapped_text(sentence, learned_width);
  };
  add(house_sentences(house, units));
  if (!house.feet.empty() && house.shoes > 0)
    text += "\n" + columns_text(foot_rows(house, units), 2);
  if (house.shoes > 0)
    text += "\nHow good the lines have been, mm:\n" + columns_text(track_rows(house), 1);
  add(contact_sentences(house, units));
  add(learned_cautions(house, units));
  return text;
}

std::string learned_csv(const LearnedHouse& house) {
  std::string text = csv_row({"dancer", "foot", "style", "place", "U", "pairs", "first", "last",
                              "good_after_wear", "jump_probability", "earlier_jump_probability",
                              "too_far", "final", "measure_again", "said_too_low"});
  const auto number = [](const std::string& written) { return CsvCell::figure(written); };
  for (const LearnedFoot& foot : house.feet) {
    const LearnedPlace& place = foot.place;
    text += csv_row(
        {foot.dancer, foot_name(foot.side), foot.style, number(figure(place.mean, 2)),
         number(figure(place.U, 2)), number(std::to_string(place.pairs)),
         place.first ? day_text(*place.first) : "", place.last ? day_text(*place.last) : "",
         number(std::to_string(place.good_after_wear)), number(figure(place.jump_probability, 4)),
         number(figure(place.earlier_jump_probability, 4)),
         number(place.too_far ? figure(*place.too_far, 2) : ""),
         number(figure(learned_final(place), 2)), foot.measure_again ? "yes" : "no",
         was_tried(house, foot.dancer) ? said_too_low(house, foot.dancer) ? "yes" : "no" : ""});
  }
  return text;
}

} // namespace shankline
