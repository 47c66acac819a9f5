#include "cli/archive_place.hpp"

#include "cli/archive_fault.hpp"

#include <charconv>
#include <cstdlib>
#include <ctime>
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

std::string time_now() {
  std::time_t now = std::time(nullptr);
  const std::string_view fixed = surrounding("SOURCE_DATE_EPOCH");
  constexpr std::time_t last = 253402300799; // 9999-12-31T23:59:59Z
  std::time_t value = 0;
  const auto [end, error] = std::from_chars(fixed.data(), fixed.data() + fixed.size(), value);
  if (!fixed.empty() && error == std::errc() && end == fixed.data() + fixed.size() && value >= 0 &&
      value <= last)
    now = value;
  std::tm parts{};
  gmtime_r(&now, &parts);
  char text[32];
  const std::size_t size = std::strftime(text, sizeof text, "%Y-%m-%dT%H:%M:%SZ", &parts);
  return {text, size};
}

} // namespace shankline
