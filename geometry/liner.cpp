#include "geometry/liner.hpp"

#include "geometry/figure.hpp"
#include "geometry/inset.hpp"
#include "geometry/reading_guide.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace shankline {
namespace {

// From memory, common practice.
constexpr double rounding = 20; ///< length of a rounded front

} // namespace

BoardOutline shoe_seat(const Board& board, const BoardOutline& outline,
                       const std::optional<double>& front) {
  const double inset = board.inset->value();
  std::vector<BoardWidth> widths;
  const auto add = [&](double station) {
    widths.push_back({station + inset, outline.half_width(Edge::medial, station),
                      outline.half_width(Edge::lateral, station)});
  };
  const double end = front ? *front - std::min(rounding, *front / 4) - inset : 1e300;
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
  const std::string key = "alterations." + name + ".liner";
  const auto error = [&](std::string where, std::string what, std::string allowed,
                         std::string advice) {
    findings.push_back({Severity::error, std::move(where), std::move(what), std::move(allowed),
                        std::move(advice)});
    return std::nullopt;
  };
  const double inset_at_heel = board.inset->value();
  if (!wish.length && !outline.closed())
    return error(key + ".length",
                 "the board stays in the shoe, so how far a full liner goes is not known",
                 "liner: {length: 190}", how_to_take("liner.length"));

  std::optional<double> front;
  if (wish.length) {
    front = *wish.length + 2 * wish.clearance;
    const double begins = *front - std::min(rounding, *front / 4) - inset_at_heel;
    if (outline.closed() && *front > *outline.length() + inset_at_heel)
      return error(key + ".length",
                   "a liner of " + short_figure(*wish.length) + " is longer than the shoe's seat",
                   "up to " + short_figure(std::floor(*outline.length() + inset_at_heel -
                                                      2 * wish.clearance)),
                   "Leave the length out: the liner then goes as far as the board.");
    if (!outline.closed() && begins > outline.last_station() + held_past_last)
      return error("shoe." + name + ".board.widths",
                   "the board's width is known up to " + short_figure(outline.last_station()) +
                       " only, the liner goes on to " + short_figure(*front - inset_at_heel),
                   "a width at about " + short_figure(begins, 0) + " from the board's heel end",
                   "Measure the board's width there, or the old liner's, and add it.");
    if (!(begins > board.widths.front().station + 1))
      return error(key + ".length",
                   "a liner of " + short_figure(*wish.length) + " is too short to be cut to shape",
                   "ahead of the board's first width by 25 or more", how_to_take("liner.length"));
  }
  const Polygon seat = shoe_seat(board, outline, front).polygon();
  auto liner = inset(seat, wish.clearance);
  if (!liner) {
    double fits = 0;
    double eats = wish.clearance;
    for (int i = 0; i < 20; ++i) {
      const double middle = (fits + eats) / 2;
      (inset(seat, middle) ? fits : eats) = middle;
    }
    return error(key + ".clearance",
                 "a clearance of " + short_figure(wish.clearance) +
                     " leaves no liner: the seat is narrower than that",
                 "up to " + short_figure(std::floor(fits * 10) / 10), "Usually 1.5.");
  }
  const OutlineExtent extent = outline_extent(*liner);
  const double area = signed_area(*liner);
  return SolvedLiner{std::move(*liner), wish.clearance, extent.along_x, extent.along_y, area};
}

} // namespace shankline
