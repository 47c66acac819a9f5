// A drawing as the archive keeps it, so that sheets are printed again as they were drawn, whatever
// the solver has learnt since.
//
// Numbers are kept to the last bit, line kinds by name. The form has a number of its own:
// "shankline-drawing/2", the length of what is drawn and its SHA-256, both before it is deflated,
// then that, deflated (RFC 1950). "shankline-drawing/1" of version 0.1.0 has no SHA-256; its
// entry's own digest guards it. Neither depends on what a PDF writer makes of it.
#pragma once

#include "export/drawing/drawing.hpp"

#include <stdexcept>
#include <string>
#include <string_view>

namespace shankline {

/// These bytes are no drawing that this version can read.
struct DrawingUnreadable : std::runtime_error {
  using std::runtime_error::runtime_error;
};

/// These bytes are a drawing, but not the one that was saved.
struct DrawingCorrupt : DrawingUnreadable {
  using DrawingUnreadable::DrawingUnreadable;
};

std::string drawing_bytes(const Drawing& drawing);

/// Throws DrawingUnreadable, for hostile bytes too, and DrawingCorrupt where the SHA-256 is another
/// one; never takes more than 64 MB for them.
Drawing drawing_of(std::string_view bytes);

} // namespace shankline
