#include "geometry/sides/side_cut.hpp"

#include "geometry/numerics/degree.hpp"
#include "geometry/order/drawstring.hpp"
#include "geometry/order/figure.hpp"
#include "geometry/order/foot_estimates.hpp"
#include "geometry/order/reading_guide.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>
#include <tuple>
#include <utility>

namespace shankline {
namespace {

constexpr double ruler_step = 10;

// Common practice, no source, all in mm.
constexpr double wing_above_back = 8; ///< the wing mostly is the lower one
constexpr double low_from_break = 40; ///< of the low point, which lies in the arch
constexpr double height_doubt = 3;    ///< of two readings of 1.5

} // namespace

SideWall::HeightLine SolvedSide::stock_line() const {
  return {[line = stock](double t) { return line(t); },
          [line = stock](double t) { return line.slope(t); }};
}

SideWall::HeightLine SolvedSide::finished_line(double above) const {
  return {
      [line = stock, lowered = profile, above](double t) { return line(t) - lowered(t) + above; },
      [line = stock, lowered = profile](double t) { return line.slope(t) - lowered.slope(t); }};
}

namespace {

class SidesSolver {
public:
  SidesSolver(const SidesInput& input, Findings& findings)
      : in_(input), findings_(findings), stock_(*in_.shoe.sides) {}

  std::optional<SolvedSides> solve() {
    if (!require_readings()) return {};
    for (const Edge edge : {Edge::medial, Edge::lateral})
      heights_that_can_be(edge);
    const auto lean = lean_of_wall();
    auto medial = lean ? side(Edge::medial, *lean) : std::nullopt;
    auto lateral = lean ? side(Edge::lateral, *lean) : std::nullopt;
    if (!medial || !lateral) return {};
    SolvedSides sides{std::move(*medial), std::move(*lateral), *lean, 0, 0, {}};
    sides.top_line = sides.medial.finished_length + sides.lateral.finished_length - in_.taken_in;
    sides.casing = sides.top_line + 2 * casing_end;
    if (stock_.throat)
      sides.drawstring =
          drawstring_length(in_.wish.drawstring, sides.top_line + *stock_.throat, in_.wish.stretch);
    // Folded over the top line, a casing's width inside and outside.
    if (stock_.casing) sides.casing_width = 2 * (*stock_.casing + casing_turn);
    say_what_is_not_cut(sides);
    return sides;
  }

private:
  /// Adds cautions about a cut that the order seems to want and the sides do not give.
  void say_what_is_not_cut(const SolvedSides& sides) {
    const auto caution = [&](const std::string& key, std::string what, std::string advice) {
      findings_.push_back(
          {Severity::caution, wish_key(key), std::move(what), "", std::move(advice)});
    };
    if (!sides.medial.is_cut() && !sides.lateral.is_cut())
      return caution("medial", "neither side is lowered, nor the back",
                     "Say how far: medial, lateral, back; or delete sides.");
    if (in_.wish.edge != SideEdge::turned) return;
    const double back = sides.medial.profile.back;
    for (const auto& [key, name, depth] :
         {std::tuple{"medial", "the big-toe side is", sides.medial.profile.depth},
          std::tuple{"lateral", "the little-toe side is", sides.lateral.profile.depth},
          std::tuple{"back", "the back is", back}})
      if (depth > 0 && depth < in_.wish.turn)
        caution(key,
                std::string(name) + " lowered by " + short_figure(depth) +
                    " mm, less than the allowance of " + short_figure(in_.wish.turn) +
                    " mm: nothing is cut there, only " + short_figure(depth) +
                    " mm can be turned in",
                "Make turn smaller, or write edge: folded or edge: bound.");
  }

