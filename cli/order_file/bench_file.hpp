// Reads the small files that go with an order (the measurements of a worn pair, of a made pair, and
// so on). They are read like an order and report the same errors.
#pragma once

#include "cli/order_file/order_text.hpp"
#include "cli/order_file/order_values.hpp"
#include "cli/order_file/parse_context.hpp"
#include "geometry/order/finding.hpp"

#include <algorithm>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

namespace shankline {

inline constexpr TextLimits code_limits{40, false};
inline constexpr TextLimits line_limits{80, false};

/// Reads a calendar day and returns it as year-month-day. Reports an error for anything else.
std::optional<std::string> read_day(ParseContext& context, const Entry& entry);
/// Like read_day, for an answer typed on a terminal: it also accepts "today".
std::optional<std::string> read_answered_day(ParseContext& context, const Entry& entry);

/// Reports an error unless the entry is `format`. `what` names the file's content: "an order".
void expect_format(ParseContext& context, const Entry& entry, std::string_view format,
                   std::string_view what);

/// Returns true if the file names another version or another kind. The meaning of its other keys is
/// then unknown, so errors about them would only mislead.
bool is_foreign(const Node& root, std::string_view format);
/// Removes every message that is not about the format.
void keep_format_messages(std::vector<Message>& messages);

/// Reports an error if the file has no `format` key.
void require_format(ParseContext& context, std::string_view format);

/// Returns the entry with its key moved to `section` of the reading guide; the last part of the key
/// stays.
Entry guided_by(const Entry& entry, std::string_view section);

template <class T> struct BenchFile {
  T content{};
  std::string file;
  std::vector<Message> messages; ///< in line order
  KeyPlaces places;

  bool ok() const { return !has_error(messages); }

  /// Returns the finding with its place in this file; nullopt if the file does not have its key.
  std::optional<Message> place(const Finding& finding) const {
    if (!places.has(finding.key.text())) return {};
    const KeyPlace at = places.nearest(finding.key.text());
    return Message{finding.severity, file, at.place.line, at.place.column, at.written, finding};
  }
};

template <class T>
BenchFile<T> read_bench_text(std::string_view text, const std::string& file_name, Fields<T> fields,
                             std::string_view format) {
  BenchFile<T> read;
  read.file = file_name;
  OrderDocument document = parse_order_document(text, read.file, largest_order, format);
  read.messages = std::move(document.messages);
  if (document.root) {
    ParseContext context(read.file, read.messages, read.places);
    const Entry top{&*document.root, document.root->place, "", ""};
    context.remember(top);
    read_fields(context, top, fields, read.content);
    require_format(context, format);
    if (is_foreign(*document.root, format)) {
      keep_format_messages(read.messages);
      read.content = T{};
    }
  }
  read.messages = in_line_order(std::move(read.messages));
  return read;
}

template <class T>
BenchFile<T> read_bench_file(const std::string& path, Fields<T> fields, std::string_view format,
                             AtLink at_link = AtLink::follow) {
  auto text = read_order_text(path, at_link);
  if (const Message* refused = std::get_if<Message>(&text)) {
    BenchFile<T> read;
    read.file = path;
    read.messages = {*refused};
    return read;
  }
  return read_bench_text<T>(std::get<std::string>(text), path == "-" ? "standard input" : path,
                            fields, format);
}

} // namespace shankline
