// The text of an order file as a tree of our own, with the place of each value. It refuses those
// parts of the YAML language that could surprise a user.
#pragma once

#include "cli/text/message.hpp"

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace shankline {

inline constexpr std::size_t largest_order = std::size_t{64} * 1024; ///< bytes

/// Both count from 1; columns count characters, not bytes.
struct Place {
  int line = 0;
  int column = 0;

  bool operator==(const Place&) const = default;
};

enum class NodeKind { nothing, scalar, list, map };

struct Member;

struct Node {
  NodeKind kind = NodeKind::nothing;
  Place place;         ///< the key's place when nothing is written after it
  std::string text;    ///< of a scalar
  bool quoted = false; ///< a scalar in quotation marks, or a block of text
  std::vector<Node> items;
  std::vector<Member> members; ///< in the order of the file; a repeated key stays in
};

struct Member {
  std::string key;
  Place place;
  Node value;
};

bool has_key(const Node& map, std::string_view key);

struct OrderDocument {
  std::optional<Node> root; ///< always a map; nothing when the reading had to end
  std::vector<Message> messages;
};

inline constexpr std::string_view order_format = "shankline-order/1";

/// Reads one YAML document. `format` is what its first line should say, for advice; empty where
/// files of this kind have no such line. Reading ends at: a file too large or not in UTF-8, control
/// characters, nesting too deep, a syntax error, anchors, aliases and tags, text in quotation marks
/// that runs over its line, a second document, a file without keys. Repeated keys are collected.
OrderDocument parse_order_document(std::string_view text, const std::string& file,
                                   std::size_t largest = largest_order,
                                   std::string_view format = order_format);

/// Returns true for "key:value", which YAML takes for one word; "key: value" was meant.
bool lacks_space_after_colon(std::string_view word);

} // namespace shankline
