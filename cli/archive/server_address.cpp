#include "cli/archive/server_address.hpp"

#include <algorithm>

namespace shankline {

bool is_server_address(std::string_view given) {
  return given.starts_with("postgresql://") || given.starts_with("postgres://");
}

std::string shown_address(std::string_view address) {
  const std::size_t begin = address.find("://") + 3;
  std::string text(address.substr(0, begin));
  std::string_view rest = address.substr(begin);
  // A password may hold any sign, though it should not: all up to the last '@' is user and
  // password.
  if (const std::size_t at = rest.rfind('@'); at != std::string_view::npos) {
    text += rest.substr(0, std::min(rest.find(':'), at));
    rest.remove_prefix(at);
  }
  while (true) {
    const std::size_t secret = rest.find("password=");
    text += rest.substr(0, secret);
    if (secret == std::string_view::npos) return text;
    text += "password=...";
    rest.remove_prefix(std::min(rest.find('&', secret), rest.size()));
  }
}

} // namespace shankline
