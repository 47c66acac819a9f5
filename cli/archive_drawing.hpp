// A drawing as the archive keeps it, so that sheets are printed again as they were drawn, whatever
// the solver has learnt since.
//
// Numbers are kept to the last bit, line kinds by name. The form has a number of its own:
// "shankline-drawing/1", the length of what follows when inflated, then that, deflated (RFC 1950).
#pragma once

#include "export/drawing.hpp"

#include <stdexcept>
#include <string>
#include <string_view>

namespace shankline {

/// These bytes are no drawing that this version can read.
struct DrawingUnread : std::runtime_error {
  using std::runtime_error::runtime_error;
};

std::string drawing_bytes(const Drawing& drawing);

/// Throws DrawingUnread, for hostile bytes too; never takes more than 64 MB for them.
Drawing drawing_of(std::string_view bytes);

} // namespace shankline
