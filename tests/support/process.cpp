#include "tests/support/process.hpp"

#include <array>
#include <cerrno>
#include <csignal>
#include <cstring>
#include <fcntl.h>
#include <poll.h>
#include <string_view>
#include <sys/wait.h>
#include <system_error>
#include <unistd.h>
#include <utility>

namespace shankline::tests {
namespace {

[[noreturn]] void fail(const char* what) {
  throw std::system_error(errno, std::generic_category(), what);
}

class Descriptor {
public:
  explicit Descriptor(int number = -1) : number_(number) {}
  Descriptor(Descriptor&& other) noexcept : number_(std::exchange(other.number_, -1)) {}
  Descriptor& operator=(Descriptor&& other) noexcept {
    std::swap(number_, other.number_);
    return *this;
  }
  ~Descriptor() { close(); }
  void close() {
    if (number_ >= 0) ::close(number_);
    number_ = -1;
  }
  int get() const { return number_; }
  bool open() const { return number_ >= 0; }

private:
  int number_;
};

struct Pipe {
  Descriptor read;
  Descriptor write;
};

Pipe make_pipe() {
  std::array<int, 2> ends{};
  if (::pipe2(ends.data(), O_CLOEXEC) != 0) fail("pipe");
  return {Descriptor(ends[0]), Descriptor(ends[1])};
}

/// A program that closes its stdin early must not take the test down.
class IgnoreBrokenPipe {
public:
  IgnoreBrokenPipe() {
    struct sigaction ignore {};
    ignore.sa_handler = SIG_IGN;
    ::sigaction(SIGPIPE, &ignore, &before_);
  }
  IgnoreBrokenPipe(const IgnoreBrokenPipe&) = delete;
  IgnoreBrokenPipe& operator=(const IgnoreBrokenPipe&) = delete;
  ~IgnoreBrokenPipe() { ::sigaction(SIGPIPE, &before_, nullptr); }

private:
  struct sigaction before_ {};
};

std::vector<std::string> environment_with(const Surroundings& surroundings) {
  std::vector<std::string> entries;
  for (char** entry = environ; *entry != nullptr; ++entry) {
    const std::string_view text = *entry;
    if (!surroundings.environment.contains(std::string(text.substr(0, text.find('=')))))
      entries.emplace_back(text);
  }
  for (const auto& [name, value] : surroundings.environment)
    if (value) entries.push_back(name + "=" + *value);
  return entries;
}

std::vector<char*> pointers_to(std::vector<std::string>& texts) {
  std::vector<char*> pointers;
  for (std::string& text : texts)
    pointers.push_back(text.data());
  pointers.push_back(nullptr);
  return pointers;
}

/// Appends what is there; closes at the end of the stream.
void drain(Descriptor& from, std::string& into) {
  std::array<char, 65536> buffer;
  const ssize_t got = ::read(from.get(), buffer.data(), buffer.size());
  if (got > 0) into.append(buffer.data(), static_cast<std::size_t>(got));
  if (got == 0 || (got < 0 && errno != EINTR && errno != EAGAIN)) from.close();
}

void feed(Descriptor& to, std::string_view& rest) {
  const ssize_t gone = ::write(to.get(), rest.data(), rest.size());
  if (gone > 0) rest.remove_prefix(static_cast<std::size_t>(gone));
  if (rest.empty() || (gone < 0 && errno != EINTR && errno != EAGAIN)) to.close();
}

} // namespace

Finished run(const std::vector<std::string>& words, const Surroundings& surroundings) {
  using Clock = std::chrono::steady_clock;
  const IgnoreBrokenPipe no_broken_pipe;
  Pipe in = make_pipe();
  Pipe out = make_pipe();
  Pipe err = make_pipe();
  ::fcntl(in.write.get(), F_SETFL, O_NONBLOCK);

  // Everything that allocates is done before the fork.
  std::vector<std::string> arguments = words;
  std::vector<std::string> variables = environment_with(surroundings);
  const std::vector<char*> argv = pointers_to(arguments);
  const std::vector<char*> envp = pointers_to(variables);
  const std::string directory = surroundings.directory.string();

  const pid_t child = ::fork();
  if (child < 0) fail("fork");
  if (child == 0) {
    ::setpgid(0, 0);
    std::signal(SIGPIPE, SIG_DFL);
    ::dup2(in.read.get(), STDIN_FILENO);
    ::dup2(out.write.get(), STDOUT_FILENO);
    ::dup2(err.write.get(), STDERR_FILENO);
    if (directory.empty() || ::chdir(directory.c_str()) == 0)
      ::execvpe(argv[0], argv.data(), envp.data());
    const char* reason = ::strerrordesc_np(errno);
    if (::write(STDERR_FILENO, reason, std::strlen(reason)) < 0) ::_exit(126);
    ::_exit(127);
  }
  ::setpgid(child, child); // in both, whichever comes first
  in.read.close();
  out.write.close();
  err.write.close();

  Finished finished;
  std::string_view rest = surroundings.input;
  if (rest.empty()) in.write.close();
  const Clock::time_point deadline = Clock::now() + surroundings.limit;
  while (out.read.open() || err.read.open()) {
    const auto left =
        std::chrono::duration_cast<std::chrono::milliseconds>(deadline - Clock::now()).count();
    if (left <= 0) {
      finished.timed_out = true;
      break;
    }
    // A negative descriptor is passed over.
    std::array<pollfd, 3> watched{pollfd{out.read.get(), POLLIN, 0},
                                  pollfd{err.read.get(), POLLIN, 0},
                                  pollfd{in.write.get(), POLLOUT, 0}};
    if (::poll(watched.data(), watched.size(), static_cast<int>(left)) < 0 && errno != EINTR)
      fail("poll");
    if (watched[0].revents != 0) drain(out.read, finished.out);
    if (watched[1].revents != 0) drain(err.read, finished.err);
    if (watched[2].revents != 0) feed(in.write, rest);
  }
  in.write.close();
  // A program may close its streams and sleep on; it is waited for until the deadline too. What it
  // left running in its group goes with it.
  int status = 0;
  pid_t ended = 0;
  while (!finished.timed_out && (ended = ::waitpid(child, &status, WNOHANG)) == 0) {
    finished.timed_out = Clock::now() >= deadline;
    ::usleep(500);
  }
  if (finished.timed_out) ::kill(-child, SIGKILL);
  if (ended == 0) ended = ::waitpid(child, &status, 0);
  if (ended < 0) fail("waitpid");
  finished.exit_code = WIFEXITED(status) ? WEXITSTATUS(status) : 128 + WTERMSIG(status);
  return finished;
}

Finished run_shell(const std::string& command, const Surroundings& surroundings) {
  return run({"sh", "-c", command}, surroundings);
}

} // namespace shankline::tests
