// Comma-separated values as RFC 4180 has them: written for spreadsheets, and read strictly.
#pragma once

#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace shankline {

/// One cell. A text that a spreadsheet would take for a formula gets an apostrophe in front, so
/// that it is shown as a text; a figure of our own is written as it is.
class CsvCell {
public:
  CsvCell(std::string_view text);
  CsvCell(const std::string& text) : CsvCell(std::string_view(text)) {}
  CsvCell(const char* text) : CsvCell(std::string_view(text)) {}
  /// `written` by this program: digits, a point, a minus.
  static CsvCell figure(std::string written);

  const std::string& written() const { return written_; } ///< with quotation marks where needed

private:
  CsvCell() = default;
  std::string written_;
};

/// Returns one row with its line end, CR LF.
std::string csv_row(const std::vector<CsvCell>& cells);

struct CsvField {
  std::string text; ///< without quotation marks, and without the apostrophe of csv_row
  int line = 0;     ///< where it begins, from 1
  int column = 0;   ///< in characters, from 1
};

/// Rows that are not empty; `number` is the row as a spreadsheet counts it, from 1.
struct CsvRow {
  int number = 0;
  std::vector<CsvField> fields;
};

struct CsvFault {
  int line = 0;
  int column = 0;
  int row = 0;
  std::string what;
  std::string advice;
};

/// "A" for the first, "AA" for the 27th.
std::string csv_column_name(std::size_t column);

/// Takes CR LF or LF, a byte order mark, and semicolons in place of commas where the first line has
/// semicolons and no commas. Refuses a text that is not UTF-8 or holds control characters, a
/// quotation mark inside a cell that does not begin with one, anything behind a closing one, one
/// that is never closed, and a row with more or fewer cells than the first. The reading ends at the
/// first fault.
std::variant<std::vector<CsvRow>, CsvFault> read_csv(std::string_view text);

} // namespace shankline
