// A drawing for one printer: drawn wrong by as much as that printer is wrong, the other way.
#pragma once

#include "export/drawing/drawing.hpp"
#include "geometry/uncertainty/page_correction.hpp"

#include <stdexcept>
#include <string>

namespace shankline {

struct PrinterDrawing {
  std::string name; ///< of the printer, ASCII
  PageCorrection correction;
};

/// The sheet cannot be drawn for that printer: part of it would have to lie off the page.
struct OffThePage : std::runtime_error {
  using std::runtime_error::runtime_error;
};

/// Every line is moved by the inverse of what the printer does, about the middle of its page; texts
/// move with it and keep their size. Each page says which printer it is for.
Drawing corrected_drawing(Drawing drawing, const PrinterDrawing& printer);

/// One page of such a drawing.
Page corrected_page(Page page, const PrinterDrawing& printer);

} // namespace shankline
