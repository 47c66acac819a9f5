// The place in an order that a finding or a value belongs to.
#pragma once

#include "geometry/order/foot_side.hpp"

#include <optional>
#include <ostream>
#include <string>
#include <string_view>

namespace shankline {

/// A key of an order: the section, the foot where it is of one, and the path inside the section.
/// Parts may be empty; an empty key stands for the whole order.
class Key {
public:
  Key() = default;
  /// Makes a key from its parts joined by dots: "feet.left.arch_break.medial", "shoe.board",
  /// "decided_by".
  Key(std::string_view dotted);
  Key(const std::string& dotted) : Key(std::string_view(dotted)) {}
  Key(const char* dotted) : Key(std::string_view(dotted)) {}

  const std::string& section() const { return section_; } ///< "feet"
  std::optional<FootSide> foot() const { return foot_; }
  const std::string& path() const { return path_; } ///< "arch_break.medial"

  /// The parts joined by dots again.
  std::string text() const;

  bool operator==(const Key&) const = default;

private:
  std::string section_;
  std::optional<FootSide> foot_;
  std::string path_;
};

inline std::ostream& operator<<(std::ostream& out, const Key& key) {
  return out << key.text();
}

} // namespace shankline
