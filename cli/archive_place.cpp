#include "cli/archive_place.hpp"

#include "cli/archive_fault.hpp"

#include <cstdlib>
#include <filesystem>
#include <string_view>
#include <system_error>

namespace shankline {
namespace {

std::string_view surrounding(const char* name) {
  const char* const value = std::getenv(name);
  return value ? value : "";
}

} // namespace

std::string archive_file(const std::string& given) {
  if (!given.empty()) return given;
  constexpr const char* below = "/shankline/archive.sqlite";
  if (const std::string_view data = surrounding("XDG_DATA_HOME"); data.starts_with('/'))
    return std::string(data) + below;
  if (const std::string_view home = surrounding("HOME"); home.starts_with('/'))
    return std::string(home) + "/.local/share" + below;
  throw ArchiveFault("the archive has no place: HOME is not set", "say where it is with --archive");
}

bool archive_is_there(const std::string& given) {
  try {
    std::error_code ignored;
    return std::filesystem::exists(archive_file(given), ignored);
  } catch (const ArchiveFault&) {
    return false;
  }
}

} // namespace shankline
