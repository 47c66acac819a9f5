#include "cli/archive/archive_entry.hpp"

#include "cli/surroundings/program_version.hpp"

#include <algorithm>
#include <array>

namespace shankline {
namespace {

/// Names in the order of EntryKind.
constexpr std::array<std::string_view, 4> kind_names{"cut", "note", "forgetting", "forgotten"};

} // namespace

std::string_view kind_name(EntryKind kind) {
  return kind_names[static_cast<std::size_t>(kind)];
}

std::optional<EntryKind> kind_named(std::string_view name) {
  const auto found = std::find(kind_names.begin(), kind_names.end(), name);
  if (found == kind_names.end()) return std::nullopt;
  return static_cast<EntryKind>(found - kind_names.begin());
}

bool follows_older_rule(const EntryHead& head) {
  const std::string list = ", " + head.alterations + ",";
  return head.kind == EntryKind::cut && list.find(", shank,") != std::string::npos &&
         compare_versions(head.program, "0.2.0") < 0;
}

bool has_dancer(EntryKind kind) {
  return kind == EntryKind::cut || kind == EntryKind::note;
}

} // namespace shankline
