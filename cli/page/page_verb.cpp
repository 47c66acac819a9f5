#include "cli/page/page_verb.hpp"

#include "cli/page/page_answers.hpp"
#include "cli/page/page_server.hpp"
#include "cli/surroundings/faults.hpp"
#include "cli/surroundings/source_date.hpp"
#include "cli/text/message.hpp"
#include "export/formats/whole_file.hpp"

#include <array>
#include <cerrno>
#include <chrono>
#include <csignal>
#include <cstdlib>
#include <ctime>
#include <filesystem>
#include <optional>
#include <ostream>
#include <spawn.h>
#include <string>
#include <sys/wait.h>
#include <system_error>
#include <unistd.h>

extern char** environ; // as POSIX wants it declared

namespace shankline {
namespace {

namespace fs = std::filesystem;

constexpr double longest_idle = 8 * 3600; // seconds

constexpr std::array end_signals{SIGINT, SIGTERM, SIGHUP};

/// Signals that end the server. They are blocked before its thread begins, so that this thread
/// alone gets them.
class EndSignals {
public:
  EndSignals() {
    ::sigemptyset(&set_);
    for (const int signal : end_signals)
      ::sigaddset(&set_, signal);
    ::pthread_sigmask(SIG_BLOCK, &set_, &before_);
  }
  /// A terminal and a supervisor may both send one. The second one must not kill a program that is
  /// ending well.
  ~EndSignals() {
    for (const int signal : end_signals)
      std::signal(signal, SIG_IGN);
    ::pthread_sigmask(SIG_SETMASK, &before_, nullptr);
  }
  EndSignals(const EndSignals&) = delete;
  EndSignals& operator=(const EndSignals&) = delete;

  /// Waits up to a second. Returns whether one came.
  bool within_a_second() const {
    const timespec second{1, 0};
    return ::sigtimedwait(&set_, nullptr, &second) > 0;
  }

private:
  sigset_t set_{};
  sigset_t before_{};
};

/// A file that leads a browser to the address: the token must not stand in the list of processes.
class DoorFile {
public:
  explicit DoorFile(const std::string& address) {
    const char* const runtime = std::getenv("XDG_RUNTIME_DIR");
    const fs::path folder =
        runtime && fs::path(runtime).is_absolute() ? fs::path(runtime) : fs::temp_directory_path();
    path_ = (folder / ("shankline-page-" + std::to_string(::getpid()) + ".html")).string();
    write_whole_file(path_,
                     "<!DOCTYPE html>\n<html lang=\"en\"><meta charset=\"utf-8\">"
                     "<title>Shankline</title>\n<meta http-equiv=\"refresh\" content=\"0; url=" +
                         address + "\">\n<p><a href=\"" + address + "\">To the bench</a></p>\n",
                     Readers::owner);
  }
  ~DoorFile() {
    std::error_code ignored;
    fs::remove(path_, ignored);
  }
  DoorFile(const DoorFile&) = delete;
  DoorFile& operator=(const DoorFile&) = delete;

  const std::string& path() const { return path_; }

private:
  std::string path_;
};

/// Hands a file to whatever this desktop opens pages with. Returns false if there is nothing.
bool opened(const std::string& file) {
  std::string program = "xdg-open";
  std::string argument = file;
  char* const words[] = {program.data(), argument.data(), nullptr};
  pid_t child = 0;
  if (::posix_spawnp(&child, program.c_str(), nullptr, nullptr, words, environ) != 0) return false;
  int status = 0;
  while (::waitpid(child, &status, 0) < 0 && errno == EINTR) {
  }
  return WIFEXITED(status) && WEXITSTATUS(status) == 0;
}

ExitCode serve(const Request& request, std::ostream& out, std::ostream& messages) {
  const EndSignals signals;
  const PageAnswers answers(request);
  PageServer server(answers, request.page.port);
  const std::string address = server.origin() + "/#" + server.token();
  out << address << '\n';
  if (!request.quiet)
    out << "Open this address in a browser of this machine. Ctrl-C ends the page; nothing is kept "
           "but what you save.\n";
  out.flush();
  if (!out) {
    say({plain_error("the page's address could not be written to standard output")}, messages);
    return ExitCode::file_system;
  }
  std::optional<DoorFile> door;
  if (request.page.open) {
    door.emplace(address);
    if (!opened(door->path()))
      say({plain_caution("no browser could be opened", "open the address yourself")}, messages);
  }
  // A desktop starts programs through another that ends at once: only later is the parent the one
  // that the server belongs to.
  std::optional<pid_t> parent;
  for (int seconds = 0; server.idle_seconds() < longest_idle; ++seconds) {
    if (signals.within_a_second()) break;
    server.drop_slow_ones();
    constexpr int settled = 3;
    constexpr int door_closes = 60; // the browser has read it by then
    if (seconds == settled && !request.page.open) parent = ::getppid();
    if (parent && ::getppid() != *parent) break;
    if (seconds == door_closes) door.reset();
  }
  return ExitCode::done;
}

} // namespace

ExitCode run_page(const Request& request, std::ostream& out, std::ostream& messages) {
  return report_faults("shankline page", messages, [&] { return serve(request, out, messages); });
}

} // namespace shankline
