// The archive against what its work comes down to, in the same run: a save against appending its
// bytes to a file and flushing them; the newest entry of a dancer against the bare index; a deep
// page against the first.
//
// `bench_archive [DIRECTORY]` runs the benchmarks, then holds the archive to its bars; exit code 1
// when one is missed. The directory should be on the disk where archives are.
#include "cli/archive/archive_store.hpp"

#include "tests/cli/random_archive.hpp"
#include "tests/support/scratch_directory.hpp"

#include <benchmark/benchmark.h>

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <fcntl.h>
#include <random>
#include <sqlite3.h>
#include <stdexcept>
#include <unistd.h>

namespace {

using namespace shankline;
using tests::random_cut;

constexpr int dancers = 2000;
constexpr int entries = 100000;
constexpr std::size_t body = 24000; // what a pair's order, numbers and deflated drawing come to

std::string dancer_name(int n) {
  return "D-" + std::to_string(10000 + n);
}

/// 100,000 entries with next to nothing in them: what is looked up does not depend on it.
struct Large {
  tests::ScratchDirectory scratch;
  std::string path = (scratch.path() / "large.sqlite").string();

  Large() {
    ArchiveStore store(path, ArchiveUse::write);
    std::mt19937 draw(1);
    for (int at = 0; at < entries; at += 5000) {
      std::vector<ArchiveEntry> some;
      for (int n = 0; n < 5000; ++n)
        some.push_back(random_cut(dancer_name(static_cast<int>(draw() % dancers)), n, 10));
      store.add(std::move(some));
    }
  }
};
const Large& large() {
  static const Large archive;
  return archive;
}

/// Looks up the same row in the same index, without the archive's code around it.
class BareIndex {
public:
  explicit BareIndex(const std::string& path) {
    if (sqlite3_open_v2(path.c_str(), &handle_, SQLITE_OPEN_READONLY, nullptr) != SQLITE_OK ||
        sqlite3_prepare_v2(handle_,
                           "SELECT * FROM entries INDEXED BY turns WHERE dancer = ? "
                           "ORDER BY turn DESC LIMIT 1",
                           -1, &statement_, nullptr) != SQLITE_OK)
      throw std::runtime_error("the archive cannot be opened");
  }
  ~BareIndex() {
    sqlite3_finalize(statement_);
    sqlite3_close(handle_);
  }
  BareIndex(const BareIndex&) = delete;
  BareIndex& operator=(const BareIndex&) = delete;

