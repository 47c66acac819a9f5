// The words and figures that go with the template of a side, or of both sides of a foot, on one
// page.
#pragma once

#include "export/drawing/template.hpp"
#include "export/page/sheet_page.hpp"
#include "export/templates/level_strip.hpp"
#include "geometry/solution/solution.hpp"

#include <array>
#include <optional>
#include <string>
#include <vector>

namespace shankline {

/// One side of a foot, or both: not null, the big-toe side first.
using SidesOnPage = std::vector<const SolvedSide*>;

/// Table, key, steps and proof of scale, wherever there is room for them.
class SidePage {
public:
  static constexpr double bar_column = 12; ///< mm along the right edge, for the upright bar
  static constexpr double widest_column = 15;
  static constexpr double narrowest_column = 9.5; ///< of "41.0" in large type
  static constexpr double inch_column = 12.5;     ///< of "1 15/16" in type that is still read

  SidePage(const SheetContext& context, FootSide foot, SidesOnPage sides, const FootOrder& order,
           std::size_t number, const Paper& paper, double widest, const std::string& tile = {});

  SheetPage& sheet() { return page_; }
  const SheetPage& sheet() const { return page_; }
  double top() const { return top_; } ///< below the title strip
  double room_right() const { return page_.right() - bar_column; }

  void put(const std::vector<Stroke>& lines, const StripPosition& position);
  void put(const std::vector<Text>& texts, const StripPosition& position);

  double table_width(double column) const;
  double table_height(double width) const; ///< from above its heading to below its last row

  /// A table of the same lines as ruler numbers: `y` is the foot of its first line of words.
  /// Returns the y below it. mm.
  double table(double left, double y, double width);

  /// Writes the meaning of each line. Returns the y below.
  double key(double left, double top, double width);
  double key_height(double width) const;

  /// Writes the steps of working with the paper, and the caution. Returns the y below.
  double steps(double left, double top, double width);
  double steps_height(double width) const;

  /// Writes the meaning of each line, and the steps. Returns the y below.
  double notes(double left, double top, double width);
  double notes_height(double width) const;

  /// Sets the notes smaller, for a page with little room below the side.
  void tighten_notes() { tight_ = 0.9; }
  /// Names of lines that do not fit on theirs end in "…": the table says the same.
  void shorten_key() { shortened_ = true; }

  Template part(const SolvedSide& side, const Placement& place, std::vector<Stroke> lines,
                std::optional<TilePlace> tile = {}) const;
  Page finish() && { return std::move(page_).finish(); }

private:
  struct KeyLine {
    LineKind kind;
    std::string words;
    Weight weight = Weight::regular;
  };
  struct Row;

  std::vector<KeyLine> key_lines() const;
  std::string lowered_words() const;
  std::array<std::string, 3> step_words() const;
  double table_head() const;
  std::vector<double> stations() const;
  std::vector<Row> rows_of(const SolvedSide& side, double column) const;

  const SheetContext& context_;
  FootSide foot_;
  SidesOnPage sides_;
  const FootOrder& order_;
  const SideWish& wish_;
  SheetPage page_;
  double top_ = 0;   ///< mm, below the title strip
  double tight_ = 1; ///< factor of the size and pitch of the notes
  bool shortened_ = false;
};

} // namespace shankline
