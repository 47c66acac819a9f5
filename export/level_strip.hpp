// The wall of one side laid level, with the words that lie on it and beside it.
#pragma once

#include "export/sheet_page.hpp"
#include "export/template.hpp"
#include "geometry/solution.hpp"

#include <string>
#include <utility>
#include <vector>

namespace shankline {

/// The strip with its chord level, outside face up, and the words that belong to it: "level
/// coordinates", the back seam's foot at the origin. Seen from outside, the left foot's big-toe
/// side and the right foot's little-toe side point to the right.
class LevelStrip {
public:
  static constexpr const char* sole_edge = "SOLE EDGE"; ///< stands below all of the strip

  LevelStrip(const SheetContext& context, FootSide foot, const SolvedSide& side,
             const FootOrder& order);

  const Placement& placement() const { return level_; }
  const Box& box() const { return box_; } ///< of the lines
  double width() const { return box_.right - box_.left; }
  double height() const { return box_.top - box_.bottom; }
  const std::vector<Stroke>& part_lines() const { return part_lines_; }
  const std::vector<Stroke>& lines() const { return lines_; }
  const std::vector<Stroke>& leaders() const { return leaders_; }
  const std::vector<Text>& texts() const { return texts_; }

  Point at(double t, double height) const { return level_(side_.wall.flat(t, height)); }

  /// Where along the sole edge the strip is at this x.
  double along_at(double x) const;

  /// What says which piece this is, in the middle of what stays, clear of the stitching and of the
  /// marks.
  std::vector<Text> label(double t, double width, std::size_t page, const std::string& tile) const;
  std::vector<Text> label(std::size_t page) const;

private:
  /// No wider than `width`, as many as there is something to say.
  std::vector<LabelLine> label_lines(double width, std::size_t page, const std::string& tile) const;

  /// What is free over the whole width of the words, however the strip bends: base and top.
  std::pair<double, double> clear_heights(double t, double half) const;

  void text(Point at, std::string words, double size, Weight weight, double angle = 0);

  /// The longest stretch in the middle of the side without a sewn end.
  std::pair<double, double> free_stretch() const;

  /// "ribbon" or "elastic" in its place, where there is room.
  void sewn_names();

  void names();

  /// How high the lowest place is, above the stock line.
  void low_point();

  /// Upright words outside one end of the strip, clear of it however it leans on the page.
  void beside_end(double t, const char* words, Weight weight, double outward);

  const SheetContext& context_;
  FootSide foot_;
  const SolvedSide& side_;
  std::vector<Stroke> part_lines_; ///< in the part's own frame
  std::vector<Stroke> lines_;
  std::vector<Stroke> leaders_;
  std::vector<Text> texts_;
  Placement level_{};
  Box box_ = nowhere;
  bool toes_right_ = true;
};

} // namespace shankline
