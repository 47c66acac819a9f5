#include "cli/surroundings/source_date.hpp"

#include <charconv>
#include <cstdlib>
#include <string_view>

namespace shankline {

std::optional<std::int64_t> source_date() {
  const char* set = std::getenv("SOURCE_DATE_EPOCH");
  if (!set) return std::nullopt;
  const std::string_view words(set);
  constexpr std::int64_t last = 253402300799; // 9999-12-31 23:59:59, what a PDF's date can say
  std::int64_t seconds = -1;
  const char* end = words.data() + words.size();
  const auto [rest, error] = std::from_chars(words.data(), end, seconds);
  if (error != std::errc() || rest != end || seconds < 0 || seconds > last)
    throw EnvironmentFault(
        "SOURCE_DATE_EPOCH must be seconds since 1970, in digits only, from 0 to "
        "253402300799; unset it for files without a date");
  return seconds;
}

} // namespace shankline
