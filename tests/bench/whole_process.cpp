// Whole processes against each other: the floor and `shankline cut`, in turn, from the fork to the
// end. Times of different runs are not compared: a loaded machine changes both, and hardly their
// ratio.
#include <algorithm>
#include <cctype>
#include <cerrno>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <fcntl.h>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <spawn.h>
#include <stdexcept>
#include <string>
#include <string_view>
#include <sys/resource.h>
#include <sys/wait.h>
#include <system_error>
#include <unistd.h>
#include <vector>

namespace {

constexpr int least_runs = 200;
constexpr int warm_up = 10;
constexpr double most_ratio = 1.10; ///< wall clock and processor time, medians
constexpr double most_memory = 24;  ///< MB

struct Measured {
  double milliseconds = 0;
  double processor = 0; ///< milliseconds, user and system
  double megabytes = 0; ///< resident at most
};

class Program {
public:
  explicit Program(std::vector<std::string> words) : words_(std::move(words)) {
    for (std::string& word : words_)
      argv_.push_back(word.data());
    argv_.push_back(nullptr);
    posix_spawn_file_actions_init(&silent_);
    posix_spawn_file_actions_addopen(&silent_, STDIN_FILENO, "/dev/null", O_RDONLY, 0);
    posix_spawn_file_actions_addopen(&silent_, STDOUT_FILENO, "/dev/null", O_WRONLY, 0);
  }
  Program(const Program&) = delete;
  Program& operator=(const Program&) = delete;
  ~Program() { posix_spawn_file_actions_destroy(&silent_); }

