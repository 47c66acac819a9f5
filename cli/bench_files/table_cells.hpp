// A table of comma-separated values whose first row names its columns: cells by name, and every
// wrong one named by row and column.
#pragma once

#include "cli/text/csv.hpp"
#include "cli/text/message.hpp"

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace shankline {

struct TableColumnName {
  std::string_view name;
  bool needed = false;
};

class TableCells {
public:
  /// Complains of a head that has columns of other names, one twice, or not all that are needed.
  TableCells(std::string_view text, std::string file, std::span<const TableColumnName> columns);

  /// Rows below the head. None where the head is wrong.
  std::size_t rows() const { return rows_.size(); }
  /// The cell, or an empty text where the table has no such column or the row ends before it.
  const std::string& cell(std::size_t row, std::string_view column) const;
  void error(std::size_t row, std::string_view column, Advice why);
  void error(Advice why); ///< of the whole file

  /// Whole number, number with a point, or a day; nothing, and a complaint, for anything else. An
  /// empty cell is a complaint too.
  std::optional<long long> whole(std::size_t row, std::string_view column, long long least,
                                 long long most);
  std::optional<double> number(std::size_t row, std::string_view column, double over, double most);
  std::optional<std::string> day(std::size_t row, std::string_view column);
  /// "yes", "true" or "1"; "no", "false", "0" or nothing; else a complaint.
  std::optional<bool> flag(std::size_t row, std::string_view column);
  /// One of the words; an empty cell is an empty word.
  std::optional<std::string> word(std::size_t row, std::string_view column,
                                  std::span<const std::string_view> allowed);
  /// At most so many bytes on one line.
  std::optional<std::string> text(std::size_t row, std::string_view column, std::size_t most);

  std::vector<Message> take_messages() { return in_line_order(std::move(messages_)); }
  bool ok() const { return messages_.empty(); }

private:
  std::size_t place_of(std::string_view column) const;

  std::string file_;
  std::vector<std::string> head_;
  std::vector<CsvRow> rows_;
  std::vector<Message> messages_;
};

} // namespace shankline
