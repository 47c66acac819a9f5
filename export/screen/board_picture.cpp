#include "export/screen/board_picture.hpp"

#include "export/drawing/template.hpp"
#include "export/screen/screen_svg.hpp"
#include "export/templates/board_sheet.hpp"
#include "export/wording/foot_words.hpp"
#include "export/wording/work_words.hpp"
#include "geometry/order/figure.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

namespace shankline {
namespace {

constexpr double text_size = 4.8; // mm: 11 pixels where 150 mm are 360 pixels wide
constexpr double label_pitch = 6.4;
constexpr double ahead = 22;       // of the farthest line
constexpr double air = 8;          // round the board
constexpr double label_width = 74; // of the column of names

struct Name {
  LineKind kind;
  double station; ///< of its end beside the names, mm from the heel end
  double edge;    ///< x of that end
  std::string words;
  bool first = false; ///< of the line to cut now
  double y = 0;
};

/// From the lowest up: each at its line, or as near above the one below as it can stand. What would
/// stand above `high` moves down again with those below it.
void set_apart(std::vector<Name>& names, double low, double high) {
  std::sort(names.begin(), names.end(),
            [](const Name& a, const Name& b) { return a.station < b.station; });
  double least = low;
  for (Name& name : names) {
    name.y = std::max(name.y, least);
    least = name.y + label_pitch;
  }
  double most = high;
  for (auto name = names.rbegin(); name != names.rend(); ++name) {
    name->y = std::min(name->y, most);
    most = name->y - label_pitch;
  }
}

class BoardPicture {
public:
  BoardPicture(const FootSolution& foot, Units units) : foot_(foot), units_(units) {
    front_ = foot.trim ? foot.trim->witness.centre + ahead : foot.thinned->to + ahead;
    if (const auto length = foot.outline.length()) front_ = std::min(front_, double(*length));
    lines_ = board_lines(foot, front_);
    for (const Stroke& line : lines_)
      for (const Point& p : line.points) {
        medial_ = std::max(medial_, p.y);
        lateral_ = std::max(lateral_, -p.y);
        front_ = std::max(front_, p.x);
      }
  }

  std::string svg() const {
    const double right = left_foot() ? medial_ : lateral_;
    const double centre = air + (left_foot() ? lateral_ : medial_);
    const double below = 11; // for the words at the heel end
    const double column = centre + right + 9;
    const double height = below + front_ + 9;
    const std::string side = foot_name(foot_.side);
    ScreenPicture picture(column + label_width, height, side + " board, not to scale");
    const Placement place{{centre, below}, {0, 1}, {left_foot() ? 1.0 : -1.0, 0}};
    if (foot_.pieces_to_cut.removed)
      picture.area(placed(foot_.pieces_to_cut.removed->outline, place), "a-off");
    for (const LineKind kind : {LineKind::band, LineKind::stop_band})
      picture.area(placed(shaded(kind), place), "k-" + std::string(line_style(kind).name));
    for (const Stroke& line : lines_)
      if (line.kind != LineKind::paper_trim && !is_shade(line.kind))
        picture.stroke(placed(line, place));
    std::vector<Name> names = named(place);
    set_apart(names, below, height - 12);
    for (const Name& name : names) {
      picture.stroke({LineKind::leader,
                      {{name.edge + 1, below + name.station}, {column - 1, name.y + 1.6}},
                      false});
      picture.text(
          {{column, name.y}, name.words, text_size, name.first ? Weight::bold : Weight::regular},
          name.first ? "t-first" : "t-name");
    }
    picture.text({{centre, 4}, "heel end", text_size, Weight::regular, Align::centre}, "t-side");
    picture.text(
        {{centre, height - 6}, "towards the toes", text_size, Weight::regular, Align::centre},
        "t-side");
    picture.text(
        {{column + label_width - 3, 4}, "not to scale", text_size, Weight::bold, Align::right},
        "t-warn");
    return std::move(picture).svg();
  }

private:
  /// The area that a sheet shades by lines across the board, one beside the other.
  Polygon shaded(LineKind kind) const {
    Polygon area;
    for (const Stroke& line : lines_)
      if (line.kind == kind) area.push_back(line.points.front());
    for (auto line = lines_.rbegin(); line != lines_.rend(); ++line)
      if (line->kind == kind) area.push_back(line->points.back());
    return area;
  }

  bool left_foot() const { return foot_.side == FootSide::left; }

  std::vector<Name> named(const Placement& place) const {
    std::vector<Name> names;
    const auto add = [&](LineKind kind, const CutLine& line, const std::string& words,
                         bool first = false) {
      const Point end = place(left_foot() ? line.medial_end : line.lateral_end);
      const std::string at = kind == LineKind::witness
                                 ? figure(line.centre, 0) + (units_ == Units::inch ? " mm" : "")
                                 : length_text(line.centre, units_, Rounding::down);
      names.push_back({kind, end.y - place.origin.y, end.x, words + " " + at, first, end.y - 1.6});
    };
    if (foot_.thinned) {
      add_thinned(names, place, foot_.thinned->from, "thin from ");
      add_thinned(names, place, foot_.thinned->to, "thin to ");
    }
    if (!foot_.trim) return names;
    const SolvedTrim& trim = *foot_.trim;
    if (trim.first_cut) add(LineKind::first_cut, *trim.first_cut, "1 first", true);
    add(LineKind::final_cut, trim.final_cut, trim.first_cut ? "2 final" : "file back to",
        !trim.first_cut);
    names.back().words += " \u00b1" + figure(trim.final_doubt().expanded());
    add(LineKind::stop, trim.stop, "stop");
    if (is_lifted(foot_)) add(LineKind::lift_limit, trim.lift_limit, "lift limit");
    add(LineKind::witness, trim.witness, "witness");
    if (trim.bevel) add(LineKind::bevel, *trim.bevel, "bevel from");
    return names;
  }

  void add_thinned(std::vector<Name>& names, const Placement& place, double station,
                   const std::string& words) const {
    const Edge edge = left_foot() ? Edge::medial : Edge::lateral;
    if (station > front_) return;
    const Point end = place({station, foot_.outline.edge_y(edge, BoardStation(station))});
    names.push_back({LineKind::thinned, station, end.x,
                     words + length_text(station, units_, Rounding::nearest), false, end.y - 1.6});
  }

  const FootSolution& foot_;
  Units units_;
  std::vector<Stroke> lines_;
  double front_ = 0;
  double medial_ = 0;
  double lateral_ = 0;
};

} // namespace

std::string board_picture(const FootSolution& foot, Units units) {
  if (!foot.trim && !foot.thinned) return {};
  return BoardPicture(foot, units).svg();
}

} // namespace shankline
