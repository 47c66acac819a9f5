// One section of an order, such as `shoe`, put together from values that all dancers share and from
// the cells of a roster's row.
#pragma once

#include "cli/yaml/order_document.hpp"

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace shankline {

/// A line of the section's text, and where its value came from.
struct SectionLine {
  std::string text;
  int common_line = 0;               ///< in the common values, from 1; 0 for a cell's value
  std::optional<std::size_t> column; ///< of the cell; none for the line of a map
};

class RosterSection {
public:
  /// Takes over the shared values. `common` is the section's node, or null where the common values
  /// have no such section; it is copied.
  explicit RosterSection(const Node* common);

  /// Puts a cell's value, written as YAML, at a path such as "board.length", in place of a shared
  /// one. Returns false and changes nothing if another cell has put a value there, or if the path
  /// ends at a map or goes on below a value.
  bool put(std::string_view path, const std::string& value, std::size_t column);

  /// The section's lines below its key, each indented by `indent` spaces or more.
  std::vector<SectionLine> lines(std::size_t indent) const;

private:
  struct Branch {
    std::string key;
    SectionLine origin; ///< without text
    std::string value;  ///< YAML on one line; empty for a map
    std::vector<Branch> below;
  };

  static std::vector<Branch> branches_of(const Node& map);
  static void write(const std::vector<Branch>& branches, std::size_t indent,
                    std::vector<SectionLine>& lines);

  std::vector<Branch> branches_;
};

/// A node as YAML on one line: "[[22, 45], [96, 33]]".
std::string on_one_line(const Node& node);

} // namespace shankline
