#include "cli/order_file/order_values.hpp"

#include "cli/text/characters.hpp"
#include "cli/text/quantity.hpp"
#include "cli/text/word_list.hpp"
#include "geometry/order/reading_guide.hpp"

#include <algorithm>
#include <numbers>
#include <numeric>
#include <stdexcept>
#include <utility>
#include <variant>
#include <vector>

namespace shankline {
namespace {

const ReadingGuide& guide_row(std::string_view key) {
  if (const ReadingGuide* row = reading_guide(key)) return *row;
  throw std::logic_error("the reading guide has no row " + std::string(key));
}

double in_order_units(double value, Quantity quantity) {
  switch (quantity) {
  case Quantity::angle:
    return value * std::numbers::pi / 180;
  case Quantity::percent:
    return value / 100;
  default:
    return value;
  }
}

struct Limits {
  double least = 0;
  double most = 0;

  bool hold(double value) const { return value >= least && value <= most; }
};

std::string limits_text(Limits limits, Quantity quantity) {
  return range_text(limits.least, limits.most, quantity);
}

// A length outside its limits is most often given in another unit: suggest that unit.
std::string other_unit(double value, Limits limits, Quantity quantity) {
  if (quantity != Quantity::length) return "";
  const std::string number = number_text(value);
  const bool inches = limits.hold(value * 25.4);
  const bool centimetres = limits.hold(value * 10);
  if (inches && centimetres)
    return "if this is in centimetres, write " + number + " cm; if in inches, " + number + " in. ";
  if (inches) return "if this is in inches, write " + number + " in. ";
  if (centimetres) return "if this is in centimetres, write " + number + " cm. ";
  return "";
}

std::string why_outside(double value, Limits limits, Quantity quantity) {
  const std::string read = quantity_text(value, quantity);
  if (value < 0 && limits.least >= 0) return read + " was read; this cannot be negative";
  return read +
         (value < limits.least ? " was read; that is too small" : " was read; that is too large");
}

// Reads a number in the guide's units (degrees, per cent) and checks it against `limits`.
std::optional<double> number_within(ParseContext& context, const Entry& entry,
                                    const ReadingGuide& row, Limits limits) {
  if (!expect_scalar(context, entry, "a number")) return std::nullopt;
  const auto parsed = parse_quantity(entry.value->text, row.quantity);
  if (!parsed) {
    context.error(entry, {.what = parsed.why().what,
                          .allowed = limits_text(limits, row.quantity),
                          .advice = parsed.why().advice});
    return std::nullopt;
  }
  const double value = *parsed;
  if (limits.hold(value)) return value;
  context.error(entry, {.what = why_outside(value, limits, row.quantity),
                        .allowed = limits_text(limits, row.quantity),
                        .advice = other_unit(value, limits, row.quantity) + std::string(row.how)});
  return std::nullopt;
}

std::optional<double> number_of_row(ParseContext& context, const Entry& entry,
                                    const ReadingGuide& row) {
  const auto value = number_within(context, entry, row, {row.least, row.most});
  return value ? std::optional(in_order_units(*value, row.quantity)) : std::nullopt;
}

// Reads one number or a list of repeats. Returns an empty list after reporting an error.
std::vector<double> repeats(ParseContext& context, const Entry& entry, const ReadingGuide& row) {
  std::vector<double> values;
  if (entry.value->kind != NodeKind::list) {
    if (const auto value = number_of_row(context, entry, row)) values.push_back(*value);
    return values;
  }
  const auto& items = entry.value->items;
  if (items.empty() || items.size() > most_repeats) {
    context.error(
        entry, {.what = "a list of " + std::to_string(items.size()) + " readings was read",
                .allowed = "1 to " + std::to_string(most_repeats) + " readings of the same thing",
                .advice = "write the readings in brackets: [238, 238.5, 238]"});
    return values;
  }
  for (const Node& item : items)
    if (const auto value = number_of_row(context, entry.item(item), row)) values.push_back(*value);
  if (values.size() != items.size()) values.clear();
  return values;
}

std::optional<Reading> reading_of(std::vector<double> values, const ReadingGuide& row) {
  if (values.empty()) return std::nullopt;
  Reading reading;
  reading.values = std::move(values);
  reading.finding = usual_finding(row);
  return reading;
}

struct ReadingParts {
  const ReadingGuide* row;
  std::vector<double> values;
  std::optional<double> within;
};

void read_value(ParseContext& context, const Entry& entry, ReadingParts& into) {
  into.values = repeats(context, entry, *into.row);
}

void read_within(ParseContext& context, const Entry& entry, ReadingParts& into) {
  const auto within =
      number_within(context, entry, *into.row, {0, into.row->most - into.row->least});
  if (within) into.within = in_order_units(*within, into.row->quantity);
}

constexpr Field<ReadingParts> reading_fields[] = {{"value", read_value}, {"within", read_within}};

// Reads {value: …, within: …}.
std::optional<Reading> read_doubted(ParseContext& context, const Entry& entry,
                                    const ReadingGuide& row) {
  KeyPlaces own;
  ParseContext aside = context.with_places(own);
  ReadingParts parts{&row, {}, {}};
  Entry top = entry;
  top.inside.clear();
  read_fields(aside, top, reading_fields, parts);
  if (!own.has("value"))
    context.error(entry, {.what = "the reading itself is missing",
                          .allowed = "value, within",
                          .advice = "write it as {value: 61, within: 2}"});
  auto reading = reading_of(std::move(parts.values), row);
  if (reading && parts.within) reading->finding = *parts.within;
  return reading;
}

// "61 within 2" is how a table and the interview write a doubt.
bool refuse_doubt_in_words(ParseContext& context, const Entry& entry) {
  constexpr std::string_view within = " within ";
  if (entry.value->kind != NodeKind::scalar) return false;
  const std::string& text = entry.value->text;
  const std::size_t at = text.find(within);
  if (at == std::string::npos) return false;
  const auto figure = [](std::string_view words) {
    return std::string(without_outer_spaces(words));
  };
  context.error(
      entry,
      {.what = shown(text) + " has its own doubt in words",
       .allowed = "a number, a list of repeats, or {value: \u2026, within: \u2026}",
       .advice = "write it as {value: " + figure(std::string_view(text).substr(0, at)) +
                 ", within: " + figure(std::string_view(text).substr(at + within.size())) + "}"});
  return true;
}

// An escape inside quotation marks can produce control characters that the file's bytes must not
// contain.
bool has_control(std::string_view text, bool lines) {
  for (std::size_t at = 0; at < text.size(); ++at)
    if (control_length(text, at) > 0 && !(lines && text[at] == '\n')) return true;
  return false;
}

} // namespace

bool expect_scalar(ParseContext& context, const Entry& entry, std::string_view wanted) {
  const NodeKind kind = entry.value->kind;
  if (kind == NodeKind::scalar) return true;
  context.error(entry, {.what = std::string(wanted) + " is wanted here, and " +
                                std::string(kind_in_words(kind)) + " was read",
                        .advice = "write " + std::string(wanted) + " after the key"});
  return false;
}

std::optional<double> read_number(ParseContext& context, const Entry& entry) {
  return read_number(context, entry, entry.inside);
}

std::optional<double> read_number(ParseContext& context, const Entry& entry,
                                  std::string_view guide_key) {
  return number_of_row(context, entry, guide_row(guide_key));
}

std::optional<double> read_figure(ParseContext& context, const Entry& entry) {
  const auto values = repeats(context, entry, guide_row(entry.inside));
  if (values.empty()) return std::nullopt;
  return std::accumulate(values.begin(), values.end(), 0.0) / static_cast<double>(values.size());
}

std::optional<Reading> read_reading(ParseContext& context, const Entry& entry) {
  const ReadingGuide& row = guide_row(entry.inside);
  if (entry.value->kind == NodeKind::map) return read_doubted(context, entry, row);
  if (refuse_doubt_in_words(context, entry)) return std::nullopt;
  return reading_of(repeats(context, entry, row), row);
}

std::optional<int> read_whole(ParseContext& context, const Entry& entry) {
  const auto number = read_number(context, entry);
  if (!number) return std::nullopt;
  const int whole = static_cast<int>(*number);
  if (whole == *number) return whole;
  context.error(entry, {.what = shown(entry.value->text) + " is not a whole number",
                        .advice = "write a number without decimals"});
  return std::nullopt;
}

bool is_word(const Entry& entry) {
  const std::string& text = entry.value->text;
  return !text.empty() && is_letter(text.front());
}

std::optional<std::size_t> read_choice(ParseContext& context, const Entry& entry,
                                       std::span<const std::string_view> words,
                                       std::string_view also) {
  if (!expect_scalar(context, entry, "one word")) return std::nullopt;
  const std::string& text = entry.value->text;
  const auto found = std::find(words.begin(), words.end(), text);
  if (found != words.end()) return static_cast<std::size_t>(found - words.begin());
  context.error(entry, {.what = shown(text) + " is not one of the words for this",
                        .allowed = joined(words, ", ") + std::string(also),
                        .advice = did_you_mean(text, words, "choose what is allowed here")});
  return std::nullopt;
}

std::optional<bool> read_flag(ParseContext& context, const Entry& entry) {
  if (!expect_scalar(context, entry, "true or false")) return std::nullopt;
  const Node& node = *entry.value;
  if (!node.quoted && (node.text == "true" || node.text == "false")) return node.text == "true";
  context.error(entry, {.what = shown(node.text) + " is neither true nor false",
                        .allowed = "true, false",
                        .advice = "write true or false, without quotation marks"});
  return std::nullopt;
}

bool is_allowed(std::string_view text, TextLimits limits) {
  return !text.empty() && !has_control(text, limits.lines) &&
         characters_in(text) <= limits.characters;
}

std::optional<std::string> read_text(ParseContext& context, const Entry& entry, TextLimits limits) {
  if (!expect_scalar(context, entry, "a text")) return std::nullopt;
  const std::string& text = entry.value->text;
  const std::string allowed = "1 to " + std::to_string(limits.characters) + " characters" +
                              (limits.lines ? "" : " on one line");
  if (has_control(text, limits.lines))
    context.error(entry, {.what = "the text has control characters or line ends in it",
                          .allowed = allowed,
                          .advice = "take out what is written with '\\', and blank lines"});
  else if (text.empty())
    context.error(entry, {.what = "the text is empty",
                          .allowed = allowed,
                          .advice = "write it, or delete the line"});
  else if (const std::size_t count = characters_in(text); count > limits.characters)
    context.error(entry, {.what = "the text has " + std::to_string(count) + " characters",
                          .allowed = allowed,
                          .advice = "shorten it"});
  else
    return text;
  return std::nullopt;
}

} // namespace shankline
