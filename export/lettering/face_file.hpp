// Facts about a TrueType file that must be known before it is loaded.
#pragma once

#include "export/lettering/lettering.hpp"

namespace shankline {

/// Several faces in one file, chosen by number.
bool is_collection(const FaceFile& face);

/// By fsType of table OS/2 (the OpenType specification): may be embedded, cut down to the glyphs
/// that are used, as outlines. False where the file is none or has no such table.
bool may_be_embedded(const FaceFile& face);

} // namespace shankline
