// Finds the folder for one kind of this user's files.
#pragma once

#include <optional>
#include <string>

namespace shankline {

/// Returns the variable's value if that is an absolute path, otherwise `below_home` in $HOME (XDG
/// Base Directory Specification 0.8); nullopt if HOME is not set either.
std::optional<std::string> user_folder(const char* variable, const char* below_home);

} // namespace shankline
