// An order: one dancer, one pair, as plain structs. Lengths in millimetres, angles in radians.
//
// Stations of the foot run along the sole. With Pose::pointed they count from the back of the heel,
// with Pose::in_shoe from the inside of the shoe's back seam (heel front, arch break and deepest
// point only: foot length and ball length are always the foot's own). Board stations count from the
// board's heel end. Sides are medial (big-toe side) and lateral (little-toe side).
//
//   FootOrder left;
//   left.foot.length = measured(238);             // the solver reports readings that it misses
//   left.foot.arch_break.centre = measured(95);
//   left.shoe.board.length = measured(220);
//   left.alterations.shank = ShankWish{};         // cut the board by the defaults
//   Order order;
//   order.dancer = "M-07";
//   order.left = left;                            // `right` absent: this foot only
#pragma once

#include "geometry/order/foot_side.hpp"
#include "geometry/order/reading.hpp"

#include <optional>
#include <string>
#include <variant>
#include <vector>

namespace shankline {

enum class Pose { pointed, in_shoe };
enum class Population { women, men }; ///< whose regressions fill in what was not measured

struct ArchBreak {
  std::optional<Reading> centre; ///< one value for both edges, or
  std::optional<Reading> medial; ///< the two edges apart (both are needed for a skew line)
  std::optional<Reading> lateral;
  std::optional<double> across; ///< distance across between the two marks; else the board's width
  bool operator==(const ArchBreak&) const = default;
};

enum class RollSide { none, in, out };

struct Roll {
  RollSide side = RollSide::none;
  double raise = 0; ///< how much higher the darning goes on that side
  bool operator==(const Roll&) const = default;
};

/// Every reading is optional here: the solver knows which ones the work needs.
struct Foot {
  std::optional<Reading> length;
  std::optional<Reading> ball_length;
  std::optional<Reading> heel_front;
  ArchBreak arch_break;
  std::optional<Reading> arch_depth;
  std::optional<Reading> deepest; ///< station of the deepest point under the straightedge
  std::optional<Reading> arch_bend_rad;
  std::optional<Reading> fold;
  std::optional<Reading> ankle_girth;
  std::optional<Reading> ankle_height;
  std::optional<Reading> ball_width;
  std::optional<Reading> heel_width;
  Roll roll;
  bool operator==(const Foot&) const = default;
};

enum class BoardState { loose, in_shoe };
enum class BoardMaterial { fibreboard, leather, plastic };

/// Half-widths of the board at a station from its heel end.
struct BoardWidth {
  double station = 0;
  double medial = 0;
  double lateral = 0;
  bool operator==(const BoardWidth&) const = default;
};

/// Thickness of a bevelled edge over the board's own: common practice, no source.
inline constexpr double usual_edge_ratio = 0.25;

struct Board {
  BoardState state = BoardState::loose;
  BoardMaterial material = BoardMaterial::fibreboard;
  std::optional<Reading> length; ///< mm, loose boards
  std::optional<Reading> inset;  ///< shoe's inside back to the board's heel end
  std::optional<double> thickness;
  std::optional<int> layers; ///< that it is glued of; absent: not said, so it is cut as one
  std::optional<double> edge_thickness; ///< after bevelling; else by `usual_edge_ratio`
  std::vector<BoardWidth> widths;       ///< by rising station
  std::optional<double> sole_length;    ///< outer sole, for a board in the shoe

