// Reads back the SVG and DXF files of single parts: the subset that a plotter needs, and a throw at
// anything else.
#pragma once

#include "geometry/plane/point.hpp"

#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

namespace shankline::tests {

struct PartLine {
  std::string layer;
  Polyline points; ///< mm from the lower left corner, y upwards
  bool closed = false;
};

struct PartText {
  std::string layer;
  std::string words; ///< as in the file, still escaped
  Point at;
};

struct ReadPart {
  double width = 0; ///< of the sheet, mm
  double height = 0;
  Point low; ///< $EXTMIN and $EXTMAX of a DXF
  Point high;
  std::vector<PartLine> lines; ///< in the file's order
  std::vector<PartText> texts;
  std::vector<std::string> layers; ///< in the file's order
};

ReadPart read_svg(std::string_view bytes);
ReadPart read_dxf(std::string_view bytes);

/// Grey pixels of a picture, ten a millimetre, looked at from its lower left corner.
class TenthPicture {
public:
  /// A PNG, taken apart by mutool.
  explicit TenthPicture(const std::filesystem::path& png, double height);

  /// Middles of the dark runs along the column at x, upwards, or along the row at y.
  std::vector<double> dark_along_column(double x) const;
  std::vector<double> dark_along_row(double y) const;

private:
  bool dark(std::size_t column, std::size_t row) const;
  std::size_t width_ = 0;
  std::size_t rows_ = 0;
  double height_;
  std::string grey_;
};

} // namespace shankline::tests
