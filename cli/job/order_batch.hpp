// One order or many: each worked on by itself, what is said of it kept together, results in order,
// a bar while it runs and a count at the end.
#pragma once

#include "cli/job/batch.hpp"
#include "cli/job/order_list.hpp"
#include "cli/job/request.hpp"
#include "cli/surroundings/faults.hpp"
#include "cli/surroundings/progress_bar.hpp"
#include "cli/text/message.hpp"

#include <algorithm>
#include <ostream>
#include <sstream>
#include <string>
#include <string_view>
#include <utility>

namespace shankline {

class BatchCount {
public:
  void add(ExitCode code);
  void at_least(ExitCode code) { worst_ = std::max(worst_, code); }
  /// The batch ends before these. Threads may have written sheets of a few of them.
  void leave(std::size_t orders) { left_ = orders; }
  bool ended_early() const { return left_ > 0; }
  void say_left(std::ostream& messages) const; ///< nothing, unless the batch ended early
  /// "6 orders: 4 cut, 1 refused, 1 failed"; `done` is what happened to the good ones.
  std::string words(std::string_view done) const;
  ExitCode worst() const { return worst_; }

private:
  std::size_t done_ = 0;
  std::size_t refused_ = 0;
  std::size_t failed_ = 0;
  std::size_t left_ = 0;
  ExitCode worst_ = ExitCode::done;
};

/// More than the one order that was named: results are then a line each.
inline bool is_batch(const OrderList& list) {
  return list.whole_folder || list.files.size() > 1;
}

/// Returns true if the count is said at the end.
inline bool is_counted(const OrderList& list, const Request& request) {
  return is_batch(list) && !list.files.empty() && !request.quiet && !request.json_errors;
}

/// `work(order, messages, result)` gives an exit code, on any thread. `take(result)` is called on
/// this one, in order, also for orders that came to nothing, and gives another: the worse counts.
/// One bad order stops no other. The batch ends early once `out`, where `take` writes, takes no
/// more: its reader is gone, or its disk is full.
template <class Result, class Work, class Take>
BatchCount run_batch(const OrderList& list, const Request& request, std::ostream& out,
                     std::ostream& messages, const Work& work, const Take& take) {
  struct Worked {
    std::string said;
    ExitCode code = ExitCode::done;
    Result result;
  };
  say(list.faults, messages);
  BatchCount count;
  if (has_error(list.faults)) count.at_least(ExitCode::bad_input);
  const std::size_t all = list.files.size();
  ProgressBar bar(
      messages, all,
      is_batch(list) && !request.quiet && !request.json_errors ? request.progress_columns : 0);
  bar.advance(0);
  const MessageForm form = message_form(messages);
  const std::size_t columns = message_columns(messages);
  const Units units = message_units(messages);
  const auto work_on = [&](std::size_t i) {
    const std::string& order = list.files[i];
    Worked worked;
    std::ostringstream said;
    set_message_units(said, units);
    set_message_form(said, form, columns);
    worked.code = report_faults(order, said, [&] { return work(order, said, worked.result); });
    worked.said = std::move(said).str();
    return worked;
  };
  const bool is_heard = out.good(); // --quiet writes to nobody
  const auto take_in = [&](std::size_t i, Worked worked) {
    bar.clear();
    messages << worked.said;
    const ExitCode taken =
        report_faults(list.files[i], messages, [&] { return take(std::move(worked.result)); });
    count.add(std::max(worked.code, taken));
    if (is_batch(list)) out.flush(); // also before the bar is drawn below it
    bar.advance(i + 1);
    if (!is_heard || out) return true;
    count.leave(all - i - 1);
    return false;
  };
  work_in_order<Worked>(all, batch_threads(request.jobs, all), work_on, take_in);
  bar.clear();
  count.say_left(messages);
  return count;
}

} // namespace shankline
