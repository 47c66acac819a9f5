#include "geometry/fitting/acceptance_lines.hpp"

#include "geometry/order/ruler_number.hpp"

#include <algorithm>
#include <utility>

namespace shankline {
namespace {

class LineList {
public:
  LineList(const ToleranceWish& wish, JudgedAt at) : wish_(wish), at_(at) {}

  void add_foot(const FootSolution& foot, const FootOrder& order) {
    side_ = foot.side;
    if (foot.trim) add_board(foot, order);
    cut_.reset();
    if (foot.thinned) add_thinning(*foot.thinned, order.shoe.board.inset->value());
    if (foot.sides) add_sides(*foot.sides);
  }

  std::vector<AcceptanceLine> take() && { return std::move(lines_); }

private:
  void add(std::string key, std::string name, double nominal, const Tolerance& tolerance) {
    AcceptanceLine line{side_, std::move(key), std::move(name), nominal, tolerance, {}, cut_};
    line.instrument = instrument_for(line.limits());
    lines_.push_back(std::move(line));
  }

  void add_board(const FootSolution& foot, const FootOrder& order) {
    const double inset = order.shoe.board.inset->value();
    const bool first = at_ == JudgedAt::first_cut && foot.trim->first_cut;
    cut_ = !foot.trim->first_cut ? BoardCut::only_cut
           : first               ? BoardCut::first_cut
                                 : BoardCut::final_cut;
    const CutLine& cut = first ? *foot.trim->first_cut : foot.trim->final_cut;
    // Cut by the layer, the board goes on behind the line, which is then a step in it.
    const std::string to_end =
        foot.layers ? "inside back to the step, " : "inside back to board's end, ";
    const auto end = [&](const char* key, const char* edge, double exact) {
      const double shorter = exact - ruler_number(exact, Rounding::down);
      add(key, to_end + edge, exact + inset, {0, -wish_.cut - shorter});
    };
    // A rounded corner ends farther ahead than the line; the first cut is straight.
    const bool edges = first || !foot.trim->rounded();
    if (edges) end("end.medial", "big-toe edge", cut.medial);
    end("end.centre", "centre", cut.centre);
    if (edges) end("end.lateral", "little-toe edge", cut.lateral);
    const SolvedPieces& pieces = first ? foot.pieces_to_cut : foot.pieces;
    if (pieces.kept_length)
      add("kept",
          foot.layers ? "length of the cut layers that stays" : "length of the board that stays",
          *pieces.kept_length,
          {wish_.cut + cut.centre - ruler_number(cut.centre, Rounding::down), 0});
    if (foot.layers) add_count("layers", "layers that go on to the heel", *foot.layers);
    const ShankWish& wish = *order.alterations.shank;
    // Corners and bevel come after the last cut.
    if (first) return;
    if (foot.trim->rounded())
      add("corner", "radius of the rounded corners", wish.corner,
          radius_tolerance(wish_, wish.corner));
    if (!(wish.bevel > 0)) return;
    add("bevel", "length of the bevel", wish.bevel, dimension_tolerance(wish_, wish.bevel));
    if (const auto& edge = foot.trim->bevel_edge_thickness)
      add("edge_thickness",
          foot.layers ? "thickness left behind the step" : "thickness left at the bevelled edge",
          *edge, dimension_tolerance(wish_, *edge));
    lines_.back().is_thickness = lines_.back().key == "edge_thickness";
  }

  void add_count(std::string key, std::string name, const CutLayers& layers) {
    AcceptanceLine line{side_, std::move(key), std::move(name), 0, {}, {}, cut_};
    line.nominal = layers.of - layers.cut;
    line.counted = true;
    lines_.push_back(std::move(line));
  }

  void add_thinning(const SolvedThinning& thinned, double inset) {
    const auto place = [&](const char* key, const char* name, double at) {
      add(key, name, at + inset, dimension_tolerance(wish_, at));
    };
    place("thinned.from", "inside back to where the thinning begins", thinned.from);
    place("thinned.to", "inside back to where the thinning ends", thinned.to);
    add("thinned.thickness", "thickness where it is thinned", thinned.thickness,
        dimension_tolerance(wish_, thinned.thickness));
    lines_.back().is_thickness = true;
  }

  void add_sides(const SolvedSides& sides) {
    // Like the board, a side may keep more and never less.
    const Tolerance height = keep_tolerance(wish_);
    const std::string at = "height at its low point, ";
    if (sides.medial.is_cut()) add("sides.medial", at + "big-toe side", sides.medial.low, height);
    if (sides.lateral.is_cut())
      add("sides.lateral", at + "little-toe side", sides.lateral.low, height);
    if (sides.medial.profile.back > 0)
      add("sides.back", "height at the back seam", sides.medial.finished(0), height);
  }

  const ToleranceWish& wish_;
  JudgedAt at_;
  FootSide side_ = FootSide::left;
  std::optional<BoardCut> cut_; ///< of the lines that are being added
  std::vector<AcceptanceLine> lines_;
};

} // namespace

std::vector<AcceptanceLine> acceptance_lines(const Order& order, const Solution& solution,
                                             JudgedAt at) {
  LineList list(order.tolerances, at);
  if (solution.left) list.add_foot(*solution.left, *order.left);
  if (solution.right) list.add_foot(*solution.right, *order.right);
  return std::move(list).take();
}

JudgedPair judge_pair(std::vector<AcceptanceLine> lines, std::span<const MadeSize> made) {
  JudgedPair pair;
  if (!lines.empty()) pair.verdict = Acceptance::accepted;
  for (AcceptanceLine& line : lines) {
    JudgedLine judged{std::move(line), {}, Acceptance::not_decided, true};
    const auto found = std::find_if(made.begin(), made.end(), [&](const MadeSize& size) {
      return size.foot == judged.line.foot && size.key == judged.line.key;
    });
    if (found != made.end()) {
      judged.made = *found;
      judged.verdict = judge(found->value, found->U, judged.line.limits());
      judged.can_be_proven = can_prove(found->U, judged.line.limits());
    }
    pair.verdict = worst(pair.verdict, judged.verdict);
    pair.lines.push_back(std::move(judged));
  }
  return pair;
}

} // namespace shankline