  void error(Key key, std::string what, std::string allowed, std::string advice) {
    // Both sides of a foot may miss the same.
    if (std::any_of(findings_.begin(), findings_.end(),
                    [&](const Finding& found) { return found.key == key && found.what == what; }))
      return;
    findings_.push_back(
        {Severity::error, std::move(key), std::move(what), std::move(allowed), std::move(advice)});
  }
  std::string shoe_key(const std::string& key) const {
    return "shoe." + in_.foot_name + ".sides" + (key.empty() ? "" : "." + key);
  }
  std::string wish_key(const std::string& key) const {
    return "alterations." + in_.foot_name + ".sides." + key;
  }
  static const char* name(Edge edge) {
    return edge == Edge::medial ? "big-toe side" : "little-toe side";
  }
  static const char* key_of(Edge edge) { return edge == Edge::medial ? "medial" : "lateral"; }

  BoardStation to_board(double posed) const { return in_.frames.on_board(PosedStation(posed)); }
  PosedStation to_pose(double station) const { return in_.frames.posed(BoardStation(station)); }

  bool require_readings() {
    bool ok = true;
    const auto need = [&](bool there, const char* key, const char* what) {
      if (there) return;
      ok = false;
      error(shoe_key(key), std::string(what) + " is missing", "needed to lower the sides",
            how_to_take(std::string("sides.") + key));
    };
    need(stock_.back.has_value(), "back", "the height of the back");
    for (const Edge edge : {Edge::medial, Edge::lateral}) {
      const StockHeights heights = own(edge);
      need(heights.low.has_value(), "low", "the height at the low point");
      need(heights.low_at.has_value(), "low_at", "the distance of the low point from the heel");
      need(heights.wing.has_value(), "wing", "the height at the wing");
      if (!ok) break; // both sides would say the same
    }
    need(stock_.lean_rad || stock_.width_across, "width_across",
         "the width across the top line (or the lean)");
    return ok;
  }

  /// The heights of one side: its own readings, and those for both sides where it has none.
  StockHeights own(Edge edge) const {
    const auto& mine = edge == Edge::medial ? stock_.medial : stock_.lateral;
    StockHeights heights{stock_.low, stock_.low_at, stock_.wing, stock_.wing_at, stock_.heights};
    if (!mine) return heights;
    if (mine->low) heights.low = mine->low;
    if (mine->low_at) heights.low_at = mine->low_at;
    if (mine->wing) heights.wing = mine->wing;
    if (mine->wing_at) heights.wing_at = mine->wing_at;
    if (!mine->heights.empty()) heights.heights = mine->heights;
    return heights;
  }

  const std::optional<StockHeights>& own_readings(Edge edge) const {
    return edge == Edge::medial ? stock_.medial : stock_.lateral;
  }

  /// Adds cautions about heights that no stock shoe has, such as two that changed places: the top
  /// line falls from the back to the low point and rises to the wing.
  void heights_that_can_be(Edge edge) {
    const StockHeights mine = own(edge);
    const double low = *mine.low;
    const double back = *stock_.back;
    const double wing = *mine.wing;
    if (low > back || low > wing)
      unlikely(edge, "low",
               "the low point (" + short_figure(low) + " mm) is higher than the " +
                   (low > back ? "back (" + short_figure(back) : "wing (" + short_figure(wing)) +
                   " mm)",
               "not above the back nor the wing");
    if (wing > back + wing_above_back)
      unlikely(edge, "wing",
               "the wing (" + short_figure(wing) + " mm) is " + short_figure(wing - back) +
                   " mm higher than the back (" + short_figure(back) + " mm)",
               "up to " + short_figure(wing_above_back) + " mm higher, common practice");
    const double from_break = *mine.low_at - in_.frames.posed(in_.break_at);
    if (std::abs(from_break) > low_from_break)
      unlikely(edge, "low_at",
               "the low point lies " + short_figure(std::abs(from_break)) + " mm " +
                   (from_break > 0 ? "ahead of" : "behind") + " the arch break",
               "within " + short_figure(low_from_break) + " mm of it, common practice");
    for (const SideHeight& height : mine.heights) {
      const bool behind = height.station < *mine.low_at;
      const double end = behind ? back : wing;
      if (height.height > end + height_doubt)
        unlikely(edge, "heights",
                 "the height at " + short_figure(height.station) + " (" +
                     short_figure(height.height) + " mm) is higher than the " +
                     (behind ? "back (" : "wing (") + short_figure(end) + " mm)",
                 "between the low point and the " + std::string(behind ? "back" : "wing"));
      else if (height.height < low - height_doubt)
        unlikely(edge, "heights",
                 "the height at " + short_figure(height.station) + " (" +
                     short_figure(height.height) + " mm) is lower than the low point (" +
                     short_figure(low) + " mm)",
                 "between the low point and the " + std::string(behind ? "back" : "wing"));
    }
  }

