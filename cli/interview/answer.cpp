#include "cli/interview/answer.hpp"

#include "cli/order_file/order_values.hpp"
#include "cli/text/characters.hpp"
#include "cli/text/quantity.hpp"
#include "cli/yaml/order_characters.hpp"
#include "geometry/order/reading_guide.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <utility>

namespace shankline {
namespace {

constexpr std::string_view doubt_word = " within ";

std::string trimmed(std::string_view text) {
  return std::string(without_outer_spaces(text));
}

std::vector<std::string> takings(std::string_view text) {
  std::vector<std::string> parts;
  std::size_t from = 0;
  for (std::size_t at = 0; at < text.size(); ++at) {
    const bool ends =
        text[at] == ';' || (text[at] == ',' && at + 1 < text.size() && text[at + 1] == ' ');
    if (!ends) continue;
    parts.push_back(trimmed(text.substr(from, at - from)));
    from = at + 1;
  }
  parts.push_back(trimmed(text.substr(from)));
  return parts;
}

Node scalar(std::string text) {
  Node node;
  node.kind = NodeKind::scalar;
  node.text = std::move(text);
  return node;
}

Node values(std::string_view text) {
  std::vector<std::string> parts = takings(text);
  if (parts.size() == 1) return scalar(std::move(parts.front()));
  Node list;
  list.kind = NodeKind::list;
  for (std::string& part : parts)
    list.items.push_back(scalar(std::move(part)));
  return list;
}

Node node_of(std::string_view text) {
  const auto doubt = text.find(doubt_word);
  if (doubt == std::string_view::npos) return values(text);
  Node map;
  map.kind = NodeKind::map;
  map.members.push_back({"value", {}, values(text.substr(0, doubt))});
  map.members.push_back({"within", {}, scalar(trimmed(text.substr(doubt + doubt_word.size())))});
  return map;
}

} // namespace

Node answer_node(std::string_view text, std::string_view inner_keys) {
  if (inner_keys.empty()) return node_of(text);
  Node map;
  map.kind = NodeKind::map;
  map.members.push_back({std::string(inner_keys), {}, node_of(text)});
  return map;
}

Refusal read_answer(const Node& node, const std::string& key, const ReadAnswer& read) {
  std::vector<Message> messages;
  KeyPlaces places;
  const std::string no_file;
  ParseContext context(no_file, messages, places);
  read(context, {&node, {}, key, key});
  const auto error = std::find_if(messages.begin(), messages.end(), [](const Message& message) {
    return message.severity == Severity::error;
  });
  return error == messages.end() ? Refusal{} : Refusal{*error};
}

namespace {

std::string rounded(double value) {
  constexpr double decimals = 1e6;
  return number_text(std::round(value * decimals) / decimals);
}

/// Reads the words as the figure of a row of the guide.
Refusal number_of(std::string_view words, const std::string& key, std::optional<double>& value) {
  return read_answer(
      scalar(trimmed(words)), key,
      [&value](ParseContext& context, const Entry& entry) { value = read_number(context, entry); });
}

} // namespace

Refusal take_answer(std::string_view text, const std::string& guide_key, const ReadAnswer& read) {
  return read_answer(node_of(text), guide_key, read);
}

Refusal take_widths(std::string_view text, std::vector<BoardWidth>& into) {
  std::vector<BoardWidth> widths;
  for (const std::string& part : takings(text)) {
    constexpr std::string_view at = " at ";
    const auto middle = part.find(at);
    if (middle == std::string::npos) {
      Message wrong;
      wrong.what = shown(part) + " is not a width with its place";
      wrong.allowed =
          "width at distance from the heel end, with commas between: 45 at 22, 33 at 96, 56 at 164";
      wrong.advice = "measure each distance from the board's heel end";
      return wrong;
    }
    std::optional<double> width, station;
    if (auto refusal = number_of(part.substr(0, middle), "board.widths.width", width))
      return refusal;
    if (auto refusal = number_of(part.substr(middle + at.size()), "board.widths.station", station))
      return refusal;
    widths.push_back({*station, *width / 2, *width / 2});
  }
  std::sort(widths.begin(), widths.end(),
            [](const BoardWidth& a, const BoardWidth& b) { return a.station < b.station; });
  into = std::move(widths);
  return {};
}

Refusal take_platform(std::string_view text, Platform& into) {
  const std::vector<std::string> parts = takings(text);
  if (parts.size() != 2) {
    Message wrong;
    wrong.what = shown(text) + " is not a width and a depth";
    wrong.allowed = "two lengths with a comma and a space between: 44, 26";
    wrong.advice = "measure across the flat tip first, then through it";
    return wrong;
  }
  std::optional<double> width, depth;
  if (auto refusal = number_of(parts.front(), "platform.width", width)) return refusal;
  if (auto refusal = number_of(parts.back(), "platform.depth", depth)) return refusal;
  into = {*width, *depth};
  return {};
}

std::string typed(const Reading& reading, std::string_view guide_key) {
  const ReadingGuide& guide = *reading_guide(guide_key);
  const double per_unit = guide.quantity == Quantity::angle ? std::numbers::pi / 180 : 1;
  std::string text;
  for (const double value : reading.values)
    text += (text.empty() ? "" : ", ") + rounded(value / per_unit);
  if (std::abs(reading.finding / per_unit - guide.finding) > 1e-9)
    text += std::string(doubt_word) + rounded(reading.finding / per_unit);
  return text;
}

std::string typed(double value) {
  return rounded(value);
}

std::string typed(const Platform& platform) {
  return rounded(platform.width) + ", " + rounded(platform.depth);
}

std::string typed(const std::vector<BoardWidth>& widths) {
  std::string text;
  for (const BoardWidth& width : widths)
    text += (text.empty() ? "" : ", ") + rounded(width.medial + width.lateral) + " at " +
            rounded(width.station);
  return text;
}

bool is_typed_text(std::string_view line) {
  return !has_controls(line) && !refuse_characters(line, CharacterPlaces(line));
}

} // namespace shankline
