#include "export/formats/digest.hpp"

#include <array>
#include <cstdint>
#include <nettle/base16.h>
#include <nettle/sha2.h>

namespace shankline {

std::string sha256(std::string_view bytes) {
  sha256_ctx context;
  sha256_init(&context);
  sha256_update(&context, bytes.size(), reinterpret_cast<const std::uint8_t*>(bytes.data()));
  std::array<std::uint8_t, SHA256_DIGEST_SIZE> digest{};
  sha256_digest(&context, digest.size(), digest.data());
  std::string text(BASE16_ENCODE_LENGTH(digest.size()), '\0');
  base16_encode_update(text.data(), digest.size(), digest.data());
  return text;
}

std::string short_digest(std::string_view sha256_digits) {
  return std::string(sha256_digits.substr(0, 4)) + " " + std::string(sha256_digits.substr(4, 4));
}

} // namespace shankline