  Measured run() const {
    const auto begin = std::chrono::steady_clock::now();
    pid_t child = 0;
    if (const int error = posix_spawn(&child, argv_[0], &silent_, nullptr, argv_.data(), environ);
        error != 0)
      throw std::system_error(error, std::generic_category(), words_[0]);
    int status = 0;
    struct rusage usage {};
    if (::wait4(child, &status, 0, &usage) < 0)
      throw std::system_error(errno, std::generic_category(), words_[0]);
    const std::chrono::duration<double, std::milli> taken =
        std::chrono::steady_clock::now() - begin;
    if (!WIFEXITED(status) || WEXITSTATUS(status) != 0)
      throw std::runtime_error(words_[0] + " failed; nothing can be compared");
    const auto spent = [](const timeval& time) {
      return 1e3 * static_cast<double>(time.tv_sec) + 1e-3 * static_cast<double>(time.tv_usec);
    };
    return {taken.count(), spent(usage.ru_utime) + spent(usage.ru_stime),
            static_cast<double>(usage.ru_maxrss) / 1024};
  }

private:
  std::vector<std::string> words_;
  std::vector<char*> argv_;
  posix_spawn_file_actions_t silent_{};
};

/// By linear interpolation between the ordered values.
double quantile(std::vector<double> values, double share) {
  std::ranges::sort(values);
  const double place = share * static_cast<double>(values.size() - 1);
  const auto below = static_cast<std::size_t>(place);
  const std::size_t above = std::min(below + 1, values.size() - 1);
  return values[below] + (place - static_cast<double>(below)) * (values[above] - values[below]);
}

void print(const char* name, const std::vector<double>& values, const char* unit) {
  std::printf("%-18s median %7.3f %-3s 10th %7.3f, 90th percentile %7.3f\n", name,
              quantile(values, 0.5), unit, quantile(values, 0.1), quantile(values, 0.9));
}

int pages_of(const std::filesystem::path& pdf) {
  std::ifstream file(pdf, std::ios::binary);
  const std::string bytes(std::istreambuf_iterator<char>(file), {});
  constexpr std::string_view mark = "/Type /Page";
  int pages = 0;
  for (std::size_t at = bytes.find(mark); at != std::string::npos;
       at = bytes.find(mark, at + mark.size()))
    if (at + mark.size() < bytes.size() &&
        std::isalpha(static_cast<unsigned char>(bytes[at + mark.size()])) == 0)
      ++pages;
  return pages;
}

int compare(const std::vector<std::string>& words) {
  const std::string& order = words[4];
  const int runs = std::atoi(words[5].c_str());
  if (runs < least_runs)
    throw std::runtime_error("at least " + std::to_string(least_runs) + " runs");

  std::string directory = (std::filesystem::temp_directory_path() / "shankline-XXXXXX").string();
  if (::mkdtemp(directory.data()) == nullptr)
    throw std::system_error(errno, std::generic_category(), directory);
  struct Remove {
    const std::string& directory;
    ~Remove() {
      std::error_code ignored;
      std::filesystem::remove_all(directory, ignored);
    }
  } const remove{directory};

  // Copied, as an installation does: a file as the linker left it lies in memory in smaller pieces,
  // whose page faults took a tenth of the time, and not alike for both.
  const auto installed = [&](const std::string& program, const char* name) {
    std::string path = directory + "/" + name;
    std::filesystem::copy_file(program, path);
    return path;
  };
  const std::string floor_program = installed(words[1], "floor");
  const std::string shankline = installed(words[3], "shankline");

  // No archive of whoever measures: it would be asked what was cut last.
  ::setenv("XDG_DATA_HOME", directory.c_str(), 1);
  const std::string sheets = directory + "/sheets.pdf";
  std::vector<std::string> command{shankline, "cut", order, "-o", sheets};
  command.insert(command.end(), words.begin() + 6, words.end());
  const Program cut(command);
  cut.run();
  const int pages = words[2] == "same" ? pages_of(sheets) : std::atoi(words[2].c_str());
  if (pages < 1) throw std::runtime_error("PAGES is a number, or `same` for as many as cut draws");
  const Program floor(
      {floor_program, order, std::to_string(pages), "-o", directory + "/floor.pdf"});

  std::vector<double> floor_times, cut_times, floor_work, cut_work, ratios, cut_memory;
  for (int run = -warm_up; run < runs; ++run) {
    // Who goes first changes every time.
    const bool floor_first = run % 2 == 0;
    Measured of_floor, of_cut;
    if (floor_first) of_floor = floor.run();
    of_cut = cut.run();
    if (!floor_first) of_floor = floor.run();
    if (run < 0) continue;
    floor_times.push_back(of_floor.milliseconds);
    cut_times.push_back(of_cut.milliseconds);
    floor_work.push_back(of_floor.processor);
    cut_work.push_back(of_cut.processor);
    ratios.push_back(of_cut.milliseconds / of_floor.milliseconds);
    cut_memory.push_back(of_cut.megabytes);
  }
  std::printf("%d runs of each, %d pages, files in %s\n", runs, pages,
              std::filesystem::path(directory).parent_path().c_str());
  print("floor", floor_times, "ms");
  print("shankline cut", cut_times, "ms");
  print("its memory", cut_memory, "MB");
  print("ratio, run by run", ratios, "");
  const double wall = quantile(cut_times, 0.5) / quantile(floor_times, 0.5);
  const double work = quantile(cut_work, 0.5) / quantile(floor_work, 0.5);
  const double memory = quantile(cut_memory, 1);
  std::printf("ratio of medians   %.3f, of processor time %.3f (%.3f against %.3f ms)\n", wall,
              work, quantile(cut_work, 0.5), quantile(floor_work, 0.5));
  const bool met = wall <= most_ratio && work <= most_ratio && memory < most_memory;
  if (!met)
    std::printf("missed: at most %.2f of either, and less than %.0f MB\n", most_ratio, most_memory);
  return met ? 0 : 1;
}

} // namespace

int main(int argc, char** argv) {
  const std::vector<std::string> words(argv, argv + argc);
  if (words.size() < 6) {
    std::fprintf(stderr, "usage: bench_whole_process FLOOR_PROGRAM PAGES SHANKLINE ORDER RUNS "
                         "[OPTION OF CUT]...\n");
    return 2;
  }
  try {
    return compare(words);
  } catch (const std::exception& error) {
    std::fprintf(stderr, "%s\n", error.what());
    return 1;
  }
}
