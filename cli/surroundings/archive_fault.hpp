// Why an archive could not be read or written.
#pragma once

#include <stdexcept>
#include <string>
#include <utility>

namespace shankline {

struct ArchiveFault : std::runtime_error {
  ArchiveFault(const std::string& what, std::string what_to_do)
      : std::runtime_error(what), advice(std::move(what_to_do)) {}
  std::string advice;
};

/// What is in the file is not what was put there.
struct ArchiveDamaged : ArchiveFault {
  using ArchiveFault::ArchiveFault;
};

/// What to do about a place that nothing can be written to or read from.
inline constexpr const char* archive_elsewhere =
    "check the folder and its rights, or give another file with --archive";

} // namespace shankline
