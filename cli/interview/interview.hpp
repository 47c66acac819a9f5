// The interview: one question at a time over two streams, until the order is whole or the input
// ends. What was said is handed out after every answer, so that nothing said is ever lost.
#pragma once

#include "cli/interview/interview_questions.hpp"
#include "geometry/order/finding.hpp"
#include "geometry/order/foot_estimates.hpp"
#include "geometry/order/order.hpp"

#include <functional>
#include <iosfwd>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace shankline {

/// The progress of an interview: the order so far, and the questions that are settled.
struct InterviewState {
  Order order = order_to_ask();
  std::set<std::string> settled; ///< ids of questions

  bool operator==(const InterviewState&) const = default;
};

/// The half-written order file: an order that can be read, and a last line that says what is
/// settled.
std::string unfinished_text(const InterviewState& state, const std::string& order_file);

/// Back from such a file; else what is wrong with it. Without the last line everything is asked
/// again, what the file says being offered.
std::variant<InterviewState, std::vector<Message>> read_unfinished(std::string_view text,
                                                                   const std::string& file);

enum class InterviewEnd {
  whole,      ///< the order is solved and to be written
  unfinished, ///< the input ended, or `stop` was said
};

class Interview {
public:
  using Keep = std::function<void(const InterviewState&)>;

  /// `order_file` is only named. `keep` is called after every answer.
  Interview(std::istream& in, std::ostream& out, std::string order_file, InterviewState state,
            Keep keep);

  InterviewEnd run();

  const InterviewState& state() const { return state_; }
  /// The order file, with remarks on what was left out.
  std::string order_text() const;

private:
  enum class Went { on, back, stopped };

  const Question* next_question() const;
  const Question* question_before(const Question& question) const;
  std::optional<std::string> line(const std::string& prompt);
  Went ask(const Question& question);
  /// Returns the next step after this line; nullopt to ask the question again. `enter` is the
  /// meaning of an empty line.
  std::optional<Went> answered(const Question& question, const std::string& typed,
                               const std::string& enter);
  std::optional<Went> not_known(const Question& question, const std::string& typed);
  bool is_taken(const Question& question, const std::string& words);
  /// The left foot's answer to a question about the right one; may be empty.
  std::string said_of_left(const Question& question) const;
  void introduce(const Question& question);
  void leave_out(const Question& question);
  std::optional<UsualRange> usual_answers(const Question& question) const;
  void caution_if_unusual(const Question& question);
  void say_how(const Question& question);
  void settle(const Question& question);
  /// The result, and what to take again; whole when it may be written.
  std::optional<InterviewEnd> review();
  /// `wanted` is taken again where nothing is named.
  std::optional<InterviewEnd> what_next(bool failed, const std::string& wanted);
  /// The question to ask again, empty where nothing is wrong or it is not known.
  std::string say_found(const Findings& found);
  void say(std::string_view words, std::size_t indent = 2);
  std::size_t number_of(const Question& question) const;
  std::size_t count() const;

  std::istream& in_;
  std::ostream& out_;
  std::string file_;
  InterviewState state_;
  Keep keep_;
  const Question* wanted_ = nullptr; ///< come back to by name, or by `back`
  const Question* asked_last_ = nullptr;
};

} // namespace shankline
