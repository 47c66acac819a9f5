#include "cli/bench_file.hpp"

#include "cli/calendar_day.hpp"

namespace shankline {
namespace {

/// The files that people keep, and what they are for.
struct FileKind {
  std::string_view family;
  std::string_view what;
  std::string_view use;
};
constexpr FileKind kinds[] = {
    {"shankline-order/", "an order", "shankline cut ORDER"},
    {"shankline-worn/", "what was measured on a worn pair", "shankline match WORN ORDER"},
    {"shankline-measured/", "what was measured on a made pair", "shankline accept ORDER MEASURED"},
    {"shankline-archive/", "a bundle from an archive", "shankline archive import FILE"},
};

} // namespace

std::optional<std::string> read_day(Scribe& scribe, const Entry& entry) {
  if (!expect_scalar(scribe, entry, "a date")) return {};
  if (is_calendar_day(entry.value->text)) return entry.value->text;
  scribe.error(entry, {.what = shown(entry.value->text) + " is not a day of the calendar",
                       .allowed = "year-month-day, such as 2026-03-14",
                       .advice = "write four digits for the year and two each for month and day"});
  return {};
}

FormatRead expect_format(Scribe& scribe, const Entry& entry, std::string_view format,
                         std::string_view what) {
  const std::string& said = entry.value->text;
  if (said == format) return FormatRead::as_expected;
  if (said.starts_with(format.substr(0, format.find('/') + 1))) {
    scribe.error(entry, {.what = "this version reads " + std::string(format) + ", and " +
                                 shown(said) + " was read",
                         .allowed = std::string(format),
                         .advice = "write the file anew, or use the version that wrote it"});
    return FormatRead::foreign;
  }
  for (const FileKind& kind : kinds)
    if (said.starts_with(kind.family)) {
      scribe.error(entry,
                   {.what = "this file is " + std::string(kind.what) + ", not " + std::string(what),
                    .allowed = std::string(format),
                    .advice = "give another file here; this one is for: " + std::string(kind.use)});
      return FormatRead::foreign;
    }
  scribe.error(entry, {.what = shown(said) + " is not the format of " + std::string(what),
                       .allowed = std::string(format),
                       .advice = "write format: " + std::string(format)});
  return FormatRead::misspelt;
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
