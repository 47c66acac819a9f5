#include "geometry/order/reading_guide.hpp"

#include "geometry/numerics/degree.hpp"
#include "geometry/order/figure.hpp"

#include <algorithm>
#include <array>

namespace shankline {
namespace {

using enum Quantity;

constexpr const char* what_the_break_does =
    "The foot bends most here on pointe, and the shoe has to bend with it. The stop line, the "
    "window, the slant of the cut and the break chart all follow from it. Read too far forward, "
    "the stop line moves towards the toes: too much may be cut off, and the board no longer holds "
    "the arch. Read too far back, less may be cut off than the foot needs: the shoe still bends "
    "too low, ahead of the foot.";

constexpr bool posed = true;

constexpr std::string_view heel_to_mark =
    "From the back of the heel along the sole to that mark; in the shoe, from its back seam.";

// Half-widths: common practice, no source, from memory. Limits: ours, wide enough for any foot.
constexpr std::array guides{
    ReadingGuide{
        "length", length, 120, 340, 1, "foot length",
        "Stand on a rule with the heel against a wall; read at the longest toe.",
        "What is not measured is estimated from it, and it is used to spot unlikely readings.",
        "From the back of the heel to the tip of the longest toe.", &Foot::length},
    ReadingGuide{
        "ball_length", length, 80, 260, 2, "ball length",
        "Standing, from the back of the heel to the middle of the big-toe joint.",
        "It is the front end of the arch. The break chart and the estimates are built on it.", "",
        &Foot::ball_length},
    ReadingGuide{"heel_front", length, 20, 130, 3, "heel front",
                 "Slide a thumb back along the sole until the pad thickens; mark its front edge.",
                 "At reach edge the board ends exactly here, so it moves the cut one for one.",
                 heel_to_mark, &Foot::heel_front, posed},
    ReadingGuide{"arch_break", length, 30, 240, 4, "arch break",
                 "Hold a soft strip to the sole and point the foot: mark where the strip bends "
                 "most, not the top of the instep.",
                 what_the_break_does, heel_to_mark, &ArchBreak::centre, posed},
    ReadingGuide{"arch_break.medial", length, 30, 240, 4, "arch break, big-toe side",
                 "Hold a soft strip to the sole at the big-toe edge and point the foot: mark where "
                 "the strip bends most.",
                 what_the_break_does, heel_to_mark, &ArchBreak::medial, posed},
    ReadingGuide{
        "arch_break.lateral", length, 30, 240, 5, "arch break, little-toe side",
        "The same on the little-toe edge; leave it out when unsure, the line is then "
        "square.",
        "Together with the big-toe side it shows whether the cut runs square or at a slant.",
        heel_to_mark, &ArchBreak::lateral, posed},
    ReadingGuide{"arch_break.across", length, 15, 90, 1, "distance across between the break marks",
                 "Measure straight across the sole between the two break marks."},
    ReadingGuide{"arch_depth", length, 0.5, 60, 2, "arch depth",
                 "Foot pointed, lay a straight ruler from the ball to the middle of the heel pad; "
                 "measure the largest gap under it.",
                 "How far the arch bends: the break chart needs it.",
                 "From the ruler's edge straight up to the sole.", &Foot::arch_depth},
    ReadingGuide{
        "deepest", length, 30, 240, 4, "deepest point",
        "Where along the sole the gap under the straight ruler is largest.",
        "It is used in place of the arch break where that cannot be found: a last resort.",
        "From the back of the heel along the sole to that place; in the shoe, from its back seam.",
        &Foot::deepest, posed},
    ReadingGuide{"arch_bend", angle, 2, 90, 4, "arch bend angle",
                 "The angle between the sole's heel half and its ball half, foot pointed.",
                 "It is used in place of the arch depth.", "", &Foot::arch_bend_rad},
    ReadingGuide{"fold", length, 0, 25, 3, "fold",
                 "On pointe in the shoe, pinch the satin at the back seam and measure its depth.",
                 "It shifts the foot against the shoe, and so the cut, one for one.",
                 "From the shoe's back seam to the back of the heel.", &Foot::fold},
    ReadingGuide{"ankle_girth", length, 120, 360, 3, "ankle girth",
                 "Round the ankle where the ribbon will lie, tape flat, not tight.", "",
                 "From a mark on the ankle, round it, to the same mark.", &Foot::ankle_girth},
    ReadingGuide{"ankle_height", length, 25, 120, 3, "outer-ankle height",
                 "From the floor to the tip of the outer ankle bone, standing.", "", "",
                 &Foot::ankle_height},
    ReadingGuide{"ball_width", length, 50, 140, 2, "ball width",
                 "Across the widest part of the ball, standing.", "", "", &Foot::ball_width},
    ReadingGuide{"heel_width", length, 35, 110, 2, "heel width",
                 "Across the widest part of the heel, standing.", "", "", &Foot::heel_width},
    ReadingGuide{"roll.raise", length, 0, 15, 1, "raise of the darning",
                 "How much higher the darning goes on the side that the foot rolls to."},
    ReadingGuide{"board.length", length, 100, 320, 1, "board length",
                 "Lay the loose board flat; along its centre line from end to end.",
                 "What stays of the board is counted from it, and so is the three-quarter rule.",
                 "Of a loose board only, from its heel end to its toe end."},
    ReadingGuide{"board.inset", length, 0, 40, 1.5, "inset",
                 "From the inside of the shoe's back to the board's heel end.",
                 "It ties the board to the back of the shoe, and moves the cut one for one."},
    ReadingGuide{"board.thickness", length, 0.8, 10, 0.2, "board thickness",
                 "With a caliper at the place of the cut; in the shoe, lift the board's heel end.",
                 "The stiffness for the break chart and the bevel depend on it, not the line.",
                 "From its foot side to its sole side."},
    ReadingGuide{"board.layers", number, 1, 6, 0, "layers of the board",
                 "Count the layers that the cut goes through, at the board's edge."},
    ReadingGuide{"board.edge_thickness", length, 0.2, 8, 0.2, "edge thickness after bevelling",
                 "What is left at the cut edge after bevelling."},
    ReadingGuide{"board.sole_length", length, 100, 340, 1.5, "outer sole's length",
                 "Along the middle of the outer sole from end to end.",
                 "The three-quarter rule works on it while the board is in the shoe.",
                 "Where the board stays in the shoe, from the sole's heel end to its toe end."},
    ReadingGuide{
        "board.widths.station", length, 1, 320, 1, "distance of a board width from the heel end",
        "From the board's heel end along its centre line. A board in the shoe is measured "
        "near its heel end and where the cut will be: about 60 from its heel end on a foot "
        "of 238, under the front edge of the heel pad."},
    ReadingGuide{"board.widths.width", length, 10, 110, 1, "board width",
                 "Straight across the board, edge to edge."},
    ReadingGuide{"board.widths.half", length, 4, 60, 1, "half-width of the board",
                 "From the board's centre line to its edge."},
    ReadingGuide{"sides.back", length, 20, 75, 1.5, "height of the back",
                 "At the back seam, from the outer sole's edge up over the satin to the top line.",
                 "The top line runs from here to the low point."},
    ReadingGuide{"sides.low", length, 15, 75, 1.5, "height at the low point of the side",
                 "From the outer sole's edge up over the satin to the top line, foot in the shoe.",
                 "What is taken off is counted from here, and enough has to stay."},
    ReadingGuide{"sides.low_at", length, 20, 240, 3, "distance of the low point from the heel",
                 "Along the sole from the back to where the side is lowest.",
                 "It places the low point along the sole."},
    ReadingGuide{"sides.wing", length, 15, 75, 1.5, "height at the wing",
                 "From the outer sole's edge up over the satin to the top line, at the wing's end.",
                 "The lowered side has to run out before the box's stiff flank."},
    ReadingGuide{"sides.wing_at", length, 60, 280, 3, "distance of the wing's end from the heel",
                 "Along the sole from the back to where the box's stiff flank ends.",
                 "It places the wing's end; left out, it is in proportion to the foot length."},
    ReadingGuide{"sides.lean", angle, -10, 45, 3, "lean of the side",
                 "How far the side leans in from upright."},
    ReadingGuide{"sides.width_across", length, 15, 110, 3, "width across the top line",
                 "At the low point of the sides, foot in, straight across.",
                 "It tells how far the wall leans in, and so the shape of the side laid flat.",
                 "From the top line of one side to that of the other."},
    ReadingGuide{"sides.casing", length, 3, 20, 0.5, "casing width",
                 "Across the casing, top line to stitching.",
                 "The stitch line of the new casing is drawn at this distance."},
    ReadingGuide{"sides.heights.station", length, 5, 280, 3,
                 "distance of a side height from the heel",
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
    ReadingGuide{
        "pull", number, 0.001, 1, 0, "pull of the upper",
        "In N/mm along the sole; it is easier to measure how far the sole can be pushed up."},
    ReadingGuide{
        "pull.travel", length, 0.5, 30, 2, "how far the sole can be pushed up",
        "On pointe in the uncut shoe: how far a helper can push the sole up to the arch with a "
        "thumb.",
        "How firmly the upper holds the sole to the arch, for the break chart.",
        "From the sole as it hangs to the sole pushed up."},
    // Wishes: not measured, but held to limits in the same way.
    ReadingGuide{"shank.reach", number, 0.5, 1.5, 0, "reach",
                 "1 ends the board at the heel's front edge, more tucks it under the heel, less "
                 "stops it short."},
    ReadingGuide{"shank.reach.learned", length, 10, 160, 0, "learned place of the board's end",
                 "From the back of the heel of the pointed foot, also where the order is read in "
                 "the shoe; copy it from what the archive says of this foot."},
    ReadingGuide{"shank.reach.U", length, 2, 40, 0, "doubt of the learned place",
                 "The learned place is known to \u00b1 this at 95 %."},
    ReadingGuide{"shank.reach.pairs", number, 1, 1000, 0, "pairs that were learned from",
                 "How many pairs of this foot have tries on record."},
    ReadingGuide{"shank.reach.worn_good", number, 0, 1000, 0, "pairs that ended good after wear",
                 "How many of these pairs ended good after wear; from 3 on the first cut may stay "
                 "less short."},
    ReadingGuide{"shank.reach.model", number, 1, 99, 0, "version of the learning model",
                 "As the archive gave it."},
    ReadingGuide{
        "shank.reach.too_far", length, 0, 200, 0, "end that was cut too far",
        "From the back of the heel of the pointed foot: an end of an earlier board of this "
        "foot that was cut too far. The first cut stays behind it."},
    ReadingGuide{"shank.keep", percent, 40, 95, 0, "kept fraction of the board",
                 "How much of the board's length stays, such as 75 %."},
    ReadingGuide{"shank.mark", length, 1, 320, 1, "mark on the board",
                 "From the board's heel end along its centre line to the mark."},
    ReadingGuide{"shank.bevel",
                 length,
                 0,
                 40,
                 0,
                 "bevel",
                 "The length that thins towards the cut edge; none for a square edge.",
                 {},
                 "From the cut edge towards the toes, to where the board has its full thickness."},
    ReadingGuide{"shank.corner", length, 0, 40, 0, "corner radius of a rounded end",
                 "How round the corners of the cut end are made."},
    ReadingGuide{"shank.tuck_max", length, 0, 40, 0, "farthest tuck under the heel",
                 "How far behind the heel's front edge the board may end."},
    ReadingGuide{"shank.bearing_min", length, 5, 80, 0, "least board behind the arch break",
                 "How much board has to stay behind the arch break; the stop line is there."},
    ReadingGuide{"shank.hold_back", length, 1, 60, 0, "hold-back of the first cut",
                 "How far the first cut stays short of the final line; left out, it is worked out "
                 "from how well the right place is known."},
    ReadingGuide{"sides.medial", length, 0, 60, 0, "cut-down of the big-toe side",
                 "How far the side is lowered on the big-toe side.",
                 "The lower the side, the more of the foot shows and the less holds it.",
                 "From the old top line down to the new one, at the low point."},
    ReadingGuide{"sides.lateral", length, 0, 60, 0, "cut-down of the little-toe side",
                 "How far the side is lowered on the little-toe side.",
                 "The lower the side, the more of the foot shows and the less holds it.",
                 "From the old top line down to the new one, at the low point."},
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
    ReadingGuide{"shank.layers", number, 1, 6, 0, "layers that are cut",
                 "How many layers come off, counted from the foot side; the rest stays."},
    ReadingGuide{"thinned.from", length, 1, 320, 0, "beginning of the thinned stretch",
                 "From the board's heel end along its centre line."},
    ReadingGuide{"thinned.to", length, 1, 320, 0, "end of the thinned stretch",
                 "From the board's heel end along its centre line."},
    ReadingGuide{"thinned.thickness", length, 0.5, 9, 0, "thickness of the thinned stretch",
                 "What is left of the board there, with a caliper."},
    ReadingGuide{"liner.clearance", length, 0, 10, 0, "clearance of the liner",
                 "How far the liner stays inside the shoe's seat, all round."},
    ReadingGuide{"liner.length", length, 60, 320, 1, "length of the liner",
                 "The old liner, from its very heel end to its front."},
    ReadingGuide{"darning.passes", number, 1, 6, 0, "passes of darning",
                 "Two are usual: one loose, one that fills the gaps."},
    ReadingGuide{"darning.height", length, 1, 25, 0, "height of the darning",
                 "How far the wrap goes up from the platform's edge.", "",
                 "From the platform's edge up to the last row of stitches."},
    ReadingGuide{"darning.raise", length, 0, 15, 0, "raise of the darning",
                 "How much higher the darning goes on the side that the foot rolls to."},
    ReadingGuide{"darning.pitch", length, 1, 10, 0, "pitch of the darning",
                 "From stitch to stitch along the platform's edge."},
    ReadingGuide{"darning.allowance", percent, 0, 100, 0, "allowance of the yarn",
                 "For take-up and ends, in per cent of the yarn's length."},
    ReadingGuide{"darning.yarn", number, 5, 5000, 0, "fineness of the yarn",
                 "On the band of the yarn: 50 tex, or Nm 20."},
    ReadingGuide{"ribbons.stretch", percent, 0, 60, 0, "working stretch of the ribbon",
                 "Mark 100 mm on the ribbon, pull it as worn, and read how much longer it is."},
    ReadingGuide{"ribbons.width", length, 5, 60, 0, "width of the ribbon",
                 "Across the ribbon, lying flat."},
    ReadingGuide{"ribbons.wraps", number, 0.5, 4, 0, "wraps round the ankle",
                 "How many times it passes round; 2 of a ring, 1.5 of each tied ribbon."},
    ReadingGuide{"ribbons.pitch", length, 0, 60, 0, "climb of a wrap",
                 "How much higher each wrap lies than the one before."},
    ReadingGuide{"ribbons.overlap", length, 5, 40, 0, "sewn end of the ribbon",
                 "How much of each end is sewn to the inside of the side."},
    ReadingGuide{"ribbons.rise", length, 10, 200, 0, "rise of the ribbon",
                 "On pointe, tape from the sewing mark on the side to where the ribbon lies round "
                 "the ankle."},
    ReadingGuide{"ribbons.tie", length, 50, 500, 0, "length for the knot",
                 "What each tied ribbon needs beyond the wraps."},
    ReadingGuide{"ribbons.sewn_at", length, 10, 240, 3, "distance of the sewn ribbon from the heel",
                 "Fold the heel in flat; where it meets the side, from the back along the sole."},
    ReadingGuide{"elastics.stretch", percent, 5, 100, 0, "working stretch of the elastic",
                 "Mark 100 mm on the elastic, pull it as worn, and read how much longer it is."},
    ReadingGuide{"elastics.width", length, 3, 60, 0, "width of the elastic",
                 "Across the elastic, lying flat."},
    ReadingGuide{"elastics.over", length, 40, 300, 3, "length of the elastic's way over the foot",
                 "Foot in the shoe, tape over the instep or vamp from side to side where the "
                 "elastic will lie."},
    ReadingGuide{"elastics.sewn_at", length, 10, 240, 3, "distance of the elastic from the heel",
                 "Along the sole from the back to where the elastic is sewn to the side."},
    ReadingGuide{"elastics.overlap", length, 3, 30, 0, "sewn end of the elastic",
                 "How much of each end is sewn down."},
    ReadingGuide{"tuck.depth", length, 0.5, 12, 0, "depth of the tuck",
                 "On pointe in the shoe, pinch the satin at the back seam and measure its depth."},
    ReadingGuide{"tuck.down", length, 10, 70, 0, "length of the tuck",
                 "How far down the back seam the tuck runs out to nothing."},
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
    ReadingGuide{"made.layers", number, 0, 6, 0, "layers of a made board that go on to the heel",
                 "Count them behind the line."},
    ReadingGuide{"made.within", length, 0.01, 10, 0, "uncertainty of what was measured",
                 "The half-width that holds in 95 of 100 cases."},
    ReadingGuide{"schedule.hours", number, 0.05, 12, 0, "hours on pointe",
                 "Count the hours on pointe of that day, not those in the studio."},
    ReadingGuide{"quantity", number, 1, 999, 0, "quantity of pairs",
                 "Count the pairs that the maker is to make by this order."},
    ReadingGuide{"tolerances.cut", length, 0.1, 10, 0, "tolerance of a cut",
                 "How far a cut may fall short of its line; it never goes past it."},
    ReadingGuide{"tolerances.other", length, 0.05, 10, 0, "tolerance of other dimensions",
                 "Choose bench or knife, or one figure for all."},
};

std::string_view unit_of(Quantity quantity) {
  switch (quantity) {
  case length:
    return " mm";
  case angle:
    return " degrees";
  case percent:
    return " %";
  case mass:
    return " g";
  case number:
    return "";
  }
  return "";
}

} // namespace

std::span<const ReadingGuide> reading_guides() {
  return guides;
}

const ReadingGuide* reading_guide(std::string_view key) {
  const auto found = std::find_if(guides.begin(), guides.end(),
                                  [key](const ReadingGuide& guide) { return guide.key == key; });
  return found == guides.end() ? nullptr : &*found;
}

double order_units(Quantity quantity) {
  return quantity == angle ? degree : quantity == percent ? 0.01 : 1;
}

double usual_finding(const ReadingGuide& guide) {
  return guide.quantity == angle ? guide.finding * degree : guide.finding;
}

std::string how_to_take(std::string_view key) {
  const ReadingGuide* guide = reading_guide(key);
  return guide == nullptr ? std::string() : std::string(guide->how);
}

std::string limits_in_words(const ReadingGuide& guide) {
  return short_figure(guide.least, 2) + " to " + short_figure(guide.most, 2) +
         std::string(unit_of(guide.quantity));
}

} // namespace shankline
