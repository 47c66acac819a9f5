#include "cli/yaml/order_characters.hpp"

#include "cli/text/characters.hpp"

#include <algorithm>

namespace shankline {
namespace {

bool is_control(std::string_view text, std::size_t at) {
  return text[at] != '\n' && text[at] != '\t' && control_length(text, at) > 0;
}

std::optional<ReadingEnd> refuse_bytes(std::string_view text, const CharacterPlaces& places) {
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t length = character_length(text.substr(at));
    if (length == 0)
      return ReadingEnd{places.at(at), "there are bytes here that are no text in UTF-8",
                        "save the file as plain text in UTF-8 (your editor's \"save as\")"};
    if (direction_mark_length(text, at) > 0)
      return ReadingEnd{places.at(at),
                        "there is a mark here that cannot be seen: it turns the direction of "
                        "writing or ends a line",
                        "delete it together with the letter before it, and type that letter again"};
    if (is_control(text, at))
      return ReadingEnd{places.at(at), "there is a control character here",
                        "delete it, or save the file as plain text in UTF-8"};
    at += length;
  }
  return std::nullopt;
}

std::optional<ReadingEnd> refuse_brackets(std::string_view text, const CharacterPlaces& places) {
  int depth = 0;
  for (std::size_t at = 0; at < text.size(); ++at) {
    if (text[at] == '[' || text[at] == '{') ++depth;
    if (text[at] == ']' || text[at] == '}') depth = std::max(0, depth - 1);
    if (depth > deepest_brackets)
      return ReadingEnd{places.at(at),
                        "brackets are nested more than " + std::to_string(deepest_brackets) +
                            " deep",
                        "close each bracket; an order needs no more than 4 levels"};
  }
  return std::nullopt;
}

std::optional<ReadingEnd> refuse_tabs(std::string_view text, const CharacterPlaces& places) {
  // Inside braces, as in JSON, indentation means nothing.
  const std::size_t begin = text.find_first_not_of(" \t\n");
  if (begin != std::string_view::npos && text[begin] == '{') return std::nullopt;
  for (std::size_t start = 0; start < text.size();) {
    const std::size_t end = std::min(text.find('\n', start), text.size());
    const std::size_t first = std::min(text.find_first_not_of(" \t", start), end);
    const std::size_t tab = text.find('\t', start);
    if (tab < first && first < end && text[first] != '#')
      return ReadingEnd{places.at(tab), "this line is indented with a tab",
                        "indent with spaces, two for each level"};
    start = end + 1;
  }
  return std::nullopt;
}

} // namespace

std::string with_plain_line_ends(std::string_view text) {
  constexpr std::string_view byte_order_mark = "\xef\xbb\xbf";
  if (text.starts_with(byte_order_mark)) text.remove_prefix(byte_order_mark.size());
  std::string plain;
  plain.reserve(text.size());
  for (std::size_t at = 0; at < text.size(); ++at) {
    const bool pair = text[at] == '\r' && at + 1 < text.size() && text[at + 1] == '\n';
    if (!pair) plain += text[at] == '\r' ? '\n' : text[at];
  }
  return plain;
}

CharacterPlaces::CharacterPlaces(std::string_view text) : text_(text), line_starts_{0} {
  columns_.reserve(text.size() + 1);
  int column = 0;
  for (std::size_t at = 0; at < text.size(); ++at) {
    if (!continues_character(text[at]) || column == 0) ++column;
    columns_.push_back(column);
    if (text[at] != '\n') continue;
    line_starts_.push_back(at + 1);
    column = 0;
  }
  columns_.push_back(column + 1);
}

Place CharacterPlaces::at(std::size_t offset) const {
  offset = std::min(offset, text_.size());
  const auto after = std::upper_bound(line_starts_.begin(), line_starts_.end(), offset);
  return {static_cast<int>(after - line_starts_.begin()), columns_[offset]};
}

std::size_t CharacterPlaces::offset(int line, int byte_column) const {
  if (line < 0 || byte_column < 0) return 0;
  const auto number = static_cast<std::size_t>(line);
  if (number >= line_starts_.size()) return text_.size();
  return std::min(line_starts_[number] + static_cast<std::size_t>(byte_column), text_.size());
}

std::string_view CharacterPlaces::line(int number) const {
  const auto index = static_cast<std::size_t>(number - 1);
  if (number < 1 || index >= line_starts_.size()) return {};
  const std::size_t start = line_starts_[index];
  return text_.substr(start, text_.find('\n', start) - start);
}

std::optional<ReadingEnd> refuse_characters(std::string_view text, const CharacterPlaces& places) {
  for (const auto refuse : {refuse_bytes, refuse_brackets, refuse_tabs})
    if (auto end = refuse(text, places)) return end;
  return std::nullopt;
}

} // namespace shankline
