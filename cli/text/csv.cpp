#include "cli/text/csv.hpp"

#include "cli/text/characters.hpp"

#include <algorithm>
#include <optional>
#include <utility>

namespace shankline {
namespace {

constexpr std::string_view byte_order_mark = "\xef\xbb\xbf";

/// Spreadsheets take a cell that begins so for a formula, some of them also behind a tab. Whoever
/// wrote an apostrophe before that means it.
bool needs_apostrophe(std::string_view text) {
  while (text.starts_with('\''))
    text.remove_prefix(1);
  return !text.empty() && std::string_view("=+-@\t\r").find(text.front()) != std::string_view::npos;
}

std::string in_quotes(std::string_view text) {
  if (text.find_first_of(",;\"\r\n\t") == std::string_view::npos &&
      text == without_outer_spaces(text) && !text.starts_with(byte_order_mark))
    return std::string(text);
  std::string in_marks = "\"";
  for (const char c : text) {
    if (c == '"') in_marks += '"';
    in_marks += c;
  }
  return in_marks + '"';
}

class CsvReader {
public:
  explicit CsvReader(std::string_view text) : rest_(text) {
    if (rest_.starts_with(byte_order_mark)) rest_.remove_prefix(byte_order_mark.size());
    const std::string_view first = rest_.substr(0, rest_.find_first_of("\r\n"));
    if (first.find(',') == std::string_view::npos && first.find(';') != std::string_view::npos)
      separator_ = ';';
  }

  std::variant<std::vector<CsvRow>, CsvFault> read() && {
    std::vector<CsvRow> rows;
    while (!rest_.empty() && !fault_) {
      CsvRow row = next_row();
      if (fault_) break;
      const bool empty = std::all_of(row.fields.begin(), row.fields.end(),
                                     [](const CsvField& field) { return field.text.empty(); });
      if (empty) continue;
      if (!rows.empty() && row.fields.size() != rows.front().fields.size())
        refuse_at(row.fields.front(),
                  "has " + std::to_string(row.fields.size()) + " cells, and the first row has " +
                      std::to_string(rows.front().fields.size()),
                  "give every row as many cells as the first; put a cell with a comma in quotation "
                  "marks");
      rows.push_back(std::move(row));
    }
    if (fault_) return *std::move(fault_);
    return rows;
  }

private:
  CsvRow next_row() {
    CsvRow row{++row_, {}};
    while (!fault_) {
      row.fields.push_back(next_field());
      if (fault_ || rest_.empty() || take_line_end()) break;
      take_byte(); // the separator
      if (rest_.empty()) row.fields.push_back({"", line_, column_});
      if (rest_.empty()) break;
    }
    return row;
  }

  CsvField next_field() {
    CsvField field{"", line_, column_};
    const bool in_marks = rest_.starts_with('"');
    if (in_marks)
      quoted_text(field);
    else
      plain_text(field);
    // Remove the apostrophe that csv_row puts before such a text.
    if (field.text.starts_with('\'') && needs_apostrophe(std::string_view(field.text).substr(1)))
      field.text.erase(0, 1);
    return field;
  }

  bool at_end_of_field() const {
    return rest_.empty() || rest_.front() == separator_ || rest_.front() == '\n' ||
           rest_.front() == '\r';
  }

  void plain_text(CsvField& field) {
    while (!fault_ && !at_end_of_field()) {
      if (rest_.front() == '"') {
        refuse("a quotation mark stands inside this cell",
               "begin and end the cell with quotation marks, and write each inside it twice");
        return;
      }
      take_character(field.text);
    }
    field.text = std::string(without_outer_spaces(field.text));
  }

  void quoted_text(CsvField& field) {
    take_byte();
    while (!fault_) {
      if (rest_.empty()) {
        refuse_at(field, "the quotation mark at the beginning of this cell is never closed",
                  "end the cell with a quotation mark");
        return;
      }
      if (rest_.front() == '"') {
        take_byte();
        if (!rest_.starts_with('"')) break;
        take_byte();
        field.text += '"';
      } else if (rest_.front() == '\n' || rest_.front() == '\r') {
        if (!take_line_end()) {
          refuse("a carriage return stands inside this cell", "save the file again");
          return;
        }
        field.text += '\n';
      } else {
        take_character(field.text);
      }
    }
    if (!fault_ && !at_end_of_field())
      refuse("something stands behind the closing quotation mark of this cell",
             "leave it out, or write a quotation mark inside the cell twice");
  }

  void take_byte() {
    rest_.remove_prefix(1);
    ++column_;
  }

  void take_character(std::string& into) {
    const std::size_t length = character_length(rest_);
    if (length == 0) {
      refuse("a character here is not in UTF-8", "save the file as UTF-8");
      return;
    }
    if (rest_.front() != '\t' && control_length(rest_, 0) > 0) {
      refuse("a control character stands here", "delete it, or save the file again");
      return;
    }
    into += rest_.substr(0, length);
    rest_.remove_prefix(length);
    ++column_;
  }

  /// A lone carriage return is no line end.
  bool take_line_end() {
    if (rest_.starts_with("\r\n")) rest_.remove_prefix(1);
    if (!rest_.starts_with('\n')) {
      if (rest_.starts_with('\r'))
        refuse("a carriage return stands alone here", "save the file with ordinary line ends");
      return fault_.has_value();
    }
    rest_.remove_prefix(1);
    ++line_;
    column_ = 1;
    return true;
  }

  void refuse(std::string what, std::string advice) {
    if (!fault_) fault_ = CsvFault{line_, column_, row_, std::move(what), std::move(advice)};
  }
  void refuse_at(const CsvField& field, std::string what, std::string advice) {
    if (!fault_)
      fault_ = CsvFault{field.line, field.column, row_, std::move(what), std::move(advice)};
  }

  std::string_view rest_;
  char separator_ = ',';
  int line_ = 1;
  int column_ = 1;
  int row_ = 0;
  std::optional<CsvFault> fault_;
};

} // namespace

CsvCell::CsvCell(std::string_view text)
    : written_(in_quotes(needs_apostrophe(text) ? "'" + std::string(text) : std::string(text))) {}

CsvCell CsvCell::figure(std::string written) {
  CsvCell cell;
  cell.written_ = std::move(written);
  return cell;
}

std::string csv_row(const std::vector<CsvCell>& cells) {
  std::string row;
  for (const CsvCell& cell : cells)
    row += (&cell == &cells.front() ? "" : ",") + cell.written();
  return row + "\r\n";
}

std::string csv_column_name(std::size_t column) {
  std::string name;
  for (std::size_t left = column + 1; left > 0; left = (left - 1) / 26)
    name.insert(name.begin(), static_cast<char>('A' + (left - 1) % 26));
  return name;
}

std::variant<std::vector<CsvRow>, CsvFault> read_csv(std::string_view text) {
  return CsvReader(text).read();
}

} // namespace shankline
