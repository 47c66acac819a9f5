// Many things worked on by several threads, their results handed over one by one and in order.
#pragma once

#include <condition_variable>
#include <cstddef>
#include <exception>
#include <mutex>
#include <optional>
#include <system_error>
#include <thread>
#include <utility>
#include <vector>

namespace shankline {

/// Deals numbers out to threads. No more than `window` are under way or waiting to be handed over,
/// so that what is held in memory does not grow with the batch.
class BatchTickets {
public:
  BatchTickets(std::size_t count, std::size_t window) : count_(count), window_(window) {}

  // These are called by the working threads.
  std::optional<std::size_t> next(); ///< waits for room; nothing when there is no more to do
  void finish(std::size_t ticket);
  void fail(std::exception_ptr fault);

  // These are called by the thread that takes the results.
  void await(std::size_t ticket); ///< rethrows what a thread failed with
  void release();                 ///< the oldest result is gone: there is room for one more
  void stop();

private:
  const std::size_t count_;
  const std::size_t window_;
  std::mutex mutex_;
  std::condition_variable changed_;
  std::size_t dealt_ = 0;
  std::size_t released_ = 0;
  std::vector<std::size_t> early_; ///< finished, and not yet awaited
  std::exception_ptr fault_;
  bool stopped_ = false;
};

/// Returns how many threads to run: `asked`, or one for each core; never more than `count`.
std::size_t batch_threads(std::size_t asked, std::size_t count);

/// `work(i)` on any thread, `take(i, result)` on this one, in order, until it returns false. With
/// one thread all of it happens here.
template <class Result, class Work, class Take>
void work_in_order(std::size_t count, std::size_t threads, const Work& work, const Take& take) {
  constexpr std::size_t held_per_thread = 8;
  const std::size_t window = threads * held_per_thread;
  BatchTickets tickets(count, window);
  std::vector<Result> results(window);
  const auto labour = [&] {
    try {
      while (const auto ticket = tickets.next()) {
        results[*ticket % window] = work(*ticket);
        tickets.finish(*ticket);
      }
    } catch (...) {
      tickets.fail(std::current_exception());
    }
  };
  std::vector<std::jthread> crew;
  struct StopAtTheEnd {
    BatchTickets& tickets;
    ~StopAtTheEnd() { tickets.stop(); }
  };
  if (threads > 1) {
    try {
      while (crew.size() < threads)
        crew.emplace_back(labour);
    } catch (const std::system_error&) { // fewer than asked for, or none, do the same work
    }
  }
  const StopAtTheEnd before_joining{tickets};
  for (std::size_t i = 0; i < count; ++i) {
    if (crew.empty()) {
      if (!take(i, work(i))) return;
      continue;
    }
    tickets.await(i);
    if (!take(i, std::move(results[i % window]))) return;
    tickets.release();
  }
}

} // namespace shankline
