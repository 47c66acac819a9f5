// Entries of an invented bench, archive files of earlier versions, and files spoilt on purpose.
#pragma once

#include "cli/archive/archive_store.hpp"

#include <filesystem>
#include <functional>
#include <random>
#include <string>
#include <vector>

namespace shankline::tests {

/// The nth cut of a dancer; the same every time. Bodies are of some 3 KB unless told otherwise.
ArchiveEntry random_cut(const std::string& dancer, int n, std::size_t bytes = 3000);

/// A note on how a cut turned out.
ArchiveEntry random_note(const EntryHead& cut, int n);

/// A dozen entries of three dancers, saved one by one.
std::vector<EntryHead> fill(ArchiveStore& store);

/// A file as version 1 of the tables left it.
void write_version_1(const std::filesystem::path& path, const std::vector<ArchiveEntry>& entries);

/// Runs SQL on a file that is not open, past all guards; throws what the database says.
void tamper(const std::filesystem::path& path, const std::string& sql);

/// The first column of the first row.
std::string ask(const std::filesystem::path& path, const std::string& sql);

/// Runs it in a process of its own; exit code, or 128 + signal.
int in_child(const std::function<int()>& work);

/// `work` says after each thing done how many there are. It is killed so many milliseconds after it
/// said `wait_for` (0: after it was begun). Returns the last number that was said.
int done_before_killed(const std::function<void(const std::function<void(int)>&)>& work,
                       int wait_for, double milliseconds);

/// When to kill something of unknown length on a machine of unknown load, so that about half of the
/// kills come in time.
class KillTimer {
public:
  double next() { return std::uniform_real_distribution<>(0, span_)(draw_); }
  void was(bool in_time) {
    span_ *= in_time ? 1.25 : 0.8;
    ++(in_time ? in_time_ : late_);
  }
  int in_time() const { return in_time_; }
  int late() const { return late_; }

private:
  double span_ = 10; ///< ms
  std::mt19937 draw_{42};
  int in_time_ = 0;
  int late_ = 0;
};

/// Everything that can be read: heads, bodies, every dancer's entries.
struct Contents {
  std::vector<EntryHead> all;
  std::vector<EntryBody> bodies;
  std::vector<std::vector<EntryHead>> of_dancers;
};
Contents contents_of(ArchiveStore& store, const std::vector<std::string>& dancers);
bool same(const Contents& a, const Contents& b);
bool same(const EntryHead& a, const EntryHead& b);

} // namespace shankline::tests
