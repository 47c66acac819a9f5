#include "cli/surroundings/progress_bar.hpp"

#include "cli/text/text_columns.hpp"

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <ostream>
#include <string_view>
#include <sys/ioctl.h>
#include <unistd.h>

namespace shankline {
namespace {

constexpr std::string_view to_line_start = "\r";
constexpr std::string_view erase_line = "\r\033[K"; // ECMA-48: CR, then EL
constexpr std::chrono::milliseconds between_drawings{100};

std::string minutes(double seconds) {
  const auto whole = static_cast<long>(std::ceil(seconds));
  const std::string rest = std::to_string(whole % 60);
  return std::to_string(whole / 60) + (rest.size() < 2 ? ":0" : ":") + rest;
}

} // namespace

std::string progress_line(std::size_t done, std::size_t all, double seconds, std::size_t columns) {
  const double rate = seconds > 0 ? static_cast<double>(done) / seconds : 0;
  const std::string total = std::to_string(all);
  std::string words = right_aligned(std::to_string(done), total.size()) + " of " + total;
  if (rate > 0) {
    words += "  " + std::to_string(std::lround(rate)) + " a second";
    words += "  " + minutes(static_cast<double>(all - done) / rate) + " left";
  }
  constexpr std::size_t widest = 40;
  constexpr std::size_t narrowest = 8;
  // The last column stays empty: some terminals begin a new line there.
  if (columns < words.size() + narrowest + 5) return words.substr(0, columns > 0 ? columns - 1 : 0);
  const std::size_t width = std::min(widest, columns - words.size() - 5);
  const std::size_t full = all > 0 ? width * done / all : width;
  return "[" + std::string(full, '#') + std::string(width - full, '.') + "]  " + words;
}

void ProgressBar::clear() {
  if (!drawn_) return;
  terminal_ << erase_line << std::flush;
  drawn_ = false;
}

void ProgressBar::advance(std::size_t done) {
  if (columns_ == 0) return;
  const Clock::time_point now = Clock::now();
  if (drawn_ && now - drawn_at_ < between_drawings) return;
  const double seconds = std::chrono::duration<double>(now - begin_).count();
  const std::string line = progress_line(done, all_, seconds, columns_);
  terminal_ << to_line_start << line << erase_line.substr(1) << std::flush;
  drawn_ = true;
  drawn_at_ = now;
}

std::size_t message_terminal_columns() {
  winsize size{};
  const bool known =
      isatty(STDERR_FILENO) != 0 && ioctl(STDERR_FILENO, TIOCGWINSZ, &size) == 0 && size.ws_col > 0;
  return known ? size.ws_col : 0;
}

std::size_t progress_columns() {
  const auto said = [](const char* name) {
    const char* const value = std::getenv(name);
    return std::string_view(value ? value : "");
  };
  const std::string_view terminal = said("TERM");
  if (!isatty(STDERR_FILENO) || !said("NO_COLOR").empty() || terminal.empty() || terminal == "dumb")
    return 0;
  const std::size_t columns = message_terminal_columns();
  return columns > 0 ? columns : terminal_width;
}

} // namespace shankline
