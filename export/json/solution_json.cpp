#include "export/json/solution_json.hpp"

#include "export/drawing/line_kind.hpp"
#include "export/json/json_figure.hpp"
#include "geometry/numerics/degree.hpp"
#include "geometry/order/drawstring.hpp"

#include <cmath>
#include <nlohmann/json.hpp>
#include <optional>

namespace shankline {
namespace {

using Json = nlohmann::ordered_json;

/// Also takes a station; returns null for an absent figure.
Json number(const std::optional<double>& value) {
  return value ? Json(json_figure(*value)) : Json(nullptr);
}

Json degrees(double radians) {
  return number(radians / degree);
}

Json point(const Point& p) {
  return Json::array({number(p.x), number(p.y)});
}

Json arch(const FootSolution& foot) {
  const SolvedArch& arch = foot.arch;
  const auto station = [&](const std::optional<FootStation>& x) {
    return x ? number(foot.frames.posed(*x)) : Json(nullptr);
  };
  const bool both = arch.break_medial && arch.break_lateral;
  return {{"bend", arch.arch ? degrees(arch.arch->bend) : Json(nullptr)},
          {"depth", number(arch.depth)},
          {"deepest", station(arch.deepest)},
          {"break", station(arch.break_at)},
          {"break_medial", both ? station(arch.break_medial) : station(arch.break_at)},
          {"break_lateral", both ? station(arch.break_lateral) : station(arch.break_at)},
          {"heel_front", station(arch.heel_front)},
          {"ball", station(arch.ball)}};
}

Json cut(const CutLine& line) {
  return {{"medial", number(line.medial)},
          {"centre", number(line.centre)},
          {"lateral", number(line.lateral)}};
}

const char* rule_name(const TrimRule& rule) {
  if (std::holds_alternative<KeepRule>(rule)) return "keep";
  if (std::holds_alternative<LearnedRule>(rule)) return "learned";
  return std::holds_alternative<MarkRule>(rule) ? "mark" : "reach";
}

/// The readings that are worth taking again, the most useful first.
Json budget(const SolvedTrim& trim) {
  Json rows = Json::array();
  for (const RepeatGain& gain : trim.gains)
    rows.push_back({{"reading", gain.key},
                    {"estimated", gain.estimated},
                    {"share", number(gain.share)},
                    {"U_once_more", number(gain.U_once_more)},
                    {"U_twice_more", number(gain.U_twice_more)}});
  return rows;
}

/// The learned line that was cut by, beside the rule of the readings alone (the heel front).
Json learned(const FootSolution& foot) {
  const SolvedTrim& trim = *foot.trim;
  if (!trim.learned) return nullptr;
  const LearnedLine& line = *trim.learned;
  return {{"station", number(line.station)},
          {"U", number(line.U)},
          {"pairs", line.pairs},
          {"until", line.until},
          {"model", line.model},
          {"worn_good", line.worn_good},
          {"too_far", line.too_far ? number(*line.too_far) : Json(nullptr)},
          {"readings_alone",
           {{"station", number(trim.other_rules.heel_front)},
            {"board", number(trim.doubt.heel_front_line.value)},
            {"U", number(trim.doubt.heel_front_line.expanded())}}}};
}

Json trim(const FootSolution& foot, const FootOrder& order, const ToleranceWish& tolerances) {
  const SolvedTrim& trim = *foot.trim;
  const Tolerance tolerance = cut_off_tolerance(tolerances);
  Json board{{"final", cut(trim.final_cut)},
             {"first", trim.first_cut ? cut(*trim.first_cut) : Json(nullptr)},
             {"stop", number(trim.stop.centre)},
             {"stop_from", number(trim.stop_from.centre)},
             {"U_stop", number(trim.doubt.stop.expanded())},
             {"U_heel_front", number(trim.doubt.heel_front_line.expanded())},
             {"U_right", number(trim.right_U)},
             {"hold_back", number(trim.hold_back)},
             {"held_from", number(trim.held_from)},
             {"witness", number(trim.witness.centre)},
             {"lift_limit", number(trim.lift_limit.centre)},
             {"bevel", trim.bevel ? number(trim.bevel->centre) : Json(nullptr)},
             {"u", number(trim.final_doubt().u)},
             {"U", number(trim.final_doubt().expanded())},
             {"tolerance", Json::array({number(tolerance.plus), number(tolerance.minus)})}};
  return {{"rule", rule_name(order.alterations.shank->rule)},
          {"reach", number(trim.reach)},
          {"station", number(foot.frames.posed(trim.station))},
          {"window", Json::array({number(foot.frames.posed(trim.window.from)),
                                  number(foot.frames.posed(trim.window.to))})},
          {"skew", degrees(trim.skew)},
          {"skew_reason", trim.skew_reason},
          {"board", std::move(board)},
          {"learned", learned(foot)},
          {"budget", budget(trim)},
          {"other_rules",
           {{"three_quarter", number(trim.other_rules.three_quarter)},
            {"heel_front", number(trim.other_rules.heel_front)},
            {"short", number(trim.other_rules.short_reach)},
            {"tucked", number(trim.other_rules.tucked_reach)}}}};
}

Json piece(const std::optional<Piece>& piece, const std::optional<double>& length) {
  if (!piece) return nullptr;
  return {{"area", number(piece->area)}, {"length", number(length)}};
}

Json side(const SolvedSide& side) {
  Json heights = Json::array();
  for (const RulerHeight& mark : side.heights)
    heights.push_back({{"along", number(mark.along)},
                       {"station", number(mark.station)},
                       {"stock", number(mark.stock)},
                       {"finished", number(mark.finished)}});
  return {{"depth", number(side.profile.depth)},
          {"back", number(side.profile.back)},
          {"from", number(side.from)},
          {"to", number(side.to)},
          {"low", number(side.low)},
          {"base_length", number(side.base_length)},
          {"stock_length", number(side.stock_length)},
          {"finished_length", number(side.finished_length)},
          {"uncovered", number(side.uncovered)},
          {"heights", std::move(heights)}};
}

Json sides(const SolvedSides& sides) {
  return {{"medial", side(sides.medial)},   {"lateral", side(sides.lateral)},
          {"lean", degrees(sides.lean)},    {"top_line", number(sides.top_line)},
          {"casing", number(sides.casing)}, {"drawstring", number(sides.drawstring)}};
}

Json points(const Polyline& line) {
  Json list = Json::array();
  for (const Point& p : line)
    list.push_back(point(p));
  return list;
}

Json liner(const SolvedLiner& liner) {
  return {{"length", number(liner.length)},
          {"width", number(liner.width)},
          {"clearance", number(liner.clearance)},
          {"area", number(liner.area)},
          {"outline", points(liner.outline)}};
}

Json darning(const SolvedDarning& darning) {
  return {{"perimeter", number(darning.perimeter)},
          {"height", number(darning.height)},
          {"raise", number(darning.raise)},
          {"raise_at", darning.raise > 0 ? number(darning.raise_at) : Json(nullptr)},
          {"stitches", darning.stitches},
          {"pitch", number(darning.pitch)},
          {"passes", darning.passes},
          {"wrap_area", number(darning.wrap_area)},
          {"face_area", number(darning.face_area)},
          {"yarn", number(darning.yarn)},
          {"grams", number(darning.grams)}};
}

/// Stations as the order's pose counts them.
Json posed(const std::optional<BoardStation>& at, const FootSolution& foot) {
  return at ? number(foot.frames.posed(*at)) : Json(nullptr);
}

Json ribbons(const SolvedRibbons& ribbons, const FootSolution& foot) {
  Json marks = Json::array();
  for (const double mark : ribbons.marks)
    marks.push_back(number(mark));
  return {{"ring", ribbons.ring},           {"pieces", ribbons.pieces},
          {"cut", number(ribbons.cut)},     {"worn", number(ribbons.worn)},
          {"girth", number(ribbons.girth)}, {"rise", number(ribbons.rise)},
          {"wraps", number(ribbons.wraps)}, {"wrap", number(ribbons.wrap)},
          {"marks", std::move(marks)},      {"sewn_at", posed(ribbons.sewn_at, foot)}};
}

Json elastics(const SolvedElastics& elastics, const ElasticWish& wish, const FootSolution& foot) {
  return {{"across", number(elastics.across)},
          {"over", number(elastics.over)},
          {"sewn_at", posed(elastics.sewn_at, foot)},
          {"heel_loop", number(elastics.loop)},
          {"end", number(wish.overlap)}};
}

Json drawstring(const SolvedSides& sides, const SideWish& wish) {
  return {{"kind", wish.drawstring == Drawstring::elastic ? "elastic" : "cotton"},
          {"cut", number(sides.drawstring)},
          {"end", number(drawstring_end(wish.drawstring))},
          {"casing_length", number(sides.casing)},
          {"casing_width", number(sides.casing_width)},
          {"casing_end", number(casing_end)},
          {"casing_turn", number(casing_turn)}};
}

Json thinned(const SolvedThinning& thinned) {
  return {{"from", number(thinned.from)},
          {"to", number(thinned.to)},
          {"thickness", number(thinned.thickness)},
          {"ratio", number(thinned.ratio)}};
}

Json filler(const SolvedFiller& filler) {
  return {{"length", number(filler.length)},
          {"width", number(filler.width)},
          {"thickness", number(filler.thickness)},
          {"area", number(filler.area)},
          {"outline", points(filler.outline)}};
}

Json tuck(const SolvedTuck& tuck) {
  return {
      {"depth", number(tuck.depth)}, {"taken", number(tuck.taken)}, {"down", number(tuck.down)}};
}

Json layers(const CutLayers& layers) {
  return {{"cut", layers.cut}, {"of", layers.of}};
}

Json contact_figures(const FootContactFigures& figures, const PoseShift& pose) {
  const auto station = [&](FootStation x) { return number(pose.posed(x)); };
  const bool breaks = figures.breaks_in_arch;
  return {{"break", breaks ? station(figures.break_at) : Json(nullptr)},
          {"break_from", breaks ? station(figures.break_from) : Json(nullptr)},
          {"break_to", breaks ? station(figures.break_to) : Json(nullptr)},
          {"gap", number(figures.gap)},
          {"gap_at", station(figures.gap_at)},
          {"heel_gap", number(figures.heel_gap)},
          {"bearing", figures.bearing ? station(*figures.bearing) : Json(nullptr)},
          {"heel_pry", number(figures.heel_pry)},
          {"slack", number(figures.slack)},
          {"clamp_moment", number(figures.clamp_moment)}};
}

/// Null where a one-sided limit says it instead.
Json two_sided(const Uncertain& figure, const std::optional<double>& up_to) {
  return up_to ? Json(nullptr) : number(figure.expanded());
}

Json doubt_json(const ContactDoubt& doubt) {
  return {{"break", number(doubt.break_at.expanded())},
          {"gap", number(doubt.gap.expanded())},
          {"heel_gap", two_sided(doubt.heel_gap, doubt.heel_gap_up_to)},
          {"heel_pry_left", two_sided(doubt.heel_pry_left, doubt.heel_pry_left_up_to)},
          {"heel_gap_left", two_sided(doubt.heel_gap_left, doubt.heel_gap_left_up_to)}};
}

/// Null where ± serves, and where the limit is not known.
Json limits_json(const ContactDoubt& doubt) {
  const auto finite = [](const std::optional<double>& limit) {
    return limit && std::isfinite(*limit) ? number(*limit) : Json(nullptr);
  };
  return {{"heel_gap", finite(doubt.heel_gap_up_to)},
          {"heel_pry_left", finite(doubt.heel_pry_left_up_to)},
          {"heel_gap_left", finite(doubt.heel_gap_left_up_to)}};
}

Json contact_json(const FootContact& contact, const std::optional<ContactDoubt>& doubt,
                  const PoseShift& pose) {
  return {{"uncut", contact_figures(contact.uncut.figures, pose)},
          {"cut", contact.cut ? contact_figures(contact.cut->figures, pose) : Json(nullptr)},
          {"heel_pry_left", number(contact.heel_pry_left)},
          {"heel_gap_left", number(contact.heel_gap_left)},
          {"board_left", number(contact.board_left)},
          {"board_stiffness", number(contact.board.value)},
          {"sole_stiffness", number(contact.sole.value)},
          {"pull", number(contact.pull.value)},
          {"clamp", number(pose.posed(contact.clamp))},
          {"U", doubt ? doubt_json(*doubt) : Json(nullptr)},
          {"up_to", doubt ? limits_json(*doubt) : Json(nullptr)}};
}

Json foot_json(const FootSolution& foot, const FootOrder& order, const ToleranceWish& tolerances,
               const std::optional<FootContact>& contact, const std::optional<ContactDoubt>& doubt,
               const Findings& cautions) {
  Json estimated = Json::array();
  for (const Estimated& e : foot.estimated)
    estimated.push_back(e.key);
  Json said = Json::array();
  for (const Finding& caution : cautions)
    if (caution.key.foot() == foot.side) said.push_back(caution.key.text() + ": " + caution.what);
  return {{"arch", arch(foot)},
          {"trim", foot.trim ? trim(foot, order, tolerances) : Json(nullptr)},
          {"pieces",
           {{"kept", piece(foot.pieces.kept, foot.pieces.kept_length)},
            {"removed", piece(foot.pieces.removed, foot.pieces.removed_length)},
            {"kept_fraction", number(foot.pieces.kept_fraction)},
            {"first",
             {{"kept_length", number(foot.pieces_to_cut.kept_length)},
              {"removed", piece(foot.pieces_to_cut.removed, foot.pieces_to_cut.removed_length)}}}}},
          {"contact", contact ? contact_json(*contact, doubt, foot.frames.pose) : Json(nullptr)},
          {"sides", foot.sides ? sides(*foot.sides) : Json(nullptr)},
          {"drawstring",
           foot.sides ? drawstring(*foot.sides, *order.alterations.sides) : Json(nullptr)},
          {"layers", foot.layers ? layers(*foot.layers) : Json(nullptr)},
          {"thinned", foot.thinned ? thinned(*foot.thinned) : Json(nullptr)},
          {"filler", foot.filler ? filler(*foot.filler) : Json(nullptr)},
          {"liner", foot.liner ? liner(*foot.liner) : Json(nullptr)},
          {"darning", foot.darning ? darning(*foot.darning) : Json(nullptr)},
          {"ribbons", foot.ribbons ? ribbons(*foot.ribbons, foot) : Json(nullptr)},
          {"elastics", foot.elastics ? elastics(*foot.elastics, *order.alterations.elastics, foot)
                                     : Json(nullptr)},
          {"tuck", foot.tuck ? tuck(*foot.tuck) : Json(nullptr)},
          {"estimated", std::move(estimated)},
          {"cautions", std::move(said)}};
}

Json chart_json(const BreakChart& chart, const FootSolution& foot) {
  Json points = Json::array();
  for (const ChartPoint& p : chart.points)
    points.push_back({{"station", number(foot.frames.posed(p.station))},
                      {"board", number(foot.frames.on_board(p.station))},
                      {"break", number(foot.frames.posed(p.break_at))},
                      {"gap", number(p.gap)},
                      {"heel_gap", number(p.heel_gap)},
                      {"heel_pry", number(p.heel_pry)}});
  Json thicknesses = Json::array();
  for (const ThicknessPoint& p : chart.thicknesses)
    thicknesses.push_back({{"thickness", number(p.thickness)},
                           {"stiffness_left", number(p.stiffness_left)},
                           {"break", number(foot.frames.posed(p.break_at))},
                           {"gap", number(p.gap)},
                           {"heel_gap", number(p.heel_gap)},
                           {"heel_pry", number(p.heel_pry)}});
  return {{"points", std::move(points)},
          {"thicknesses", std::move(thicknesses)},
          {"sentence", sentence(chart.contact)},
          {"depends_on", chart.doubt && !chart.doubt->depends_on.empty()
                             ? Json(chart.doubt->depends_on)
                             : Json(nullptr)}};
}

Json template_json(const Template& part) {
  Json lines = Json::array();
  for (const Stroke& line : part.lines) {
    Json points = Json::array();
    for (const Point& p : line.points)
      points.push_back(point(p));
    lines.push_back({{"kind", line_style(line.kind).name},
                     {"closed", line.closed},
                     {"points", std::move(points)}});
  }
  Json json = {{"part", part.part},
               {"foot", foot_name(part.foot)},
               {"page", part.page + 1},
               {"paper", Json::array({number(part.paper.width), number(part.paper.height)})},
               {"placement",
                {{"origin", point(part.placement.origin)},
                 {"along", point(part.placement.along)},
                 {"across", point(part.placement.across)}}},
               {"lines", std::move(lines)}};
  if (part.tile)
    json["tile"] = {{"number", part.tile->number + 1},
                    {"of", part.tile->count},
                    {"row", part.tile->row + 1},
                    {"column", part.tile->column + 1}};
  return json;
}

Json proof_json(const Proof& proof) {
  Json bars = Json::array();
  for (const Proof::Bar& bar : proof.bars)
    bars.push_back(Json::array({point(bar.from), point(bar.to)}));
  return {{"page", proof.page + 1},
          {"bars", std::move(bars)},
          {"card",
           {{"corner", point(proof.card_corner)},
            {"width", card_width},
            {"height", card_height},
            {"radius", card_radius}}}};
}

Json sheets_json(const SheetSet& sheets) {
  Json json{{"templates", Json::array()}, {"proofs", Json::array()}};
  for (const Template& part : sheets.templates)
    json["templates"].push_back(template_json(part));
  for (const Proof& proof : sheets.proofs)
    json["proofs"].push_back(proof_json(proof));
  return json;
}

} // namespace

std::string solution_json(const Order& order, const Solution& solution, const PairContact& contact,
                          const std::vector<FootChart>& charts, const Findings& cautions,
                          const SheetSet* sheets) {
  Json feet = Json::object();
  if (solution.left)
    feet["left"] = foot_json(*solution.left, *order.left, order.tolerances, contact.left,
                             contact.left_doubt, cautions);
  if (solution.right)
    feet["right"] = foot_json(*solution.right, *order.right, order.tolerances, contact.right,
                              contact.right_doubt, cautions);
  Json json{{"format", solution_format},
            {"dancer", order.dancer},
            {"pair", order.pair.empty() ? Json(nullptr) : Json(order.pair)},
            {"date", order.date.empty() ? Json(nullptr) : Json(order.date)},
            {"pose", order.pose == Pose::pointed ? "pointed" : "in_shoe"},
            {"feet", std::move(feet)}};
  for (const FootChart& foot : charts) {
    json["feet"][foot_name(foot.side)]["chart"] = chart_json(foot.chart, *solution.foot(foot.side));
  }
  if (sheets) json.update(sheets_json(*sheets));
  return json.dump(2) + "\n";
}

std::string templates_json(const SheetSet& sheets) {
  return sheets_json(sheets).dump();
}

} // namespace shankline
