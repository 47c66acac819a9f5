// A page to look at: where boards were found good against where the lines had been, and how good
// the lines have been month by month.
#pragma once

#include "export/page/sheet_set.hpp"

#include <string>
#include <vector>

namespace shankline {

/// One shoe whose board was found good. Places in mm from the back of the heel.
struct FoundDot {
  double predicted = 0;
  double U = 0; ///< of the prediction, mm at 95 %
  double found = 0;
};

struct LearnedPage {
  std::string basis;                            ///< on what it is based, at the head
  std::vector<FoundDot> dots;                   ///< one a shoe
  std::vector<std::string> sentences;           ///< beside the picture
  std::vector<std::vector<std::string>> months; ///< table, its first row the head
  std::vector<std::string> cautions;
};

/// One page; a second one where there are more months or cautions than it holds.
SheetSet learned_sheet(const LearnedPage& what, const SheetWish& wish);

} // namespace shankline
