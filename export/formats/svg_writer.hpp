// A part as SVG (Scalable Vector Graphics 1.1, W3C), for a plotter or a laser.
#pragma once

#include "export/formats/part_drawing.hpp"

#include <string>
#include <string_view>

namespace shankline {

/// One unit is one millimetre. A group for every line kind, its id the kind's name, its colour the
/// kind's own, and two for words, `label` and `line_names`; each says that it is a layer. Plain
/// polyline, polygon and text elements without transformations, but for words that stand upright.
/// The same part gives the same bytes.
std::string svg_bytes(const PartDrawing& part, const std::string& title);

/// `words` as the text of an XML element or attribute: control characters become spaces, bytes that
/// are no UTF-8 become U+FFFD.
std::string xml_text(std::string_view words);

} // namespace shankline
