// Is a sheet legible? No text lies on another text or on a line, nothing lies off the page.
#pragma once

#include "export/drawing/drawing.hpp"

#include <string>
#include <vector>

namespace shankline::tests {

/// One line for each fault, empty for a legible page.
std::vector<std::string> layout_faults(const Page& page);

} // namespace shankline::tests
