#include "tests/geometry/all_figures.hpp"

#include <array>
#include <cmath>
#include <string>
#include <type_traits>
#include <variant>

namespace shankline::tests {
namespace {

/// Structs are taken apart by name, so that a new member does not compile unnoticed.
class Figures {
public:
  template <class... Values> void operator()(const Values&... values) { (look(values), ...); }
  FigureCount count() const { return count_; }

private:
  void look(double value) {
    ++count_.figures;
    if (!std::isfinite(value)) ++count_.not_finite;
  }
  template <class Whole>
  std::enable_if_t<std::is_integral_v<Whole> || std::is_enum_v<Whole>> look(Whole) {}
  void look(const std::string&) {}
  void look(std::string_view) {}
  template <class Value> void look(const std::optional<Value>& value) {
    if (value) look(*value);
  }
  template <class Value> void look(const std::vector<Value>& values) {
    for (const Value& value : values)
      look(value);
  }
  template <class Value, std::size_t count> void look(const std::array<Value, count>& values) {
    for (const Value& value : values)
      look(value);
  }

  void look(const Point& p) { (*this)(p.x, p.y); }
  void look(const BoardOutline& outline) {
    look(outline.length());
    look(outline.open_line(outline.last_station()));
  }
  void look(const MonotoneCubic& curve) { (*this)(curve.x(), curve.slopes()); }
  void look(const SideWall& wall) { look(wall.lean()); }
  void look(const CutLine& line) {
    const auto& [centre, medial, lateral, medial_end, lateral_end] = line;
    (*this)(centre, medial, lateral, medial_end, lateral_end);
  }
  void look(const Window& window) {
    const auto& [from, to] = window;
    (*this)(from, to);
  }
  void look(const Arch& arch) {
    const auto& [to_break, to_chord_end, width_front, width_heel, bend] = arch;
    (*this)(to_break, to_chord_end, width_front, width_heel, bend);
  }
  void look(const SolvedArch& solved) {
    const auto& [ball, heel_front, break_at, break_medial, break_lateral, arch, depth, deepest] =
        solved;
    (*this)(ball, heel_front, break_at, break_medial, break_lateral, arch, depth, deepest);
  }
  void look(const OtherRules& rules) {
    const auto& [heel_front, three_quarter, short_reach, tucked_reach] = rules;
    (*this)(heel_front, three_quarter, short_reach, tucked_reach);
  }
  // A source that is known has as many degrees of freedom as one likes.
  void look(const Source& source) {
    look(source.u);
    look_at_freedom(source.freedom);
  }
  void look(const Uncertain& uncertain) {
    const auto& [value, u, freedom, parts] = uncertain;
    (*this)(value, u, parts, uncertain.expanded());
    look_at_freedom(freedom);
  }
  void look_at_freedom(double freedom) { look(std::isnan(freedom) ? freedom : 0.0); }
  void look(const TrimDoubt& doubt) {
    const auto& [sources, board, station, past_tuck, before_stop, breaks_apart, stop,
                 heel_front_line] = doubt;
    (*this)(sources, board, station, past_tuck, before_stop, breaks_apart, stop, heel_front_line);
  }
  void look(const RepeatGain& gain) {
    const auto& [key, name, estimated, share, now, once_more, twice_more] = gain;
    (*this)(key, name, estimated, share, now, once_more, twice_more);
  }
  void look(const LearnedLine& line) {
    const auto& [station, U, pairs, until, model, worn_good, too_far] = line;
    (*this)(station, U, pairs, until, model, worn_good, too_far);
  }
  void look(const SolvedTrim& trim) {
    const auto& [station, reach, window, skew, reason, final_cut, first_cut, stop, stop_from,
                 growing, held_from, may_enter_band, hold_back, usual_hold_back, right_U, witness,
                 lift_limit, bevel, end, corners, edge, rules, learned, doubt, gains] = trim;
    (*this)(station, reach, window, skew, reason, final_cut, first_cut, stop, stop_from, growing,
            held_from, may_enter_band, hold_back, usual_hold_back, right_U, witness, lift_limit,
            bevel, end, corners, edge, rules, learned, doubt, gains);
  }
  void look(const Piece& piece) {
    const auto& [outline, area] = piece;
    (*this)(outline, area);
  }
  void look(const SolvedPieces& pieces) {
    const auto& [kept, removed, kept_length, removed_length, kept_fraction] = pieces;
    (*this)(kept, removed, kept_length, removed_length, kept_fraction);
  }
  void look(const DepthProfile& profile) {
    const auto& [back, depth, rear_from, rear_to, front_from, front_to] = profile;
    (*this)(back, depth, rear_from, rear_to, front_from, front_to);
  }
  void look(const RulerHeight& height) {
    const auto& [along, station, stock, finished] = height;
    (*this)(along, station, stock, finished);
  }
  void look(const SewnEnd& end) {
    const auto& [what, t, width, top, low] = end;
    (*this)(what, t, width, top, low);
  }
  void look(const SolvedSide& side) {
    const auto& [edge, wall, stock, profile, wing, from, to, low, low_at, base_length, stock_length,
                 finished_length, uncovered, heights, sewn] = side;
    (*this)(edge, wall, stock, profile, wing, from, to, low, low_at, base_length, stock_length,
            finished_length, uncovered, heights, sewn);
  }
  void look(const SolvedSides& sides) {
    const auto& [medial, lateral, lean, top_line, casing, drawstring, casing_width] = sides;
    (*this)(medial, lateral, lean, top_line, casing, drawstring, casing_width);
  }
  void look(const Estimated& estimated) {
    const auto& [key, name, value, sd, source] = estimated;
    (*this)(key, name, value, sd, source);
  }
  void look(const CutLayers& layers) { look(layers.ratio()); }
  void look(const SolvedThinning& thinned) {
    const auto& [from, to, thickness, ratio] = thinned;
    (*this)(from, to, thickness, ratio);
  }
  void look(const SolvedFiller& filler) {
    const auto& [outline, length, width, thickness, area] = filler;
    (*this)(outline, length, width, thickness, area);
  }
  void look(const SolvedLiner& liner) {
    const auto& [outline, clearance, length, width, area] = liner;
    (*this)(outline, clearance, length, width, area);
  }
  void look(const SolvedDarning& darning) {
    const auto& [perimeter, height, raise, raise_at, raise_width, stitches, pitch, passes, wrap,
                 face, yarn, grams] = darning;
    (*this)(perimeter, height, raise, raise_at, raise_width, stitches, pitch, passes, wrap, face,
            yarn, grams, darning.height_at(perimeter / 3));
  }
  void look(const SolvedRibbons& ribbons) {
    const auto& [ring, girth, rise, wraps, wrap, worn, cut, pieces, marks, sewn_at] = ribbons;
    (*this)(ring, girth, rise, wraps, wrap, worn, cut, pieces, marks, sewn_at);
  }
  void look(const SolvedElastics& elastics) {
    const auto& [across, over, loop, sewn_at] = elastics;
    (*this)(across, over, loop, sewn_at);
  }
  void look(const SolvedTuck& tuck) {
    const auto& [depth, taken, down] = tuck;
    (*this)(depth, taken, down);
  }
  void look(const FootSolution& foot) {
    const auto& [side, frames, arch, outline, whole, trim, pieces, sides, estimated, layers,
                 thinned, filler, liner, darning, ribbons, elastics, tuck, to_cut] = foot;
    (*this)(side, frames.pose.mm, frames.board, arch, outline, whole, trim, pieces, sides,
            estimated, layers, thinned, filler, liner, darning, ribbons, elastics, tuck, to_cut);
  }