  /// Length of a loose board, mm; null for a board in the shoe, whose front is buried in the box.
  std::optional<double> loose_length() const {
    if (state != BoardState::loose || !length) return {};
    return length->value();
  }
  bool operator==(const Board&) const = default;
};

/// A height of the stock top line above the sole's edge, along the wall.
struct SideHeight {
  double station = 0; ///< as the order's pose counts
  double height = 0;
  bool operator==(const SideHeight&) const = default;
};

/// Heights that may differ between the big-toe and the little-toe side.
struct StockHeights {
  std::optional<double> low;
  std::optional<double> low_at;
  std::optional<double> wing;
  std::optional<double> wing_at;
  std::vector<SideHeight> heights; ///< more of them, anywhere between back and wing
  bool operator==(const StockHeights&) const = default;
};

struct StockSides {
  std::optional<double> back; ///< height at the back seam
  std::optional<double> low;  ///< at the low point, both sides
  std::optional<double> low_at;
  std::optional<double> wing; ///< where the box's stiff flank ends
  std::optional<double> wing_at;
  std::vector<SideHeight> heights;
  std::optional<StockHeights> medial; ///< these replace the heights of both sides
  std::optional<StockHeights> lateral;
  std::optional<double> lean_rad;     ///< inwards from upright
  std::optional<double> width_across; ///< across the top line at the low point: gives the lean
  std::optional<double> casing;       ///< casing width
  std::optional<double> throat;       ///< top line across the vamp, from wing to wing
  bool operator==(const StockSides&) const = default;
};

struct Platform {
  double width = 0;
  double depth = 0;
  bool operator==(const Platform&) const = default;
};

enum class Grade { one_thumb, two_thumbs, over_the_knee, hardly_over_the_knee };
struct BendingStiffness { ///< N·mm²
  double board = 0;
  std::optional<double> sole;
  bool operator==(const BendingStiffness&) const = default;
};
struct Droop { ///< a weight hung on the loose board's end
  double droop = 0;
  double weight_grams = 0;
  double free_length = 0;
  bool operator==(const Droop&) const = default;
};
using Stiffness = std::variant<std::monostate, Grade, BendingStiffness, Droop>;

struct Travel { ///< mm by which a helper's thumb pushes the sole up to the arch in the uncut shoe
  double travel = 0;
  bool operator==(const Travel&) const = default;
};
struct PullForce { ///< N/mm
  double per_length = 0;
  bool operator==(const PullForce&) const = default;
};
using Pull = std::variant<std::monostate, Travel, PullForce>;

enum class Clamp { wing, ball };

/// One row of what a maker is told about the stock shoe, in the user's own words. It is printed as
/// it was written and never interpreted.
struct StockRow {
  std::string name;
  std::string words;
  bool operator==(const StockRow&) const = default;
};

struct Shoe {
  Board board;
  std::optional<StockSides> sides;
  std::optional<Platform> platform;
  Stiffness stiffness;
  Pull pull;
  Clamp clamp = Clamp::wing;
  /// The user's own word for the style of shoe; empty if not named. A place that was learned from a
  /// dancer's pairs of one style is used first of all for the next pair of that style.
  std::string style;
  std::vector<StockRow> stock; ///< in the order as written; no name occurs twice
  bool operator==(const Shoe&) const = default;
};

struct ReachRule { ///< 1 ends at the heel front, more tucks under the heel, less stops short
  double reach = 1;
  std::string preset; ///< "short", "edge", "tucked", or empty for a number
  bool operator==(const ReachRule&) const = default;
};
struct KeepRule { ///< fraction of the board's length that stays
  double keep = 0.75;
  bool operator==(const KeepRule&) const = default;
};
/// The uncertainty of a mark that was carried over from another pair.
struct CarriedOver {
  double u;       ///< standard uncertainty, mm
  double freedom; ///< degrees of freedom of `u`
  bool operator==(const CarriedOver&) const = default;
};
struct MarkRule { ///< place marked by hand on the board, mm from its heel end
  Reading mark;
  std::optional<CarriedOver> carried_over = {};
  bool operator==(const MarkRule&) const = default;
};
/// The end of the board that this dancer's earlier pairs suggest, with all that a cut by it needs:
/// an order with this line is solved without the archive that it was learned from.
struct LearnedLine {
  double station = 0; ///< mm from the back of the heel, pointed foot, whatever the order's pose
  double U = 0;       ///< mm at 95 %, of it on this shoe: the shoe's own shift is in it
  int pairs = 0;      ///< of this foot that it was learned from
  std::string until;  ///< YYYY-MM-DD, the last day on record
  int model = 0;      ///< version of the model that learned it
  int worn_good = 0;  ///< of these pairs, how many ended good after wear
  /// mm from the back of the heel, pointed foot: an end at which a board of this foot was cut too
  /// far, and that no later pair spoke against. The nearest to the heel, where there are several.
  std::optional<double> too_far = {};
  bool operator==(const LearnedLine&) const = default;
};
struct LearnedRule {
  std::optional<LearnedLine> line; ///< absent: asked for, and not yet looked up in an archive
  bool operator==(const LearnedRule&) const = default;
};
using TrimRule = std::variant<ReachRule, KeepRule, MarkRule, LearnedRule>;

enum class BoardEnd { straight, rounded };

struct ShankWish {
  TrimRule rule = ReachRule{};
  double bevel = 12; ///< length that thins towards the cut edge, on the foot side; 0 for none
  BoardEnd end = BoardEnd::straight;
  double corner = 6;       ///< corner radius of a rounded end
  double tuck_max = 12;    ///< farthest that the board may end under the heel, behind its front
  double bearing_min = 18; ///< least board behind the arch break; this is where the stop line is
  /// `accept: [outside_window]`: the line may lie outside the window, never ahead of the arch
  /// break.
  bool accept_outside_window = false;
  /// `accept: [in_stop_band]`: a fitter's word that the final line may lie inside the stop band.
  bool accept_in_stop_band = false;
  /// The first cut's distance short of the final one, mm; absent: worked out.
  std::optional<double> hold_back;
  /// How many of a board's layers are cut, from the foot side; absent: all.
  std::optional<int> layers;
  bool operator==(const ShankWish&) const = default;
};

enum class SideEdge {
  bound,  ///< cut at the finished line and bound
  turned, ///< cut above it, the allowance turned in
  folded, ///< folded in and stitched, not cut
};
enum class Drawstring { cotton, elastic };

/// Defaults: common practice, no source, from memory.
struct SideWish {
  std::optional<double> medial; ///< how far the side is lowered
  std::optional<double> lateral;
  double back = 0; ///< how far the back is lowered; it usually stays
  SideEdge edge = SideEdge::bound;
  double turn = 5;                  ///< allowance of a turned edge
  double keep = 30;                 ///< least height that stays
  double slope = 0.5;               ///< steepest run-out, height per length
  double run_out = 30;              ///< over which the lowered stretch runs out
  std::optional<double> deepest_at; ///< station; else the arch break
  double deepest_length = 20;
  Drawstring drawstring = Drawstring::cotton;
  double stretch = 0.1; ///< working stretch of an elastic drawstring, a fraction
  bool operator==(const SideWish&) const = default;
};
/// Everything below: defaults from memory, common practice, no source.
struct LinerWish {
  double clearance = 1.5;       ///< all round, so that the liner does not ride up at the edges
  std::optional<double> length; ///< from the very heel end; else as far as the board's front
  bool operator==(const LinerWish&) const = default;
};
struct DarningWish {
  int passes = 2;              ///< one loose, one that fills
  double height = 6;           ///< of the wrap up from the platform's edge
  std::optional<double> raise; ///< more of it where the foot rolls; else the foot's own raise
  double pitch = 3;            ///< from stitch to stitch along the edge
  bool face = false;           ///< the platform's face is darned over as well
  double allowance = 0.2;      ///< take-up and ends, a fraction of the yarn's length
  std::optional<double> tex;   ///< fineness of the yarn, g/km (ISO 1144); gives its mass
  bool operator==(const DarningWish&) const = default;
};
struct RibbonWish {
  bool ring = true;              ///< a ring of stretch ribbon; else two tied ribbons
  double stretch = 0;            ///< working stretch as a fraction
  double width = 22;             ///< of the ribbon
  std::optional<double> wraps;   ///< round the ankle; 2 of a ring, 1.5 of each tied ribbon
  std::optional<double> pitch;   ///< how far a wrap climbs; else half the width
  double overlap = 15;           ///< sewn to the inside of the side, at each end
  std::optional<double> rise;    ///< from the sewn end to the ankle, along the way; else estimated
  double tie = 150;              ///< of each tied ribbon, for the knot
  std::optional<double> sewn_at; ///< station; else where the folded-in heel meets the side
  bool operator==(const RibbonWish&) const = default;
};
struct ElasticWish {
  double stretch = 0.2;          ///< working stretch as a fraction
  double width = 20;             ///< of the elastic
  std::optional<double> over;    ///< over the instep or vamp from side to side, foot in the shoe
  std::optional<double> sewn_at; ///< station of its ends
  bool heel_loop = false;        ///< at the back seam, for the ribbons to run through
  double overlap = 10;           ///< sewn down at each end
  bool operator==(const ElasticWish&) const = default;
};
struct ThinWish { ///< the board planed down over a stretch instead of cut, from its heel end
  std::optional<double> from;
  std::optional<double> to;
  std::optional<double> thickness; ///< what is left
  bool operator==(const ThinWish&) const = default;
};
struct TuckWish {
  std::optional<double> depth; ///< cloth pinched at the top line; else the foot's fold
  double down = 35;            ///< how far down the back seam the tuck runs out
  bool operator==(const TuckWish&) const = default;
};

struct Alterations {
  std::optional<ShankWish> shank;
  std::optional<SideWish> sides;
  std::optional<ThinWish> thinned;
  bool filler = false; ///< soft filler in the heel seat that the cut empties
  std::optional<LinerWish> liner;
  std::optional<DarningWish> darning;
  std::optional<RibbonWish> ribbons;
  std::optional<ElasticWish> elastics;
  std::optional<TuckWish> tuck;
  bool operator==(const Alterations&) const = default;
};

/// The class of tolerances (ISO 2768-1) for dimensions that are not cuts.
enum class ToleranceClass { medium, coarse, very_coarse };

struct ToleranceWish {
  double cut = 1.5; ///< a cut may fall short by this much, and never goes past its line
  std::variant<ToleranceClass, double> other = ToleranceClass::coarse;
  bool operator==(const ToleranceWish&) const = default;
};

/// One foot with its shoe and its alterations; values that the file gives for both feet are already
/// merged in.
struct FootOrder {
  Foot foot;
  Shoe shoe;
  Alterations alterations;
  bool operator==(const FootOrder&) const = default;
};

struct Order {
  std::string dancer;
  std::string pair;
  std::string date; ///< YYYY-MM-DD as written, a real day
  std::string note;
  std::optional<int> quantity; ///< of pairs; absent if it was not said
  std::string due;             ///< YYYY-MM-DD, a real day; empty if it was not said
  std::string deliver_to;      ///< a code or a place; empty if it was not said
  Pose pose = Pose::pointed;
  Population estimates_from = Population::women;
  std::string read_by;    ///< code of the one reader who took every reading; empty if not named
  std::string decided_by; ///< code of the adult who decides for a growing foot; empty if not named
  std::optional<bool> growing; ///< absent: a foot shorter than `growing_below` counts as growing
  ToleranceWish tolerances;
  std::optional<FootOrder> left;
  std::optional<FootOrder> right;

  const std::optional<FootOrder>& foot(FootSide side) const {
    return side == FootSide::left ? left : right;
  }
  std::optional<FootOrder>& foot(FootSide side) { return side == FootSide::left ? left : right; }
  bool operator==(const Order&) const = default;
};

} // namespace shankline
