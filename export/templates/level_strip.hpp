// The wall of one side laid level, with the words that lie on it and beside it.
#pragma once

#include "export/drawing/free_space.hpp"
#include "export/drawing/template.hpp"
#include "export/page/sheet_page.hpp"
#include "geometry/solution/solution.hpp"

#include <string>
#include <utility>
#include <vector>

namespace shankline {

/// The placement of the level strip on the page: turned by an angle, then moved.
struct StripPosition {
  Placement place;
  double angle = 0; ///< radians

  StripPosition(const Point& origin, double turn) : place(turned(origin, turn)), angle(turn) {}
  Text operator()(Text text) const;
};

/// The place for the names of the strip's edges: beside it, or on the paper that is cut out as far
/// as they fit there.
enum class EdgeNames { beside, on_it };

/// The strip with its chord level, outside face up, and the words that belong to it: "level
/// coordinates", the back seam's foot at the origin. Seen from outside, the left foot's big-toe
/// side and the right foot's little-toe side point to the right.
class LevelStrip {
public:
  static constexpr const char* sole_edge = "SOLE EDGE"; ///< stands below all of the strip

  LevelStrip(const SheetContext& context, FootSide foot, const SolvedSide& side,
             const FootOrder& order, EdgeNames edge_names);

  const Placement& placement() const { return level_; }
  const Box& box() const { return box_; } ///< of the lines
  double width() const { return box_.right - box_.left; }
  double height() const { return box_.top - box_.bottom; }
  const std::vector<Stroke>& part_lines() const { return part_lines_; }
  const std::vector<Stroke>& lines() const { return lines_; }
  const std::vector<Stroke>& leaders() const { return leaders_; }
  const std::vector<Text>& texts() const { return texts_; }

  Point at(double t, double height) const { return level_(side_.wall.flat(t, height)); }

  /// The distance along the sole edge, mm, where the strip has this x.
  double along_at(double x) const;

  /// The words that name this piece, in the middle of the part that is kept, clear of the stitching
  /// and of the marks.
  std::vector<Text> label(double t, double width, std::size_t page, const std::string& tile) const;
  std::vector<Text> label(std::size_t page) const;

  /// The box round the lines, the words and this label, in level coordinates, mm.
  Box extent(const std::vector<Text>& label) const;

  /// Marks the area of the strip and its words as taken. Returns false if a word would leave
  /// `room`.
  bool take_room(FreeSpace& space, const StripPosition& position, const Box& room,
                 std::size_t page) const;

private:
  /// Returns the lines of the label, each at most `width` mm wide.
  std::vector<LabelLine> label_lines(double width, std::size_t page, const std::string& tile) const;

  /// The free heights, base and top, over the whole width of the words, whatever the strip's bend;
  /// mm.
  std::pair<double, double> clear_heights(double t, double half) const;

  void text(Point at, std::string words, double size, Weight weight, double angle = 0);

  /// The longest stretch in the middle of the side without a sewn end.
  std::pair<double, double> free_stretch() const;

  /// "ribbon" or "elastic" in its place, where there is room.
  void sewn_names();

  void names();

  /// Names the lowest place and its height, above the stock line.
  void low_point();

  /// Upright words at one end of the strip; beside it they are clear of it however it leans on the
  /// page.
  void end_name(double t, const char* words, Weight weight, double outward);
  bool on_end(double t, const char* words, Weight weight, double inward);

  void sole_edge_name();

  /// Is the place of these words free of lines and of other words?
  bool is_free(const Text& text) const;

  const SheetContext& context_;
  FootSide foot_;
  const SolvedSide& side_;
  EdgeNames edge_names_;
  std::vector<Stroke> part_lines_; ///< in the part's own frame
  std::vector<Stroke> lines_;
  std::vector<Stroke> leaders_;
  std::vector<Text> texts_;
  Placement level_{};
  Box box_ = nowhere;
  bool toes_right_ = true;
};

} // namespace shankline
