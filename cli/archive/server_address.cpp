#include "cli/archive/server_address.hpp"

#include <algorithm>

namespace shankline {

bool is_server_address(std::string_view given) {
  return given.starts_with("postgresql://") || given.starts_with("postgres://");
}

std::string shown_address(std::string_view address) {
  const std::size_t scheme = address.find("://");
  const std::size_t begin = scheme == std::string_view::npos ? 0 : scheme + 3;
  std::string text(address.substr(0, begin));
  std::string_view rest = address.substr(begin);
  constexpr std::string_view parameter = "password=";
  // A password may hold any sign, though it should not: all up to the last '@' is user and
  // password. Where a parameter begins before it, that '@' is one of the password's signs.
  if (const std::size_t at = rest.rfind('@'); at != std::string_view::npos) {
    const std::string_view before = rest.substr(0, at);
    const std::size_t colon = before.find(':');
    const std::size_t secret = before.find(parameter);
    text += before.substr(0, std::min(colon, secret));
    rest.remove_prefix(at);
    if (secret != std::string_view::npos) {
      text += colon < secret ? ":..." : "password=...";
      rest.remove_prefix(std::min(rest.find('&'), rest.size()));
    }
  }
  while (true) {
    const std::size_t secret = rest.find(parameter);
    text += rest.substr(0, secret);
    if (secret == std::string_view::npos) return text;
    text += "password=...";
    rest.remove_prefix(std::min(rest.find('&', secret), rest.size()));
  }
}

std::string without_password(std::string_view said, std::string_view address) {
  const std::string shown = shown_address(address);
  std::string text;
  while (true) {
    const std::size_t open = said.find('"');
    const std::size_t close = open == std::string_view::npos ? open : said.find('"', open + 1);
    if (close == std::string_view::npos) return text += said;
    const std::string_view quoted = said.substr(open + 1, close - open - 1);
    const bool is_secret =
        address.find(quoted) != std::string_view::npos && shown.find(quoted) == std::string::npos;
    text += said.substr(0, open + 1);
    text += is_secret ? "..." : quoted;
    text += '"';
    said.remove_prefix(close + 1);
  }
}

} // namespace shankline
