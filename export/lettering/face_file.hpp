// Facts about a TrueType file that must be known before it is loaded.
#pragma once

#include "export/lettering/lettering.hpp"

namespace shankline {

/// Several faces in one file, chosen by number.
bool is_collection(const FaceFile& face);

/// Returns whether fsType of table OS/2 (the OpenType specification) allows embedding as outlines,
/// cut down to the glyphs in use. False if the file is missing or has no such table.
bool may_be_embedded(const FaceFile& face);

} // namespace shankline
