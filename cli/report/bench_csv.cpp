#include "cli/report/bench_csv.hpp"

#include "cli/text/csv.hpp"
#include "export/wording/comparison_words.hpp"
#include "geometry/numerics/degree.hpp"
#include "geometry/order/figure.hpp"

#include <iterator>
#include <optional>

namespace shankline {
namespace {

constexpr int csv_decimals = 3;

CsvCell csv_number(const std::optional<double>& value) {
  return value ? CsvCell::figure(figure(*value, csv_decimals)) : CsvCell("");
}

void add_cut(std::vector<CsvCell>& row, const std::optional<CutLine>& cut) {
  using Edge = std::optional<double>;
  row.push_back(csv_number(cut ? Edge(cut->medial) : Edge()));
  row.push_back(csv_number(cut ? Edge(cut->centre) : Edge()));
  row.push_back(csv_number(cut ? Edge(cut->lateral) : Edge()));
}

std::string csv_unit(FigureUnit unit) {
  return unit == FigureUnit::angle ? "deg" : unit == FigureUnit::mm ? "mm" : unit_words(unit);
}

} // namespace

std::string rack_csv_head() {
  return csv_row({"dancer", "pair", "date", "order", "foot", "first_medial", "first_centre",
                  "first_lateral", "final_medial", "final_centre", "final_lateral",
                  "final_from_witness", "sides_medial", "sides_lateral", "sides_back", "also",
                  "see"});
}

std::string rack_csv_row(const RackShoe& shoe) {
  std::vector<CsvCell> row{shoe.dancer, shoe.pair, shoe.date, shoe.digest, foot_name(shoe.foot)};
  add_cut(row, shoe.first_cut);
  add_cut(row, shoe.final_cut);
  row.push_back(csv_number(shoe.from_witness));
  for (const auto member : {&RackSides::medial, &RackSides::lateral, &RackSides::back})
    row.push_back(shoe.sides ? csv_number((*shoe.sides).*member) : CsvCell(""));
  row.insert(row.end(), {shoe.also, shoe.see});
  return csv_row(row);
}

std::string comparison_csv(const Comparison& comparison) {
  std::string text = csv_row({"a", "b", "key", "name", "unit", "value_a", "value_b", "estimated_a",
                              "estimated_b", "difference", "U", "verdict"});
  for (const FootComparison& foot : comparison.feet)
    for (const ComparedFigure& one : foot.figures) {
      const double factor = one.unit == FigureUnit::angle ? 1 / degree : 1;
      const auto scaled = [factor](const std::optional<double>& value) {
        return csv_number(value ? std::optional(*value * factor) : std::nullopt);
      };
      using Figure = std::optional<double>;
      const auto& difference = one.difference;
      text += csv_row({foot_name(foot.side_a), foot_name(foot.side_b), one.key, one.name,
                       csv_unit(one.unit), scaled(one.a), scaled(one.b),
                       one.estimated_a ? "yes" : "no", one.estimated_b ? "yes" : "no",
                       scaled(difference ? Figure(difference->value) : Figure()),
                       scaled(difference ? Figure(difference->expanded()) : Figure()),
                       verdict_words(one)});
    }
  return text;
}

} // namespace shankline
