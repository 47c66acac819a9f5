#include "cli/bench_file.hpp"

#include "cli/characters.hpp"

#include <charconv>
#include <chrono>

namespace shankline {
namespace {

bool is_real_day(std::string_view text) {
  constexpr std::string_view form = "0000-00-00";
  if (text.size() != form.size()) return false;
  for (std::size_t i = 0; i < form.size(); ++i) {
    if (form[i] == '0' ? !is_digit(text[i]) : text[i] != form[i]) return false;
  }
  const auto number = [text](std::size_t from, std::size_t count) {
    unsigned value = 0;
    std::from_chars(text.data() + from, text.data() + from + count, value);
    return value;
  };
  const std::chrono::year_month_day day{std::chrono::year(static_cast<int>(number(0, 4))),
                                        std::chrono::month(number(5, 2)),
                                        std::chrono::day(number(8, 2))};
  return day.ok();
}

} // namespace

std::optional<std::string> read_day(Scribe& scribe, const Entry& entry) {
  if (!expect_scalar(scribe, entry, "a date")) return {};
  if (is_real_day(entry.value->text)) return entry.value->text;
  scribe.error(entry, {.what = shown(entry.value->text) + " is not a day of the calendar",
                       .allowed = "year-month-day, such as 2026-03-14",
                       .advice = "write four digits for the year and two each for month and day"});
  return {};
}

void expect_format(Scribe& scribe, const Entry& entry, std::string_view format,
                   std::string_view what) {
  const std::string_view family = format.substr(0, format.find('/') + 1);
  const std::string& said = entry.value->text;
  if (said == format) return;
  const bool other_version = said.starts_with(family);
  scribe.error(entry,
               {.what = other_version ? "this version reads " + std::string(format) + ", and " +
                                            shown(said) + " was read"
                                      : shown(said) + " is not the format of " + std::string(what),
                .allowed = std::string(format),
                .advice = other_version ? "write the file anew, or use the version that wrote it"
                                        : "write format: " + std::string(format)});
}

void require_format(Scribe& scribe, std::string_view format) {
  if (scribe.places().has("format")) return;
  scribe.error(scribe.places().nearest("format"),
               {.what = "is missing",
                .advice = "write format: " + std::string(format) + " as the first line"});
}

Entry guided_by(const Entry& entry, std::string_view section) {
  Entry guided = entry;
  const std::size_t dot = entry.inside.rfind('.');
  guided.inside = joined_key(section, dot == std::string::npos
                                          ? std::string_view(entry.inside)
                                          : std::string_view(entry.inside).substr(dot + 1));
  return guided;
}

} // namespace shankline
