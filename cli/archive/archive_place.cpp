#include "cli/archive/archive_place.hpp"

#include "cli/archive/server_address.hpp"
#include "cli/surroundings/archive_fault.hpp"
#include "cli/surroundings/user_folder.hpp"
#include "export/formats/system_reason.hpp"

#include <algorithm>
#include <cerrno>
#include <cstdio>
#include <filesystem>
#include <system_error>

namespace shankline {
namespace {

/// Empty where there is no home.
std::string configuring_file() {
  const auto folder = user_folder("XDG_CONFIG_HOME", ".config");
  return folder ? *folder + "/shankline/archive" : std::string();
}

/// The first line of the configured place; empty where nothing is configured.
std::string configured() {
  const std::string path = configuring_file();
  if (path.empty()) return {};
  // A stream costs more than all else that a plain cut does here.
  std::FILE* const file = std::fopen(path.c_str(), "re");
  if (!file && is_out_of_handles(errno))
    throw ArchiveFault(path + ": cannot be read: " + system_reason(errno), system_advice(errno));
  if (!file) return {};
  char text[4096];
  const std::size_t size = std::fread(text, 1, sizeof text, file);
  std::fclose(file);
  std::string line(text, size);
  line.erase(std::min(line.find_first_of("\r\n"), line.size()));
  if (!is_server_address(line) && !line.starts_with('/'))
    throw ArchiveFault(path + ":1: is neither a path from the root nor a server's address",
                       "write one line: postgresql://USER@HOST/DATABASE, or the path of a file");
  return line;
}

} // namespace

std::string archive_file(const std::string& given) {
  if (!given.empty()) return given;
  if (std::string place = configured(); !place.empty()) return place;
  if (const auto folder = user_folder("XDG_DATA_HOME", ".local/share"))
    return *folder + "/shankline/archive.sqlite";
  throw ArchiveFault("the archive has no place: HOME is not set", "say where it is with --archive");
}

std::string archive_naming_file() {
  return configured().empty() ? std::string() : configuring_file();
}

bool archive_is_there(const std::string& given) {
  try {
    if (is_server_address(archive_file(given))) return true;
    std::error_code ignored;
    return std::filesystem::exists(archive_file(given), ignored);
  } catch (const ArchiveFault&) {
    return false;
  }
}

bool archive_is_begun(const std::string& given) {
  std::error_code failed;
  return archive_is_there(given) && !is_server_address(archive_file(given)) &&
         std::filesystem::file_size(archive_file(given), failed) > 0 && !failed;
}

} // namespace shankline
