// The interview on a terminal.
#include "cli/interview/interview.hpp"
#include "cli/order_file/order_text.hpp"
#include "cli/surroundings/sole_use.hpp"
#include "cli/surroundings/target.hpp"
#include "cli/text/message.hpp"
#include "cli/text/text_columns.hpp"
#include "cli/verbs/verbs.hpp"
#include "export/formats/whole_file.hpp"

#include <csignal>
#include <filesystem>
#include <iostream>
#include <unistd.h>

namespace shankline {
namespace {

namespace fs = std::filesystem;

constexpr const char* no_terminal =
    "shankline: ask holds an interview, and needs a terminal to read from and to write to\n"
    "  do: write the order by hand, beginning with a copy of samples/plain.yaml; shankline form\n"
    "      prints pages to note the readings on, shankline explain says how each is taken\n";

constexpr const char* cautions =
    "A cut board cannot be put back, and it changes what holds the dancer up. Students: only with "
    "a teacher or fitter. Growing feet and injuries: ask a licensed physiotherapist or podiatrist "
    "first. Sharp knife, cut-proof glove, away from the hand. Cut the first line first, and try at "
    "the barre.";

bool is_there(const std::string& path, AtLink at_link = AtLink::follow) {
  return kind_at(path, at_link) != PathKind::nothing;
}

/// Asks a yes-or-no question until it is answered. Returns nullopt if the input ended.
std::optional<bool> yes_or_no(std::istream& in, std::ostream& out, const std::string& prompt,
                              bool usual) {
  while (true) {
    out << prompt << (usual ? " [yes]> " : " [no]> ") << std::flush;
    std::string words;
    if (!std::getline(in, words)) return {};
    if (words.empty()) return usual;
    if (words == "yes" || words == "y") return true;
    if (words == "no" || words == "n") return false;
    out << "  yes or no?\n";
  }
}

void listen_no_longer(int) {}

/// While it lives, an interrupt ends the reading of a line as the end of the input does, instead of
/// ending the program: what was said is then kept with a word.
class InterruptEndsInput {
public:
  InterruptEndsInput() {
    struct sigaction ending {};
    ending.sa_handler = listen_no_longer; // without SA_RESTART the read comes back
    sigaction(SIGINT, &ending, &before_);
  }
  ~InterruptEndsInput() { sigaction(SIGINT, &before_, nullptr); }
  InterruptEndsInput(const InterruptEndsInput&) = delete;
  InterruptEndsInput& operator=(const InterruptEndsInput&) = delete;

private:
  struct sigaction before_ {};
};

class Asking {
public:
  Asking(const Request& request, std::istream& in, std::ostream& out, std::ostream& messages)
      : request_(request), in_(in), out_(out), messages_(messages),
        file_(output_file(request.output, "order.yaml")), unfinished_(file_ + ".unfinished"),
        named_(is_typed_text(file_) ? file_ : "FILE"), unfinished_named_(named_ + ".unfinished") {}

  ExitCode run() {
    const SoleUse at_this_file("ask", file_);
    if (!at_this_file.is_mine()) {
      say({plain_error(named_ + ": another ask is at work on this file",
                       "wait until it has ended, or name another file with -o")},
          messages_);
      return ExitCode::file_system;
    }
    if (!may_write_over()) return ExitCode::bad_input;
    auto state = begun();
    if (!state) return ExitCode::bad_input;
    Interview interview(in_, out_, named_, std::move(*state), [this](const InterviewState& so_far) {
      write_whole_file(unfinished_, unfinished_text(so_far, named_), Readers::all, AtLink::refuse);
    });
    if (interview.run() == InterviewEnd::unfinished) return kept();
    write_whole_file(file_, interview.order_text());
    std::error_code error;
    fs::remove(unfinished_, error);
    out_ << '\n';
    for (const std::string& line : wrapped(cautions, output_columns() - 2))
      out_ << line << '\n';
    out_ << "\nwrote " << named_ << "; the sheets:  shankline cut " << named_ << '\n';
    return ExitCode::done;
  }

private:
  bool may_write_over() {
    const bool there = is_there(file_);
    if (request_.yes || !there) return true;
    const auto answer =
        yes_or_no(in_, out_, named_ + " is there already. Write over it at the end?", false);
    if (answer == true) return true;
    out_ << "\nNothing was changed. Another file:  shankline ask -o FILE\n";
    return false;
  }

  /// The state of an unfinished interview, or a new one; nothing when it cannot be read.
  std::optional<InterviewState> begun() {
    if (!is_there(unfinished_, AtLink::refuse)) return InterviewState{};
    auto text = read_order_text(unfinished_, AtLink::refuse);
    if (const Message* refused = std::get_if<Message>(&text)) return unreadable({*refused});
    auto read = read_unfinished(std::get<std::string>(text), unfinished_);
    if (auto* wrong = std::get_if<std::vector<Message>>(&read)) return unreadable(*wrong);
    const auto& state = std::get<InterviewState>(read);
    if (!request_.yes) {
      const auto answer = yes_or_no(in_, out_,
                                    unfinished_named_ + " holds an interview begun with " +
                                        state.order.dancer + ". Go on with it?",
                                    true);
      if (!answer) return {};
      if (!*answer) return InterviewState{};
    }
    return std::get<InterviewState>(std::move(read));
  }

  std::optional<InterviewState> unreadable(const std::vector<Message>& wrong) {
    say(wrong, messages_);
    messages_ << "  do: mend " << unfinished_named_ << ", or delete it and begin anew\n";
    return {};
  }

  ExitCode kept() {
    out_ << "\n\n";
    if (!is_there(unfinished_, AtLink::refuse))
      out_ << "Nothing was said, and nothing written.\n";
    else
      out_ << "Not finished. What was said is kept in " << unfinished_named_
           << "\nTo go on:  shankline ask -o " << named_ << '\n';
    return ExitCode::bad_input;
  }

  const Request& request_;
  std::istream& in_;
  std::ostream& out_;
  std::ostream& messages_;
  std::string file_;
  std::string unfinished_;
  std::string named_; ///< the file in words, for the terminal and for comments in files
  std::string unfinished_named_;
};

} // namespace

ExitCode run_ask(const Request& request, std::ostream& out, std::ostream& messages) {
  if (isatty(STDIN_FILENO) == 0 || isatty(STDOUT_FILENO) == 0) {
    messages << no_terminal;
    return ExitCode::bad_usage;
  }
  const InterruptEndsInput interrupts;
  return Asking(request, std::cin, out, messages).run();
}

} // namespace shankline
