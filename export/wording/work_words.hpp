// The work on one shoe, in the words of the bench, with values and tolerances.
#pragma once

#include "export/page/sheet_page.hpp"
#include "geometry/solution/solution.hpp"

#include <string>
#include <vector>

namespace shankline {

struct FootWork {
  const FootSolution* solution;
  const FootOrder* order;

  bool is_left() const { return solution->side == FootSide::left; }
};

/// "222.0 ±1.2", with inches where the context has them.
std::string with_tolerance(double mm, const SheetContext& context);

/// Like with_tolerance, for cloth and string: whole millimetres, "222 ±1.2".
std::string whole_with_tolerance(double mm, const SheetContext& context);

/// Lists the estimates that replace missing readings, one line each; once if both feet have the
/// same: "ball length, both feet: 174.6 ±6.6", ± being two standard deviations; or with its source:
/// "ball length, both feet: 174.6 ±6.6 (from foot length)".
std::vector<std::string> estimate_lines(const std::vector<FootWork>& feet, bool with_source,
                                        Units units);

/// The first cut's distance short of the final one, mm: the difference of the two ruler numbers
/// that are shown. Exact if there is no first cut.
double shown_hold_back(const SolvedTrim& trim);

/// A board station as the order's pose counts it, whole millimetres.
std::string posed(BoardStation station, const FootSolution& foot, Units units);

/// Names the work besides the cut and the sides: "liner, darning"; empty if there is none.
std::string other_work(const FootSolution& foot);

/// "2.1 m" of yarn, and its mass where the count is known: "2.1 m, 0.11 g".
std::string yarn_text(const SolvedDarning& darning);

/// "twice", "3 times", of rings round the ankle.
std::string wraps_words(const std::vector<FootWork>& feet);
std::string of_layers(const CutLayers& layers); ///< "1 of 2"

// Each is empty where the order does not ask for it.
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
