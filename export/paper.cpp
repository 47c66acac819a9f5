#include "export/paper.hpp"

#include <algorithm>
#include <array>

namespace shankline {
namespace {

constexpr double inch = 25.4;
constexpr std::array sheets{
    Paper{"a4", 210, 297},
    Paper{"letter", 8.5 * inch, 11 * inch},
};

} // namespace

std::span<const Paper> papers() {
  return sheets;
}

std::optional<Paper> paper_named(std::string_view name) {
  const auto found = std::find_if(sheets.begin(), sheets.end(),
                                  [name](const Paper& paper) { return paper.name == name; });
  return found == sheets.end() ? std::nullopt : std::optional<Paper>(*found);
}

Paper landscape(const Paper& paper) {
  return {paper.name, paper.height, paper.width};
}

} // namespace shankline
