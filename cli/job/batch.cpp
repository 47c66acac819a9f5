#include "cli/job/batch.hpp"

#include <algorithm>

namespace shankline {

std::optional<std::size_t> BatchTickets::next() {
  std::unique_lock lock(mutex_);
  changed_.wait(lock, [&] { return stopped_ || dealt_ == count_ || dealt_ < released_ + window_; });
  if (stopped_ || dealt_ == count_) return {};
  return dealt_++;
}

void BatchTickets::finish(std::size_t ticket) {
  const std::lock_guard lock(mutex_);
  early_.push_back(ticket);
  changed_.notify_all();
}

void BatchTickets::fail(std::exception_ptr fault) {
  const std::lock_guard lock(mutex_);
  fault_ = std::move(fault);
  stopped_ = true;
  changed_.notify_all();
}

void BatchTickets::await(std::size_t ticket) {
  std::unique_lock lock(mutex_);
  auto found = early_.end();
  changed_.wait(lock, [&] {
    found = std::find(early_.begin(), early_.end(), ticket);
    return fault_ || found != early_.end();
  });
  if (fault_) std::rethrow_exception(fault_);
  early_.erase(found);
}

void BatchTickets::release() {
  const std::lock_guard lock(mutex_);
  ++released_;
  changed_.notify_all();
}

void BatchTickets::stop() {
  const std::lock_guard lock(mutex_);
  stopped_ = true;
  changed_.notify_all();
}

std::size_t batch_threads(std::size_t asked, std::size_t count) {
  const std::size_t wished = asked > 0 ? asked : std::thread::hardware_concurrency();
  return std::clamp<std::size_t>(wished, 1, std::max<std::size_t>(count, 1));
}

} // namespace shankline
