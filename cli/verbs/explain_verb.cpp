// Runs `explain`: says what a reading is, how it is taken, and what it changes.
#include "cli/manual/manual.hpp"
#include "cli/report/bench_json.hpp"
#include "cli/text/message.hpp"
#include "cli/text/nearest_word.hpp"
#include "cli/text/quantity.hpp"
#include "cli/text/text_columns.hpp"
#include "cli/verbs/verbs.hpp"
#include "geometry/order/figure.hpp"
#include "geometry/solution/reading_account.hpp"

#include <ostream>
#include <utility>
#include <vector>

namespace shankline {
namespace {

constexpr std::size_t label_width = 12;

void row(std::ostream& out, const std::string& label, const std::string& words) {
  std::string before = padded(label, label_width);
  for (const std::string& line : wrapped(words, output_columns() - 2 - label_width)) {
    out << before << line << '\n';
    before.assign(label_width, ' ');
  }
}

/// "each mm more moves the final cut by 0.75 mm (short), 1 mm (edge)"
std::string moves_words(const ReadingAccount& account) {
  std::string parts;
  for (const ReadingMove& move : account.moves)
    if (const std::string by = short_figure(move.per_unit, 2); by != "0")
      parts += (parts.empty() ? "" : ", ") + by + " mm (" + move.rule + ")";
  const std::string on = "; a foot of 238, every reading taken";
  if (parts.empty()) return "does not move the final cut" + on;
  const bool angle = account.guide->quantity == Quantity::angle;
  return std::string("each ") + (angle ? "degree" : "mm") + " more moves the final cut by " +
         parts + on;
}

std::string left_out_words(const ReadingAccount::LeftOut& left_out) {
  constexpr double no_difference = 0.05;
  std::string words;
  if (left_out.estimate)
    words =
        "taken as " + figure(left_out.estimate->value) + " (" + left_out.estimate->source + "); ";
  if (left_out.U_left_out - left_out.U < no_difference)
    return words + "this does not make the cut less certain";
  return words + "the cut is known to \u00b1" + figure(left_out.U_left_out) +
         " mm instead of \u00b1" + figure(left_out.U) + " mm";
}

void print(const ReadingAccount& account, std::ostream& out) {
  const ReadingGuide& guide = *account.guide;
  out << guide.key << ": " << guide.name << "\n\n";
  row(out, "how", std::string(guide.how));
  if (!guide.why.empty()) row(out, "why", std::string(guide.why));
  row(out, "allowed", range_text(guide));
  if (account.usual)
    row(out, "usual",
        figure(account.usual->least, 0) + " to " + figure(account.usual->most, 0) +
            (account.usual_of_any_foot ? " mm" : " mm on a foot of 238"));
  if (guide.finding > 0)
    row(out, "doubt",
        "\u00b1" + quantity_text(guide.finding, guide.quantity) +
            " for finding the place, unless the order says {value: \u2026, within: "
            "\u2026} (common practice, no source)");
  if (!account.moves.empty()) row(out, "moves", moves_words(account));
  if (account.left_out) row(out, "left out", left_out_words(*account.left_out));
}

using Guides = std::vector<const ReadingGuide*>;

void list(const Guides& guides, std::ostream& out) {
  out << "shankline explain KEY tells how each is taken and what it moves.\n\n";
  for (const ReadingGuide* guide : guides)
    out << "  " << padded(std::string(guide->key), 24) << guide->name << '\n';
}

/// The readings that a key may mean: the one of that name; else those that end with it (bevel),
/// that it ends with, as the order nests them (shoe.board.inset), or all of a section (sides).
Guides meant_by(std::string_view key) {
  if (const ReadingGuide* guide = reading_guide(key)) return {guide};
  const auto ends_with_part = [](std::string_view whole, std::string_view part) {
    return whole.ends_with(part) && whole.size() > part.size() &&
           whole[whole.size() - part.size() - 1] == '.';
  };
  Guides guides;
  for (const ReadingGuide& guide : reading_guides())
    if (key.empty() || ends_with_part(guide.key, key) || ends_with_part(key, guide.key) ||
        guide.key.starts_with(std::string(key) + '.'))
      guides.push_back(&guide);
  return guides;
}

/// Keys that hold words and no figure: the one of that name, wherever it stands.
std::vector<KeyInWords> words_meant_by(std::string_view key) {
  std::vector<KeyInWords> keys = order_keys_in_words();
  std::erase_if(keys, [&](const KeyInWords& one) {
    return one.key != key && !(key.ends_with(one.key) && key.size() > one.key.size() &&
                               key[key.size() - one.key.size() - 1] == '.');
  });
  return keys;
}

ExitCode explain_words(const std::vector<KeyInWords>& keys, bool json, std::ostream& out) {
  if (json) {
    std::vector<std::pair<std::string, std::string>> rows;
    for (const KeyInWords& key : keys)
      rows.emplace_back(key.key, key.words);
    out << readings_json({}, rows);
    return ExitCode::done;
  }
  for (const KeyInWords& key : keys) {
    out << key.key << ": a key that holds no reading\n\n";
    row(out, "meaning", std::string(key.words));
  }
  return ExitCode::done;
}

ExitCode not_known(const std::string& key, std::ostream& messages) {
  std::vector<std::string_view> keys;
  for (const ReadingGuide& guide : reading_guides())
    keys.push_back(guide.key);
  for (const KeyInWords& words : order_keys_in_words())
    keys.push_back(words.key);
  messages << "shankline: there is no reading " << without_controls(shown(key)) << '.'
           << guess_words(key, keys) << "\n  do: shankline explain lists them all\n";
  return ExitCode::bad_usage;
}

} // namespace

ExitCode run_explain(const Request& request, std::ostream& out, std::ostream& messages) {
  const Guides guides = meant_by(request.key);
  if (guides.empty())
    if (const auto keys = words_meant_by(request.key); !keys.empty())
      return explain_words(keys, request.json, out);
  if (guides.empty()) return not_known(request.key, messages);
  if (request.json) {
    std::vector<ReadingAccount> accounts;
    for (const ReadingGuide* guide : guides)
      accounts.push_back(reading_account(*guide));
    out << readings_json(accounts);
  } else if (guides.size() == 1) {
    print(reading_account(*guides.front()), out);
  } else {
    list(guides, out);
  }
  return ExitCode::done;
}

} // namespace shankline
