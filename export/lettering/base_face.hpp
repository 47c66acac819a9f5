// The two faces that every PDF carries, so that no viewer has to have any: Shankline Sans, regular
// and bold. export/faces holds them, their licence and the script that made them.
#pragma once

#include "export/lettering/text_style.hpp"

#include <array>
#include <span>
#include <string>
#include <string_view>

namespace shankline {

/// The face is as wide as Helvetica, character by character. Its codes are those of winansi_byte.
struct BaseFace {
  static constexpr std::size_t first_code = 0x20;

  std::string_view name;                   ///< in the PDF
  std::span<const unsigned char> deflated; ///< a TrueType file, as the filter FlateDecode reads it
  int length;                              ///< of that file, bytes
  std::array<int, 4> box; ///< around all glyphs: left, low, right, high; thousandths of the em
  int stem;               ///< how wide an upright one is, thousandths of the em
  std::array<short, 0x100 - first_code> widths; ///< from first_code on, thousandths of the em

  /// Thousandths of the em.
  double width(std::string_view codes) const;
};

const BaseFace& base_face(Weight weight);

/// A PDF says this of the face (ISO 32000-1, 9.6.3 and 9.8): the entries of its font, all but
/// FontDescriptor, and of its descriptor, all but FontFile2.
std::string font_entries(const BaseFace& face);
std::string descriptor_entries(const BaseFace& face);

} // namespace shankline
