#include "cli/surroundings/program_version.hpp"

#include <algorithm>
#include <charconv>

namespace shankline {
namespace {

/// Takes the number before the next point off the front of `version`.
int next_number(std::string_view& version) {
  const std::size_t end = std::min(version.find('.'), version.size());
  int number = 0;
  const auto [stop, error] = std::from_chars(version.data(), version.data() + end, number);
  version.remove_prefix(std::min(end + 1, version.size()));
  return error == std::errc() ? number : 0;
}

} // namespace

int compare_versions(std::string_view a, std::string_view b) {
  while (!a.empty() || !b.empty()) {
    const int of_a = next_number(a);
    const int of_b = next_number(b);
    if (of_a != of_b) return of_a < of_b ? -1 : 1;
  }
  return 0;
}

} // namespace shankline
