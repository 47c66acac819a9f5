// A batch's progress: one line at the foot of a terminal, drawn over itself.
#pragma once

#include <chrono>
#include <cstddef>
#include <iosfwd>
#include <string>

namespace shankline {

/// "[#####.....]  1200 of 6000   83 a second   0:58 left", as wide as fits into `columns`.
std::string progress_line(std::size_t done, std::size_t all, double seconds, std::size_t columns);

class ProgressBar {
public:
  /// Draws nothing when `columns` is 0.
  ProgressBar(std::ostream& terminal, std::size_t all, std::size_t columns)
      : terminal_(terminal), all_(all), columns_(columns) {}
  ~ProgressBar() { clear(); }
  ProgressBar(const ProgressBar&) = delete;
  ProgressBar& operator=(const ProgressBar&) = delete;

  /// Before anything else is written to the terminal.
  void clear();
  /// Drawn anew a few times a second at most; always after a clear().
  void advance(std::size_t done);

private:
  using Clock = std::chrono::steady_clock;

  std::ostream& terminal_;
  std::size_t all_;
  std::size_t columns_;
  Clock::time_point begin_ = Clock::now();
  Clock::time_point drawn_at_{};
  bool drawn_ = false;
};

/// Returns the width of the terminal on stderr, in columns; 0 if it is not a terminal or does not
/// tell its width.
std::size_t message_terminal_columns();

/// Returns the width for a progress bar: like message_terminal_columns, but also 0 if NO_COLOR or a
/// dumb terminal asks for plain lines.
std::size_t progress_columns();

} // namespace shankline
