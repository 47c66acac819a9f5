#include "export/lettering/plain_script.hpp"

#include <algorithm>
#include <iterator>

namespace shankline {
namespace {

struct Range {
  char32_t first;
  char32_t last;
};

// Blocks of Unicode 14, less the combining marks within them. Faces of a PDF hold the basic plane
// only (16 bits), so that rarer ideographs and all emoji beyond it are not here.
constexpr Range plain[] = {
    {0x0020, 0x007e},                   // ASCII
    {0x00a0, 0x00ac}, {0x00ae, 0x02ff}, // Latin, phonetic letters; without the soft hyphen
    {0x0370, 0x0482},                   // Greek, Cyrillic
    {0x048a, 0x058f},                   // Cyrillic, Armenian
    {0x10a0, 0x10ff},                   // Georgian
    {0x1200, 0x135c}, {0x1360, 0x13ff}, // Ethiopic, Cherokee
    {0x1c80, 0x1cbf},                   // Cyrillic, Georgian
    {0x1d00, 0x1dbf},                   // phonetic letters
    {0x1e00, 0x1fff},                   // Latin, Greek
    {0x2010, 0x2027}, {0x2030, 0x205e}, // punctuation
    {0x2070, 0x20cf},                   // raised and lowered figures, currencies
    {0x2100, 0x2319}, {0x231c, 0x23e8}, // letter-like signs, arrows, mathematics, technical
    {0x2400, 0x25fc},                   // boxes, enclosed figures, shapes
    {0x2600, 0x2613}, {0x2619, 0x2647},
    {0x2654, 0x267e},                   // signs; those drawn as emoji are not here
    {0x2c60, 0x2c7f}, {0x2d80, 0x2dde}, // Latin, Ethiopic
    {0x2e80, 0x2fdf},                   // parts of ideographs
    {0x3000, 0x3029}, {0x3030, 0x303f}, // ideographic punctuation
    {0x3041, 0x3096}, {0x309b, 0x30ff}, // kana
    {0x3105, 0x312f}, {0x3131, 0x3163},
    {0x3165, 0x318e},                   // Bopomofo, Hangul letters
    {0x3190, 0x4dbf}, {0x4e00, 0x9fff}, // ideographs
    {0xa000, 0xa4cf},                   // Yi
    {0xa722, 0xa7ff}, {0xab30, 0xab6f}, // Latin
    {0xac00, 0xd7a3},                   // Hangul syllables
    {0xf900, 0xfad9}, {0xfb00, 0xfb06}, // ideographs, Latin ligatures
    {0xfe30, 0xfe4f}, {0xff01, 0xff9f},
    {0xffe0, 0xffe6}, // widths
};

} // namespace

bool is_plain_script(char32_t character) {
  return std::any_of(std::begin(plain), std::end(plain), [character](const Range& range) {
    return character >= range.first && character <= range.last;
  });
}

} // namespace shankline
