#include "tests/support/terminal.hpp"

#include "tests/support/process.hpp"

#include <chrono>
#include <functional>
#include <stdexcept>
#include <thread>

namespace shankline::tests {
namespace {

using namespace std::chrono_literals;

/// Long, because the machine may be busy; what is waited for comes in milliseconds.
constexpr auto patience = 60s;
constexpr auto pause = 15ms;

/// A server that is leaving may still take its socket away.
int opened = 0;

bool wait_for(const std::function<bool()>& there) {
  const auto end = std::chrono::steady_clock::now() + patience;
  while (!there()) {
    if (std::chrono::steady_clock::now() > end) return false;
    std::this_thread::sleep_for(pause);
  }
  return true;
}

std::string quoted(const std::string& words) {
  std::string text = "'";
  for (const char c : words)
    text += c == '\'' ? std::string("'\\''") : std::string(1, c);
  return text + "'";
}

std::string last_line(const std::string& screen) {
  const auto end = screen.find_last_not_of("\n ");
  if (end == std::string::npos) return {};
  const auto begin = screen.rfind('\n', end);
  return screen.substr(begin == std::string::npos ? 0 : begin + 1,
                       end - (begin == std::string::npos ? 0 : begin + 1) + 1);
}

} // namespace

Terminal::Terminal(const std::filesystem::path& directory, const std::string& command)
    : socket_(directory / ("terminal-" + std::to_string(++opened))) {
  // The last command keeps the screen; it goes with the server.
  const std::string inside = command + "; echo left with $?; sleep 600";
  tmux("-f /dev/null new-session -d -x 80 -y 24 -c " + quoted(directory.string()) + " " +
       quoted(inside));
}

Terminal::~Terminal() {
  try {
    tmux("kill-server");
  } catch (const std::exception&) { // gone already
  }
}

std::string Terminal::tmux(const std::string& words) const {
  Surroundings surroundings;
  surroundings.environment["TMUX"] = std::nullopt;
  surroundings.environment["LC_ALL"] = "C.UTF-8";
  surroundings.environment["TERM"] = "xterm";
  const Finished done =
      run_shell("tmux -u -S " + quoted(socket_.string()) + " " + words, surroundings);
  if (done.exit_code != 0) throw std::runtime_error("tmux " + words + ": " + done.err);
  return done.out;
}

std::string Terminal::screen() const {
  return tmux("capture-pane -p -S -");
}

bool Terminal::shows(const std::string& words) const {
  return wait_for([&] { return screen().find(words) != std::string::npos; });
}

bool Terminal::asks(const std::string& prompt) const {
  return wait_for([&] {
    const std::string line = last_line(screen());
    return line.rfind(prompt, 0) == 0 && line.back() == '>';
  });
}

bool Terminal::answer(const std::string& prompt, const std::string& words) {
  if (!asks(prompt)) return false;
  if (!words.empty()) tmux("send-keys -l " + quoted(words));
  tmux("send-keys Enter");
  return true;
}

bool Terminal::press(const std::string& prompt, const std::string& key) {
  if (!asks(prompt)) return false;
  tmux("send-keys " + key);
  return true;
}

} // namespace shankline::tests
