// A short name for an order's text, so that a sheet and its order find each other again.
#pragma once

#include <string>
#include <string_view>

namespace shankline {

/// SHA-256 (FIPS 180-4), lower-case hexadecimal, 64 digits.
std::string sha256(std::string_view bytes);

/// The first eight digits in two groups: "4f9c 2107".
std::string short_digest(std::string_view sha256_digits);

} // namespace shankline
