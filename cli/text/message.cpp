#include "cli/text/message.hpp"

#include "cli/text/characters.hpp"

#include <algorithm>
#include <ostream>
#include <tuple>
#include <utility>

namespace shankline {
namespace {

constexpr std::size_t longest_shown = 48;

std::string place_text(const Message& message) {
  std::string text = message.file;
  for (const int number : {message.line, message.column})
    if (number > 0) text += ':' + std::to_string(number);
  return text;
}

} // namespace

std::string without_controls(std::string_view text) {
  std::string clean;
  clean.reserve(text.size());
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t control = control_length(text, at);
    clean += control > 0 ? '?' : text[at];
    at += control > 0 ? control : 1;
  }
  return clean;
}

Message about_file(std::string file, std::string what, std::string advice) {
  Message message;
  message.file = std::move(file);
  message.what = std::move(what);
  message.advice = std::move(advice);
  return message;
}

std::string to_text(const Message& message) {
  std::string text = without_controls(place_text(message));
  text += message.severity == Severity::error ? ": error: " : ": caution: ";
  if (!message.key.empty()) text += without_controls(message.key) + ": ";
  text += without_controls(message.what);
  if (!message.allowed.empty()) text += "\n  allowed: " + without_controls(message.allowed);
  if (!message.advice.empty()) text += "\n  do: " + without_controls(message.advice);
  return text;
}

std::string shown(std::string_view text) {
  if (text.size() <= longest_shown) return '\'' + std::string(text) + '\'';
  std::size_t end = longest_shown;
  while (end > 0 && continues_character(text[end]))
    --end;
  return '\'' + std::string(text.substr(0, end)) + "…'";
}

std::vector<Message> in_line_order(std::vector<Message> messages) {
  const auto earlier = [](const Message& a, const Message& b) {
    return std::tie(a.line, a.column) < std::tie(b.line, b.column);
  };
  std::stable_sort(messages.begin(), messages.end(), earlier);
  std::vector<Message> kept;
  for (Message& message : messages) {
    const auto not_here = [&](const Message& other) { return earlier(other, message); };
    const auto here = std::find_if(kept.rbegin(), kept.rend(), not_here).base();
    if (std::find(here, kept.end(), message) == kept.end()) kept.push_back(std::move(message));
  }
  return kept;
}

bool has_error(const std::vector<Message>& messages) {
  return std::any_of(messages.begin(), messages.end(),
                     [](const Message& message) { return message.severity == Severity::error; });
}

void say(const std::vector<Message>& said, std::ostream& messages) {
  constexpr std::size_t most = 40;
  const std::vector<Message> in_order = in_line_order(said);
  for (std::size_t i = 0; i < std::min(most, in_order.size()); ++i)
    messages << to_text(in_order[i]) << '\n';
  if (in_order.size() > most)
    messages << without_controls(in_order.front().file) << ": and " << in_order.size() - most
             << " more of these\n";
}

} // namespace shankline
