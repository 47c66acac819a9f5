#include "cli/job/archive_words.hpp"

#include "cli/archive/archive_chain.hpp"
#include "cli/archive/archive_tries.hpp"
#include "cli/surroundings/calendar_day.hpp"
#include "cli/text/csv.hpp"
#include "cli/text/message.hpp"
#include "cli/text/text_columns.hpp"
#include "cli/text/word_list.hpp"
#include "geometry/order/figure.hpp"

#include <algorithm>
#include <cstdlib>
#include <sstream>

namespace shankline {
namespace {

constexpr std::size_t id_width = 7;
constexpr std::size_t day_width = 10;

/// Returns the beginning of `text` that fits into `width` columns. Marks stay with their letters.
std::string beginning(std::string_view text, std::size_t width) {
  std::size_t end = 0;
  for (std::size_t columns = 0; end < text.size();) {
    const auto [code, length] = next_code_point(text.substr(end));
    columns += columns_of(text.substr(end, length));
    if (columns > width) break;
    end += length;
  }
  return std::string(text.substr(0, end));
}

/// Splits a text into lines of at most `width` columns, broken between words; a longer word is cut.
std::vector<std::string> lines_of(const std::string& text, std::size_t width) {
  std::vector<std::string> lines = wrapped(without_controls(text), width);
  for (std::string& line : lines)
    line = fitted(line, width);
  return lines;
}

std::string cell(const std::string& text, std::size_t width) {
  return padded(fitted(text, width), width);
}

std::string without_trailing_spaces(std::string line) {
  line.erase(line.find_last_not_of(' ') + 1);
  return line + "\n";
}

std::string what_happened(const ListRow& row, Units units) {
  const EntryHead& head = row.head;
  switch (head.kind) {
  case EntryKind::cut:
    return summary_in(head.summary, units);
  case EntryKind::note:
    return "note" + (row.about > 0 ? " on " + std::to_string(row.about) : std::string()) + ": " +
           outcome_words(outcome_of(head), units);
  case EntryKind::forgetting:
    return "a dancer was forgotten";
  case EntryKind::forgotten:
    return "forgotten";
  }
  return {};
}

std::string labelled(const std::string& label, const std::string& text) {
  constexpr std::size_t label_width = 13;
  if (text.empty()) return {};
  std::string lines;
  for (const std::string& line : lines_of(text, archive_width - label_width))
    lines += padded(lines.empty() ? label : "", label_width) + line + "\n";
  return lines;
}

std::string indented(const std::string& text) {
  std::istringstream lines(text);
  std::string out;
  for (std::string line; std::getline(lines, line);)
    out += without_trailing_spaces("  " + without_controls(line));
  return out;
}

/// "2026-03-24: left 55.5 off, seen too-low" for each note about a cut.
std::vector<std::string> notes_words(const std::vector<EntryHead>& notes, Units units) {
  const std::vector<EntryHead> standing = standing_notes(notes);
  std::vector<std::string> all;
  for (const EntryHead& note : notes) {
    const Outcome outcome = outcome_of(note);
    std::string words = outcome_words(outcome, units);
    for (const EntryHead& other : notes)
      if (other.digest == outcome.withdraws)
        words.replace(0, withdraws_words.size(), "withdraws note " + std::to_string(other.id));
    words.insert(0, day_of(note) + ": ");
    if (outcome.withdraws.empty() &&
        std::find(standing.begin(), standing.end(), note) == standing.end())
      words += " (withdrawn)";
    all.push_back(std::move(words));
  }
  return all;
}

std::string signed_figure(double value) {
  return (value < 0 ? "" : "+") + short_figure(value, shown_decimals);
}

} // namespace

std::string counted(std::size_t count, const std::string& one, const std::string& many) {
  return std::to_string(count) + " " + (count == 1 ? one : many);
}

std::string entries_words(const std::vector<EntryId>& ids) {
  std::vector<std::string> numbers;
  for (const EntryId id : ids)
    numbers.push_back(std::to_string(id));
  return (ids.size() == 1 ? "entry " : "entries ") + in_words(numbers);
}

std::string fitted(const std::string& text, std::size_t width) {
  const std::string clean = without_controls(text);
  return columns_of(clean) <= width ? clean : beginning(clean, width - 1) + "…";
}

bool is_dated_far_ahead(const EntryHead& head) {
  constexpr std::string_view first_year = "2026";
  const auto ahead = days_between(head.saved.substr(0, day_width), head.date);
  return ahead && *ahead > 366 && head.saved >= first_year;
}

std::string day_of(const EntryHead& head) {
  return head.date.empty() || is_dated_far_ahead(head) ? head.saved.substr(0, day_width)
                                                       : head.date;
}

std::string summary_in(const std::string& summary, Units units) {
  if (units == Units::mm) return summary;
  // The archive keeps the summary in millimetres. Its lengths are the figures with one decimal.
  constexpr std::string_view digits = "0123456789";
  std::string words;
  for (std::size_t from = 0; from < summary.size();) {
    const std::size_t begin = std::min(summary.find_first_of(digits, from), summary.size());
    const std::size_t point = std::min(summary.find_first_not_of(digits, begin), summary.size());
    const bool decimals = begin < point && point < summary.size() && summary[point] == '.';
    const std::size_t end =
        decimals ? std::min(summary.find_first_not_of(digits, point + 1), summary.size()) : point;
    words.append(summary, from, end - from);
    if (decimals && end == point + 2)
      words += inches_beside(std::strtod(summary.c_str() + begin, nullptr), units, Rounding::down);
    from = end;
  }
  return words;
}

std::string saved_words(const EntryHead& head, Units units) {
  return fitted("saved as entry " + std::to_string(head.id) + ": " + head.dancer + ", " +
                    summary_in(head.summary, units),
                archive_width) +
         "\n";
}

std::string list_words(const std::vector<ListRow>& rows, Units units) {
  constexpr std::size_t dancer_width = 10;
  constexpr std::size_t pair_width = 22;
  constexpr std::size_t rest = archive_width - id_width - day_width - dancer_width - pair_width - 8;
  std::string text;
  const auto line = [&](const std::string& id, const std::string& day, const std::string& dancer,
                        const std::string& pair, const std::string& what) {
    text += without_trailing_spaces(right_aligned(id, id_width) + "  " + cell(day, day_width) +
                                    "  " + cell(dancer, dancer_width) + "  " +
                                    cell(pair, pair_width) + "  " + fitted(what, rest));
  };
  line("entry", "day", "dancer", "pair", "what");
  for (const ListRow& row : rows) {
    // With its inches a row takes a second line.
    const std::vector<std::string> what = lines_of(what_happened(row, units), rest);
    std::string below;
    for (std::size_t k = 1; k < what.size(); ++k)
      below += (k > 1 ? " " : "") + what[k];
    line(std::to_string(row.head.id), day_of(row.head), row.head.dancer, row.head.pair,
         what.empty() ? "" : what.front());
    if (!below.empty()) line("", "", "", "", below);
  }
  return text;
}

std::string list_csv(const std::vector<ListRow>& rows) {
  std::string text = csv_row({"entry", "kind", "day", "saved", "dancer", "pair", "date",
                              "alterations", "about", "what", "digest"});
  const auto id = [](EntryId number) {
    return number > 0 ? CsvCell::figure(std::to_string(number)) : CsvCell("");
  };
  for (const ListRow& row : rows) {
    const EntryHead& head = row.head;
    text += csv_row({id(head.id), kind_name(head.kind), day_of(head), head.saved, head.dancer,
                     head.pair, head.date, head.alterations, id(row.about),
                     without_controls(what_happened(row, Units::mm)), head.digest});
  }
  return text;
}

std::string history_words(const std::vector<CutAndNotes>& cuts, Units units) {
  constexpr std::size_t cut_width = 34;
  constexpr std::size_t rest = archive_width - id_width - day_width - cut_width - 6;
  std::string text;
  const auto line = [&](const std::string& id, const std::string& day, const std::string& cut,
                        const std::string& outcome) {
    text += without_trailing_spaces(right_aligned(id, id_width) + "  " + cell(day, day_width) +
                                    "  " + cell(cut, cut_width) + "  " + outcome);
  };
  line("entry", "day", "what was ordered", "outcome");
  for (const CutAndNotes& row : cuts) {
    std::vector<std::string> left = lines_of(row.cut.pair, cut_width);
    for (std::string& more : lines_of(summary_in(row.cut.summary, units), cut_width))
      left.push_back(std::move(more));
    std::vector<std::string> right;
    const auto say = [&](const std::string& words) {
      for (std::string& more : lines_of(words, rest))
        right.push_back(std::move(more));
    };
    for (const std::string& words : notes_words(row.notes, units))
      say(words);
    if (const std::string boards = boards_words(row.notes, units); !boards.empty())
      say("now " + boards);
    if (right.empty()) right.emplace_back("nothing noted");
    left.resize(std::max(left.size(), right.size()));
    right.resize(left.size());
    for (std::size_t i = 0; i < left.size(); ++i)
      line(i == 0 ? std::to_string(row.cut.id) : "", i == 0 ? day_of(row.cut) : "", left[i],
           right[i]);
    if (!follows_older_rule(row.cut)) continue;
    const std::string margin(id_width + day_width + 4, ' ');
    for (const std::string& more :
         lines_of(std::string(older_rule_words), archive_width - margin.size()))
      text += margin + more + "\n";
  }
  return text;
}

std::string entry_words(const EntryHead& head, const EntryBody* body,
                        const std::vector<EntryHead>& notes, Units units) {
  std::string text = "entry " + std::to_string(head.id) + ", " + std::string(kind_name(head.kind));
  if (!head.saved.empty()) text += ", saved " + head.saved + " by version " + head.program;
  text = fitted(text, archive_width) + "\n";
  text += labelled("dancer", head.dancer) + labelled("pair", head.pair) +
          labelled("date", head.date) + labelled("alterations", head.alterations) +
          labelled("ordered", summary_in(head.summary, units));
  if (follows_older_rule(head)) text += labelled("caution", std::string(older_rule_words));
  if (head.kind == EntryKind::note)
    text += labelled("noted", outcome_words(outcome_of(head), units));
  if (head.withheld) text += labelled("words", "those of another bench, which you may not read");
  if (!head.about.empty())
    text += labelled(head.kind == EntryKind::note ? "about" : "erased", head.about);
  const std::vector<std::string> said = notes_words(notes, units);
  for (std::size_t i = 0; i < notes.size(); ++i)
    text += labelled("note " + std::to_string(notes[i].id), said[i]);
  text += labelled("now", boards_words(notes, units));
  if (body)
    text += labelled("options", options_words(body->options)) + labelled("sheets", body->sheets);
  text += labelled("digest", head.digest) + labelled("before", head.before) +
          labelled("hash", chain_hash(head.before, head.digest));
  if (body) text += "the order as it was given:\n" + indented(body->order);
  return text;
}

std::string difference_words(const EntryHead& first, const EntryHead& second,
                             const std::vector<SolutionDifference>& differences) {
  constexpr std::size_t key_width = 46;
  constexpr std::size_t value_width = 16;
  std::string text;
  const auto line = [&](const std::string& key, const std::string& a, const std::string& b,
                        const std::string& more) {
    text += without_trailing_spaces(cell(key, key_width) + "  " +
                                    right_aligned(fitted(a, value_width), value_width) + "  " +
                                    right_aligned(fitted(b, value_width), value_width) + "  " +
                                    right_aligned(fitted(more, value_width - 2), value_width - 2));
  };
  const auto name = [](const EntryHead& head) { return "entry " + std::to_string(head.id); };
  if (differences.empty()) return name(first) + " and " + name(second) + " have the same numbers\n";
  line("", name(first), name(second), "difference");
  for (const SolutionDifference& row : differences)
    line(row.key, row.first, row.second, row.difference ? signed_figure(*row.difference) : "");
  return text;
}

std::string audit_words(const Audit& audit) {
  std::string text;
  for (const AuditFault& fault : audit.faults)
    for (const std::string& line :
         lines_of((fault.id > 0 ? "entry " + std::to_string(fault.id) + " " : "the archive: ") +
                      fault.what,
                  archive_width - 2))
      text += (text.empty() || text.back() == '\n' ? "" : "  ") + line + "\n";
  text += counted(static_cast<std::size_t>(audit.end.id), "entry", "entries") + ": " +
          counted(audit.cuts, "cut", "cuts") + ", " + counted(audit.notes, "note", "notes") + ", " +
          std::to_string(audit.forgotten) + " forgotten";
  const auto all = static_cast<std::size_t>(audit.end.id);
  if (const std::size_t others = audit.cuts + audit.notes + audit.forgotten; all > others)
    text += ", " + std::to_string(all - others) +
            (all - others == 1 ? " that says so" : " that say so");
  text += "\n";
  if (audit.clean())
    text += "every entry is there, in its place, as it was saved\n"
            "end of the chain: " +
            audit.end.hash +
            "\nWrite it down elsewhere: --known then shows if the last entries were removed\n";
  if (audit.withheld > 0)
    text += counted(audit.withheld, "note", "notes") +
            " of other benches: you may not read their words; only the server compared these with "
            "their digests\n";
  if (audit.erasing)
    text +=
        "forgetting is not finished: erased text may still be in the file\n"
        "  do: end other programs that use the archive, then: shankline archive forget --finish\n";
  return text;
}

} // namespace shankline
