#include "cli/manual/man_writer.hpp"

#include "export/lettering/code_point.hpp"

#include <cstdio>

namespace shankline {
namespace {

constexpr std::size_t line_length = 78;

} // namespace

std::string man_escaped(std::string_view words) {
  std::string escaped;
  for (const char32_t code : code_points(words)) {
    if (code >= 0x80) {
      char name[16];
      std::snprintf(name, sizeof name, "\\[u%04X]", static_cast<unsigned>(code));
      escaped += name;
    } else if (code == '\\') {
      escaped += "\\e";
    } else if (code == '-') {
      escaped += "\\-";
    } else if (code == '\'') {
      escaped += "\\(aq";
    } else {
      escaped += static_cast<char>(code);
    }
  }
  return escaped;
}

std::string man_bold(std::string_view words) {
  return "\\fB" + man_escaped(words) + "\\fR";
}

std::string man_italic(std::string_view words) {
  return "\\fI" + man_escaped(words) + "\\fR";
}

ManWriter::ManWriter(std::string_view title, int section, std::string_view day,
                     std::string_view source, std::string_view book)
    : text_(".TH " + std::string(title) + " " + std::to_string(section) + " \"" + std::string(day) +
            "\" \"" + std::string(source) + "\" \"" + std::string(book) + "\"\n") {}

void ManWriter::section(std::string_view name) {
  text_ += ".SH " + std::string(name) + "\n";
  after_heading_ = true;
}

void ManWriter::subsection(std::string_view name) {
  text_ += ".SS " + std::string(name) + "\n";
  after_heading_ = true;
}

void ManWriter::paragraph(const std::string& text) {
  if (!after_heading_) text_ += ".PP\n";
  filled(text);
}

void ManWriter::item(const std::string& term, const std::string& text) {
  text_ += ".TP\n" + term + "\n";
  filled(text);
}

void ManWriter::listing(std::string_view lines) {
  if (!after_heading_) text_ += ".PP\n";
  text_ += ".nf\n";
  while (!lines.empty()) {
    const std::size_t end = lines.find('\n');
    const std::string_view line = lines.substr(0, end);
    if (!line.empty() && line.front() == '.') text_ += "\\&";
    text_ += man_escaped(line) + "\n";
    lines.remove_prefix(end == std::string_view::npos ? lines.size() : end + 1);
  }
  text_ += ".fi\n";
  after_heading_ = false;
}

void ManWriter::filled(const std::string& text) {
  std::string line;
  std::string_view rest = text;
  const auto put = [&] {
    if (line.front() == '.' || line.front() == '\'') text_ += "\\&";
    text_ += line + "\n";
    line.clear();
  };
  while (!rest.empty()) {
    const std::size_t space = rest.find(' ');
    const std::string_view word = rest.substr(0, space);
    rest.remove_prefix(space == std::string_view::npos ? rest.size() : space + 1);
    if (word.empty()) continue;
    if (!line.empty() && line.size() + 1 + word.size() > line_length) put();
    line += (line.empty() ? "" : " ") + std::string(word);
  }
  if (!line.empty()) put();
  after_heading_ = false;
}

} // namespace shankline
