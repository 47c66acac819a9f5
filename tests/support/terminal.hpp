// A real terminal of 80 columns and 24 rows with a program in it, typed into as a person does.
#pragma once

#include <filesystem>
#include <string>

namespace shankline::tests {

/// Needs tmux; ends the program with itself.
class Terminal {
public:
  /// The program's own words; its exit code is shown as "left with N" when it is gone.
  Terminal(const std::filesystem::path& directory, const std::string& command);
  Terminal(const Terminal&) = delete;
  Terminal& operator=(const Terminal&) = delete;
  ~Terminal();

  /// Waits until the cursor's line begins with `prompt` and asks ("> " at its end), then types the
  /// words and Enter. False when that never came.
  bool answer(const std::string& prompt, const std::string& words);
  /// Ctrl and a letter, once the line asks.
  bool press(const std::string& prompt, const std::string& key);

  /// Waits until the cursor's line begins with `prompt` and asks.
  bool asks(const std::string& prompt) const;
  /// Waits for words anywhere on the screen or above it.
  bool shows(const std::string& words) const;
  /// Everything the terminal has shown, as it broke the lines.
  std::string screen() const;

private:
  std::string tmux(const std::string& words) const;

  std::filesystem::path socket_;
};

} // namespace shankline::tests
