#include "cli/bench_files/table_cells.hpp"

#include "cli/surroundings/calendar_day.hpp"
#include "cli/text/characters.hpp"
#include "cli/text/nearest_word.hpp"
#include "cli/text/quantity.hpp"
#include "cli/text/word_list.hpp"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <utility>
#include <variant>

namespace shankline {
namespace {

std::vector<std::string_view> names_of(std::span<const TableColumnName> columns) {
  std::vector<std::string_view> names;
  for (const TableColumnName& column : columns)
    names.push_back(column.name);
  return names;
}

} // namespace

TableCells::TableCells(std::string_view given, std::string file,
                       std::span<const TableColumnName> columns)
    : file_(std::move(file)) {
  auto read = read_csv(given);
  if (const auto* fault = std::get_if<CsvFault>(&read)) {
    // The reader names what is wrong with a row without naming the row.
    const std::string row = fault->what.starts_with("has ") ? "the row " : "";
    messages_.push_back({Severity::error,
                         file_,
                         fault->line,
                         fault->column,
                         "",
                         {row + fault->what, "", fault->advice}});
    return;
  }
  std::vector<CsvRow>& all = std::get<std::vector<CsvRow>>(read);
  if (all.empty()) {
    error({"the file is empty", joined(names_of(columns), ","),
           "write the names of the columns into its first line"});
    return;
  }
  const CsvRow head = std::move(all.front());
  const int head_line = head.fields.front().line;
  const std::vector<std::string_view> names = names_of(columns);
  for (std::size_t k = 0; k < head.fields.size(); ++k) {
    const std::string& name = head.fields[k].text;
    const auto at = [&](Advice why) {
      messages_.push_back(
          {Severity::error, file_, head_line, static_cast<int>(k + 1), "the head", std::move(why)});
    };
    const auto nearest = nearest_word(name, names);
    if (std::find(names.begin(), names.end(), name) == names.end())
      at({shown(name) + " is not a name of a column", joined(names, ","),
          nearest ? "did you mean '" + std::string(*nearest) + "'?" : "take it out"});
    else if (std::find(head_.begin(), head_.end(), name) != head_.end())
      at({shown(name) + " stands there twice", "", "take one of them out"});
    head_.push_back(name);
  }
  for (const TableColumnName& column : columns)
    if (column.needed && std::find(head_.begin(), head_.end(), column.name) == head_.end())
      messages_.push_back({Severity::error,
                           file_,
                           head_line,
                           1,
                           "the head",
                           {"the column " + std::string(column.name) + " is missing",
                            joined(names, ","), "add it"}});
  if (!messages_.empty()) return;
  rows_.assign(std::make_move_iterator(all.begin() + 1), std::make_move_iterator(all.end()));
}

std::size_t TableCells::place_of(std::string_view column) const {
  return static_cast<std::size_t>(std::find(head_.begin(), head_.end(), column) - head_.begin());
}

const std::string& TableCells::cell(std::size_t row, std::string_view column) const {
  static const std::string none;
  const std::size_t place = place_of(column);
  return place < rows_[row].fields.size() ? rows_[row].fields[place].text : none;
}

void TableCells::error(std::size_t row, std::string_view column, Advice why) {
  messages_.push_back({Severity::error, file_, rows_[row].fields.front().line,
                       static_cast<int>(place_of(column) + 1),
                       "row " + std::to_string(row + 1) + ", " + std::string(column),
                       std::move(why)});
}

void TableCells::error(Advice why) {
  messages_.push_back({Severity::error, file_, 0, 0, "", std::move(why)});
}

std::optional<long long> TableCells::whole(std::size_t row, std::string_view column,
                                           long long least, long long most) {
  const std::string& said = cell(row, column);
  long long value = 0;
  const auto [stop, fault] = std::from_chars(said.data(), said.data() + said.size(), value);
  if (fault == std::errc() && stop == said.data() + said.size() && value >= least && value <= most)
    return value;
  error(row, column,
        {said.empty() ? "the cell is empty" : shown(said) + " is no such number",
         std::to_string(least) + " to " + std::to_string(most), "write a number without decimals"});
  return {};
}

std::optional<double> TableCells::number(std::size_t row, std::string_view column, double over,
                                         double most) {
  const std::string& said = cell(row, column);
  const auto read = parse_quantity(said, Quantity::number);
  if (!said.empty() && read && std::isfinite(*read) && *read > over && *read <= most) return *read;
  error(row, column,
        {said.empty() ? "the cell is empty" : shown(said) + " is no such number",
         "over " + number_text(over) + ", up to " + number_text(most),
         "write decimals with a point: 1.5"});
  return {};
}

std::optional<std::string> TableCells::day(std::size_t row, std::string_view column) {
  ParsedDay read = read_calendar_day(cell(row, column));
  if (!read.day.empty()) return std::move(read.day);
  error(row, column, {std::move(read.what), day_forms, std::move(read.advice)});
  return {};
}

std::optional<bool> TableCells::flag(std::size_t row, std::string_view column) {
  const std::string& said = cell(row, column);
  for (const char* word : {"yes", "true", "1"})
    if (said == word) return true;
  for (const char* word : {"no", "false", "0", ""})
    if (said == word) return false;
  error(row, column, {shown(said) + " is neither yes nor no", "yes, no", "write one of them"});
  return {};
}

std::optional<std::string> TableCells::word(std::size_t row, std::string_view column,
                                            std::span<const std::string_view> allowed) {
  const std::string& said = cell(row, column);
  if (said.empty() || std::find(allowed.begin(), allowed.end(), said) != allowed.end()) return said;
  const auto nearest = nearest_word(said, allowed);
  error(
      row, column,
      {shown(said) + " is not one of the words for this", joined(allowed, ", "),
       nearest ? "did you mean '" + std::string(*nearest) + "'?" : "choose what is allowed here"});
  return {};
}

std::optional<std::string> TableCells::text(std::size_t row, std::string_view column,
                                            std::size_t most) {
  const std::string& said = cell(row, column);
  if (said.size() <= most && !has_controls(said)) return said;
  error(row, column,
        {said.size() > most ? "the text is longer than " + std::to_string(most) + " bytes"
                            : std::string("the text has line ends or control characters in it"),
         "one line of at most " + std::to_string(most) + " bytes", "shorten it"});
  return {};
}

} // namespace shankline