  void unlikely(Edge edge, const std::string& key, std::string what, std::string allowed) {
    const auto& mine = own_readings(edge);
    const bool here = mine && (key == "low"      ? mine->low || mine->wing
                               : key == "wing"   ? mine->wing.has_value()
                               : key == "low_at" ? mine->low_at.has_value()
                                                 : !mine->heights.empty());
    const std::string inside = here ? key_of(edge) + ("." + key) : key;
    if (here) what = std::string("on the ") + name(edge) + " " + what;
    const Key where = shoe_key(inside);
    if (std::any_of(findings_.begin(), findings_.end(),
                    [&](const Finding& found) { return found.key == where && found.what == what; }))
      return; // both sides share the reading
    const bool height = key != "low_at";
    findings_.push_back({Severity::caution, where, std::move(what), std::move(allowed),
                         std::string("Take it once more before cutting") +
                             (height ? ", and see whether two heights changed places. " : ". ") +
                             how_to_take("sides." + (key == "heights" ? "heights.height" : key))});
  }

  BoardStation wing_station(Edge edge) const {
    const auto at = own(edge).wing_at;
    return at ? to_board(*at)
              : in_.frames.on_board(FootStation(default_wing_station(in_.foot_length)));
  }

  /// Worked out once; null after an error.
  const SoleEdge* edge_up_to_wing(Edge edge) {
    std::optional<SoleEdge>& sole = edge == Edge::medial ? medial_edge_ : lateral_edge_;
    if (sole) return &*sole;
    const BoardStation wing = wing_station(edge);
    if (!edge_is_known(wing)) return nullptr;
    try {
      sole = sole_edge(in_.outline, edge, wing);
    } catch (const std::invalid_argument&) {
    }
    const auto backwards = [](const SoleEdge::Node& a, const SoleEdge::Node& b) {
      return b.station < a.station;
    };
    if (sole && std::adjacent_find(sole->nodes().begin(), sole->nodes().end(), backwards) ==
                    sole->nodes().end())
      return &*sole;
    sole.reset();
    error("shoe." + in_.foot_name + ".board.widths",
          "the board's edge is hollowed out too sharply for a sole's edge around it",
          "a smooth outline",
          "Measure the widths again where one is much smaller than its "
          "neighbours.");
    return nullptr;
  }

  /// Up to the wing the board's shape has to be known.
  bool edge_is_known(BoardStation wing) {
    const double last =
        in_.outline.closed() ? *in_.outline.length() - 1 : in_.outline.last_station();
    const double needed = wing + feather_margin;
    if (needed <= last) return true;
    error("shoe." + in_.foot_name + ".board.widths",
          "the board's widths are known up to " + short_figure(last) +
              " from its heel end, too short for the sides: the wing ends at " + short_figure(wing),
          "widths up to " + figure(std::ceil(needed), 0) + " or farther",
          in_.outline.closed()
              ? "Check wing_at and the board's length."
              : "Measure the outer sole's width at two or three places, the last one at " +
                    figure(std::ceil(needed), 0) + " or farther; take " +
                    short_figure(2 * feather_margin) +
                    " off each, and add them to the board's widths.");
    return false;
  }

