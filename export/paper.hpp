// Sheets of paper, millimetres.
#pragma once

#include <optional>
#include <span>
#include <string_view>

namespace shankline {

struct Paper {
  std::string_view name; ///< as in --paper
  double width = 0;
  double height = 0;
};

/// Portrait. A4 is ISO 216; Letter is 8.5 × 11 in.
std::span<const Paper> papers();
std::optional<Paper> paper_named(std::string_view name);

/// The same sheet turned a quarter.
Paper landscape(const Paper& paper);

/// Nothing is drawn nearer to the paper's edge: many printers cannot reach it.
inline constexpr double unprintable = 8;

} // namespace shankline
