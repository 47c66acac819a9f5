#include "tests/support/private_server.hpp"

#include "tests/support/process.hpp"

#include <algorithm>
#include <chrono>
#include <csignal>
#include <cstdlib>
#include <fcntl.h>
#include <filesystem>
#include <stdexcept>
#include <sys/wait.h>
#include <thread>
#include <unistd.h>
#include <vector>

namespace shankline::tests {
namespace {

namespace fs = std::filesystem;

/// The server refuses to run as root, and has to end when the test is killed.
std::vector<std::string> guarded(std::vector<std::string> words) {
  std::vector<std::string> all{"setpriv", "--pdeathsig=QUIT"};
  if (getuid() == 0)
    for (const char* word : {"--reuid=65534", "--regid=65534", "--clear-groups"})
      all.emplace_back(word);
  all.insert(all.end(), words.begin(), words.end());
  return all;
}

/// Debian keeps the server's programs off the PATH, in a folder a version.
std::string program(const std::string& name) {
  fs::path newest;
  int version = 0;
  std::error_code ignored;
  for (const auto& entry : fs::directory_iterator("/usr/lib/postgresql", ignored)) {
    const int number = std::atoi(entry.path().filename().c_str());
    if (number > version && fs::exists(entry.path() / "bin" / name)) {
      version = number;
      newest = entry.path() / "bin" / name;
    }
  }
  return version > 0 ? newest.string() : name;
}

} // namespace

PrivateServer& PrivateServer::of_this_program() {
  static PrivateServer server;
  return server;
}

PrivateServer::PrivateServer(const std::string& settings,
                             const std::map<std::string, std::string>& files)
    : settings_(settings), owner_(getpid()) {
  fs::permissions(scratch_.path(), fs::perms::all);
  const Finished made =
      run(guarded({program("initdb"), "-D", (scratch_.path() / "cluster").string(), "-A", "trust",
                   "-U", "keeper", "--no-sync", "-E", "UTF8", "--locale=C", "-k"}));
  if (made.exit_code != 0)
    throw std::runtime_error(
        "no cluster could be made (Debian: apt-get install postgresql): " + made.out + made.err);
  for (const auto& [name, bytes] : files) {
    const fs::path file = scratch_.path() / name;
    write_file(file, bytes);
    if (getuid() == 0 && ::chown(file.c_str(), 65534, 65534) != 0)
      throw std::runtime_error(file.string() + " cannot be given away");
    fs::permissions(file, fs::perms::owner_read);
  }
  start();
}

PrivateServer::~PrivateServer() {
  if (owner_ == getpid()) stop_by(SIGQUIT);
}

void PrivateServer::start() {
  std::vector<std::string> words =
      guarded({program("postgres"), "-D", (scratch_.path() / "cluster").string(), "-k",
               scratch_.path().string(), "-c", "listen_addresses=", "-c", "max_connections=40"});
  for (std::size_t at = 0; at < settings_.size();) {
    const std::size_t end = std::min(settings_.find(' ', at), settings_.size());
    words.insert(words.end(), {"-c", settings_.substr(at, end - at)});
    at = end + 1;
  }
  const std::string log = (scratch_.path() / "log").string();
  std::vector<char*> arguments;
  for (std::string& word : words)
    arguments.push_back(word.data());
  arguments.push_back(nullptr);
  server_ = fork();
  if (server_ == 0) {
    const int to = ::open(log.c_str(), O_WRONLY | O_CREAT | O_APPEND, 0666);
    ::dup2(to, 1);
    ::dup2(to, 2);
    ::setpgid(0, 0);
    ::execvp(arguments[0], arguments.data());
    ::_exit(127);
  }
  const auto last = std::chrono::steady_clock::now() + std::chrono::seconds(60);
  while (true) {
    if (run({"psql", address("postgres"), "-X", "-q", "-c", "SELECT 1"}).exit_code == 0) return;
    if (::waitpid(server_, nullptr, WNOHANG) == server_) {
      server_ = -1;
      throw std::runtime_error("the server did not start: " + read_file(log));
    }
    if (std::chrono::steady_clock::now() > last)
      throw std::runtime_error("the server lets nobody in: " + read_file(log));
    std::this_thread::sleep_for(std::chrono::milliseconds(20));
  }
}

void PrivateServer::stop_by(int signal) {
  if (server_ < 0) return;
  ::kill(server_, signal);
  ::waitpid(server_, nullptr, 0);
  server_ = -1;
}

void PrivateServer::stop_at_once() {
  stop_by(SIGQUIT);
}

void PrivateServer::stop() {
  stop_by(SIGINT);
}

std::string PrivateServer::address(const std::string& database, const std::string& role) const {
  const std::size_t at = settings_.find("port=");
  const std::string port =
      at == std::string::npos ? "" : "&" + settings_.substr(at, settings_.find(' ', at) - at);
  return "postgresql://" + role + "@/" + database + "?host=" + scratch_.path().string() + port;
}

std::string PrivateServer::new_database() {
  std::string name = "bench" + std::to_string(++databases_);
  ask("postgres", "CREATE DATABASE " + name);
  return name;
}

void PrivateServer::new_role(const std::string& name, const std::string& group) {
  ask("postgres", "CREATE ROLE " + name + " LOGIN; GRANT " + group + " TO " + name);
}

std::string PrivateServer::ask(const std::string& database, const std::string& sql,
                               const std::string& role) const {
  const Finished done = run({"psql", address(database, role), "-X", "-q", "-A", "-t", "-v",
                             "ON_ERROR_STOP=1", "-c", sql});
  if (done.exit_code != 0) throw std::runtime_error(sql + ": " + done.err);
  return done.out.substr(0, done.out.find_last_not_of('\n') + 1);
}

std::string PrivateServer::refusal(const std::string& database, const std::string& sql,
                                   const std::string& role) const {
  const Finished done = run({"psql", address(database, role), "-X", "-q", "-A", "-t", "-v",
                             "ON_ERROR_STOP=1", "-c", sql});
  return done.exit_code == 0 ? std::string() : done.err;
}

} // namespace shankline::tests
