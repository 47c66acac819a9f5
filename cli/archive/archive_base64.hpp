// Bytes that are no text, in a text file: base64 (RFC 4648).
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace shankline {

/// Returns lines of 96 characters, each with its line end; empty for empty bytes.
std::string base64_lines(std::string_view bytes);

/// Ignores white space; returns nullopt if the text is not base64.
std::optional<std::string> from_base64(std::string_view text);

} // namespace shankline
