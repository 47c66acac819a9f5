// Reads one typed answer like a value of the order file: the same figures, words, limits and
// errors.
#pragma once

#include "cli/order_file/parse_context.hpp"
#include "cli/text/message.hpp"
#include "geometry/order/order.hpp"

#include <algorithm>
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace shankline {

/// Why an answer was refused; nullopt if it was taken.
using Refusal = std::optional<Message>;

/// Reads the answer as the value of a key; reports errors to the context.
using ReadAnswer = std::function<void(ParseContext& context, const Entry& entry)>;

/// "238, 238.5, 238" is a list, "61 within 2" a reading with its own doubt, anything else one
/// value. A comma separates values only with a space behind it, so that a decimal comma is seen.
Refusal take_answer(std::string_view text, const std::string& guide_key, const ReadAnswer& read);

/// Returns the answer as a tree: under inner keys, as "inset" of "board.inset", it is {inset: …};
/// without inner keys it is the answer itself.
Node answer_node(std::string_view text, std::string_view inner_keys);

/// Reads a tree as the value of a key; returns the first error.
Refusal read_answer(const Node& node, const std::string& key, const ReadAnswer& read);

/// Reads an answer by the order's own tables: "board.inset" by the row "board" of the shoe's
/// fields. Values that `into` holds already stay.
template <class T>
Refusal take_into(std::string_view text, const std::string& path, Fields<T> fields, T& into) {
  const std::size_t dot = path.find('.');
  const std::string outer = path.substr(0, dot);
  const Node node = answer_node(
      text, dot == std::string::npos ? std::string_view() : std::string_view(path).substr(dot + 1));
  const auto field = std::find_if(fields.begin(), fields.end(),
                                  [&](const Field<T>& row) { return row.key == outer; });
  T begun = into;
  Refusal refusal = read_answer(node, outer, [&](ParseContext& context, const Entry& entry) {
    field->reader.read(context, entry, begun);
  });
  if (!refusal) into = std::move(begun);
  return refusal;
}

/// "45 at 22, 33 at 96": widths of the board, by rising station, edge to edge.
Refusal take_widths(std::string_view text, std::vector<BoardWidth>& into);

/// "44, 26": the platform's width and depth.
Refusal take_platform(std::string_view text, Platform& into);

/// The reverse of take_answer: a value as it could be typed.
std::string typed(const Reading& reading, std::string_view guide_key);
std::string typed(double value);
std::string typed(const std::vector<BoardWidth>& widths);
std::string typed(const Platform& platform);

/// Whether a terminal could have sent this line: text in UTF-8 without control characters.
bool is_typed_text(std::string_view line);

} // namespace shankline
