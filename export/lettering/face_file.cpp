#include "export/lettering/face_file.hpp"

#include <cstdint>
#include <fstream>

namespace shankline {
namespace {

constexpr std::uint32_t tag(const char (&name)[5]) {
  std::uint32_t value = 0;
  for (int i = 0; i < 4; ++i)
    value = value << 8 | static_cast<unsigned char>(name[i]);
  return value;
}

/// Numbers of a TrueType file, high byte first; 0 behind its end.
class FontBytes {
public:
  explicit FontBytes(const std::string& path) : file_(path, std::ios::binary) {}

  std::uint32_t number(std::uint32_t at, int bytes) {
    file_.clear();
    file_.seekg(at);
    std::uint32_t value = 0;
    for (int i = 0; i < bytes; ++i) {
      const int byte = file_.get();
      if (byte == std::ifstream::traits_type::eof()) return 0;
      value = value << 8 | static_cast<std::uint32_t>(byte);
    }
    return value;
  }

private:
  std::ifstream file_;
};

// fsType: restricted licence; not to be cut down; bitmaps only.
constexpr std::uint32_t forbids_embedding = 0x0002 | 0x0100 | 0x0200;

} // namespace

bool is_collection(const FaceFile& face) {
  return FontBytes(face.path).number(0, 4) == tag("ttcf");
}

bool may_be_embedded(const FaceFile& face) {
  FontBytes bytes(face.path);
  std::uint32_t start = 0;
  if (bytes.number(0, 4) == tag("ttcf"))
    start = bytes.number(12 + 4 * static_cast<std::uint32_t>(face.index), 4);
  const std::uint32_t tables = bytes.number(start + 4, 2);
  for (std::uint32_t i = 0; i < tables; ++i) {
    const std::uint32_t row = start + 12 + 16 * i;
    if (bytes.number(row, 4) != tag("OS/2")) continue;
    return (bytes.number(bytes.number(row + 8, 4) + 8, 2) & forbids_embedding) == 0;
  }
  return false;
}

} // namespace shankline
