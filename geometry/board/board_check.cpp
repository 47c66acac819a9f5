#include "geometry/board/board_check.hpp"

#include "geometry/board/board_outline.hpp"
#include "geometry/order/figure.hpp"
#include "geometry/order/foot_estimates.hpp"
#include "geometry/order/reading_guide.hpp"
#include "geometry/plane/pieces.hpp"

#include <algorithm>
#include <cmath>
#include <string_view>

namespace shankline {
namespace {

Finding error(Key key, std::string what, std::string allowed, std::string advice) {
  return {Severity::error, std::move(key), std::move(what), std::move(allowed), std::move(advice)};
}

bool all_finite(const Board& board) {
  for (const BoardWidth& width : board.widths)
    if (!std::isfinite(width.station) || !std::isfinite(width.medial) ||
        !std::isfinite(width.lateral))
      return false;
  return true;
}

/// Beyond the guide's limits an outline would be drawn without end.
void check_size(std::string_view row, double value, const std::string& key, Findings& findings) {
  const ReadingGuide& guide = *reading_guide(row);
  if (value <= guide.most) return;
  findings.push_back(error(key, "the " + std::string(guide.name) + " is " + short_figure(value),
                           "from " + limits_in_words(guide), std::string(guide.how)));
}

/// Ends that narrow too fast cross the centre line.
void check_outline(const Board& board, const std::string& key, Findings& findings) {
  const BoardOutline outline(board.widths, board.loose_length());
  const double front = outline.length().value_or(outline.last_station());
  constexpr double coarse = 0.2; // whether edges cross shows in a coarse polygon as well
  const Polygon polygon =
      board.loose_length() ? outline.polygon(coarse) : outline.open_line(front, coarse);
  if (is_simple(polygon)) return;
  const bool at_heel = outline.half_width(Edge::medial, board.widths[0].station * 0.01) < 0 ||
                       outline.half_width(Edge::lateral, board.widths[0].station * 0.01) < 0;
  findings.push_back(error(
      key,
      at_heel ? "the board narrows so fast behind " + short_figure(board.widths[0].station) +
                    " from the heel end that its outline crosses itself"
              : "the board narrows so fast past " + short_figure(board.widths.back().station) +
                    " from the heel end that its outline crosses itself",
      "widths that meet at the ends only",
      "Add a width nearer to that end of the board, or measure the neighbouring ones again."));
}

/// Stations that rise, inside the board, and widths that a board can have.
void check_widths(const Board& board, const std::string& path, Findings& findings) {
  const std::string key = path + ".widths";
  const std::size_t before = findings.size();
  const std::optional<double> length = board.loose_length();
  for (std::size_t i = 0; i < board.widths.size(); ++i) {
    const BoardWidth& here = board.widths[i];
    const std::string at = "at " + short_figure(here.station) + " from the heel end";
    check_size("board.widths.station", here.station, key, findings);
    check_size("board.widths.half", std::max(here.medial, here.lateral), key, findings);
    if (!(here.medial > 0) || !(here.lateral > 0))
      findings.push_back(error(key, "the width " + at + " is nothing or less", "above 0",
                               how_to_take("board.widths.width")));
    if (!(here.station > 0) || (length && !(here.station < *length)))
      findings.push_back(error(
          key,
          "a width at " + short_figure(here.station) + " from the heel end lies outside the board",
          length ? "above 0 and below the board's length, " + short_figure(*length)
                 : std::string("above 0"),
          "Measure each distance from the board's heel end. The ends themselves have no width."));
    if (i > 0 && !(here.station > board.widths[i - 1].station))
      findings.push_back(error(key,
                               "the width at " + short_figure(here.station) +
                                   " comes after the width at " +
                                   short_figure(board.widths[i - 1].station),
                               "distances that grow from the heel end on",
                               "Write the widths in order, each place once."));
    if (length && here.medial + here.lateral >= *length)
      findings.push_back(
          error(key,
                "the board is " + short_figure(here.medial + here.lateral) + " wide " + at +
                    " and only " + short_figure(*length) + " long",
                "widths below the length",
                "Each pair is [distance from the heel, width]: are the two swapped?"));
  }
  if (findings.size() == before) check_outline(board, key, findings);
}

void caution_if_unusual(const Reading& inset, const std::string& path, Findings& findings) {
  const double value = inset.value();
  if (usual_insets.holds(value)) return;
  findings.push_back({Severity::caution, path + ".inset",
                      "an inset of " + short_figure(value) + " mm is unusual",
                      "most boards: " + short_figure(usual_insets.least) + " to " +
                          short_figure(usual_insets.most) + " mm, common practice",
                      in_centimetres_words(usual_insets, value) +
                          "Take it once more before cutting. An inset that is too small brings the "
                          "cut nearer to the arch break. " +
                          how_to_take("board.inset")});
}

} // namespace

Findings check_board(const Board& board, const std::string& path) {
  Findings findings;
  if (board.material == BoardMaterial::plastic)
    findings.push_back(error(path + ".material", "a moulded plastic board is not cut",
                             "fibreboard or leather",
                             "Ask for another shank or another shoe: it cannot be shortened."));
  if (!board.inset || !std::isfinite(board.inset->value()))
    findings.push_back(error(path + ".inset", "the board's inset is missing or no number",
                             "a length from " + limits_in_words(*reading_guide("board.inset")),
                             how_to_take("board.inset")));
  else
    caution_if_unusual(*board.inset, path, findings);
  const std::optional<double> length = board.loose_length();
  const bool length_known = length && std::isfinite(*length) && *length > 0;
  if (board.state == BoardState::loose && !length_known)
    findings.push_back(error(path + ".length", "the loose board's length is missing or no number",
                             "a length from " + limits_in_words(*reading_guide("board.length")),
                             how_to_take("board.length")));
  if (board.thickness && board.edge_thickness && *board.edge_thickness >= *board.thickness)
    findings.push_back(error(path + ".edge_thickness",
                             "the bevelled edge (" + short_figure(*board.edge_thickness) +
                                 ") is not thinner than the board (" +
                                 short_figure(*board.thickness) + ")",
                             "below the thickness", "Usually a quarter of the thickness."));
  if (!all_finite(board)) {
    findings.push_back(error(path + ".widths",
                             "a width or its distance from the heel is not a number",
                             "numbers in mm", how_to_take("board.widths.width")));
  } else if (board.widths.size() < 2) {
    findings.push_back(error(
        path + ".widths", "the board's shape needs two widths at least",
        "pairs of [distance from the heel, width]",
        board.state == BoardState::loose
            ? "Trace the board and measure it at the heel, at the waist and at the ball."
            : "Measure it near its heel end and where the cut will be: about 60 from its heel "
              "end, under the front edge of the heel pad."));
  } else if (board.state == BoardState::in_shoe || length_known) {
    check_widths(board, path, findings);
  }
  return findings;
}

Findings board_against_foot(const Board& board, double foot_length, const std::string& path) {
  constexpr double rounding_error = 1e-9;
  const bool in_shoe = board.state == BoardState::in_shoe;
  const std::optional<double> length = in_shoe ? board.sole_length : board.loose_length();
  if (!length) return {};
  const double reach = *length + (in_shoe ? 0 : board.inset->value());
  const double past = reach - foot_length;
  if (past <= board_past_foot + rounding_error) return {};
  const std::string what = in_shoe ? "an outer sole of " + short_figure(*length) + " mm is "
                                   : "a board of " + short_figure(*length) + " mm ends " +
                                         short_figure(reach) + " mm from the inside back, ";
  return {{Severity::caution, path + (in_shoe ? ".sole_length" : ".length"),
           what + short_figure(past) + " mm " + (in_shoe ? "longer" : "farther") +
               " than a foot of " + short_figure(foot_length) + " mm " +
               (in_shoe ? "is long" : "reaches"),
           "up to " + short_figure(board_past_foot) + " mm more, common practice",
           "Take this length and the foot length once more before cutting. A part of the board "
           "that is kept is counted from it. " +
               how_to_take(in_shoe ? "board.sole_length" : "board.length")}};
}

} // namespace shankline