  template <class Place> void look(const ContactFiguresAt<Place>& figures) {
    const auto& [in_arch, break_at, break_from, break_to, peak, rivals, gap, gap_at, heel_gap,
                 bearing, force, pry, slack, clamp_moment] = figures;
    (*this)(in_arch, break_at, break_from, break_to, peak, rivals, gap, gap_at, heel_gap, bearing,
            force, pry, slack, clamp_moment);
  }
  void look(const ShoeContact& shoe) {
    const ContactCurves& c = shoe.solution.curves;
    (*this)(shoe.solution.figures, shoe.figures, c.u, c.gap, c.slope, c.moment, c.curvature, c.foot,
            shoe.solution.lifts_at, shoe.solution.touches_at);
    for (const ContactForce& force : shoe.solution.forces)
      (*this)(force.at, force.force);
  }
  void look(const FootContact& contact) {
    (*this)(contact.ball, contact.clamp, contact.uncut, contact.cut, contact.heel_pry_left,
            contact.heel_gap_left, contact.board_left);
  }

  FigureCount count_;
};

} // namespace

FigureCount all_figures(const Solution& solution) {
  Figures figures;
  figures(solution.left, solution.right);
  return figures.count();
}

FigureCount all_figures(const PairContact& contact) {
  Figures figures;
  figures(contact.left, contact.right);
  return figures.count();
}

} // namespace shankline::tests
