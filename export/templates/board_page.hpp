// Shared by the page of a board that is cut and that of a board that is only thinned: the board's
// place, the names of its sides, its ruler, and the notes in the column beside it.
#pragma once

#include "export/drawing/template.hpp"
#include "export/page/sheet_page.hpp"
#include "geometry/solution/solution.hpp"

#include <cstddef>
#include <string>
#include <vector>

namespace shankline {

inline constexpr double least_board_size = 2.5; // mm, of words on the template: 7 pt are 2.47 mm

/// Base of both layouts. Lengths are in mm, on the page unless a station is meant. `context` and
/// `foot` must outlive it.
class BoardPage {
protected:
  /// `length` is how far the board is drawn where the paper has room: a roll gives it.
  BoardPage(const SheetContext& context, const FootSolution& foot, double length,
            std::size_t number, const std::string& warning);

  bool left_foot() const { return foot_.side == FootSide::left; }
  double half(Edge edge, double station) const { return foot_.outline.half_width(edge, station); }
  /// Half the widest place of that side between two stations.
  double widest(Edge edge, double from, double to) const;

  /// The part of `length`, from the heel end, that fits on the paper, mm.
  double room_for(double length) const;

  /// Puts `lines`, in the board's frame, on the page: heel end down, toes up, foot side up, so that
  /// the big-toe side of the left board is on the right. Throws DoesNotFit for a board that is too
  /// wide.
  void place(std::vector<Stroke> lines);

  void name_ends(double top_station, const std::string& toe_words);
  static constexpr double side_name_size = 3.2; ///< mm
  /// Written along both edges, about `station`.
  void name_sides(double station);
  /// The stroke of the printed ruler at a whole millimetre; long ones at tens and fives.
  void ruler_stroke(int mm);

  /// Writes from the foot of the column upwards: cautions, and above them the steps under a
  /// heading. Returns the top of both.
  double notes(const std::string& heading, const std::vector<std::string>& steps,
               const std::string& caution);

  const SheetContext& context_;
  const FootSolution& foot_;
  SheetPage page_;
  Placement place_{};
  std::vector<Stroke> board_; ///< in the board's own frame
  std::vector<Box> spared_;   ///< where no filling goes
  double top_ = 0;            ///< below the title strip
  double centre_ = 0;         ///< x of the board's centre line
  double column_ = 0;         ///< x where the column of words begins
  double right_ = 0;          ///< x where it ends
};

} // namespace shankline
