// Labels in a column beside what they name, each as near to its own line as the others let it.
#pragma once

#include "export/page/sheet_page.hpp"

#include <string>
#include <vector>

namespace shankline {

/// A line named beside a part; millimetres on the page.
struct ColumnLabel {
  LineKind kind;
  Point anchor; ///< the end of the line that is named
  std::string words;
  Weight weight = Weight::regular;
  double y = 0;      ///< the middle of the words
  double height = 0; ///< of the words, all their lines
  // draw_labels() sets these two.
  double size = 0;
  std::vector<std::string> lines = {};
};

/// Sorts by the anchors, downwards, and sets every y between `low` and `high`: moved from their
/// anchors by as little (in squares) as it needs to keep them 5.8 mm apart, or farther where their
/// own heights ask for it. Where they find no room they stand closer, down to 4.7; those that still
/// find none run out at the top.
void spread(std::vector<ColumnLabel>& labels, double low, double high);

/// The column of labels beside a part, mm on the page.
struct LabelColumn {
  double left = 0;
  double right = 0;
  double low = 0;
  double high = 0;
};

/// Spreads the labels and draws them: key and pointer in one, since each begins with a sample of
/// the line that it names.
void draw_labels(SheetPage& page, std::vector<ColumnLabel> labels, const LabelColumn& column);

} // namespace shankline
