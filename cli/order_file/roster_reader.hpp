// Reads a roster: the foot readings of many dancers as comma-separated values, one row for each
// dancer and foot, and one file with the values that all their orders share. The rows of each
// dancer become an order.
#pragma once

#include "cli/text/message.hpp"

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace shankline {

inline constexpr std::size_t largest_roster = std::size_t{4} * 1024 * 1024; ///< bytes
inline constexpr std::size_t most_roster_rows = 5000;

struct RosterOrder {
  std::string dancer; ///< a code that can be a file's name
  std::string text;   ///< an order file
};

struct ReadRoster {
  std::vector<RosterOrder> orders; ///< in the order of the roster; empty after an error
  /// Holds errors only. An error in a cell names its row and column as a spreadsheet counts them.
  std::vector<Message> messages;

  bool ok() const { return !has_error(messages); }
};

/// Returns the columns that a roster may have beside dancer and foot.
std::vector<std::string> roster_columns();

/// Reads a roster. Every order is also solved, to find readings that contradict each other.
/// `common` holds the keys of an order file except dancer and feet; its own errors are reported
/// once.
ReadRoster read_roster(std::string_view rows, const std::string& file, std::string_view common,
                       const std::string& common_file);

} // namespace shankline
