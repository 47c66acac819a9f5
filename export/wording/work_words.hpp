// Describes the work on one shoe, with values and tolerances, for the pages that people read.
#pragma once

#include "export/page/sheet_page.hpp"
#include "geometry/solution/solution.hpp"

#include <string>
#include <vector>

namespace shankline {

/// One foot to describe. The pointers are never null and do not own: both objects must outlive it.
struct FootWork {
  const FootSolution* solution;
  const FootOrder* order;

  bool is_left() const { return solution->side == FootSide::left; }
};

/// A length in mm with its tolerance: "222.0 ±1.2", with inches beside it if the context asks for
/// them.
std::string with_tolerance(double mm, const SheetContext& context);

/// A thickness that has to be left, with its tolerance: to hundredths and rounded up, "1.85 ±0.2".
/// Inches are rounded up too, and left out where they would lie outside the tolerance.
std::string thickness_with_tolerance(double mm, const SheetContext& context);

/// Like with_tolerance, but to whole millimetres, for cloth, ribbon and string: "222 ±1.2".
std::string whole_with_tolerance(double mm, const SheetContext& context);

/// Lists the estimates that replace missing readings, in mm: "ball length, left: 174.6 ±6.6". An
/// estimate that both feet share is one line: "ball length, both feet: 174.6 ±6.6". The ± is two
/// standard deviations. `with_source` adds where it comes from: "174.6 ±6.6 (from foot length)".
std::vector<std::string> estimate_lines(const std::vector<FootWork>& feet, bool with_source,
                                        Units units);

/// How far the first cut stops short of the final one, mm: the difference of the two ruler numbers
/// that are printed. Without a first cut it is the hold-back as solved, not rounded.
double shown_hold_back(const SolvedTrim& trim);

/// A place on the board, as the readings of the order count it: in whole mm from the back of the
/// heel, or from the shoe's back seam if the readings were taken in the shoe.
std::string posed(BoardStation station, const FootSolution& foot, Units units);

/// Names the work other than cutting the board and lowering the sides: "liner, darning". Empty if
/// there is no other work.
std::string other_work(const FootSolution& foot);

/// The length of the yarn: "2.1 m", and its mass if the order gives the yarn's count in tex:
/// "2.1 m, 0.11 g".
std::string yarn_text(const SolvedDarning& darning);

/// How often a ribbon that is sewn as a ring goes round the ankle: "twice", "3 times", or "twice or
/// 3 times (left, right)" if the feet differ. Empty if there is no ring.
std::string wraps_words(const std::vector<FootWork>& feet);
/// How many layers of the board are cut: "1 of 2".
std::string of_layers(const CutLayers& layers);

/// True if a cut board is raised from the sole for it: in the shoe, or cut by the layer. Only then
/// a lift limit means something.
bool is_lifted(const FootSolution& foot);

/// "both sides 76 to 176, in full 106 to 146 along the sole edge": where each lowered side begins
/// and ends, from the back seam. Empty if no side is lowered.
std::string side_place_words(const FootWork& foot, const SheetContext& context);

/// "big-toe side 33.1 at 126; little-toe side 35.0 at 128; back seam 55.0": the lowest height of
/// each lowered side and its place, and the back where it is lowered. Empty if no side is lowered.
std::string side_height_words(const FootWork& foot, const SheetContext& context);

// Each function below describes one alteration of the foot, in a phrase without the alteration's
// name: "222.0 ±1.2 long, 53.0 ±0.8 wide; adhesive on the face that goes down". It returns an empty
// text if the order does not ask for that alteration.
std::string layer_words(const FootWork& foot);
std::string thinned_words(const FootWork& foot, const SheetContext& context);
std::string board_end_words(const FootWork& foot, const SheetContext& context);
std::string filler_words(const FootWork& foot, const SheetContext& context);
std::string side_depth_words(const FootWork& foot, const SheetContext& context);
std::string side_edge_words(const FootWork& foot, const SheetContext& context);
std::string liner_words(const FootWork& foot, const SheetContext& context);
std::string darning_words(const FootWork& foot, const SheetContext& context);
std::string ribbon_words(const FootWork& foot, const SheetContext& context);
std::string elastic_words(const FootWork& foot, const SheetContext& context);
std::string heel_loop_words(const FootWork& foot, const SheetContext& context);
std::string tuck_words(const FootWork& foot, const SheetContext& context);
std::string drawstring_words(const FootWork& foot, const SheetContext& context);
std::string casing_words(const FootWork& foot, const SheetContext& context);

} // namespace shankline
