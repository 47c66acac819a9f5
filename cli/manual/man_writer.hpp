// Text for man in the man macros of groff: escaped, in lines of ordinary length.
#pragma once

#include <string>
#include <string_view>
#include <utility>

namespace shankline {

/// Words as they stand: no letter of theirs is a command. Signs beyond ASCII come out as \[uXXXX].
std::string man_escaped(std::string_view words);
std::string man_bold(std::string_view words);
std::string man_italic(std::string_view words);

class ManWriter {
public:
  ManWriter(std::string_view title, int section, std::string_view day, std::string_view source,
            std::string_view book);

  void section(std::string_view name);
  void subsection(std::string_view name);
  /// A paragraph; `text` is escaped already, or made of escaped pieces.
  void paragraph(const std::string& text);
  /// A term with what it means beside or below it.
  void item(const std::string& term, const std::string& text);
  /// Lines kept as they are.
  void listing(std::string_view lines);

  std::string text() && { return std::move(text_); }

private:
  void filled(const std::string& text);

  std::string text_;
  bool after_heading_ = true; ///< a paragraph macro there would only be skipped
};

} // namespace shankline
