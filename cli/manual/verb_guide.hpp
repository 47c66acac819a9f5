// The one table of verbs: what each is called, does, and looks like in use.
#pragma once

#include "cli/job/request.hpp"

#include <span>
#include <string_view>

namespace shankline {

struct VerbGuide {
  Verb verb;
  std::string_view name;
  std::string_view summary; ///< one line
  std::string_view
      example; ///< lines that work as written, beside order.yaml, worn.yaml, measured.yaml, orders/
};

std::span<const VerbGuide> verb_guides(); ///< in the order in which a newcomer meets them
const VerbGuide& verb_guide(Verb verb);
const VerbGuide* verb_guide(std::string_view name); ///< or null

} // namespace shankline
