#include "cli/job/order_batch.hpp"

namespace shankline {

void BatchCount::add(ExitCode code) {
  at_least(code);
  ++(code == ExitCode::done ? done_ : code == ExitCode::file_system ? failed_ : refused_);
}

void BatchCount::say_left(std::ostream& messages) const {
  if (!ended_early()) return;
  const std::size_t all = done_ + refused_ + failed_ + left_;
  say({plain_error("the batch ended early, since standard output takes no more: " +
                       std::to_string(left_) + " of " + std::to_string(all) + " orders are left",
                   "run it again with --quiet, or with the results in a file")},
      messages);
}

std::string BatchCount::words(std::string_view done) const {
  const std::size_t all = done_ + refused_ + failed_;
  return std::to_string(all) + (all == 1 ? " order: " : " orders: ") + std::to_string(done_) + " " +
         std::string(done) + ", " + std::to_string(refused_) + " refused, " +
         std::to_string(failed_) + " failed\n";
}

} // namespace shankline
