// The page's web server: this machine alone, whoever has the token.
#pragma once

#include "cli/page/page_answers.hpp"

#include <cstdint>
#include <functional>
#include <memory>
#include <string>
#include <string_view>

namespace shankline {

/// A file of the page itself; it holds no data.
struct ShellFile {
  std::string_view path; ///< "/page.css"
  std::string_view type; ///< of its content (RFC 9110): "text/css"
  std::string_view bytes;
};

/// The parts of a request that decide whether it is let in: everything but its body.
struct PageRequestHead {
  std::string_view method;
  std::string_view path;
  std::string_view host;
  std::string_view origin;       ///< empty for none
  std::string_view fetch_site;   ///< Sec-Fetch-Site (W3C Fetch Metadata); empty for none
  std::string_view content_type; ///< empty for none
  std::string_view token;        ///< empty for none
  bool is_known = false;         ///< the path is that of a file of the shell
};

/// The status of HTTP that refuses such a request, and 0 where nothing speaks against it. `origin`
/// is what the server printed, "http://127.0.0.1:8081". A file of the shell may be fetched by GET
/// without a token; everything else is a POST of JSON, with the token, from the page itself.
int refused_head(const PageRequestHead& head, std::string_view origin, std::string_view token);

/// Serves from its construction to its destruction, on a thread of its own. Answers come one after
/// the other.
class PageServer {
public:
  /// Listens on 127.0.0.1; `port` 0 takes one that is free. `answers` must outlive it. Throws
  /// EnvironmentFault where the library is missing or the port is taken.
  PageServer(const PageAnswers& answers, std::uint16_t port);
  ~PageServer();
  PageServer(const PageServer&) = delete;
  PageServer& operator=(const PageServer&) = delete;

  /// "http://127.0.0.1:8081"
  const std::string& origin() const;
  /// 128 random bits in hexadecimal.
  const std::string& token() const;

  /// Breaks off connections that are older than ten seconds. To be called about once a second.
  void drop_slow_ones();
  /// Seconds since the last request that was let in.
  double idle_seconds() const;

  struct Parts; ///< for page_server.cpp alone

private:
  std::unique_ptr<Parts> parts_;
};

/// A body takes at most so much: two orders of 64 KiB with every second byte escaped.
inline constexpr std::size_t largest_page_body = std::size_t{256} * 1024;

} // namespace shankline