  std::optional<double> lean_of_wall() {
    if (stock_.lean_rad) return stock_.lean_rad;
    double across = 0;
    double heights = 0;
    for (const Edge edge : {Edge::medial, Edge::lateral}) {
      const SoleEdge* sole = edge_up_to_wing(edge);
      if (!sole) return {};
      const StockHeights heights_here = own(edge);
      if (const auto t = sole->at_station(to_board(*heights_here.low_at))) across += sole->out(*t);
      heights += *heights_here.low;
    }
    const auto lean = lean_from_widths(across, *stock_.width_across, heights / 2);
    const double most = 45 * degree;
    if (lean && std::abs(*lean) <= most) return lean;
    error(shoe_key("width_across"),
          "walls of height " + short_figure(heights / 2) + " on a sole " + short_figure(across) +
              " wide cannot be " + short_figure(*stock_.width_across) + " apart at the top",
          "about " + short_figure(across - heights * std::sin(most), 0) + " to " +
              short_figure(across, 0),
          how_to_take("sides.width_across"));
    return {};
  }

  /// The measured heights of one side over its arc length, in order.
  std::optional<MonotoneCubic> stock_curve(Edge edge, const SoleEdge& sole, double wing_t) {
    const StockHeights mine = own(edge);
    std::vector<SideHeight> heights = mine.heights;
    heights.push_back({*mine.low_at, *mine.low});
    std::vector<std::pair<double, double>> points{{0, *stock_.back}, {wing_t, *mine.wing}};
    for (const SideHeight& height : heights) {
      const auto t = sole.at_station(to_board(height.station));
      if (!t || *t <= 0 || *t >= wing_t) {
        error(shoe_key(height.station == *mine.low_at ? "low_at" : "heights"),
              "the height at " + short_figure(height.station) +
                  " from the heel does not lie between the back seam and the wing",
              "from " + short_figure(to_pose(sole.station(0))) + " to " +
                  short_figure(to_pose(sole.station(wing_t))),
              how_to_take("sides.low_at"));
        return {};
      }
      points.emplace_back(*t, height.height);
    }
    std::sort(points.begin(), points.end());
    std::vector<double> t;
    std::vector<double> h;
    for (const auto& [at, height] : points) {
      if (!t.empty() && at - t.back() < 0.5) {
        error(shoe_key("heights"), "two heights are given for one place",
              "distances that differ by at least 0.5", "Write each place once.");
        return {};
      }
      t.push_back(at);
      h.push_back(height);
    }
    return MonotoneCubic(std::move(t), std::move(h), 0.0);
  }

  std::optional<SolvedSide> side(Edge edge, double lean) {
    const SoleEdge* sole = edge_up_to_wing(edge);
    if (!sole) return {};
    const auto wing_t = sole->at_station(wing_station(edge));
    if (!wing_t) return {};
    auto stock = stock_curve(edge, *sole, *wing_t);
    if (!stock || !lies_flat(*sole, *stock, *wing_t, lean)) return {};
    const auto room = room_on(edge, *sole, *wing_t);
    if (!room) return {};

    const std::optional<double>& wished = edge == Edge::medial ? in_.wish.medial : in_.wish.lateral;
    const double depth = wished.value_or(0);
    const auto profile = profile_of(edge, depth, *room, *stock);
    if (!profile) return {};
    SolvedSide side{edge, SideWall(*sole, lean), std::move(*stock), *profile};
    finish(side, *wing_t);
    return side;
  }

  /// Leaning in over a tight bend a wall folds over itself where 1 − hκ sin(lean) ≤ 0: it cannot be
  /// cut from one flat piece, nor can its template.
  bool lies_flat(const SoleEdge& sole, const MonotoneCubic& stock, double wing_t, double lean) {
    constexpr double least_left = 0.1;
    double tightest = 0; // largest hκ
    for (std::size_t i = 1; i < sole.nodes().size() && sole.nodes()[i - 1].t < wing_t; ++i) {
      const SoleEdge::Node& a = sole.nodes()[i - 1];
      const SoleEdge::Node& b = sole.nodes()[i];
      tightest = std::max(tightest, stock((a.t + b.t) / 2) * (b.turned - a.turned) / (b.t - a.t));
    }
    if (1 - tightest * std::sin(lean) >= least_left) return true;
    const double most = std::asin((1 - least_left) / tightest) / degree;
    error(shoe_key(stock_.lean_rad ? "lean" : "width_across"),
          "walls that lean in by " + figure(lean / degree, 0) +
              " degrees would fold over themselves round the heel",
          "up to " + short_figure(std::floor(most)) + " degrees of lean on this board",
          how_to_take("sides.width_across"));
    return false;
  }

