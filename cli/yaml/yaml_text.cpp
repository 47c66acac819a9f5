#include "cli/yaml/yaml_text.hpp"

#include "cli/text/characters.hpp"
#include "cli/yaml/order_characters.hpp"

#include <algorithm>
#include <array>

namespace shankline {
namespace {

constexpr std::array<std::string_view, 3> null_words{"null", "Null", "NULL"};

/// U+FEFF, which YAML leaves out.
constexpr std::string_view odd_mark = "\xef\xbb\xbf";

bool has_odd_mark(std::string_view text) {
  return text.find(odd_mark) != std::string_view::npos;
}

/// Returns true if every bracket is closed again and few are open at a time: the reader counts them
/// wherever they stand, in quotation marks too.
bool has_sound_brackets(std::string_view text) {
  constexpr int deepest = 24;
  static_assert(deepest < deepest_brackets);
  int depth = 0;
  for (const char c : text) {
    if (c == '[' || c == '{') ++depth;
    if (c == ']' || c == '}') --depth;
    if (depth < 0 || depth > deepest) return false;
  }
  return depth == 0;
}

/// Returns true if a text reads back without quotation marks.
bool is_plain(std::string_view text) {
  const auto letter = [](char c) { return is_letter(c) || (c & 0x80) != 0; };
  const auto safe = [&](char c) {
    return letter(c) || is_digit(c) ||
           std::string_view(" .,-_/()").find(c) != std::string_view::npos;
  };
  return !text.empty() && letter(text.front()) && text.back() != ' ' &&
         std::all_of(text.begin(), text.end(), safe) && !has_odd_mark(text) &&
         !has_controls(text) &&
         std::find(null_words.begin(), null_words.end(), text) == null_words.end();
}

/// Returns true if a text comes back from a block, where it stands as it is: lines of plain
/// characters, the last one ended, and no brackets left open.
bool fits_block(std::string_view text) {
  if (text.empty() || text.front() == ' ' || text.front() == '\n' || !text.ends_with('\n') ||
      text.ends_with("\n\n"))
    return false;
  for (std::size_t at = 0; at < text.size(); ++at) {
    const char c = text[at];
    if (c != '\n' && control_length(text, at) > 0) return false;
    if (c == '\n' && at + 1 < text.size() && text[at + 1] == ' ') {
      const std::size_t word = text.find_first_not_of(' ', at + 1);
      if (word == std::string_view::npos || text[word] == '\n') return false; // only spaces
    }
  }
  return !has_odd_mark(text) && has_sound_brackets(text);
}

/// The character of one to three bytes as \uXXXX.
void escape(std::string& into, std::string_view bytes) {
  constexpr std::string_view digits = "0123456789abcdef";
  char32_t code = static_cast<unsigned char>(bytes[0]);
  if (bytes.size() == 2)
    code = ((code & 0x1f) << 6) | (static_cast<unsigned char>(bytes[1]) & 0x3f);
  if (bytes.size() == 3)
    code = ((code & 0x0f) << 12) | ((static_cast<unsigned char>(bytes[1]) & 0x3fU) << 6) |
           (static_cast<unsigned char>(bytes[2]) & 0x3fU);
  into += "\\u";
  for (int shift = 12; shift >= 0; shift -= 4)
    into += digits[(code >> shift) & 15];
}

/// Writes the text in quotation marks on one line.
std::string quoted(std::string_view text) {
  std::string out = "\"";
  const std::string_view brackets = has_sound_brackets(text) ? "" : "[]{}";
  for (std::size_t at = 0; at < text.size();) {
    const std::string_view rest = text.substr(at);
    std::size_t taken = 1;
    const std::size_t control = control_length(text, at);
    const bool mark = rest.starts_with(odd_mark);
    if (rest[0] == '\n')
      out += "\\n";
    else if (rest[0] == '"' || rest[0] == '\\')
      (out += '\\') += rest[0];
    else if (control > 0 || mark || brackets.find(rest[0]) != std::string_view::npos)
      escape(out, rest.substr(0, taken = control > 0 ? control : mark ? odd_mark.size() : 1));
    else
      out += rest[0];
    at += taken;
  }
  return out += '"';
}

/// Writes the text as a block: each line indented, empty ones not.
std::string block(std::string_view text) {
  std::string lines = " |\n";
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t end = text.find('\n', at) + 1;
    if (end - at > 1) lines += "  ";
    lines.append(text.substr(at, end - at));
    at = end;
  }
  return lines;
}

} // namespace

std::string yaml_scalar(std::string_view text) {
  return is_plain(text) ? std::string(text) : quoted(text);
}

std::string yaml_text(std::string_view text) {
  return fits_block(text) ? block(text) : " " + quoted(text) + "\n";
}

} // namespace shankline
