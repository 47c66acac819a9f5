// Sheets and rolls of paper, millimetres.
#pragma once

#include "export/drawing/inch.hpp"
#include "geometry/numerics/result.hpp"

#include <span>
#include <string>
#include <string_view>

namespace shankline {

/// A page's own size, or the paper that pages are to be made of.
struct Paper {
  std::string_view name; ///< as in --paper
  double width = 0;
  double height = 0; ///< of a roll: none, a page of it is as long as its part needs
  bool roll = false;
};

/// The cut sheets, portrait. A3 and A4 are ISO 216; Letter is 8.5 × 11 in, Legal 8.5 × 14 in,
/// Tabloid 11 × 17 in.
std::span<const Paper> papers();

/// A roll is no narrower than the shorter side of A4: the furniture of every page needs that much.
/// The widest in use are a little under 1600.
inline constexpr double narrowest_roll = 210;
inline constexpr double widest_roll = 1600;

/// ISO 32000-1, annex C.2: a page side of 14400 units is the most that every reader takes.
inline constexpr double longest_page = 14400 * mm_per_inch / 72;

/// "a4", or "roll:914" in mm, "roll:91.4cm", "roll:36in", in capitals too; or, in words, what would
/// have done.
Result<Paper> read_paper(std::string_view any_case);

/// The paper's name in the form that read_paper takes.
std::string written(const Paper& paper);

/// Returns the same sheet turned by a quarter.
Paper landscape(const Paper& paper);

/// The page for a part that wants this much height and, of a roll, goes along its width: the sheet
/// itself, portrait.
Paper upright_page(const Paper& paper, double height);

/// The page for text: a roll is cut to the length of A4.
Paper text_page(const Paper& paper);

/// Pages keep this distance from the paper's edge, mm: many printers cannot print nearer to it.
inline constexpr double unprintable = 8;

} // namespace shankline
