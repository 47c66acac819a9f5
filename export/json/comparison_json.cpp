#include "export/json/comparison_json.hpp"

#include "export/json/json_figure.hpp"
#include "export/json/solution_json.hpp"
#include "geometry/numerics/degree.hpp"

#include <nlohmann/json.hpp>
#include <optional>
#include <stdexcept>

namespace shankline {
namespace {

using Json = nlohmann::ordered_json;

/// Also takes a station; returns null for an absent figure.
Json json_or_null(const std::optional<double>& value) {
  return value ? Json(json_figure(*value)) : Json(nullptr);
}
Json words(const std::string& text) {
  return text.empty() ? Json(nullptr) : Json(text);
}
Json json_point(const Point& p) {
  return Json::array({json_or_null(p.x), json_or_null(p.y)});
}

const char* rank_name(FigureRank rank) {
  switch (rank) {
  case FigureRank::knife:
    return "knife";
  case FigureRank::reading:
    return "reading";
  case FigureRank::estimate:
    return "estimate";
  }
  throw std::logic_error("rank without a name");
}

const char* unit_name(FigureUnit unit) {
  switch (unit) {
  case FigureUnit::mm:
    return "mm";
  case FigureUnit::angle:
    return "deg";
  case FigureUnit::fraction:
  case FigureUnit::number:
  case FigureUnit::count:
    return "1";
  case FigureUnit::moment:
    return "N mm";
  case FigureUnit::area:
    return "mm2";
  }
  throw std::logic_error("unit without a name");
}

const char* verdict_name(Verdict verdict) {
  switch (verdict) {
  case Verdict::differs:
    return "differs";
  case Verdict::not_told_apart:
    return "not_told_apart";
  case Verdict::cannot_be_compared:
    return "cannot_be_compared";
  }
  throw std::logic_error("verdict without a name");
}

Json operand(const std::string& short_name, const std::string& name, const Order& order) {
  return {{"name", short_name},
          {"what", name},
          {"dancer", words(order.dancer)},
          {"pair", words(order.pair)},
          {"date", words(order.date)}};
}

Json json_or_null(const ComparedFigure& f) {
  const double factor = f.unit == FigureUnit::angle ? 1 / degree : 1;
  const auto scaled = [&](const std::optional<double>& value) {
    return value ? json_or_null(*value * factor) : Json(nullptr);
  };
  Json json{{"key", f.key},
            {"name", f.name},
            {"rank", rank_name(f.rank)},
            {"unit", unit_name(f.unit)},
            {"a", scaled(f.a)},
            {"b", scaled(f.b)},
            {"estimated", Json::array()},
            {"difference", nullptr},
            {"u", nullptr},
            {"U", nullptr},
            {"chosen", f.chosen},
            {"verdict", verdict_name(f.verdict)},
            {"why", words(f.why_not)}};
  if (f.estimated_a) json["estimated"].push_back("a");
  if (f.estimated_b) json["estimated"].push_back("b");
  if (f.difference) {
    json["difference"] = json_or_null(f.difference->value * factor);
    json["u"] = json_or_null(f.difference->u * factor);
    json["U"] = json_or_null(f.difference->expanded() * factor);
  }
  return json;
}

Json outline_json(const std::optional<ComparedOutline>& outline) {
  if (!outline) return nullptr;
  return {{"part", outline->part},
          {"aligned", outline->aligned},
          {"distance", json_or_null(outline->largest.distance)},
          {"at_a", json_point(outline->largest.on_a)},
          {"at_b", json_point(outline->largest.on_b)},
          {"area", json_or_null(outline->area)}};
}

Json alike_json(const CutAlike& alike) {
  Json cautions = Json::array();
  for (const Finding& caution : alike.cautions)
    cautions.push_back(
        {{"key", caution.key.text()}, {"what", caution.what}, {"allowed", words(caution.allowed)}});
  if (!alike.tried && alike.cautions.empty()) return nullptr;
  const auto shank = [&](double value) {
    return alike.tried ? json_or_null(value) : Json(nullptr);
  };
  return {{"board", shank(alike.board)},
          {"station", shank(alike.station)},
          {"deeper", shank(alike.deeper)},
          {"board_left", shank(alike.board_left)},
          {"break", alike.contact && alike.contact->breaks_in_arch
                        ? json_or_null(alike.contact->break_at)
                        : Json(nullptr)},
          {"heel_pry_left", json_or_null(alike.heel_pry_left)},
          {"heel_gap_left", json_or_null(alike.heel_gap_left)},
          {"cautions", std::move(cautions)}};
}

Json foot_json(const FootComparison& foot) {
  Json figures = Json::array();
  for (const ComparedFigure& figure : foot.figures)
    figures.push_back(json_or_null(figure));
  return {{"a", foot_name(foot.side_a)},
          {"b", foot_name(foot.side_b)},
          {"figures", std::move(figures)},
          {"outlines",
           {{"board", outline_json(foot.whole)},
            {"cut", outline_json(foot.kept)},
            {"side_medial", outline_json(foot.medial)},
            {"side_lateral", outline_json(foot.lateral)}}},
          {"cut_alike",
           {{"a_cut_like_b", alike_json(foot.b_on_a)}, {"b_cut_like_a", alike_json(foot.a_on_b)}}}};
}

} // namespace

std::string comparison_json(const Comparison& comparison, const Operand& a, const Operand& b,
                            const SheetSet* sheets) {
  Json feet = Json::array();
  for (const FootComparison& foot : comparison.feet)
    feet.push_back(foot_json(foot));
  const Shared& shared = comparison.shared;
  Json json{{"format", "shankline-comparison/1"},
            {"a", operand(comparison.short_a, comparison.name_a, a.order)},
            {"b", operand(comparison.short_b, comparison.name_b, b.order)},
            {"cancels",
             {{"reader", shared.reader},
              {"printer", shared.printer},
              {"guesses", shared.guesses},
              {"same_foot", shared.same_foot}}},
            {"feet", std::move(feet)},
            {"left_out", comparison.left_out}};
  if (sheets) json.update(Json::parse(templates_json(*sheets)));
  return json.dump(2) + "\n";
}

} // namespace shankline
