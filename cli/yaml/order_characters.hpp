// The characters of an order file before anything is read into them: what is refused, and at which
// line and column a byte stands.
#pragma once

#include "cli/yaml/order_document.hpp"

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace shankline {

/// The largest number of brackets open at a time. The YAML reader needs time and memory for them
/// before its first event.
inline constexpr int deepest_brackets = 32;

/// The place where reading stopped, and why.
struct ReadingEnd {
  Place place;
  std::string what;
  std::string advice;
};

/// Returns the text without a byte order mark and with every line ended by a single newline.
std::string with_plain_line_ends(std::string_view text);

/// Line and column of any byte of a text, which may hold bad UTF-8 and must outlive this.
class CharacterPlaces {
public:
  explicit CharacterPlaces(std::string_view text);

  Place at(std::size_t offset) const;
  /// Returns the offset of a byte; line and byte column count from 0. Clamped to the text.
  std::size_t offset(int line, int byte_column) const;
  /// The text of a line counting from 1, without its newline.
  std::string_view line(int number) const;

private:
  std::string_view text_;
  std::vector<std::size_t> line_starts_;
  std::vector<int> columns_; ///< of every byte, from 1
};

/// Bad UTF-8, control characters, tabs as indentation, brackets nested without end.
std::optional<ReadingEnd> refuse_characters(std::string_view text, const CharacterPlaces& places);

} // namespace shankline
