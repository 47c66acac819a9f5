// Why the system refused something, in words, and what helps against it.
#pragma once

#include <string>
#include <utility>

namespace shankline {

/// Returns true if no file could be opened because too many are open already, in this process or on
/// this machine. Nothing is wrong with the file then. `error` is an errno.
bool is_out_of_handles(int error);

/// Returns the reason: "Permission denied", or how many files this process may have open.
std::string system_reason(int error);

/// Returns what helps where too many files are open, else `otherwise`.
std::string system_advice(int error, std::string otherwise = {});

/// Returns the errno for which no file can be opened at this moment, or 0 if one can. For libraries
/// that keep the reason of their failure to themselves.
int why_no_handle();

} // namespace shankline