  std::optional<SideRoom> room_on(Edge edge, const SoleEdge& sole, double wing_t) {
    const BoardStation deepest =
        in_.wish.deepest_at ? to_board(*in_.wish.deepest_at) : in_.frames.on_board(in_.break_at);
    const auto heel_front = sole.at_station(in_.frames.on_board(in_.heel_front));
    const auto middle = sole.at_station(deepest);
    if (heel_front && middle && *middle > *heel_front && *middle < wing_t)
      return SideRoom{*heel_front,      *middle,       wing_t, in_.wish.deepest_length,
                      in_.wish.run_out, in_.wish.slope};
    error(in_.wish.deepest_at ? wish_key("deepest_at") : "feet." + in_.foot_name + ".arch_break",
          std::string("the deepest place (") + short_figure(to_pose(deepest)) + ") of the " +
              name(edge) + " does not lie between the heel front and the wing",
          "from " + short_figure(in_.frames.posed(in_.heel_front)) + " to " +
              short_figure(to_pose(sole.station(wing_t))),
          "Check deepest_at, the arch break and wing_at.");
    return {};
  }

  /// Lowest height that the profile leaves where it lowers anything, every half millimetre.
  static double least_height(const DepthProfile& profile, const MonotoneCubic& stock) {
    double least = 1e9;
    const int steps = static_cast<int>(profile.front_to * 2);
    for (int i = 0; i <= steps; ++i) {
      const double t = profile.front_to * i / steps;
      if (profile(t) > 1e-9) least = std::min(least, stock(t) - profile(t));
    }
    return least;
  }

  std::optional<DepthProfile> profile_of(Edge edge, double depth, const SideRoom& room,
                                         const MonotoneCubic& stock) {
    const auto fits_back = [&](double back, double d, double keep, double slope) {
      SideRoom other = room;
      other.slope = slope;
      const auto profile = fit_depth(back, d, other);
      return profile && least_height(*profile, stock) >= keep - 1e-9 ? profile : std::nullopt;
    };
    const auto fits = [&](double d, double keep, double slope) {
      return fits_back(in_.wish.back, d, keep, slope);
    };
    if (const auto profile = fits(depth, in_.wish.keep, in_.wish.slope)) return profile;
    const auto largest = [&](double keep, double slope) {
      double low = 0;
      double high = depth;
      if (!fits(0, keep, slope)) return -1.0;
      for (int i = 0; i < 50; ++i) {
        const double middle = (low + high) / 2;
        (fits(middle, keep, slope) ? low : high) = middle;
      }
      return std::floor(low * 10 + 1e-6) / 10;
    };
    const double fitting = largest(in_.wish.keep, in_.wish.slope);
    if (fitting < 0 && in_.wish.back > 0) {
      // Search by tenths from the wished depth down: beside this side another back may fit, or
      // none.
      int tenths = static_cast<int>(std::ceil(in_.wish.back * 10)) - 1;
      while (tenths > 0 && !fits_back(tenths / 10.0, depth, in_.wish.keep, in_.wish.slope))
        --tenths;
      refuse_back(edge, depth, tenths / 10.0);
      return {};
    }
    explain(edge, depth, fitting, fit_depth(in_.wish.back, depth, room), stock,
            largest(0, in_.wish.slope));
    return {};
  }

  /// `most`: the largest depth of the back that fits beside this side; 0 if none does.
  void refuse_back(Edge edge, double depth, double most) {
    error(wish_key("back"),
          "the back (" + short_figure(*stock_.back) + " high) cannot be lowered by " +
              short_figure(in_.wish.back) + " where the " + name(edge) + " is lowered by " +
              short_figure(depth) +
              ": the top line would be too steep between them, or lower than "
              "keep, " +
              short_figure(in_.wish.keep),
          most > 0 ? "up to " + short_figure(most) : std::string("none beside this side"),
          "Lower the back by less, or the side by more or less. With a fitter's word: a steeper "
          "slope or a smaller keep.");
  }

