#include "geometry/order/finding.hpp"

#include <algorithm>

namespace shankline {

bool has_error(const Findings& findings) {
  return std::any_of(findings.begin(), findings.end(),
                     [](const Finding& f) { return f.severity == Severity::error; });
}

} // namespace shankline
