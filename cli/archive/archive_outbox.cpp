#include "cli/archive/archive_outbox.hpp"

#include "cli/archive/archive_bundle.hpp"
#include "cli/archive/archive_server.hpp"
#include "cli/archive/server_address.hpp"
#include "cli/surroundings/archive_fault.hpp"
#include "cli/surroundings/user_folder.hpp"
#include "export/formats/digest.hpp"
#include "export/formats/system_reason.hpp"
#include "export/formats/whole_file.hpp"

#include <algorithm>
#include <cerrno>
#include <cstdlib>
#include <cstring>
#include <filesystem>
#include <sys/stat.h>
#include <system_error>
#include <unistd.h>

namespace shankline {
namespace {

namespace fs = std::filesystem;

constexpr std::size_t number_digits = 10;
constexpr std::string_view suffix = ".yaml";

/// Makes the missing folders, for their owner only.
void make_folders(const fs::path& folder) {
  std::error_code ignored;
  if (fs::is_directory(folder, ignored)) return;
  if (folder.has_parent_path() && folder.parent_path() != folder)
    make_folders(folder.parent_path());
  if (::mkdir(folder.c_str(), 0700) != 0 && errno != EEXIST)
    throw ArchiveFault(folder.string() + ": the outbox cannot be made: " + std::strerror(errno),
                       "check the folder and its rights");
}

bool is_waiting(const std::string& name) {
  return name.size() > number_digits && name.ends_with(suffix) &&
         name.find_first_not_of("0123456789") == number_digits;
}

} // namespace

Outbox::Outbox(const std::string& address) {
  const auto base = user_folder("XDG_CONFIG_HOME", ".config");
  if (!base)
    throw ArchiveFault("there is no folder for the outbox: HOME is not set",
                       "set HOME or XDG_CONFIG_HOME");
  folder_ = *base + "/shankline/outbox/" + sha256(shown_address(address)).substr(0, 16);
}

std::vector<std::string> Outbox::waiting() const {
  std::vector<std::string> names;
  std::error_code failed;
  for (fs::directory_iterator at(folder_, failed), end; !failed && at != end; at.increment(failed))
    if (std::string name = at->path().filename().string(); is_waiting(name))
      names.push_back(std::move(name));
  if (failed && failed != std::errc::no_such_file_or_directory)
    throw ArchiveFault(folder_ + ": the outbox cannot be read: " + system_reason(failed.value()),
                       system_advice(failed.value(), "check the folder and its rights"));
  std::sort(names.begin(), names.end());
  return names;
}

std::vector<ArchiveEntry> Outbox::entries() const {
  std::vector<ArchiveEntry> all;
  for (const std::string& name : waiting()) {
    try {
      all.push_back(read_one_entry(folder_ + "/" + name));
    } catch (const BundleFault&) {
      continue; // send() reports it
    }
  }
  return all;
}

void Outbox::keep(const ArchiveEntry& entry) const {
  make_folders(folder_);
  const std::vector<std::string> names = waiting();
  const unsigned long long last =
      names.empty() ? 0 : std::strtoull(names.back().c_str(), nullptr, 10);
  std::string number = std::to_string(last + 1);
  number.insert(0, number_digits - std::min(number.size(), number_digits), '0');
  // If two programs keep an entry at the same moment, the digest makes their file names differ.
  write_whole_file(folder_ + "/" + number + "-" + entry.head.digest.substr(0, 16) +
                       std::string(suffix),
                   bundle_of(entry), Readers::owner, AtLink::refuse);
}

Outbox::Sent Outbox::send(Store& store) const {
  Sent sent;
  for (const std::string& name : waiting()) {
    const std::string path = folder_ + "/" + name;
    std::optional<ArchiveEntry> entry;
    try {
      entry = read_one_entry(path);
    } catch (const BundleFault& fault) {
      std::error_code ignored;
      // Another program may have delivered it just now.
      if (fs::exists(path, ignored)) sent.spoilt.emplace_back(fault.what());
      continue;
    }
    try {
      store.add(*std::move(entry));
      ++sent.delivered;
    } catch (const DancerForgotten&) {
      ++sent.refused;
    }
    if (::unlink(path.c_str()) != 0 && errno != ENOENT)
      throw ArchiveFault(
          path + ": was sent and cannot be taken out of the outbox: " + std::strerror(errno),
          "delete it by hand");
  }
  return sent;
}

} // namespace shankline
