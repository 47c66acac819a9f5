// A message about a file for the fitter: where, what is wrong, what is allowed, what to do next.
#pragma once

#include "export/drawing/length_text.hpp"
#include "export/json/finding_json.hpp"
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

/// An error that is about no file, or a caution.
Message plain_error(std::string what, std::string advice = {});
Message plain_caution(std::string what, std::string advice = {});

/// An error of the file as a whole.
Message about_file(std::string file, std::string what, std::string advice);

/// "FILE:LINE:COL: error: KEY: WHAT", without the first part where there is no file, then "
/// allowed: …" and "  do: …" on lines of their own; no newline at the end. Control characters come
/// out as '?', so a file cannot steer the terminal.
std::string to_text(const Message& message);

/// Formats a message for a terminal of this width: long lines are broken at spaces and indented.
std::string to_text(const Message& message, std::size_t columns);

/// Replaces each control character by '?', so that no text steers the terminal.
std::string without_controls(std::string_view text);

/// A piece of the user's text for a message: in quotation marks, cut to a readable length.
std::string shown(std::string_view text);

/// Sorts messages by place in the file and drops repeated ones.
std::vector<Message> in_line_order(std::vector<Message> messages);

bool has_error(const std::vector<Message>& messages);

/// Writes messages by place in the file: only the first forty and the number of the others, since a
/// file full of errors is best repaired from the top. Where the stream
/// has another form, all of them are written as JSON, a line each.
void say(const std::vector<Message>& said, std::ostream& messages);

/// Returns the message as a finding for JSON.
PlacedFinding placed(const Message& message);

/// The form in which a stream's messages are written. It is stored in the stream, like the base of
/// its numbers, so that no function in between has to pass it on.
enum class MessageForm { text, json_lines };
/// `columns` of the terminal that they go to; 0 where none is there, and lines are as long as they
/// are.
void set_message_form(std::ostream& messages, MessageForm form, std::size_t columns = 0);
MessageForm message_form(std::ostream& messages);
std::size_t message_columns(std::ostream& messages);

/// In the text form, the millimetres of what is said on the stream have inches beside them from
/// now on. Stored in the stream like its form.
void set_message_units(std::ostream& messages, Units units);
Units message_units(std::ostream& messages);

/// Keeps what is said on a stream while it lives, beside writing it. The stream must outlive it.
class MessageCollector {
public:
  explicit MessageCollector(std::ostream& messages);
  ~MessageCollector();
  MessageCollector(const MessageCollector&) = delete;
  MessageCollector& operator=(const MessageCollector&) = delete;

  /// By place in the file for what was said together.
  const std::vector<Message>& all() const { return said_; }

private:
  std::ostream& messages_;
  void* before_; ///< what kept them until now
  std::vector<Message> said_;
};

} // namespace shankline
