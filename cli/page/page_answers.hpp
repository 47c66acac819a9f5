// The page's requests and their answers, before any network: each is answered by the same functions
// as the verbs of the command line, so that page and terminal cannot differ.
#pragma once

#include "cli/job/request.hpp"

#include <string>
#include <string_view>

namespace shankline {

struct PageAnswer {
  int status = 200; ///< of HTTP (RFC 9110)
  std::string type = "application/json";
  std::string body;
};

/// Answers one request after the other. `usual` holds what the user settled: paper, units, printer,
/// archive.
///
///   PageAnswers answers(usual);
///   answers.to("/live", R"({"text": "format: shankline-order/1 ..."})").body;
class PageAnswers {
public:
  explicit PageAnswers(Request usual) : usual_(std::move(usual)) {}

  /// `path` begins with '/'; `body` is the JSON that was sent. Never throws for wrong input: that
  /// becomes an answer of 400 or 422, a path that is not known one of 404, and a fault of the
  /// surroundings or of ours one of 500.
  PageAnswer to(std::string_view path, std::string_view body) const;

private:
  Request usual_;
};

} // namespace shankline
