// What the value of an option is held to, and what is said of one that is not.
#pragma once

#include <functional>
#include <string>
#include <vector>

namespace shankline {

struct AllowedValue {
  /// What is wrong with a value as typed, what is allowed, and the word it may have been meant to
  /// be; empty when all is well.
  std::function<std::string(const std::string& typed)> fault;
  std::string shown; ///< as help shows it behind the value's name: "{mm,in}", "INT in [1 - 256]"
};

AllowedValue one_of(std::vector<std::string> words);
AllowedValue whole_number(long long least, long long most);
/// A number that may have decimals; without a unit.
AllowedValue plain_number(long long least, long long most);

} // namespace shankline
