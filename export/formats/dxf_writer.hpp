// A part as DXF R12 (AC1009), which every plotter and laser reads.
#pragma once

#include "export/formats/part_drawing.hpp"

#include <string>

namespace shankline {

/// Millimetres; R12 has no place to say so but a comment. A layer for every line kind and one,
/// `label`, for the words; POLYLINE with VERTEX and SEQEND, TEXT, nothing else. $EXTMIN and $EXTMAX
/// are those of the lines. ASCII; the same part gives the same bytes.
std::string dxf_bytes(const PartDrawing& part, const std::string& title);

} // namespace shankline
