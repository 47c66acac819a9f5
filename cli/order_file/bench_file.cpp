#include "cli/order_file/bench_file.hpp"

#include "cli/surroundings/calendar_day.hpp"

#include <algorithm>
#include <iterator>
#include <utility>

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
    {"shankline-schedule/", "a schedule of days on pointe",
     "shankline rotation DANCER --schedule FILE"},
    {"shankline-archive/", "a bundle from an archive", "shankline archive import FILE"},
};

/// "shankline-order/" of "shankline-order/1"
std::string_view family_of(std::string_view format) {
  return format.substr(0, format.find('/') + 1);
}

std::optional<std::string> day_or_error(ParseContext& context, const Entry& entry, ParsedDay read) {
  if (!read.day.empty()) return std::move(read.day);
  context.error(
      entry,
      {.what = std::move(read.what), .allowed = day_forms, .advice = std::move(read.advice)});
  return {};
}

/// Returns the kind of file that the format `said` names, in any version; null for an unknown kind.
const FileKind* kind_of(std::string_view said) {
  const auto* const found =
      std::find_if(std::begin(kinds), std::end(kinds),
                   [&](const FileKind& k) { return said.starts_with(k.family); });
  return found == std::end(kinds) ? nullptr : found;
}

} // namespace

std::optional<std::string> read_day(ParseContext& context, const Entry& entry) {
  if (!expect_scalar(context, entry, "a date")) return {};
  return day_or_error(context, entry, read_calendar_day(entry.value->text));
}

std::optional<std::string> read_answered_day(ParseContext& context, const Entry& entry) {
  return day_or_error(context, entry, read_typed_day(entry.value->text));
}

void expect_format(ParseContext& context, const Entry& entry, std::string_view format,
                   std::string_view what) {
  const std::string& said = entry.value->text;
  if (said == format) return;
  if (said.starts_with(family_of(format))) {
    context.error(entry, {.what = "this version reads " + std::string(format) + ", and " +
                                  shown(said) + " was read",
                          .allowed = std::string(format),
                          .advice = "write the file anew, or use the version that wrote it"});
    return;
  }
  if (const FileKind* kind = kind_of(said)) {
    context.error(entry,
                  {.what = "this file is " + std::string(kind->what) + ", not " + std::string(what),
                   .allowed = std::string(format),
                   .advice = "give another file here; this one is for: " + std::string(kind->use)});
    return;
  }
  context.error(entry, {.what = shown(said) + " is not the format of " + std::string(what),
                        .allowed = std::string(format),
                        .advice = "write format: " + std::string(format)});
}

bool is_foreign(const Node& root, std::string_view format) {
  return std::any_of(root.members.begin(), root.members.end(), [format](const Member& member) {
    const std::string_view said = member.value.text;
    return member.key == "format" && said != format &&
           (said.starts_with(family_of(format)) || kind_of(said));
  });
}

void keep_format_messages(std::vector<Message>& messages) {
  std::erase_if(messages, [](const Message& message) { return message.key != "format"; });
}

void require_format(ParseContext& context, std::string_view format) {
  if (context.places().has("format")) return;
  context.error(context.places().nearest("format"),
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
