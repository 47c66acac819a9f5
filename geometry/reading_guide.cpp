#include "geometry/reading_guide.hpp"

#include <algorithm>
#include <array>

namespace shankline {
namespace {

using enum Quantity;

// Half-widths: common practice, no source, from memory. Limits: ours, wide enough for any foot.
constexpr std::array guides{
    ReadingGuide{"length", length, 120, 340, 1, "foot length",
                 "Stand on a rule with the heel against a wall; read at the longest toe."},
    ReadingGuide{"ball_length", length, 80, 260, 2, "ball length",
                 "Standing, from the back of the heel to the middle of the big-toe joint."},
    ReadingGuide{"heel_front", length, 20, 130, 3, "heel front",
                 "Slide a thumb back along the sole until the pad thickens; mark its front edge."},
    ReadingGuide{"arch_break", length, 30, 240, 4, "arch break",
                 "Hold a soft strip to the sole and point the foot: mark where the strip bends "
                 "most, not the top of the instep."},
    ReadingGuide{"arch_break.medial", length, 30, 240, 4, "arch break, big-toe side",
                 "Hold a soft strip to the sole at the big-toe edge and point the foot: mark where "
                 "the strip bends most."},
    ReadingGuide{"arch_break.lateral", length, 30, 240, 5, "arch break, little-toe side",
                 "The same on the little-toe edge; leave it out when unsure, the line is then "
                 "square."},
    ReadingGuide{"arch_break.across", length, 15, 90, 1, "distance across between the break marks",
                 "Measure straight across the sole between the two break marks."},
    ReadingGuide{"arch_depth", length, 0.5, 60, 2, "arch depth",
                 "Foot pointed, lay a straight ruler from the ball to the middle of the heel pad; "
                 "measure the largest gap under it."},
    ReadingGuide{"deepest", length, 30, 240, 4, "deepest point",
                 "Where along the sole the gap under the straight ruler is largest."},
    ReadingGuide{"arch_bend", angle, 2, 90, 4, "arch bend angle",
                 "The angle between the sole's heel half and its ball half, foot pointed."},
    ReadingGuide{"fold", length, 0, 25, 3, "fold",
                 "On pointe in the shoe, pinch the satin at the back seam and measure its depth."},
    ReadingGuide{"ankle_girth", length, 120, 360, 3, "ankle girth",
                 "Round the ankle where the ribbon will lie, tape flat, not tight."},
    ReadingGuide{"ankle_height", length, 25, 120, 3, "outer-ankle height",
                 "From the floor to the tip of the outer ankle bone, standing."},
    ReadingGuide{"ball_width", length, 50, 140, 2, "ball width",
                 "Across the widest part of the ball, standing."},
    ReadingGuide{"heel_width", length, 35, 110, 2, "heel width",
                 "Across the widest part of the heel, standing."},
    ReadingGuide{"roll.raise", length, 0, 15, 1, "raise of the darning",
                 "How much higher the darning goes on the side that the foot rolls to."},
    ReadingGuide{"board.length", length, 100, 320, 1, "board length",
                 "Lay the loose board flat; along its centre line from end to end."},
    ReadingGuide{"board.inset", length, 0, 40, 1.5, "inset",
                 "From the inside of the shoe's back to the board's heel end."},
    ReadingGuide{"board.thickness", length, 0.8, 10, 0.2, "board thickness",
                 "With a caliper at the place of the cut."},
    ReadingGuide{"board.layers", number, 1, 6, 0, "layers of the board",
                 "Count the layers that the cut goes through, at the board's edge."},
    ReadingGuide{"board.edge_thickness", length, 0.2, 8, 0.2, "edge thickness after bevelling",
                 "What is left at the cut edge after bevelling."},
    ReadingGuide{"board.sole_length", length, 100, 340, 1.5, "outer sole's length",
                 "Along the middle of the outer sole from end to end."},
    ReadingGuide{"board.widths.station", length, 1, 320, 1, "station of a board width",
                 "From the board's heel end along its centre line."},
    ReadingGuide{"board.widths.width", length, 10, 110, 1, "board width",
                 "Straight across the board, edge to edge."},
    ReadingGuide{"board.widths.half", length, 4, 60, 1, "half-width of the board",
                 "From the board's centre line to its edge."},
    ReadingGuide{"sides.back", length, 20, 75, 1.5, "height of the back",
                 "At the back seam, from the outer sole's edge up over the satin to the top line."},
    ReadingGuide{"sides.low", length, 15, 75, 1.5, "height at the low point of the side",
                 "From the outer sole's edge up over the satin to the top line, foot in the shoe."},
    ReadingGuide{"sides.low_at", length, 20, 240, 3, "station of the low point",
                 "Along the sole from the back to where the side is lowest."},
    ReadingGuide{
        "sides.wing", length, 15, 75, 1.5, "height at the wing",
        "From the outer sole's edge up over the satin to the top line, at the wing's end."},
    ReadingGuide{"sides.wing_at", length, 60, 280, 3, "station of the wing's end",
                 "Along the sole from the back to where the box's stiff flank ends."},
    ReadingGuide{"sides.lean", angle, -10, 45, 3, "lean of the side",
                 "How far the side leans in from upright."},
    ReadingGuide{"sides.width_across", length, 15, 110, 3, "width across the top line",
                 "At the low point of the sides, foot in, straight across."},
    ReadingGuide{"sides.casing", length, 3, 20, 0.5, "casing width",
                 "Across the casing, top line to stitching."},
    ReadingGuide{"sides.heights.station", length, 5, 280, 3, "station of a side height",
                 "Along the sole from the back to where the height is taken."},
    ReadingGuide{"sides.heights.height", length, 15, 75, 1.5, "side height",
                 "From the outer sole's edge up over the satin to the top line, foot in the shoe."},
    ReadingGuide{"sides.throat", length, 40, 260, 3, "top line across the throat",
                 "Along the top line over the vamp, from wing to wing."},
    ReadingGuide{"platform.width", length, 15, 90, 1, "platform width",
                 "Across the flat tip, edge to edge."},
    ReadingGuide{"platform.depth", length, 8, 60, 1, "platform depth",
                 "Through the flat tip, from the pleats to the vamp side."},
    ReadingGuide{"stiffness.board", number, 1000, 1000000, 0, "bending stiffness of the board",
                 "In N mm², from a bending test; without one, give a grade by hand or the droop."},
    ReadingGuide{"stiffness.sole", number, 100, 200000, 0, "bending stiffness of the sole",
                 "In N mm², from a bending test; without one, leave it out."},
    ReadingGuide{
        "stiffness.droop", length, 0.5, 150, 0.5, "droop",
        "Clamp the loose board, hang the weight at its end, measure how far the end sinks."},
    ReadingGuide{"stiffness.weight", mass, 5, 3000, 1, "hung weight",
                 "Weigh it on a kitchen scale."},
    ReadingGuide{"stiffness.free", length, 40, 300, 0.5, "free length of the droop test",
                 "From the clamp's edge to where the weight hangs."},
    ReadingGuide{"pull", number, 0.001, 1, 0, "pull of the upper",
                 "In N/mm along the sole; easier to take is the travel of the sole."},
    ReadingGuide{"pull.travel", length, 0.5, 30, 2, "travel of the sole",
                 "Standing on pointe in the uncut shoe: how far a helper thumbs the sole up to the "
                 "arch."},
    // Wishes: not measured, but held to limits in the same way.
    ReadingGuide{"shank.reach", number, 0.5, 1.5, 0, "reach",
                 "1 ends the board at the heel's front edge, more tucks it under the heel, less "
                 "stops it short."},
    ReadingGuide{"shank.keep", percent, 40, 95, 0, "kept fraction of the board",
                 "How much of the board's length stays, such as 75 %."},
    ReadingGuide{"shank.mark", length, 1, 320, 1, "mark on the board",
                 "From the board's heel end along its centre line to the mark."},
    ReadingGuide{"shank.bevel", length, 0, 40, 0, "bevel",
                 "The length that thins towards the cut edge; none for a square edge."},
    ReadingGuide{"shank.corner", length, 0, 40, 0, "corner radius of a rounded end",
                 "How round the corners of the cut end are made."},
    ReadingGuide{"shank.tuck_max", length, 0, 40, 0, "farthest tuck under the heel",
                 "How far behind the heel's front edge the board may end."},
    ReadingGuide{"shank.bearing_min", length, 5, 80, 0, "least board behind the arch break",
                 "How much board has to stay behind the arch break; the stop line is there."},
    ReadingGuide{"sides.medial", length, 0, 60, 0, "cut-down of the big-toe side",
                 "How far the side is lowered on the big-toe side."},
    ReadingGuide{"sides.lateral", length, 0, 60, 0, "cut-down of the little-toe side",
                 "How far the side is lowered on the little-toe side."},
    ReadingGuide{"sides.back_depth", length, 0, 40, 0, "cut-down of the back",
                 "How far the back is lowered; it usually stays."},
    ReadingGuide{"sides.turn", length, 0, 15, 0, "allowance of a turned edge",
                 "What is left above the new line to be turned in."},
    ReadingGuide{"sides.keep", length, 10, 70, 0, "least height of the sides",
                 "The least height of side that stays, 30 in common practice."},
    ReadingGuide{"sides.slope", number, 0.05, 2, 0, "steepest run-out",
                 "Height per length; 0.5 in common practice."},
    ReadingGuide{"sides.run_out", length, 5, 120, 0, "run-out",
                 "The length over which the lowered stretch runs out."},
    ReadingGuide{"sides.deepest_at", length, 30, 240, 0, "deepest place of the cut-down",
                 "Along the sole from the back; left out, it is the arch break."},
    ReadingGuide{"sides.deepest_length", length, 0, 120, 0, "deepest stretch of the cut-down",
                 "The length over which the side is lowered all the way."},
    ReadingGuide{"sides.stretch", percent, 0, 60, 0, "working stretch of the drawstring",
                 "How much longer the elastic is when it works, in per cent of its slack length."},
    ReadingGuide{"darning.passes", number, 1, 6, 0, "passes of darning",
                 "Two are usual: one loose, one that fills."},
    ReadingGuide{"ribbons.stretch", percent, 0, 60, 0, "working stretch of the ribbon",
                 "Mark 100 mm on the ribbon, pull it as worn, and read how much longer it is."},
    // On a worn pair that was right, and on the new one beside it.
    ReadingGuide{"worn.board_end", length, 60, 320, 1, "platform to the worn board's end",
                 "On the worn shoe, from the platform's edge along the sole to the board's end."},
    ReadingGuide{"worn.heel_end", length, 80, 340, 1, "platform to the new board's heel end",
                 "On the new shoe, from the platform's edge along the sole to the board's heel "
                 "end."},
    ReadingGuide{"worn.medial", length, 10, 75, 1.5, "height of the worn big-toe side",
                 "At its low point, from the sole's edge up over the satin, foot in the shoe."},
    ReadingGuide{"worn.lateral", length, 10, 75, 1.5, "height of the worn little-toe side",
                 "At its low point, from the sole's edge up over the satin, foot in the shoe."},
    ReadingGuide{"worn.back", length, 10, 75, 1.5, "height of the worn back",
                 "At the back seam, from the sole's edge up over the satin."},
    // On a made pair: whatever was measured is judged, so the limits are wide.
    ReadingGuide{"made.size", length, 0.1, 500, 0, "size of a made part",
                 "Measure it as the acceptance sheet says."},
    ReadingGuide{"made.within", length, 0.01, 10, 0, "uncertainty of what was measured",
                 "The half-width that holds in 95 of 100 cases."},
    ReadingGuide{"tolerances.cut", length, 0.1, 10, 0, "tolerance of a cut",
                 "How far a cut may fall short of its line; it never goes past it."},
    ReadingGuide{"tolerances.other", length, 0.05, 10, 0, "tolerance of other dimensions",
                 "Choose bench or knife, or one figure for all."},
};

} // namespace

std::span<const ReadingGuide> reading_guides() {
  return guides;
}

const ReadingGuide* reading_guide(std::string_view key) {
  const auto found = std::find_if(guides.begin(), guides.end(),
                                  [key](const ReadingGuide& guide) { return guide.key == key; });
  return found == guides.end() ? nullptr : &*found;
}

} // namespace shankline
