// One batch of seeded orders, cut by one thread and by two in the same run: the rate over two cores
// against one core's, the memory, and whether the batch's length shows in it. Exits 1 when a bar is
// missed.
//
//   bench_batch SHANKLINE [ORDERS]
#include <algorithm>
#include <cerrno>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <fcntl.h>
#include <filesystem>
#include <fstream>
#include <random>
#include <spawn.h>
#include <stdexcept>
#include <string>
#include <sys/resource.h>
#include <sys/wait.h>
#include <system_error>
#include <unistd.h>
#include <vector>

namespace {

namespace fs = std::filesystem;

constexpr double least_speed_up = 2 / 1.15; ///< two cores, less 15 %
constexpr double most_memory = 64;          ///< MB
constexpr double most_growth = 1.25;        ///< of a tenth of the batch's memory
constexpr std::size_t usual_orders = 10'000;

/// A plain pair, larger or smaller, every reading off by a little.
std::string random_order(std::mt19937& generator, std::size_t number) {
  std::uniform_real_distribution<double> size(0.93, 1.07);
  std::uniform_real_distribution<double> off(-0.5, 0.5);
  const double scale = size(generator);
  const auto reading = [&](double mm) {
    char text[32];
    std::snprintf(text, sizeof text, "%.1f", mm * scale + off(generator));
    return std::string(text);
  };
  return "format: shankline-order/1\ndancer: M-" + std::to_string(number) +
         "\npair: touring, spring\ndate: 2026-03-14\nfeet:\n  both:\n    length: [" + reading(238) +
         ", " + reading(238) + "]\n    ball_length: " + reading(172) +
         "\n    heel_front: " + reading(61) + "\n    arch_break: {medial: " + reading(97) +
         ", lateral: " + reading(93) + "}\n    arch_depth: " + reading(12.5) +
         "\n    fold: 6\nshoe:\n  board: {state: loose, length: " + reading(220) +
         ", inset: 5, thickness: 3.2, widths: [[22, 45], [96, 33], [164, 56]]}\n"
         "  stiffness: over the knee\nalterations:\n  shank: {reach: edge, bevel: 12}\n";
}

struct Measured {
  double seconds = 0;
  double processor = 0; ///< seconds of it
  double megabytes = 0; ///< resident at most
};

double seconds_of(const timeval& time) {
  return static_cast<double>(time.tv_sec) + static_cast<double>(time.tv_usec) * 1e-6;
}

Measured cut(const std::string& program, const fs::path& orders, const fs::path& sheets,
             const std::string& jobs) {
  std::vector<std::string> words{
      program, "cut", "-q", orders.string(), "-o", sheets.string() + "/", "--jobs", jobs};
  std::vector<char*> argv;
  for (std::string& word : words)
    argv.push_back(word.data());
  argv.push_back(nullptr);
  const auto begin = std::chrono::steady_clock::now();
  pid_t child = 0;
  if (const int error = posix_spawn(&child, argv[0], nullptr, nullptr, argv.data(), environ);
      error != 0)
    throw std::system_error(error, std::generic_category(), program);
  int status = 0;
  struct rusage usage {};
  if (::wait4(child, &status, 0, &usage) < 0)
    throw std::system_error(errno, std::generic_category(), program);
  const std::chrono::duration<double> taken = std::chrono::steady_clock::now() - begin;
  if (!WIFEXITED(status) || WEXITSTATUS(status) != 0)
    throw std::runtime_error("the batch was not cut");
  return {taken.count(), seconds_of(usage.ru_utime) + seconds_of(usage.ru_stime),
          static_cast<double>(usage.ru_maxrss) / 1024};
}

class Scratch {
public:
  Scratch() {
    std::string name = (fs::temp_directory_path() / "bench_batch.XXXXXX").string();
    if (!mkdtemp(name.data())) throw std::system_error(errno, std::generic_category(), name);
    path_ = name;
  }
  Scratch(const Scratch&) = delete;
  Scratch& operator=(const Scratch&) = delete;
  ~Scratch() {
    std::error_code error;
    fs::remove_all(path_, error);
  }
  const fs::path& path() const { return path_; }

private:
  fs::path path_;
};

void write_orders(const fs::path& folder, std::size_t count) {
  std::mt19937 generator(20261125);
  fs::create_directories(folder);
  for (std::size_t i = 0; i < count; ++i) {
    std::ofstream file(folder / (std::to_string(100000 + i) + ".yaml"));
    file << random_order(generator, i);
  }
}

std::size_t files_in(const fs::path& folder) {
  return static_cast<std::size_t>(
      std::distance(fs::directory_iterator(folder), fs::directory_iterator()));
}

int bench(const std::string& program, std::size_t count) {
  const Scratch scratch;
  const fs::path& root = scratch.path();
  ::setenv("XDG_DATA_HOME", root.c_str(), 1); // no archive of whoever measures
  write_orders(root / "orders", count);
  write_orders(root / "tenth", count / 10);
  const auto report = [count](const char* name, const Measured& run) {
    std::printf("%s: %.0f orders a second, %.1f s, %.2f cores, %.1f MB\n", name,
                static_cast<double>(count) / run.seconds, run.seconds, run.processor / run.seconds,
                run.megabytes);
  };
  const Measured tenth = cut(program, root / "tenth", root / "tenth_sheets", "2");
  const Measured one = cut(program, root / "orders", root / "one", "1");
  report("one thread", one);
  if (files_in(root / "one") != count) throw std::runtime_error("not every order was cut");
  fs::remove_all(root / "one"); // a gigabyte
  const Measured two = cut(program, root / "orders", root / "two", "2");
  report("two threads", two);
  if (files_in(root / "two") != count) throw std::runtime_error("not every order was cut");
  const double speed_up = one.seconds / two.seconds;
  const double growth = two.megabytes / tenth.megabytes;
  std::printf("batch, two cores against one: ratio %.2f (at least %.2f)\n", speed_up,
              least_speed_up);
  std::printf("batch, memory: %.1f MB (at most %.0f), against a tenth of it: ratio %.2f (at most "
              "%.2f)\n",
              two.megabytes, most_memory, growth, most_growth);
  const bool kept =
      speed_up >= least_speed_up && two.megabytes <= most_memory && growth <= most_growth;
  return kept ? 0 : 1;
}

} // namespace

int main(int argc, char** argv) {
  try {
    if (argc < 2) throw std::runtime_error("usage: bench_batch SHANKLINE [ORDERS]");
    return bench(argv[1], argc > 2 ? std::stoul(argv[2]) : usual_orders);
  } catch (const std::exception& fault) {
    std::fprintf(stderr, "%s\n", fault.what());
    return 2;
  }
}
