// The values that an option accepts, and the message about a value that it refuses.
#pragma once

#include <functional>
#include <string>
#include <vector>

namespace shankline {

struct AllowedValue {
  /// Why `typed` is refused, which values are allowed, and the nearest allowed word; empty if
  /// `typed` is accepted.
  std::function<std::string(const std::string& typed)> fault;
  std::string shown; ///< as help shows it behind the value's name: "{mm,in}", "INT in [1 - 256]"
};

AllowedValue one_of(std::vector<std::string> words);
AllowedValue whole_number(long long least, long long most);
/// A number that may have decimals; without a unit.
AllowedValue plain_number(long long least, long long most);

} // namespace shankline
