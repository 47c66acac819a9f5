#include "cli/interview/interview.hpp"

#include "cli/order_file/order_reader.hpp"
#include "cli/order_file/order_writer.hpp"
#include "cli/report/report.hpp"
#include "cli/text/nearest_word.hpp"
#include "cli/text/text_columns.hpp"
#include "cli/text/word_list.hpp"
#include "geometry/breaking/pair_contact.hpp"
#include "geometry/order/figure.hpp"
#include "geometry/order/foot_estimates.hpp"
#include "geometry/solution/reading_worth.hpp"

#include <algorithm>
#include <istream>
#include <ostream>
#include <stdexcept>
#include <utility>

namespace shankline {
namespace {

constexpr std::size_t longest_line = 400;
constexpr std::string_view settled_mark = "# settled: ";
constexpr std::string_view between = "; ";

const Question* question_named(std::string_view id) {
  for (const Question& question : interview_questions())
    if (question.id == id) return &question;
  return nullptr;
}

std::string plain_line(std::string_view text) {
  const auto first = text.find_first_not_of(" \t\r");
  if (first == std::string_view::npos) return {};
  std::string words(text.substr(first, text.find_last_not_of(" \t\r") - first + 1));
  std::replace(words.begin(), words.end(), '\t', ' ');
  return words;
}

/// The answer that Enter alone gives.
std::string offered(const Question& question, const InterviewState& state) {
  if (state.settled.count(question.id) > 0) return question.said(state.order);
  if (!question.usual.empty()) return question.usual;
  return question.said(state.order);
}

const FootOrder* ordered_foot(const Order& order, FootSide side) {
  const auto& foot = order.foot(side);
  return foot ? &*foot : nullptr;
}

} // namespace

std::string unfinished_text(const InterviewState& state, const std::string& order_file) {
  std::string settled(settled_mark);
  for (const Question& question : interview_questions())
    if (state.settled.count(question.id) > 0)
      settled += (settled.size() > settled_mark.size() ? std::string(between) : "") + question.id;
  OrderRemarks remarks;
  remarks.head = {"A half-written order. To go on:  shankline ask -o " + order_file};
  remarks.foot = {settled.substr(2)};
  return order_file_text(state.order, remarks);
}

std::variant<InterviewState, std::vector<Message>> read_unfinished(std::string_view text,
                                                                   const std::string& file) {
  ReadOrder read = read_order(text, file);
  if (!read.ok()) return std::move(read.messages);
  InterviewState state{std::move(read.order), {}};
  const auto begin = text.rfind(settled_mark);
  if (begin == std::string_view::npos) return state;
  std::string_view rest = text.substr(begin + settled_mark.size());
  rest = rest.substr(0, rest.find('\n'));
  while (!rest.empty()) {
    const auto end = std::min(rest.find(between), rest.size());
    const std::string id(rest.substr(0, end));
    if (question_named(id)) state.settled.insert(id);
    rest.remove_prefix(std::min(rest.size(), end + between.size()));
  }
  return state;
}

Interview::Interview(std::istream& in, std::ostream& out, std::string order_file,
                     InterviewState state, Keep keep)
    : in_(in), out_(out), file_(std::move(order_file)), state_(std::move(state)),
      keep_(std::move(keep)) {}

InterviewEnd Interview::run() {
  say("One reading at a time. Lengths are mm; 9 3/8 in and 24.1 cm are read as well. A "
      "reading taken several times goes in one line: 238, 238.5, 238.",
      0);
  say("? is not known, why says what a reading is for, help how it is taken, back takes the last "
      "one "
      "again, stop keeps what was said for another day.",
      0);
  while (true) {
    const Question* question = wanted_ ? wanted_ : next_question();
    wanted_ = nullptr;
    if (!question) {
      if (const auto end = review()) return *end;
      continue;
    }
    switch (ask(*question)) {
    case Went::stopped:
      return InterviewEnd::unfinished;
    case Went::back:
      wanted_ = question_before(*question);
      break;
    case Went::on:
      break;
    }
  }
}

std::string Interview::order_text() const {
  OrderRemarks remarks;
  std::string left_out;
  for (const Question& question : interview_questions())
    if (question.asked_of(state_.order) && !question.guide.empty() &&
        question.said(state_.order).empty())
      left_out += (left_out.empty() ? "" : ", ") + question.id;
  remarks.head = {"Lengths are mm, distances along the foot from the back of the heel.",
                  "To see what it gives:  shankline check " + file_,
                  "To cut it:             shankline cut " + file_};
  if (state_.order.pose == Pose::in_shoe)
    remarks.head.front() = "Lengths are mm, distances along the outer sole from the back seam.";
  if (!left_out.empty()) {
    remarks.foot.emplace_back("Not taken:");
    for (const std::string& words : wrapped(left_out, output_columns() - 2 - 4))
      remarks.foot.push_back("  " + words);
  }
  return order_file_text(state_.order, remarks);
}

const Question* Interview::next_question() const {
  for (const Question& question : interview_questions())
    if (question.asked_of(state_.order) && state_.settled.count(question.id) == 0) return &question;
  return nullptr;
}

const Question* Interview::question_before(const Question& question) const {
  const Question* before = nullptr;
  for (const Question& other : interview_questions()) {
    if (&other == &question) break;
    if (other.asked_of(state_.order)) before = &other;
  }
  return before ? before : &question;
}

std::size_t Interview::number_of(const Question& question) const {
  std::size_t number = 1;
  for (const Question& other : interview_questions()) {
    if (&other == &question) break;
    if (other.asked_of(state_.order)) ++number;
  }
  return number;
}

std::size_t Interview::count() const {
  const auto& questions = interview_questions();
  return static_cast<std::size_t>(
      std::count_if(questions.begin(), questions.end(),
                    [this](const Question& question) { return question.asked_of(state_.order); }));
}

void Interview::say(std::string_view words, std::size_t indent) {
  for (const std::string& each : wrapped(words, output_columns() - 2 - indent))
    out_ << std::string(indent, ' ') << each << '\n';
}

std::optional<std::string> Interview::line(const std::string& prompt) {
  while (true) {
    out_ << prompt << "> " << std::flush;
    std::string typed_line;
    if (!std::getline(in_, typed_line)) return {};
    // A line that the end of the input cut off was never entered.
    if (in_.eof()) return {};
    if (typed_line.size() > longest_line)
      say("That line is too long: at most " + std::to_string(longest_line) +
          " characters are read.");
    else if (const std::string words = plain_line(typed_line); is_typed_text(words))
      return words;
    else
      say("That line holds characters that are no text. Type it again.");
  }
}

void Interview::introduce(const Question& question) {
  out_ << '\n' << number_of(question) << '/' << count() << "  " << question.title << '\n';
  const bool as_before = asked_last_ && asked_last_->guide == question.guide &&
                         asked_last_->side == FootSide::left && question.side == FootSide::right;
  say(as_before ? "The same on the right foot." : question.how, 5);
  asked_last_ = &question;
  if (question.hint)
    if (const std::string hint = question.hint(state_.order); !hint.empty()) say(hint, 5);
  std::string answers = question.answers;
  if (const auto usual = usual_answers(question))
    answers += "; usual: " + figure(usual->least, 0) + " to " + figure(usual->most, 0);
  if (question.may_be_left_out(state_.order) && !question.guide.empty())
    answers += "; ? if not known";
  if (question.side == FootSide::right && state_.order.left && !said_of_left(question).empty())
    answers += "; = as left";
  say("(" + answers + ")", 5);
}

Interview::Went Interview::ask(const Question& question) {
  introduce(question);
  const std::string enter = offered(question, state_);
  while (true) {
    const auto typed = line(question.id + (enter.empty() ? "" : " [" + enter + "]"));
    if (!typed) return Went::stopped;
    if (const auto went = answered(question, *typed, enter)) return *went;
  }
}

std::optional<Interview::Went>
Interview::answered(const Question& question, const std::string& typed, const std::string& enter) {
  if (typed == "stop" || typed == "quit") return Went::stopped;
  if (typed == "back") return Went::back;
  if (typed == "why") {
    say(question.why);
    return {};
  }
  if (typed == "help") {
    say_how(question);
    return {};
  }
  if (typed == "?" || (typed.empty() && enter.empty())) return not_known(question, typed);
  std::string words = typed.empty() ? enter : typed;
  if (words == "=" && question.side == FootSide::right && state_.order.left) {
    words = said_of_left(question);
    if (words.empty()) {
      say("The left foot has no such reading: type this one, or ? if it is not known.");
      return {};
    }
  }
  return is_taken(question, words) ? std::optional(Went::on) : std::nullopt;
}

std::optional<Interview::Went> Interview::not_known(const Question& question,
                                                    const std::string& typed) {
  const bool text = question.guide.empty() && question.leave_out != nullptr;
  if (!question.may_be_left_out(state_.order)) {
    say_how(question);
    say("This one is needed. It may be taken later: stop keeps what was said.");
    return {};
  }
  if (typed.empty() && !text) {
    say("Type the reading, or ? if it is not known.");
    return {};
  }
  leave_out(question);
  return Went::on;
}

std::string Interview::said_of_left(const Question& question) const {
  std::string as_left = question.id;
  as_left.replace(as_left.rfind("right"), std::string::npos, "left");
  return question_named(as_left)->said(state_.order);
}

bool Interview::is_taken(const Question& question, const std::string& words) {
  // Skip an answer that was given already: some of them cannot be typed, such as uneven widths.
  if (words != question.said(state_.order)) {
    if (const Refusal refusal = question.take(state_.order, words)) {
      say(refusal->what);
      if (!refusal->allowed.empty()) say("allowed: " + refusal->allowed);
      if (!refusal->advice.empty()) say("do: " + refusal->advice);
      return false;
    }
    caution_if_unusual(question);
  }
  settle(question);
  return true;
}

void Interview::settle(const Question& question) {
  state_.settled.insert(question.id);
  keep_(state_);
}

void Interview::leave_out(const Question& question) {
  question.leave_out(state_.order);
  std::string words;
  const auto worth = question.side && !question.guide.empty()
                         ? reading_worth(state_.order, *question.side, question.guide)
                         : std::nullopt;
  if (worth && worth->estimate)
    words = "Taken as " + figure(worth->estimate->value) + " instead (" + worth->estimate->source +
            "). ";
  if (!question.left_out.empty()) words += question.left_out + " ";
  if (worth && worth->U_left_out) {
    constexpr double no_difference = 0.05;
    words += *worth->U_left_out - worth->U > no_difference
                 ? "The cut is then known to \u00b1" + figure(*worth->U_left_out) +
                       " mm; with the reading taken once it would be \u00b1" + figure(worth->U) +
                       "."
                 : "This does not make the cut less certain.";
  }
  if (!words.empty()) say(words);
  settle(question);
}

std::optional<UsualRange> Interview::usual_answers(const Question& question) const {
  std::optional<double> foot_length;
  if (question.side)
    if (const FootOrder* foot = ordered_foot(state_.order, *question.side))
      if (foot->foot.length) foot_length = foot->foot.length->value();
  return usual_range(state_.order.estimates_from, question.guide, foot_length);
}

void Interview::caution_if_unusual(const Question& question) {
  if (!question.reading) return;
  const auto usual = usual_answers(question);
  if (!usual) return;
  // In the shoe a heel front stands farther from the seam than from the heel.
  if (question.guide == "heel_front" && state_.order.pose == Pose::in_shoe) return;
  const Reading* reading = question.reading(state_.order);
  if (!reading || usual->holds(reading->value())) return;
  say("Unusual" + std::string(question.side ? " for this foot" : "") + ", where " +
      figure(usual->least, 0) + " to " + figure(usual->most, 0) +
      " is usual. It is taken as said; back takes it again.");
}

void Interview::say_how(const Question& question) {
  say(question.how);
  say("(" + question.answers + ")");
}

std::string Interview::say_found(const Findings& found) {
  std::string wanted;
  std::set<std::string> said;
  for (const Finding& finding : found) {
    const bool error = finding.severity == Severity::error;
    const Question* question = question_of(finding.key.text(), state_.order);
    if (error && wanted.empty() && question) wanted = question->id;
    const std::string words = (error ? "Cannot be: " : "Caution: ") +
                              (question ? question->id : finding.key.text()) + ": " + finding.what;
    if (!said.insert(words).second) continue; // of the other foot
    out_ << '\n';
    say(words, 0);
    if (!finding.allowed.empty()) say("allowed: " + finding.allowed);
    if (!finding.advice.empty()) say("do: " + finding.advice);
  }
  return wanted;
}

std::optional<InterviewEnd> Interview::review() {
  const std::string text = order_text();
  const ReadOrder read = read_order(text, file_);
  if (!read.ok()) throw std::logic_error("the interview made an order that cannot be read");
  const Solution solution = solve(read.order);
  PairContact contact;
  Findings found = solution.findings;
  if (!has_error(found)) { // what check finds as well
    contact = pair_contact(read.order, solution);
    found.insert(found.end(), contact.cautions.begin(), contact.cautions.end());
    found.insert(found.end(), contact.reasons.begin(), contact.reasons.end());
  }
  const bool failed = has_error(found);
  const std::string wanted = say_found(found);
  if (!failed)
    out_ << '\n'
         << report_text(read.order, solution, contact, Units::mm)
         << budget_text(solution, Units::mm) << '\n';
  return what_next(failed, wanted);
}

std::optional<InterviewEnd> Interview::what_next(bool failed, const std::string& wanted) {
  say(failed ? "Name the reading to take again; stop keeps what was said."
             : "Enter writes " + file_ +
                   ". To take a reading again, name it, such as heel_front "
                   "left; back is the last one; stop keeps what was said.",
      0);
  while (true) {
    const auto typed_line = line(failed ? "again [" + wanted + "]" : "write");
    if (!typed_line || *typed_line == "stop" || *typed_line == "quit")
      return InterviewEnd::unfinished;
    if (typed_line->empty() && !failed) return InterviewEnd::whole;
    std::vector<std::string_view> names;
    for (const Question& question : interview_questions())
      if (question.asked_of(state_.order)) names.push_back(question.id);
    const std::string name = typed_line->empty()     ? wanted
                             : *typed_line == "back" ? std::string(names.back())
                                                     : *typed_line;
    if (std::find(names.begin(), names.end(), name) != names.end()) {
      wanted_ = question_named(name);
      return {};
    }
    say("There is no reading of that name." + guess_words(name, names));
    say("There are " + joined(names, ", ") + ".");
  }
}

} // namespace shankline
