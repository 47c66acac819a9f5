#include "cli/bench_files/schedule_reader.hpp"

#include "cli/bench_files/table_cells.hpp"
#include "cli/text/characters.hpp"

#include <algorithm>
#include <utility>

namespace shankline {
namespace {

constexpr double most_hours = 12; // as in the reading guide
constexpr TextLimits time_limits{5, false};

/// "9:30" becomes "09:30"; empty for no time of the day.
std::string time_in(std::string_view text) {
  const std::size_t colon = text.find(':');
  if (colon == std::string_view::npos || colon == 0 || colon > 2 || text.size() != colon + 3)
    return {};
  int parts[2] = {0, 0};
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (i == colon) continue;
    if (!is_digit(text[i])) return {};
    int& part = parts[i < colon ? 0 : 1];
    part = part * 10 + (text[i] - '0');
  }
  if (parts[0] > 23 || parts[1] > 59) return {};
  return (colon == 1 ? "0" : "") + std::string(text);
}

const Advice no_time{"is not a time of the day", "00:00 to 23:59", "write it as 19:30"};

void read_schedule_day(ParseContext& context, const Entry& entry, ScheduledDay& day) {
  if (auto read = read_day(context, entry)) day.day = *std::move(read);
}

void read_hours(ParseContext& context, const Entry& entry, ScheduledDay& day) {
  if (const auto hours = read_number(context, entry, "schedule.hours")) day.hours = *hours;
}

void read_time(ParseContext& context, const Entry& entry, ScheduledDay& day) {
  const auto text = read_text(context, entry, time_limits);
  if (!text) return;
  day.at = time_in(*text);
  if (day.at.empty())
    context.error(entry, {shown(*text) + " " + no_time.what, no_time.allowed,
                          "write it in quotation marks: \"19:30\""});
}

constexpr Field<ScheduledDay> day_fields[] = {
    {"day", read_schedule_day},
    {"hours", read_hours},
    {"stage", flag_in<&ScheduledDay::stage>},
    {"at", read_time},
    {"dancer", text_in<&ScheduledDay::dancer, code_limits>},
};

void read_format(ParseContext& context, const Entry& entry, Schedule&) {
  expect_format(context, entry, schedule_format, "a schedule");
}

void read_days(ParseContext& context, const Entry& entry, Schedule& schedule) {
  const auto& items = entry.value->items;
  if (items.empty())
    return context.error(entry, {.what = "a list of days is wanted here",
                                 .allowed = "- {day: 2027-01-04, hours: 2}",
                                 .advice = "write each day on a line of its own"});
  for (const Node& item : items) {
    const Entry one = entry.item(item);
    ScheduledDay day;
    KeyPlaces own;
    ParseContext aside = context.with_places(own);
    Entry top = one;
    top.inside.clear();
    read_fields(aside, top, day_fields, day);
    for (const char* needed : {"day", "hours"})
      if (item.kind == NodeKind::map && !has_key(item, needed))
        context.error(one, {.what = std::string(needed) + " is missing",
                            .advice = "write it as {day: 2027-01-04, hours: 2}"});
    schedule.days.push_back(std::move(day));
  }
}

constexpr Field<Schedule> schedule_fields[] = {{"format", read_format}, {"days", read_days}};

void put_in_order(Schedule& schedule) {
  std::stable_sort(schedule.days.begin(), schedule.days.end(),
                   [](const ScheduledDay& a, const ScheduledDay& b) {
                     return a.day != b.day ? a.day < b.day : a.at < b.at;
                   });
}

constexpr TableColumnName columns[] = {
    {"day", true}, {"hours", true}, {"stage"}, {"at"}, {"dancer"}};

} // namespace

BenchFile<Schedule> read_schedule_text(std::string_view text, const std::string& file_name) {
  auto read = read_bench_text<Schedule>(text, file_name, schedule_fields, schedule_format);
  if (read.ok() && read.content.days.empty())
    read.messages.push_back(
        about_file(read.file, "there is no day in this schedule", "write the days under days:"));
  put_in_order(read.content);
  return read;
}

BenchFile<Schedule> read_schedule_csv(std::string_view text, const std::string& file_name) {
  BenchFile<Schedule> read;
  read.file = file_name;
  TableCells cells(text, file_name, columns);
  if (cells.ok() && cells.rows() == 0)
    cells.error({"there is no day in this schedule", "day,hours", "write a day on each line"});
  if (cells.rows() > most_scheduled)
    cells.error({"the schedule has " + std::to_string(cells.rows()) + " rows",
                 "at most " + std::to_string(most_scheduled), "part it into several files"});
  for (std::size_t row = 0; row < cells.rows(); ++row) {
    ScheduledDay day;
    if (auto said = cells.day(row, "day")) day.day = *std::move(said);
    if (const auto hours = cells.number(row, "hours", 0, most_hours)) day.hours = *hours;
    if (const auto stage = cells.flag(row, "stage")) day.stage = *stage;
    if (const std::string& at = cells.cell(row, "at"); !at.empty()) {
      day.at = time_in(at);
      if (day.at.empty())
        cells.error(row, "at", {shown(at) + " " + no_time.what, no_time.allowed, no_time.advice});
    }
    if (auto dancer = cells.text(row, "dancer", code_limits.characters))
      day.dancer = *std::move(dancer);
    read.content.days.push_back(std::move(day));
  }
  read.messages = cells.take_messages();
  put_in_order(read.content);
  return read;
}

BenchFile<Schedule> read_schedule_file(const std::string& path) {
  const bool is_csv = path.ends_with(".csv");
  auto text = is_csv ? read_table_text(path) : read_order_text(path);
  if (const Message* refused = std::get_if<Message>(&text)) {
    BenchFile<Schedule> read;
    read.file = path;
    read.messages = {*refused};
    return read;
  }
  const std::string name = path == "-" ? "standard input" : path;
  return is_csv ? read_schedule_csv(std::get<std::string>(text), name)
                : read_schedule_text(std::get<std::string>(text), name);
}

} // namespace shankline
