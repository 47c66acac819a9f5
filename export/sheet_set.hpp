// Every sheet that an order asks for, in order, as one drawing.
#pragma once

#include "export/drawing.hpp"
#include "export/length_text.hpp"
#include "export/template.hpp"
#include "geometry/break_chart.hpp"
#include "geometry/finding.hpp"
#include "geometry/solution.hpp"

#include <string>
#include <vector>

namespace shankline {

struct SheetSet {
  Drawing drawing;
  std::vector<Template> templates;
  std::vector<Proof> proofs;
  /// Characters of the order's texts that no face here can show; on the page each is a '?'.
  std::vector<std::string> unshown;
};

struct FootChart {
  FootSide side = FootSide::left;
  BreakChart chart;
};

struct SheetWish {
  Paper paper;
  Units units = Units::mm;
  std::string digest; ///< of the order's text, short
};

/// Those of the order's texts that no face here can show.
std::vector<std::string> unshown_characters(const Order& order);

/// The break charts alone, a page a foot.
SheetSet chart_set(const Order& order, const Solution& solution,
                   const std::vector<FootChart>& charts, const SheetWish& wish);

/// `solution` has at least one foot. Cautions are the order's own and the solver's.
SheetSet sheet_set(const Order& order, const Solution& solution, const Findings& cautions,
                   const SheetWish& wish);

} // namespace shankline
