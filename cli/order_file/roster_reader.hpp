// A roster: the foot readings of many dancers as comma-separated values, one row a dancer and foot,
// and one file of what all their orders have in common. Each dancer's rows become an order.
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
  std::vector<RosterOrder> orders; ///< as they come in the roster; none after an error
  /// Errors alone: what is wrong with a cell names its row and column as a spreadsheet counts them.
  std::vector<Message> messages;

  bool ok() const { return !has_error(messages); }
};

/// The columns that a roster may have, beside dancer and foot.
std::vector<std::string> roster_columns();

/// Every order is also solved, so that readings that cannot be together are found. `common` holds
/// what an order file has beside dancer and feet; its own errors are said once.
ReadRoster read_roster(std::string_view rows, const std::string& file, std::string_view common,
                       const std::string& common_file);

} // namespace shankline
