// Where this user's files of a kind are kept.
#pragma once

#include <optional>
#include <string>

namespace shankline {

/// What the variable says where that is an absolute path, else `below_home` in $HOME (XDG Base
/// Directory Specification 0.8); nothing where there is no home either.
std::optional<std::string> user_folder(const char* variable, const char* below_home);

} // namespace shankline
