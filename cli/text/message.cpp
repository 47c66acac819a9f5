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

Message in_units(Message message, Units units) {
  for (std::string* words : {&message.what, &message.allowed, &message.advice})
    *words = with_inches(*words, units);
  return message;
}

/// A stream's own places for its form, its units and for who keeps what is said on it.
int form_place() {
  static const int place = std::ios_base::xalloc();
  return place;
}
int columns_place() {
  static const int place = std::ios_base::xalloc();
  return place;
}
int units_place() {
  static const int place = std::ios_base::xalloc();
  return place;
}
int keeper_place() {
  static const int place = std::ios_base::xalloc();
  return place;
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

Message plain_error(std::string what, std::string advice) {
  return about_file({}, std::move(what), std::move(advice));
}

Message plain_caution(std::string what, std::string advice) {
  Message message = plain_error(std::move(what), std::move(advice));
  message.severity = Severity::caution;
  return message;
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
  if (!text.empty()) text += ": ";
  text += message.severity == Severity::error ? "error: " : "caution: ";
  if (!message.key.empty()) text += without_controls(message.key) + ": ";
  text += without_controls(message.what);
  if (!message.allowed.empty()) text += "\n  allowed: " + without_controls(message.allowed);
  if (!message.advice.empty()) text += "\n  do: " + without_controls(message.advice);
  return text;
}

std::string to_text(const Message& message, std::size_t columns) {
  constexpr std::string_view margin = "    ";
  std::string text = to_text(message);
  if (columns <= margin.size()) return text;
  std::string broken;
  std::size_t at = 0; // columns of the line so far
  for (std::size_t begin = 0; begin < text.size();) {
    const std::size_t word = text.find_first_not_of(' ', begin);
    const std::size_t end = std::min(text.find_first_of(" \n", word), text.size());
    const bool fits = at == 0 || at + columns_of(text.substr(begin, end - begin)) <= columns;
    const std::string piece = text.substr(fits ? begin : word, end - (fits ? begin : word));
    if (!fits) broken += '\n' + std::string(margin);
    at = (fits ? at : margin.size()) + columns_of(piece);
    broken += piece;
    begin = end;
    if (begin < text.size() && text[begin] == '\n') {
      broken += '\n';
      ++begin;
      at = 0;
    }
  }
  return broken;
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
  if (auto* const keeper = static_cast<std::vector<Message>*>(messages.pword(keeper_place())))
    keeper->insert(keeper->end(), in_order.begin(), in_order.end());
  if (message_form(messages) == MessageForm::json_lines) {
    for (const Message& message : in_order)
      messages << finding_line(placed(message)) << '\n';
    return;
  }
  const Units units = message_units(messages);
  for (std::size_t i = 0; i < std::min(most, in_order.size()); ++i)
    messages << to_text(in_units(in_order[i], units), message_columns(messages)) << '\n';
  if (in_order.size() > most)
    messages << without_controls(in_order.front().file) << ": and " << in_order.size() - most
             << " more of these\n";
}

PlacedFinding placed(const Message& message) {
  PlacedFinding finding;
  static_cast<Advice&>(finding) = message;
  finding.severity = message.severity;
  finding.file = message.file;
  finding.key = message.key;
  finding.line = message.line;
  finding.column = message.column;
  return finding;
}

void set_message_form(std::ostream& messages, MessageForm form, std::size_t columns) {
  messages.iword(form_place()) = static_cast<long>(form);
  messages.iword(columns_place()) = static_cast<long>(columns);
}

void set_message_units(std::ostream& messages, Units units) {
  messages.iword(units_place()) = static_cast<long>(units);
}

Units message_units(std::ostream& messages) {
  return static_cast<Units>(messages.iword(units_place()));
}

std::size_t message_columns(std::ostream& messages) {
  return static_cast<std::size_t>(messages.iword(columns_place()));
}

MessageForm message_form(std::ostream& messages) {
  return static_cast<MessageForm>(messages.iword(form_place()));
}

MessageCollector::MessageCollector(std::ostream& messages)
    : messages_(messages), before_(messages.pword(keeper_place())) {
  messages_.pword(keeper_place()) = &said_;
}

MessageCollector::~MessageCollector() {
  messages_.pword(keeper_place()) = before_;
}

} // namespace shankline
