// A message about a file for the fitter: where, what is wrong, what is allowed, what to do next.
#pragma once

#include "geometry/order/finding.hpp"

#include <iosfwd>
#include <string>
#include <string_view>
#include <vector>

namespace shankline {

struct Message : Advice {
  Message() = default;
  Message(Severity how, std::string in_file, int in_line, int in_column, std::string written_key,
          Advice words)
      : Advice(std::move(words)), severity(how), file(std::move(in_file)), line(in_line),
        column(in_column), key(std::move(written_key)) {}

  Message(Severity how, std::string in_file, int in_line, int in_column, std::string written_key,
          std::string wrong, std::string may, std::string next)
      : Message(how, std::move(in_file), in_line, in_column, std::move(written_key),
                Advice{std::move(wrong), std::move(may), std::move(next)}) {}

  Severity severity = Severity::error;
  std::string file;
  int line = 0; ///< from 1; 0 when the message is about the whole file
  int column = 0;
  std::string key; ///< as the user wrote it: "feet.both.arch_break"

  bool operator==(const Message&) const = default;
};

/// An error of the file as a whole.
Message about_file(std::string file, std::string what, std::string advice);

/// "FILE:LINE:COL: error: KEY: WHAT", then "  allowed: …" and "  do: …" on lines of their own; no
/// newline at the end. Control characters come out as '?', so a file cannot steer the terminal.
std::string to_text(const Message& message);

/// Replaces each control character by '?', so that no text steers the terminal.
std::string without_controls(std::string_view text);

/// A piece of the user's text for a message: in quotation marks, cut to a readable length.
std::string shown(std::string_view text);

/// Sorts messages by place in the file and drops repeated ones.
std::vector<Message> in_line_order(std::vector<Message> messages);

bool has_error(const std::vector<Message>& messages);

/// Writes messages by place in the file: only the first forty and the number of the others, since a
/// file full of errors is best repaired from the top.
void say(const std::vector<Message>& said, std::ostream& messages);

} // namespace shankline
