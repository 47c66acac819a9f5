#include "export/wording/work_words.hpp"

#include "export/wording/foot_words.hpp"
#include "geometry/order/drawstring.hpp"
#include "geometry/order/figure.hpp"

#include <algorithm>
#include <functional>
#include <utility>
#include <vector>

namespace shankline {

std::string with_tolerance(double mm, const SheetContext& context) {
  return length_text(mm, context.units) + " " +
         tolerance_text(dimension_tolerance(context.order.tolerances, mm));
}

std::string thickness_with_tolerance(double mm, const SheetContext& context) {
  const Tolerance tolerance = dimension_tolerance(context.order.tolerances, mm);
  return thickness_text(mm) + inches_inside(mm, tolerance, context.units, Rounding::up) + " " +
         tolerance_text(tolerance);
}

std::string whole_with_tolerance(double mm, const SheetContext& context) {
  return whole_length_text(mm, context.units) + " " +
         tolerance_text(dimension_tolerance(context.order.tolerances, mm));
}

std::vector<std::string> estimate_lines(const std::vector<FootWork>& feet, bool with_source,
                                        Units units) {
  struct Line {
    std::string name;
    std::string feet;
    std::string figures;
  };
  std::vector<Line> found;
  for (const FootWork& foot : feet)
    for (const Estimated& e : foot.solution->estimated) {
      const std::string figures = figure(e.value) + " \u00b1" + short_figure(2 * e.sd) +
                                  doubted_inches_beside(e.value, 2 * e.sd, units) +
                                  (with_source ? " (from " + e.source + ")" : std::string());
      const auto same = std::find_if(found.begin(), found.end(), [&](const Line& line) {
        return line.name == e.name && line.figures == figures;
      });
      if (same != found.end())
        same->feet = "both feet";
      else
        found.push_back({e.name, foot_name(foot.solution->side), figures});
    }
  std::vector<std::string> lines;
  for (const Line& line : found)
    lines.push_back(line.name + ", " + line.feet + ": " + line.figures);
  return lines;
}

double shown_hold_back(const SolvedTrim& trim) {
  if (!trim.first_cut) return trim.hold_back;
  return ruler_number(trim.final_cut.centre, Rounding::down) -
         ruler_number(trim.first_cut->centre, Rounding::down);
}

std::string posed(BoardStation station, const FootSolution& foot, Units units) {
  return whole_length_text(foot.frames.posed(station), units);
}

std::string other_work(const FootSolution& foot) {
  const std::pair<bool, const char*> works[] = {{foot.thinned.has_value(), "board thinned"},
                                                {foot.filler.has_value(), "filler"},
                                                {foot.liner.has_value(), "liner"},
                                                {foot.darning.has_value(), "darning"},
                                                {foot.ribbons.has_value(), "ribbons"},
                                                {foot.elastics.has_value(), "elastics"},
                                                {foot.tuck.has_value(), "tuck"}};
  std::string words;
  if (foot.layers) words = "only " + of_layers(*foot.layers) + " layers";
  for (const auto& [asked, name] : works)
    if (asked) words += (words.empty() ? "" : ", ") + std::string(name);
  return words;
}

std::string wraps_words(const std::vector<FootWork>& feet) {
  std::string words;
  for (const FootWork& foot : feet) {
    const auto& ribbons = foot.solution->ribbons;
    if (!ribbons || !ribbons->ring) continue;
    const std::string times =
        ribbons->wraps == 2 ? "twice" : short_figure(ribbons->wraps) + " times";
    if (words.empty())
      words = times;
    else if (words != times)
      words += " or " + times + " (left, right)";
  }
  return words;
}

std::string of_layers(const CutLayers& layers) {
  return std::to_string(layers.cut) + " of " + std::to_string(layers.of);
}

std::string layer_words(const FootWork& foot) {
  const auto& layers = foot.solution->layers;
  if (!layers) return {};
  return of_layers(*layers) + " from the foot side; the rest goes on to the heel";
}

std::string thinned_words(const FootWork& foot, const SheetContext& context) {
  const auto& thinned = foot.solution->thinned;
  if (!thinned) return {};
  return "from " + length_text(thinned->from, context.units) + " to " +
         length_text(thinned->to, context.units) + " as measured from its heel end, to " +
         thickness_with_tolerance(thinned->thickness, context) + " thick";
}

std::string board_end_words(const FootWork& foot, const SheetContext& context) {
  if (!foot.solution->trim) return {};
  const ToleranceWish& tolerances = context.order.tolerances;
  const ShankWish& wish = *foot.order->alterations.shank;
  std::string words = wish.end == BoardEnd::straight
                          ? "straight"
                          : "rounded, radius " + short_length_text(wish.corner, context.units) +
                                " " + tolerance_text(dimension_tolerance(tolerances, wish.corner));
  if (wish.bevel == 0) return words + "; no bevel";
  words += "; after the last cut only: bevel " + short_length_text(wish.bevel, context.units) +
           " " + tolerance_text(dimension_tolerance(tolerances, wish.bevel));
  if (const auto& edge = foot.solution->trim->bevel_edge_thickness)
    words += " on the foot side, to " + thickness_text(*edge) + " " +
             tolerance_text(dimension_tolerance(tolerances, *edge)) + " at the edge";
  return words;
}

std::string filler_thickness(double mm, const SheetContext& context) {
  const Tolerance tolerance = dimension_tolerance(context.order.tolerances, mm);
  return figure(mm) + inches_inside(mm, tolerance, context.units) + " " + tolerance_text(tolerance);
}

std::string filler_words(const FootWork& foot, const SheetContext& context) {
  const auto& filler = foot.solution->filler;
  if (!filler) return {};
  return (foot.solution->trim && foot.solution->trim->first_cut ? "made last; final line: " : "") +
         with_tolerance(filler->length, context) + " by " + with_tolerance(filler->width, context) +
         ", " + filler_thickness(filler->thickness, context) + " thick";
}

std::string side_depth_words(const FootWork& foot, const SheetContext& context) {
  if (!foot.solution->sides) return {};
  const SolvedSides& sides = *foot.solution->sides;
  const auto by = [&](double depth) {
    return short_figure(depth) +
           (depth > 0 ? inches_beside(depth, context.units, Rounding::down) : std::string());
  };
  return "big-toe side " + by(sides.medial.profile.depth) + ", little-toe side " +
         by(sides.lateral.profile.depth) +
         (sides.medial.profile.back > 0 ? ", back " + by(sides.medial.profile.back)
                                        : std::string(", back not lowered")) +
         "; " + tolerance_text(cut_off_tolerance(context.order.tolerances));
}

bool is_lifted(const FootSolution& foot) {
  return foot.trim && (!foot.outline.closed() || foot.layers);
}

namespace {

/// `words` of each side that is lowered: "both sides ..." where they are the same, else parted by
/// "; ". Empty if neither side is lowered.
std::string of_lowered_sides(const FootWork& foot,
                             const std::function<std::string(const SolvedSide&)>& words) {
  std::vector<std::string> said;
  std::string all;
  if (!foot.solution->sides) return all;
  for (const SolvedSide* side : {&foot.solution->sides->medial, &foot.solution->sides->lateral}) {
    if (!side->is_cut()) continue;
    said.push_back(words(*side));
    all += (all.empty() ? "" : "; ") + edge_words(side->edge) + " " + said.back();
  }
  return said.size() == 2 && said[0] == said[1] ? "both sides " + said[0] : all;
}

} // namespace

std::string side_place_words(const FootWork& foot, const SheetContext& context) {
  const auto at = [&](double t) { return whole_length_text(t, context.units); };
  const std::string sides = of_lowered_sides(foot, [&](const SolvedSide& side) {
    const DepthProfile& profile = side.profile;
    const std::string from = profile.back > 0 ? "0" : at(profile.rear_from);
    return from + " to " + at(profile.front_to) +
           (profile.depth > 0 ? ", in full " + at(profile.rear_to) + " to " + at(profile.front_from)
                              : "");
  });
  return sides.empty() ? sides : sides + " along the sole edge";
}

std::string side_height_words(const FootWork& foot, const SheetContext& context) {
  std::string sides = of_lowered_sides(foot, [&](const SolvedSide& side) {
    return height_text(side.low, context.units) + " at " +
           whole_length_text(side.low_at, context.units);
  });
  if (sides.empty() || !(foot.solution->sides->medial.profile.back > 0)) return sides;
  return sides + "; back seam " +
         height_text(foot.solution->sides->medial.finished(0), context.units);
}

std::string side_edge_words(const FootWork& foot, const SheetContext& context) {
  if (!foot.solution->sides) return {};
  const SideWish& wish = *foot.order->alterations.sides;
  switch (wish.edge) {
  case SideEdge::bound:
    return "cut and bound";
  case SideEdge::turned:
    return "cut and turned in, allowance " + short_length_text(wish.turn, context.units);
  case SideEdge::folded:
    return "folded in and stitched, not cut";
  }
  return {};
}

std::string liner_words(const FootWork& foot, const SheetContext& context) {
  const auto& liner = foot.solution->liner;
  if (!liner) return {};
  return with_tolerance(liner->length, context) + " long, " +
         with_tolerance(liner->width, context) + " wide; adhesive on the face that goes down";
}

std::string yarn_text(const SolvedDarning& darning) {
  std::string words = figure(darning.yarn / 1000) + " m";
  if (darning.grams) words += ", " + figure(*darning.grams, 2) + " g";
  return words;
}

std::string darning_words(const FootWork& foot, const SheetContext& context) {
  const auto& darning = foot.solution->darning;
  if (!darning) return {};
  std::string words = with_tolerance(darning->height, context) + " high";
  if (darning->raise > 0)
    words += ", raised by " + with_tolerance(darning->raise, context) + " on the " +
             (foot.order->foot.roll.side == RollSide::in ? "big-toe side" : "little-toe side");
  words += "; " + std::to_string(darning->passes) +
           (darning->passes == 1 ? " pass, " : " passes, ") + yarn_text(*darning) + " of yarn";
  if (const auto& tex = foot.order->alterations.darning->tex)
    words += " of " + short_figure(*tex) + " tex";
  if (darning->face_area > 0) words += "; the platform's face is darned as well";
  return words;
}

std::string heel_loop_words(const FootWork& foot, const SheetContext& context) {
  const auto& elastics = foot.solution->elastics;
  if (!elastics || !elastics->loop) return {};
  return whole_with_tolerance(*elastics->loop, context) + ", with " +
         short_length_text(foot.order->alterations.elastics->overlap, context.units) +
         " at each end to sew";
}

std::string ribbon_words(const FootWork& foot, const SheetContext& context) {
  if (!foot.solution->ribbons) return {};
  const SolvedRibbons& ribbons = *foot.solution->ribbons;
  const RibbonWish& wish = *foot.order->alterations.ribbons;
  const std::string cut = whole_with_tolerance(ribbons.cut, context);
  const std::string wide = short_length_text(wish.width, context.units) + " wide";
  const std::string ribbon = wish.stretch > 0 ? "stretch ribbon " + wide + ", working stretch " +
                                                    short_figure(100 * wish.stretch) + " %"
                                              : wide;
  return ribbons.ring ? cut + ", ring of " + ribbon : "two, each " + cut + ", " + ribbon + ", tied";
}

std::string elastic_words(const FootWork& foot, const SheetContext& context) {
  if (!foot.solution->elastics) return {};
  const SolvedElastics& elastics = *foot.solution->elastics;
  const ElasticWish& wish = *foot.order->alterations.elastics;
  std::string words;
  if (elastics.across)
    words = whole_with_tolerance(*elastics.across, context) + ", " +
            short_length_text(wish.width, context.units) + " wide, stretched to " +
            short_length_text(*elastics.over, context.units) + " when worn (" +
            short_figure(100 * wish.stretch) + " %)";
  return words;
}

std::string tuck_words(const FootWork& foot, const SheetContext& context) {
  if (!foot.solution->tuck) return {};
  const SolvedTuck& tuck = *foot.solution->tuck;
  return with_tolerance(tuck.depth, context) + " deep at the top line, runs out " +
         short_length_text(tuck.down, context.units) + " down; takes " +
         short_length_text(tuck.taken, context.units) + " off the top line";
}

std::string drawstring_words(const FootWork& foot, const SheetContext& context) {
  if (!foot.solution->sides) return {};
  const Drawstring string = foot.order->alterations.sides->drawstring;
  const bool elastic = string == Drawstring::elastic;
  const std::string kind = elastic ? "elastic, " : "cotton, ";
  if (!foot.solution->sides->drawstring)
    return kind + "length not known: measure the throat from wing to wing";
  return kind + whole_with_tolerance(*foot.solution->sides->drawstring, context) +
         (elastic ? " unstretched, with " : ", with ") +
         short_length_text(drawstring_end(string), context.units) +
         (elastic ? " at each end to sew or knot" : " at each end to tie");
}

std::string casing_words(const FootWork& foot, const SheetContext& context) {
  if (!foot.solution->sides) return {};
  const SolvedSides& sides = *foot.solution->sides;
  std::string words = whole_with_tolerance(sides.casing, context) + " long";
  if (sides.casing_width) words += ", " + with_tolerance(*sides.casing_width, context) + " wide";
  return words + ", with " + short_length_text(casing_end, context.units) + " at each end and " +
         short_length_text(casing_turn, context.units) + " a side to turn under";
}

} // namespace shankline
