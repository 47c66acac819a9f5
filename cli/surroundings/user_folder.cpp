#include "cli/surroundings/user_folder.hpp"

#include <cstdlib>
#include <string_view>

namespace shankline {
namespace {

std::string_view surrounding(const char* name) {
  const char* const value = std::getenv(name);
  return value ? value : "";
}

} // namespace

std::optional<std::string> user_folder(const char* variable, const char* below_home) {
  if (const std::string_view set = surrounding(variable); set.starts_with('/'))
    return std::string(set);
  if (const std::string_view home = surrounding("HOME"); home.starts_with('/'))
    return std::string(home) + "/" + below_home;
  return std::nullopt;
}

} // namespace shankline
