// An order: one dancer, one pair, as plain structs. Lengths in millimetres, angles in radians.
//
// Stations of the foot run along the sole. With Pose::pointed they count from the back of the heel,
// with Pose::in_shoe from the inside of the shoe's back seam (heel front, arch break and deepest
// point only: foot length and ball length are always the foot's own). Board stations count from the
// board's heel end. Sides are medial (big-toe side) and lateral (little-toe side).
#pragma once

#include "geometry/reading.hpp"

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
};

enum class RollSide { none, in, out };

struct Roll {
  RollSide side = RollSide::none;
  double raise = 0; ///< how much higher the darning goes on that side
};

/// Every reading is optional here: what the work needs is decided by the solver.
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
};

enum class BoardState { loose, in_shoe };
enum class BoardMaterial { fibreboard, leather, plastic };

/// Half-widths of the board at a station from its heel end.
struct BoardWidth {
  double station = 0;
  double medial = 0;
  double lateral = 0;
};

struct Board {
  BoardState state = BoardState::loose;
  BoardMaterial material = BoardMaterial::fibreboard;
  std::optional<double> length; ///< loose boards
  std::optional<Reading> inset; ///< shoe's inside back to the board's heel end
  std::optional<double> thickness;
  int layers = 1;
  std::optional<double> edge_thickness; ///< after bevelling; else a quarter of the thickness
  std::vector<BoardWidth> widths;       ///< by rising station
  std::optional<double> sole_length;    ///< outer sole, for a board in the shoe
};

/// A height of the stock top line above the sole's edge, along the wall.
struct SideHeight {
  double station = 0; ///< as the order's pose counts
  double height = 0;
};

/// What differs between the big-toe and the little-toe side.
struct StockHeights {
  std::optional<double> low;
  std::optional<double> low_at;
  std::optional<double> wing;
  std::optional<double> wing_at;
  std::vector<SideHeight> heights; ///< more of them, anywhere between back and wing
};

struct StockSides {
  std::optional<double> back; ///< height at the back seam
  std::optional<double> low;  ///< at the low point, both sides
  std::optional<double> low_at;
  std::optional<double> wing; ///< where the box's stiff flank ends
  std::optional<double> wing_at;
  std::vector<SideHeight> heights;
  std::optional<StockHeights> medial; ///< in place of what holds for both sides
  std::optional<StockHeights> lateral;
  std::optional<double> lean_rad;     ///< inwards from upright
  std::optional<double> width_across; ///< across the top line at the low point: gives the lean
  std::optional<double> casing;       ///< casing width
  std::optional<double> throat;       ///< top line across the vamp, from wing to wing
};

struct Platform {
  double width = 0;
  double depth = 0;
};

enum class Grade { one_thumb, two_thumbs, over_the_knee, hardly_over_the_knee };
struct BendingStiffness { ///< N·mm²
  double board = 0;
  std::optional<double> sole;
};
struct Droop { ///< a weight hung on the loose board's end
  double droop = 0;
  double weight_grams = 0;
  double free_length = 0;
};
using Stiffness = std::variant<std::monostate, Grade, BendingStiffness, Droop>;

struct Travel { ///< how far a helper thumbs the sole up to the arch in the uncut shoe
  double travel = 0;
};
struct PullForce { ///< N/mm
  double per_length = 0;
};
using Pull = std::variant<std::monostate, Travel, PullForce>;

enum class Clamp { wing, ball };

struct Shoe {
  Board board;
  std::optional<StockSides> sides;
  std::optional<Platform> platform;
  Stiffness stiffness;
  Pull pull;
  Clamp clamp = Clamp::wing;
};

struct ReachRule { ///< 1 ends at the heel front, more tucks under the heel, less stops short
  double reach = 1;
  std::string preset; ///< "short", "edge", "tucked", or empty for a number
};
struct KeepRule { ///< fraction of the board's length that stays
  double keep = 0.75;
};
/// How sure a mark is that was carried over from another pair.
struct CarriedOver {
  double u; ///< standard uncertainty, mm
  double freedom;
};
struct MarkRule { ///< station marked by hand on the board, from its heel end
  double mark = 0;
  std::optional<CarriedOver> carried_over = {};
};
using TrimRule = std::variant<ReachRule, KeepRule, MarkRule>;

enum class BoardEnd { straight, rounded };

struct ShankWish {
  TrimRule rule = ReachRule{};
  double bevel = 12; ///< length that thins towards the cut edge, on the foot side; 0 for none
  BoardEnd end = BoardEnd::straight;
  double corner = 6;       ///< corner radius of a rounded end
  double tuck_max = 12;    ///< farthest that the board may end under the heel, behind its front
  double bearing_min = 18; ///< least board behind the arch break; this is where the stop line is
  bool accept_outside_window = false; ///< `accept: [outside_window]`
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
};
struct DarningWish {
  int passes = 2;
};
struct RibbonWish {
  bool ring = true;
  double stretch = 0; ///< working stretch as a fraction
};

struct Alterations {
  std::optional<ShankWish> shank;
  std::optional<SideWish> sides;
  bool full_liner = false;
  std::optional<DarningWish> darning;
  std::optional<RibbonWish> ribbons;
};

/// How dimensions that are not cuts are toleranced (ISO 2768-1 by class, or one figure).
enum class ToleranceClass { medium, coarse, very_coarse };

struct ToleranceWish {
  double cut = 1.5; ///< a cut may fall short by this much, and never goes past its line
  std::variant<ToleranceClass, double> other = ToleranceClass::coarse;
};

enum class FootSide { left, right };

/// One foot with its shoe and what is to be done to it: everything said for both feet is already
/// merged in.
struct FootOrder {
  Foot foot;
  Shoe shoe;
  Alterations alterations;
};

struct Order {
  std::string dancer;
  std::string pair;
  std::string date; ///< YYYY-MM-DD as written, a real day
  std::string note;
  Pose pose = Pose::pointed;
  Population estimates_from = Population::women;
  ToleranceWish tolerances;
  std::optional<FootOrder> left;
  std::optional<FootOrder> right;
};

} // namespace shankline
