#include "cli/page/page_server.hpp"

#include <algorithm>

namespace shankline {
namespace {

constexpr int forbidden = 403;
constexpr int not_found = 404;
constexpr int wrong_method = 405;
constexpr int wrong_type = 415;

/// In a time that does not tell how much of it was right.
bool same_token(std::string_view given, std::string_view token) {
  if (given.size() != token.size()) return false;
  unsigned different = 0;
  for (std::size_t i = 0; i < token.size(); ++i)
    different |= static_cast<unsigned char>(given[i]) ^ static_cast<unsigned char>(token[i]);
  return different == 0;
}

/// "application/json", with or without a character set.
bool is_json(std::string_view content_type) {
  constexpr std::string_view json = "application/json";
  return content_type.starts_with(json) &&
         (content_type.size() == json.size() || content_type[json.size()] == ';');
}

} // namespace

int refused_head(const PageRequestHead& head, std::string_view origin, std::string_view token) {
  constexpr std::string_view scheme = "http://";
  // A foreign name that leads to this machine is another host.
  if (head.host != origin.substr(scheme.size())) return forbidden;
  const bool reads = head.method == "GET" || head.method == "HEAD";
  if (head.is_known) return reads ? 0 : wrong_method;
  if (!head.origin.empty() && head.origin != origin) return forbidden;
  if (!head.fetch_site.empty() && head.fetch_site != "same-origin") return forbidden;
  if (!same_token(head.token, token)) return reads && head.token.empty() ? not_found : forbidden;
  if (head.method != "POST") return wrong_method;
  return is_json(head.content_type) ? 0 : wrong_type;
}

} // namespace shankline
