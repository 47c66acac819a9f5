#include "cli/archive/archive_place.hpp"

#include "cli/surroundings/archive_fault.hpp"
#include "cli/surroundings/user_folder.hpp"

#include <filesystem>
#include <system_error>

namespace shankline {
std::string archive_file(const std::string& given) {
  if (!given.empty()) return given;
  if (const auto folder = user_folder("XDG_DATA_HOME", ".local/share"))
    return *folder + "/shankline/archive.sqlite";
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

bool archive_is_begun(const std::string& given) {
  std::error_code failed;
  return archive_is_there(given) && std::filesystem::file_size(archive_file(given), failed) > 0 &&
         !failed;
}

} // namespace shankline
