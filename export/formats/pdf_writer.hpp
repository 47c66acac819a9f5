// A drawing as a PDF file's bytes.
#pragma once

#include "export/drawing/drawing.hpp"

#include <cstddef>
#include <functional>
#include <stdexcept>
#include <string>

namespace shankline {

/// Something in the drawing cannot be put on its page: a fault of the program, not of the order.
struct DrawingFault : std::runtime_error {
  using std::runtime_error::runtime_error;
};

/// Same drawing, same bytes: no clock, no random identifiers. Every number is finite and on the
/// page, or this throws DrawingFault before anything is written.
std::string pdf_bytes(const Drawing& drawing);

/// Writes a drawing whose pages are made one by one, from 0 to `pages`, so that only one of them is
/// in memory. The pages in `frame` are not written.
std::string pdf_bytes(const Drawing& frame, std::size_t pages,
                      const std::function<Page(std::size_t)>& page);

} // namespace shankline