  /// Why a depth does not fit, the largest that does, and what would allow more.
  void explain(Edge edge, double depth, double largest, const std::optional<DepthProfile>& profile,
               const MonotoneCubic& stock, double largest_by_slope) {
    const std::string allowed =
        largest >= 0 ? "up to " + short_figure(largest) : std::string("none: not even 0 fits");
    if (profile) {
      const double left = least_height(*profile, stock);
      error(wish_key(key_of(edge)),
            "lowering the " + std::string(name(edge)) + " by " + short_figure(depth) +
                " would leave a height of " + short_figure(left) + ", keep is " +
                short_figure(in_.wish.keep),
            allowed,
            "What would allow more: keep " + short_figure(std::floor(left * 10) / 10) +
                ", with a fitter's word; or a deepest place where the side is higher.");
      return;
    }
    error(wish_key(key_of(edge)),
          "lowering the " + std::string(name(edge)) + " by " + short_figure(depth) +
              " leaves no room to run out at a slope of " + short_figure(in_.wish.slope, 2),
          allowed,
          std::string("What would allow more: a steeper slope") +
              (largest < largest_by_slope ? " and a smaller keep" : "") +
              ", a shorter deepest_length, or a deepest place (deepest_at) nearer to the middle "
              "between heel front and wing.");
  }

  void finish(SolvedSide& side, double wing_t) const {
    side.wing = wing_t;
    side.base_length = wing_t;
    const SoleEdge& sole = side.wall.edge();
    const bool back = side.profile.back > 0;
    side.from = to_pose(sole.station(back ? 0 : side.profile.rear_from));
    side.to = to_pose(sole.station(side.profile.front_to));
    side.low = 1e9;
    const int steps = static_cast<int>(wing_t * 4);
    for (int i = 0; i <= steps; ++i) {
      const double t = wing_t * i / steps;
      if (side.finished(t) >= side.low) continue;
      side.low = side.finished(t);
      side.low_at = t;
    }
    side.stock_length = side.wall.length(side.stock_line(), 0, wing_t);
    side.finished_length = side.wall.length(side.finished_line(), 0, wing_t);
    side.uncovered = side.wall.area(side.stock_line(), side.finished_line(), 0, wing_t);
    if (!side.is_cut()) return;
    const double first = back ? 0 : std::ceil(side.profile.rear_from / ruler_step) * ruler_step;
    for (double t = first; t <= side.profile.front_to; t += ruler_step)
      side.heights.push_back({t, to_pose(sole.station(t)), side.stock(t), side.finished(t)});
  }

  const SidesInput& in_;
  Findings& findings_;
  const StockSides& stock_;
  std::optional<SoleEdge> medial_edge_;
  std::optional<SoleEdge> lateral_edge_;
};

} // namespace

std::optional<SolvedSides> solve_sides(const SidesInput& input, Findings& findings) {
  if (!input.shoe.sides) {
    findings.push_back({Severity::error, "shoe." + input.foot_name + ".sides",
                        "the sides' heights are missing",
                        "back, low, low_at, wing, and lean or width_across",
                        "Measure from the outer sole's edge up over the satin to the top line, "
                        "foot in the shoe."});
    return {};
  }
  return SidesSolver(input, findings).solve();
}

std::optional<SewnEnd> sewn_end(const SolvedSide& side, SewnEnd::What what, BoardStation at,
                                double width, double overlap, double casing) {
  const auto t = side.wall.edge().at_station(at);
  if (!t || *t - width / 2 < 0 || *t + width / 2 > side.wing) return {};
  double top = 1e9; // the lowest over its width
  for (const double beside : {-width / 2, 0.0, width / 2})
    top = std::min(top, side.finished(*t + beside) - casing);
  const double low = top - overlap;
  if (!(low > 0)) return {};
  return SewnEnd{what, *t, width, top, low};
}

} // namespace shankline
