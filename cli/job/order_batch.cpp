#include "cli/job/order_batch.hpp"

namespace shankline {

void BatchCount::add(ExitCode code) {
  at_least(code);
  ++(code == ExitCode::done ? done_ : code == ExitCode::file_system ? failed_ : refused_);
}

std::string BatchCount::words(std::string_view done) const {
  const std::size_t all = done_ + refused_ + failed_;
  return std::to_string(all) + (all == 1 ? " order: " : " orders: ") + std::to_string(done_) + " " +
         std::string(done) + ", " + std::to_string(refused_) + " refused, " +
         std::to_string(failed_) + " failed\n";
}

} // namespace shankline
