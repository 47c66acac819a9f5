#include "cli/job/dancer_code.hpp"

#include "cli/text/characters.hpp"

#include <algorithm>

namespace shankline {

std::string other_spelling(Store& store, const std::string& dancer) {
  if (store.counted(dancer) > 0) return {};
  for (char (*const change)(char) : {&upper, &lower}) {
    std::string other = dancer;
    std::transform(other.begin(), other.end(), other.begin(), change);
    if (other != dancer && store.counted(other) > 0) return other;
  }
  return {};
}

} // namespace shankline
