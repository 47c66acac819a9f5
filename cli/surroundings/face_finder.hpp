// Faces of this machine for what the base faces of a PDF cannot show.
#pragma once

#include "export/lettering/lettering.hpp"

namespace shankline {

/// Asks fontconfig, which is loaded with the first question and not before: it takes longer than a
/// whole cut. Upright TrueType faces; the order does not depend on the locale. Finds nothing where
/// fontconfig is not installed.
FindFaces faces_of_this_machine();

} // namespace shankline
