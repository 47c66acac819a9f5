#include "cli/archive/archive_base64.hpp"

#include <cstdint>
#include <nettle/base64.h>

namespace shankline {

std::string base64_lines(std::string_view bytes) {
  constexpr std::size_t width = 96;
  std::string digits(BASE64_ENCODE_RAW_LENGTH(bytes.size()), '\0');
  base64_encode_raw(digits.data(), bytes.size(),
                    reinterpret_cast<const std::uint8_t*>(bytes.data()));
  std::string lines;
  lines.reserve(digits.size() + digits.size() / width + 1);
  for (std::size_t at = 0; at < digits.size(); at += width)
    lines.append(digits, at, width) += '\n';
  return lines;
}

std::optional<std::string> from_base64(std::string_view text) {
  base64_decode_ctx context;
  base64_decode_init(&context);
  std::string bytes(BASE64_DECODE_LENGTH(text.size()), '\0');
  std::size_t size = bytes.size();
  if (!base64_decode_update(&context, &size, reinterpret_cast<std::uint8_t*>(bytes.data()),
                            text.size(), text.data()) ||
      !base64_decode_final(&context))
    return std::nullopt;
  bytes.resize(size);
  return bytes;
}

} // namespace shankline
