// Exit codes, for scripts.
#pragma once

namespace shankline {

enum class ExitCode : int {
  done = 0,
  bad_input = 1,   ///< wrong or missing input; a fault of the program also ends so
  bad_usage = 2,   ///< wrong verb, option or value of an option
  file_system = 3, ///< a file or the archive could not be read or written
  refused = 4,     ///< accept: the pair is not as ordered
  not_decided = 5, ///< accept: measured too coarsely, or not all of it
};

} // namespace shankline