  std::int64_t newest(const std::string& dancer) {
    sqlite3_bind_text(statement_, 1, dancer.data(), static_cast<int>(dancer.size()), SQLITE_STATIC);
    if (sqlite3_step(statement_) != SQLITE_ROW) throw std::runtime_error("nothing found");
    std::int64_t bytes = 0;
    for (int column = 0; column < sqlite3_column_count(statement_); ++column) {
      benchmark::DoNotOptimize(sqlite3_column_blob(statement_, column));
      bytes += sqlite3_column_bytes(statement_, column);
    }
    sqlite3_reset(statement_);
    return bytes;
  }

private:
  sqlite3* handle_ = nullptr;
  sqlite3_stmt* statement_ = nullptr;
};

class Appended {
public:
  explicit Appended(const std::string& path)
      : file_(::open(path.c_str(), O_WRONLY | O_CREAT | O_APPEND, 0600)) {}
  ~Appended() { ::close(file_); }
  Appended(const Appended&) = delete;
  Appended& operator=(const Appended&) = delete;
  void add(const std::string& bytes) const {
    if (::write(file_, bytes.data(), bytes.size()) != static_cast<ssize_t>(bytes.size()) ||
        ::fdatasync(file_) != 0)
      throw std::runtime_error("the disk failed");
  }

private:
  int file_;
};

void newest_of_a_dancer(benchmark::State& state) {
  ArchiveStore store(large().path, ArchiveUse::read);
  int n = 0;
  for (auto _ : state)
    benchmark::DoNotOptimize(store.newest_of(dancer_name(n++ * 7 % dancers)));
}
BENCHMARK(newest_of_a_dancer);

void bare_index(benchmark::State& state) {
  BareIndex bare(large().path);
  int n = 0;
  for (auto _ : state)
    benchmark::DoNotOptimize(bare.newest(dancer_name(n++ * 7 % dancers)));
}
BENCHMARK(bare_index);

void page_of_twenty(benchmark::State& state) {
  ArchiveStore store(large().path, ArchiveUse::read);
  for (auto _ : state)
    benchmark::DoNotOptimize(store.older(state.range(0), 20));
}
BENCHMARK(page_of_twenty)->Arg(entries)->Arg(entries / 2)->Arg(100);

void opened_and_newest(benchmark::State& state) {
  for (auto _ : state)
    benchmark::DoNotOptimize(
        ArchiveStore(large().path, ArchiveUse::read).newest_of(dancer_name(77)));
}
BENCHMARK(opened_and_newest);

double median(std::vector<double> values) {
  std::ranges::sort(values);
  return values[values.size() / 2];
}

double taken(const std::function<void()>& work) {
  const auto begin = std::chrono::steady_clock::now();
  work();
  const std::chrono::duration<double, std::micro> time = std::chrono::steady_clock::now() - begin;
  return time.count();
}

bool held = true;
void bar(const char* what, double value, double at_most) {
  const bool ok = value <= at_most;
  held = held && ok;
  std::printf("%-58s %8.3f  bar %6.3f  %s\n", what, value, at_most, ok ? "held" : "MISSED");
}

std::uintmax_t size_of(const std::string& path) {
  std::error_code ignored;
  const auto size = std::filesystem::file_size(path, ignored);
  return ignored ? 0 : size;
}

/// In turn, so that the load of the machine falls on all alike. A save works for 0.1 ms beyond
/// writing (SQLite's pages, one SHA-256 of the entry), so the bars can hold only on a disk whose
/// flush takes 1 ms or more.
void hold_saving(const std::string& directory) {
  const std::string path = directory + "/saving.sqlite";
  std::vector<double> saves, content, pages;
  std::size_t written = 0;
  {
    ArchiveStore store(path, ArchiveUse::write);
    const Appended file(directory + "/content");
    const Appended journal(directory + "/pages");
    const ArchiveEntry one = random_cut("M-07", 1, body);
    const std::string bytes = one.body.order + one.body.options + one.body.solution +
                              one.body.drawing + one.body.sheets + std::string(700, 'h');
    store.add(one);
    const std::uintmax_t before = size_of(path + "-wal");
    store.add(one);
    written = size_of(path + "-wal") - before;
    const std::string frames(written, 'w');
    for (int n = 0; n < 600; ++n) {
      const ArchiveEntry entry = random_cut(dancer_name(n % 40), n, body);
      saves.push_back(taken([&] { store.add(entry); }));
      content.push_back(taken([&] { file.add(bytes); }));
      pages.push_back(taken([&] { journal.add(frames); }));
    }
    std::printf("a save of %zu bytes writes %zu: median %.0f us; appending its bytes %.0f us; "
                "appending what it writes %.0f us\n",
                bytes.size(), written, median(saves), median(content), median(pages));
  }
  bar("save / appending the bytes that it writes, flushed", median(saves) / median(pages), 1 / 0.9);
  bar("save / appending the entry's own bytes, flushed", median(saves) / median(content), 1 / 0.9);
}

void hold_looking() {
  ArchiveStore store(large().path, ArchiveUse::read);
  BareIndex bare(large().path);
  std::vector<double> ours, index, first, deep, first_of, deep_of;
  for (int n = 0; n < 6000; ++n) {
    const std::string dancer = dancer_name(n * 7 % dancers);
    ours.push_back(taken([&] { benchmark::DoNotOptimize(store.newest_of(dancer)); }));
    index.push_back(taken([&] { benchmark::DoNotOptimize(bare.newest(dancer)); }));
    first.push_back(taken([&] { benchmark::DoNotOptimize(store.older(entries - n, 20)); }));
    deep.push_back(taken([&] { benchmark::DoNotOptimize(store.older(7000 - n, 20)); }));
  }
  std::printf("newest of a dancer %.1f us, bare index %.1f us; page of 20: newest %.1f us, "
              "deep %.1f us\n",
              median(ours), median(index), median(first), median(deep));
  bar("newest of a dancer / bare index", median(ours) / median(index), 3);
  bar("a page 93,000 entries deep / the first page", median(deep) / median(first), 1.1);
}

} // namespace

int main(int argc, char** argv) {
  benchmark::Initialize(&argc, argv);
  const tests::ScratchDirectory scratch;
  const std::string directory = argc > 1 ? argv[1] : scratch.path().string();
  benchmark::RunSpecifiedBenchmarks();
  hold_saving(directory);
  hold_looking();
  return held ? 0 : 1;
}
