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

/// The archive's contents are not those that were written.
struct ArchiveDamaged : ArchiveFault {
  using ArchiveFault::ArchiveFault;
};

/// Advice for a place that cannot be written to or read from.
inline constexpr const char* archive_elsewhere =
    "check the folder and its rights, or give another file with --archive";

} // namespace shankline
