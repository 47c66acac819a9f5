#include "export/templates/side_page.hpp"

#include "export/templates/side_lines.hpp"
#include "export/wording/foot_words.hpp"
#include "geometry/order/figure.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <utility>

namespace shankline {
namespace {

constexpr double one_side_head = 50; // the names of the rows
constexpr double both_sides_head = 38;
constexpr double small = 2.9; // of the figures that are not cut by
constexpr double row_name_size = 2.8;
constexpr double least_word = 2.5; ///< of words: 7 pt are 2.47 mm
constexpr double wide_gap = 1.9;   ///< mm, between rows
constexpr double inch_gap = 1.2;   ///< the same where rows of inches are among them

const char* const no_cut = "\u2013";

std::string page_title(FootSide foot, const SidesOnPage& sides, const std::string& tile) {
  return sides.size() == 1 ? "Side, " + side_name(foot, *sides.front()) + tile
                           : "Sides, " + foot_name(foot) + " foot";
}

/// "1 15/16" has to leave air between the columns.
double inch_size(double column) {
  return std::min(2.5, column * 0.2);
}

std::string page_label(FootSide foot, const SidesOnPage& sides, const std::string& tile) {
  if (sides.size() > 1) return "sides " + foot_letter(foot);
  return std::string(sides.front()->edge == Edge::medial ? "side medial " : "side lateral ") +
         foot_letter(foot) + tile;
}

} // namespace

SidePage::SidePage(const SheetContext& context, FootSide foot, SidesOnPage sides,
                   const FootOrder& order, std::size_t number, const Paper& paper, double widest,
                   const std::string& tile)
    : context_(context), foot_(foot), sides_(std::move(sides)), order_(order),
      wish_(*order.alterations.sides),
      page_(context, number, page_title(foot, sides_, tile), paper, widest) {
  page_.label(page_label(foot, sides_, tile));
  top_ = page_.title_strip(foot_letter(foot_), "") - 4;
}

void SidePage::put(const std::vector<Stroke>& lines, const StripPosition& position) {
  page_.strokes(lines, position.place);
}

void SidePage::put(const std::vector<Text>& texts, const StripPosition& position) {
  for (const Text& text : texts) {
    const Text put = position(text);
    page_.text(put.at, put.words, put.size, put.weight, put.align, put.angle);
  }
}

/// One row of figures, a figure for each station.
struct SidePage::Row {
  std::string name;
  double size;
  Weight weight;
  std::function<std::string(const RulerHeight&)> cell;
};

/// The places of the table's columns, mm along the sole's edge: those of both sides together.
std::vector<double> SidePage::stations() const {
  constexpr double same = 1e-6;
  std::vector<double> along;
  for (const SolvedSide* side : sides_)
    for (const RulerHeight& mark : side->heights)
      along.push_back(mark.along);
  std::sort(along.begin(), along.end());
  along.erase(std::unique(along.begin(), along.end(),
                          [](double a, double b) { return std::abs(a - b) < same; }),
              along.end());
  return along;
}

std::vector<SidePage::Row> SidePage::rows_of(const SolvedSide& side, double column) const {
  const bool both = sides_.size() > 1;
  const std::string name = both ? std::string(edge_words(side.edge)) + ": " : "";
  const std::string height = both ? "" : " height";
  std::vector<Row> rows{
      {name + "stock" + height, small, Weight::regular,
       [](const RulerHeight& mark) { return figure(mark.stock); }},
      {name + "new" + height + " " + tolerance_text(keep_tolerance(context_.order.tolerances)),
       std::min(3.8, column * 0.36), Weight::bold,
       [](const RulerHeight& mark) { return figure(mark.finished); }}};
  if (wish_.edge == SideEdge::turned)
    rows.push_back({both ? name + "cut (\u2013: none)" : "cut at (\u2013: no cut)", small,
                    Weight::regular, [turn = wish_.turn](const RulerHeight& mark) {
                      return mark.finished + turn < mark.stock ? figure(mark.finished + turn)
                                                               : std::string(no_cut);
                    }});
  if (context_.units == Units::inch) {
    rows.push_back({both ? name + "new, inches" : "new height, inches", inch_size(column),
                    Weight::regular,
                    [](const RulerHeight& mark) { return inches(mark.finished, Rounding::up); }});
    if (wish_.edge == SideEdge::turned)
      rows.push_back({both ? name + "cut, inches" : "cut at, inches", inch_size(column),
                      Weight::regular, [turn = wish_.turn](const RulerHeight& mark) {
                        return mark.finished + turn < mark.stock
                                   ? inches(mark.finished + turn, Rounding::up)
                                   : std::string(no_cut);
                      }});
  }
  return rows;
}

double SidePage::table_head() const {
  return sides_.size() > 1 ? both_sides_head : one_side_head;
}

double SidePage::table_width(double column) const {
  return table_head() + column * static_cast<double>(stations().size());
}

double SidePage::table_height(double width) const {
  constexpr double above_heading = 3.5;
  SidePage trial = *this;
  return above_heading - trial.table(0, 0, width);
}

double SidePage::table(double left, double y, double width) {
  const std::vector<double> along = stations();
  const double column =
      std::min(widest_column, (width - table_head()) /
                                  static_cast<double>(std::max<std::size_t>(along.size(), 1)));
  const auto middle = [&](std::size_t i) {
    return left + table_head() + column * (static_cast<double>(i) + 0.5);
  };
  page_.text({left, y},
             context_.units == Units::inch ? "Heights from the sole edge up, mm and inches"
                                           : "Heights from the sole edge up, mm",
             3.3, Weight::bold);
  const bool in_inches = context_.units == Units::inch;
  const double gap = in_inches ? inch_gap : wide_gap;
  y -= in_inches ? 4.4 : 5;
  page_.text({left, y},
             sides_.size() > 1 ? "along the sole edge" : "along the sole edge from the seam",
             row_name_size);
  for (std::size_t i = 0; i < along.size(); ++i)
    page_.text({middle(i), y}, figure(along[i], 0), small, Weight::regular, Align::centre);
  y -= small + gap;
  if (in_inches) {
    const double size = inch_size(column);
    page_.text({left, y}, "the same in inches", row_name_size);
    for (std::size_t i = 0; i < along.size(); ++i)
      page_.text({middle(i), y}, inches(along[i]), size, Weight::regular, Align::centre);
    y -= std::max(size, least_word) + gap;
  }
  for (const SolvedSide* side : sides_) {
    if (side != sides_.front()) y -= 0.8;
    for (const Row& row : rows_of(*side, column)) {
      if (row.weight == Weight::bold) y -= 0.6;
      page_.text({left, y}, row.name, row_name_size, row.weight);
      for (std::size_t i = 0; i < along.size(); ++i) {
        const auto mark =
            std::find_if(side->heights.begin(), side->heights.end(), [&](const RulerHeight& each) {
              return std::abs(each.along - along[i]) < 1e-6;
            });
        if (mark != side->heights.end())
          page_.text({middle(i), y}, row.cell(*mark), row.size, row.weight, Align::centre);
      }
      y -= std::max(row.size, least_word) + gap;
    }
  }
  return y;
}

double SidePage::key(double left, double top, double width) {
  constexpr double swatch = 12;
  constexpr double words_at = 14.6;
  constexpr double size = 2.8;
  double y = top - 3;
  for (const auto& [kind, words, weight] : key_lines()) {
    page_.stroke(kind, {{left, y}, {left + swatch, y}});
    bool first = true;
    const double room = width - words_at;
    std::vector<std::string> said =
        shortened_ ? std::vector{context_.typeface.shorten(words, room, size, weight)}
                   : context_.typeface.wrap(words, room, size, weight);
    for (std::string& line : said) {
      if (!first) y -= 3.6 * tight_;
      first = false;
      page_.text({left + words_at, y - 1}, std::move(line), size, weight);
    }
    y -= 4.6 * tight_;
  }
  return y;
}

double SidePage::key_height(double width) const {
  SidePage trial = *this;
  return -trial.key(0, 0, width);
}

double SidePage::steps(double left, double top, double width) {
  double y = top;
  for (const std::string& step : step_words())
    y = page_.paragraph({left, y}, width, step, 2.5 * tight_) - 0.6;
  return page_.paragraph({left, y - 0.6}, width,
                         std::string(wish_.edge == SideEdge::folded
                                         ? ""
                                         : "Cloth that is cut away does not come back. ") +
                             "Students: only with a teacher or fitter. All figures are estimates.",
                         2.5 * tight_, Weight::bold);
}

double SidePage::steps_height(double width) const {
  SidePage trial = *this;
  return -trial.steps(0, 0, width);
}

double SidePage::notes(double left, double top, double width) {
  return steps(left, key(left, top, width) - 0.6, width);
}

double SidePage::notes_height(double width) const {
  SidePage trial = *this;
  return -trial.notes(0, 0, width);
}

Template SidePage::part(const SolvedSide& side, const Placement& place, std::vector<Stroke> lines,
                        std::optional<TilePlace> tile) const {
  return {side.edge == Edge::medial ? "side_medial" : "side_lateral",
          foot_,
          page_.number(),
          page_.paper(),
          place,
          std::move(lines),
          tile};
}

std::vector<SidePage::KeyLine> SidePage::key_lines() const {
  std::vector<KeyLine> lines;
  switch (wish_.edge) {
  case SideEdge::bound:
    lines = {{LineKind::final_cut, "cut here: " + lowered_words(), Weight::bold}};
    break;
  case SideEdge::turned:
    lines = {{LineKind::final_cut,
              "cut here, " + short_length_text(wish_.turn, context_.units) + " " +
                  tolerance_text(dimension_tolerance(context_.order.tolerances, wish_.turn)) +
                  " above the new top line, where the side is that much higher",
              Weight::bold},
             {LineKind::fold, "turn in here, the new top line: " + lowered_words()}};
    break;
  case SideEdge::folded:
    lines = {
        {LineKind::fold, "fold in here and stitch, do not cut: " + lowered_words(), Weight::bold}};
    break;
  }
  lines.push_back({LineKind::stock_top, "stock top line, as it is now"});
  if (order_.shoe.sides && order_.shoe.sides->casing)
    lines.push_back({LineKind::stitch, "casing stitched here"});
  if (std::any_of(sides_.begin(), sides_.end(),
                  [](const SolvedSide* side) { return !side->sewn.empty(); }))
    lines.push_back({LineKind::sewn, std::string(line_style(LineKind::sewn).words)});
  return lines;
}

std::string SidePage::lowered_words() const {
  const std::string tolerance = tolerance_text(cut_off_tolerance(context_.order.tolerances));
  const auto by = [&](double depth) { return depth_text(depth, context_.units); };
  std::string words;
  for (const SolvedSide* side : sides_)
    words += (sides_.size() > 1 ? std::string(edge_words(side->edge)) : std::string("side")) +
             (side->profile.depth > 0 ? " lowered by " + by(side->profile.depth) + " " + tolerance
                                      : std::string(" not lowered")) +
             ", ";
  const double back = sides_.front()->profile.back;
  return words + (back > 0 ? "back by " + by(back) + " " + tolerance : "back not lowered");
}

std::array<std::string, 3> SidePage::step_words() const {
  const bool tuck = order_.alterations.tuck.has_value();
  const bool both = sides_.size() > 1;
  const std::string refit = tuck ? "Then sew the tuck, then refit casing and drawstring."
                                 : "Then refit casing and drawstring.";
  const std::string limit =
      "The cut may fall short of the line by up to " +
      short_length_text(context_.order.tolerances.cut, context_.units, Rounding::down) +
      ", never past it. ";
  return {
      std::string("Pull the drawstring clear first. Cut ") + (both ? "each piece of" : "the") +
          " paper out along the sole edge and the back seam." +
          (tuck ? " Mark and cut before the back seam is tucked." : ""),
      "Foot in the shoe: lay the paper on, outside face up, back seam on back seam, sole edge on "
      "the sole's edge. Mark the new line on the satin, or mark it by the heights above.",
      wish_.edge == SideEdge::folded
          ? "Fold in, baste and try it at the barre before it is stitched. The fold may fall "
            "short of the line by up to " +
                short_length_text(context_.order.tolerances.cut, context_.units, Rounding::down) +
                ", never past it. " + refit
          : "Baste the new line and try it at the barre before anything is cut. " +
                (wish_.edge == SideEdge::turned
                     ? "Cut above it by the allowance, never on it, and turn in. "
                     : std::string()) +
                limit + refit};
}

} // namespace shankline
