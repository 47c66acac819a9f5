// The one table of what can be done with the archive.
#pragma once

#include "cli/job/archive_wish.hpp"

#include <span>
#include <string_view>

namespace shankline {

struct ArchiveGuide {
  ArchiveAction action;
  std::string_view name;
  std::string_view summary; ///< one line
  std::string_view example;
};

std::span<const ArchiveGuide> archive_guides();

} // namespace shankline
