#include "cli/yaml/open_marks.hpp"

#include <algorithm>
#include <vector>

namespace shankline {
namespace {

constexpr std::size_t none = std::string_view::npos;

bool is_mark(char c) {
  return c == '"' || c == '\'';
}

char at_or_end(std::string_view text, std::size_t at) {
  return at < text.size() ? text[at] : '\n';
}

// Inside quotation marks: \" in double ones, '' in single ones.
bool escapes(std::string_view text, std::size_t at, char mark) {
  const char next = at_or_end(text, at + 1);
  return mark == '"' ? text[at] == '\\' && next != '\n' : text[at] == mark && next == mark;
}

// Returns the end of a quoted text, counted from its opening mark; `none` if its line ends first.
std::size_t closing_mark(std::string_view text, std::size_t open) {
  const char mark = text[open];
  for (std::size_t at = open + 1; at_or_end(text, at) != '\n'; ++at) {
    if (escapes(text, at, mark))
      ++at;
    else if (text[at] == mark)
      return at;
  }
  return none;
}

bool opens_quote(std::string_view text, std::size_t at) {
  constexpr std::string_view before = " \n[{,:";
  return is_mark(text[at]) && (at == 0 || before.find(text[at - 1]) != none);
}

bool opens_comment(std::string_view text, std::size_t at) {
  return text[at] == '#' && (at == 0 || text[at - 1] == ' ' || text[at - 1] == '\n');
}

} // namespace

bool leaves_quote_open(std::string_view text, std::size_t at) {
  return at < text.size() && is_mark(text[at]) && closing_mark(text, at) == none;
}

std::optional<std::size_t> find_open_quote(std::string_view text, std::size_t from) {
  for (std::size_t at = from; at < text.size(); ++at) {
    if (opens_comment(text, at)) {
      at = std::min(text.find('\n', at), text.size());
    } else if (opens_quote(text, at)) {
      const std::size_t close = closing_mark(text, at);
      if (close == none) return at;
      at = close;
    }
  }
  return std::nullopt;
}

std::optional<std::size_t> find_open_bracket(std::string_view text, std::size_t until) {
  std::vector<std::size_t> open;
  for (std::size_t at = 0; at < until; ++at) {
    if (opens_quote(text, at))
      at = std::min(closing_mark(text, at), until);
    else if (opens_comment(text, at))
      at = std::min(text.find('\n', at), until);
    else if (text[at] == '[' || text[at] == '{')
      open.push_back(at);
    else if ((text[at] == ']' || text[at] == '}') && !open.empty())
      open.pop_back();
  }
  return open.empty() ? std::nullopt : std::optional(open.back());
}

} // namespace shankline
