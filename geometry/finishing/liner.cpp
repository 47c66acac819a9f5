#include "geometry/finishing/liner.hpp"

#include "geometry/order/figure.hpp"
#include "geometry/order/reading_guide.hpp"
#include "geometry/plane/inset.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

namespace shankline {
namespace {

// Figures of common practice, from memory; lengths in mm.
constexpr double rounding = 20; ///< length of a rounded front

/// The beginning of the front's rounding, mm from the board's heel end.
double rounding_begins(double front, double inset) {
  return front - std::min(rounding, front / 4) - inset;
}

Finding error(Key key, std::string what, std::string allowed, std::string advice) {
  return {Severity::error, std::move(key), std::move(what), std::move(allowed), std::move(advice)};
}

/// Why a liner of the wished length cannot be cut; nullopt if it can.
std::optional<Finding> unfit_length(const Board& board, const BoardOutline& outline,
                                    const LinerWish& wish, const std::string& name) {
  const std::string key = "alterations." + name + ".liner.length";
  const double inset_at_heel = board.inset->value();
  if (!wish.length) {
    if (outline.closed()) return {};
    return error(key, "the board stays in the shoe, so how far a full liner goes is not known",
                 "liner: {length: 190}", how_to_take("liner.length"));
  }
  const double front = *wish.length + 2 * wish.clearance;
  const double begins = rounding_begins(front, inset_at_heel);
  if (outline.closed() && front > *outline.length() + inset_at_heel)
    return error(
        key, "a liner of " + short_figure(*wish.length) + " is longer than the shoe's seat",
        "up to " + short_figure(std::floor(*outline.length() + inset_at_heel - 2 * wish.clearance)),
        "Leave the length out: the liner then goes as far as the board.");
  if (!outline.closed() && begins > outline.last_station() + held_past_last)
    return error("shoe." + name + ".board.widths",
                 "the board's width is known up to " + short_figure(outline.last_station()) +
                     " only, the liner goes on to " + short_figure(front - inset_at_heel),
                 "a width at about " + short_figure(begins, 0) + " from the board's heel end",
                 "Measure the board's width there, or the old liner's, and add it.");
  if (!(begins > board.widths.front().station + 1))
    return error(key,
                 "a liner of " + short_figure(*wish.length) + " is too short to be cut to shape",
                 "ahead of the board's first width by 25 or more", how_to_take("liner.length"));
  return {};
}

/// The largest clearance that the seat can be inset by, found by halving; `clearance` itself does
/// not fit.
double largest_clearance(const Polygon& seat, double clearance) {
  double fits = 0;
  double eats = clearance;
  for (int i = 0; i < 20; ++i) {
    const double middle = (fits + eats) / 2;
    (inset(seat, middle) ? fits : eats) = middle;
  }
  return fits;
}

} // namespace

BoardOutline shoe_seat(const Board& board, const BoardOutline& outline,
                       const std::optional<double>& front) {
  const double inset = board.inset->value();
  std::vector<BoardWidth> widths;
  const auto add = [&](double station) {
    widths.push_back({station + inset, outline.half_width(Edge::medial, station),
                      outline.half_width(Edge::lateral, station)});
  };
  const double end =
      front ? rounding_begins(*front, inset) : std::numeric_limits<double>::infinity();
  for (const BoardWidth& width : board.widths)
    if (width.station < end - 1) add(width.station);
  if (front) add(end);
  std::optional<double> length = front;
  if (!front && outline.length()) length = *outline.length() + inset;
  return BoardOutline(widths, length);
}

std::optional<SolvedLiner> solve_liner(const Board& board, const BoardOutline& outline,
                                       const LinerWish& wish, const std::string& name,
                                       Findings& findings) {
  if (auto unfit = unfit_length(board, outline, wish, name)) {
    findings.push_back(std::move(*unfit));
    return {};
  }
  std::optional<double> front;
  if (wish.length) front = *wish.length + 2 * wish.clearance;
  const Polygon seat = shoe_seat(board, outline, front).polygon();
  auto liner = inset(seat, wish.clearance);
  if (!liner) {
    const double fits = largest_clearance(seat, wish.clearance);
    findings.push_back(error("alterations." + name + ".liner.clearance",
                             "a clearance of " + short_figure(wish.clearance) +
                                 " leaves no liner: the seat is narrower than that",
                             "up to " + short_figure(std::floor(fits * 10) / 10), "Usually 1.5."));
    return {};
  }
  const OutlineExtent extent = outline_extent(*liner);
  const double area = signed_area(*liner);
  return SolvedLiner{std::move(*liner), wish.clearance, extent.along_x, extent.along_y, area};
}

} // namespace shankline
