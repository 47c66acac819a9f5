#include "export/templates/darning_sheet.hpp"

#include "export/wording/foot_words.hpp"
#include "export/wording/work_words.hpp"
#include "geometry/order/figure.hpp"
#include "geometry/plane/flatten.hpp"

#include <algorithm>
#include <array>
#include <utility>

namespace shankline {
namespace {

constexpr double tab = 28;        ///< mm past the strip's end, for the tape
constexpr double tab_height = 10; ///< mm, the least
constexpr double quarters = 4;

double highest(const SolvedDarning& darning) {
  return std::max(darning.height + darning.raise, tab_height);
}

/// The wrap's lines in its own frame: x along the platform's edge from the start, y up from it.
std::vector<Stroke> darning_lines(const SolvedDarning& darning) {
  std::vector<Stroke> lines;
  constexpr double tick = 1.8;
  constexpr double long_tick = 2.8;
  for (int i = 1; i < darning.stitches; ++i) {
    const double s = darning.perimeter * i / darning.stitches;
    const double reach = std::min(i % 5 == 0 ? long_tick : tick, darning.height);
    lines.push_back({LineKind::ruler, {{s, 0}, {s, reach}}, false});
  }
  for (const double quarter : {1.0, 2.0, 3.0}) {
    const double s = darning.perimeter * quarter / quarters;
    lines.push_back({LineKind::centre, {{s, 0}, {s, darning.height_at(s)}}, false});
  }
  const double P = darning.perimeter;
  const double end = std::max(darning.height_at(P), tab_height);
  lines.push_back({LineKind::paper_trim, {{P, 0}, {P + tab, 0}, {P + tab, end}, {P, end}}, false});

  // The bump meets the even height with a level tangent, so pieces between its ends are smooth.
  const auto top = [&](double s) { return Point{s, darning.height_at(s)}; };
  std::vector<double> knots{P};
  if (darning.raise > 0)
    for (const double part : {0.5, 0.0, -0.5})
      knots.push_back(darning.raise_at + part * darning.raise_width);
  knots.push_back(0);
  Polyline outline{{0, 0}, {P, 0}};
  for (std::size_t i = 1; i < knots.size(); ++i)
    if (knots[i] < knots[i - 1]) join(outline, flatten(top, knots[i - 1], knots[i], 0.005));
  lines.push_back({LineKind::edge, std::move(outline), true});
  return lines;
}

class DarningLayout {
public:
  DarningLayout(const SheetContext& context, const std::vector<const FootSolution*>& feet,
                std::size_t number)
      : context_(context), feet_(feet), page_(context, number, "Darning", lying(context.paper)) {
    page_.label("darning");
  }

  DarningSheet draw() && {
    double y = page_.title_strip("", "") - 11;
    std::vector<Template> wraps;
    for (const FootSolution* foot : feet_)
      y = wrap(*foot, y, wraps);
    const Point card{page_.left(), page_.bottom()};
    const double notes_left = card.x + card_width + 7;
    Proof proof = page_.proof({notes_left, page_.bottom() + 3},
                              {page_.right() - 2, page_.bottom() + 2}, card);
    notes(notes_left, std::min(y - 1, card.y + card_height + 22));
    return {std::move(page_).finish(), std::move(wraps), proof};
  }

private:
  /// The sheet in landscape; on a roll a page of that size, across the roll if it is wide enough.
  static Paper lying(const Paper& paper) {
    constexpr double wide = 297;
    constexpr double high = 210;
    if (!paper.roll) return landscape(paper);
    if (paper.width >= wide) return {paper.name, paper.width, high};
    return {paper.name, wide, paper.width};
  }

  /// One strip hanging from y; returns the y below it.
  double wrap(const FootSolution& foot, double y, std::vector<Template>& wraps) {
    const SolvedDarning& darning = *foot.darning;
    const double base = y - highest(darning) - 4;
    const Placement place{{page_.left() + 12, base}, {1, 0}, {0, 1}};
    std::vector<Stroke> lines = darning_lines(darning);
    page_.strokes(lines, place);
    page_.text({page_.left(), base + 0.5}, foot_letter(foot.side), 12, Weight::bold);
    quarter_names(foot, place);
    tab_label(foot, place);
    wraps.push_back(
        {"darning", foot.side, page_.number(), page_.paper(), place, std::move(lines), {}});
    return base - 12;
  }

  /// Names the sides of the platform above the strip; the start and the edge below it.
  void quarter_names(const FootSolution& foot, const Placement& place) {
    const SolvedDarning& darning = *foot.darning;
    // Round from the pleats, seen from outside: first the side that is right as seen from the foot.
    const std::array<std::string, 3> names{edge_words(right_edge(foot.side)), "vamp side",
                                           edge_words(left_edge(foot.side))};
    // Smaller on the smallest platforms.
    const double size =
        page_.fitted_size("little-toe side", darning.perimeter / quarters - 1, 2.6, 0.8);
    for (std::size_t i = 0; i < names.size(); ++i) {
      const double s = darning.perimeter * static_cast<double>(i + 1) / quarters;
      const double half = page_.width_of(names[i], size) / 2 + 1;
      double high = 0; // over the words
      for (double off = -half; off <= half; off += 0.5)
        high = std::max(high, darning.height_at(s + off));
      const Point p = place({s, high});
      page_.text({p.x, p.y + 1.4}, names[i], size, Weight::regular, Align::centre);
    }
    names_below(darning, place);
  }

  /// Names the start always, the edge and the end only if they fit.
  void names_below(const SolvedDarning& darning, const Placement& place) {
    constexpr double size = 2.6;
    const std::string start = "START: middle of the pleats";
    const double y = place({0, 0}).y - 4;
    page_.text({place.origin.x, y}, start, size, Weight::bold);
    double taken = page_.width_of(start, size, Weight::bold) + 2;
    const double half = page_.width_of("PLATFORM'S EDGE", size) / 2;
    if (darning.perimeter / 2 - half > taken) {
      page_.text({place.origin.x + darning.perimeter / 2, y}, "PLATFORM'S EDGE", size,
                 Weight::regular, Align::centre);
      taken = darning.perimeter / 2 + half + 2;
    }
    if (darning.perimeter - page_.width_of("meets the start", size) > taken)
      page_.text({place.origin.x + darning.perimeter, y}, "meets the start", size, Weight::regular,
                 Align::right);
  }

  /// Writes the label on the part's own tab.
  void tab_label(const FootSolution& foot, const Placement& place) {
    const SolvedDarning& darning = *foot.darning;
    const std::array<std::string, 3> words{
        foot_letter(foot.side) + " darning \u00b7 " + context_.order.dancer,
        "order " + context_.digest, "page " + std::to_string(page_.number() + 1) + ", tape here"};
    constexpr double size = 2.5; // 7 pt are 2.47 mm
    double y = 7.2;
    for (const std::string& line : words) {
      page_.text(place({darning.perimeter + 2, y}), context_.typeface.shorten(line, tab - 3, size),
                 size);
      y -= 3;
    }
  }

  void notes(double left_edge, double top) {
    const double width = page_.right() - 9 - left_edge;
    const double name_width = 40;
    const double cell = (width - name_width) / 2;
    double y = top;
    for (std::size_t i = 0; i < feet_.size(); ++i)
      page_.text({left_edge + name_width + cell * static_cast<double>(i), y},
                 foot_capitals(feet_[i]->side), 3, Weight::bold);
    y -= 4.6;
    const auto row = [&](const char* name, const auto& words) {
      page_.text({left_edge, y}, name, 2.7);
      for (std::size_t i = 0; i < feet_.size(); ++i)
        page_.text({left_edge + name_width + cell * static_cast<double>(i), y},
                   context_.typeface.shorten(words(*feet_[i]), cell - 2, 2.7), 2.7);
      y -= 4;
    };
    row("round the edge", [&](const FootSolution& foot) {
      return with_tolerance(foot.darning->perimeter, context_);
    });
    row("height",
        [&](const FootSolution& foot) { return with_tolerance(foot.darning->height, context_); });
    if (std::any_of(feet_.begin(), feet_.end(),
                    [](const FootSolution* foot) { return foot->darning->raise > 0; }))
      row("raised where the foot rolls", [&](const FootSolution& foot) {
        return foot.darning->raise > 0 ? "by " + with_tolerance(foot.darning->raise, context_)
                                       : std::string("even");
      });
    row("stitches in each pass", [&](const FootSolution& foot) {
      return std::to_string(foot.darning->stitches) + ", every " +
             length_text(foot.darning->pitch, context_.units);
    });
    row("passes", [](const FootSolution& foot) { return std::to_string(foot.darning->passes); });
    row("yarn", [](const FootSolution& foot) {
      return yarn_text(*foot.darning) + (foot.darning->face_area > 0 ? ", with the face" : "");
    });
    y -= 1;
    const bool twice = std::any_of(feet_.begin(), feet_.end(), [](const FootSolution* foot) {
      return foot->darning->passes > 1;
    });
    for (const char* step :
         {"Cut a strip out with its tab. Lay it round the platform, printed face out, its long "
          "straight edge on the platform's edge, START on the middle of the pleats; tape the tab.",
          twice
              ? "Draw along its upper edge in pencil, and prick a hole at each tick. Sew the first "
                "pass loosely; the next one fills the gaps. Darn before the shoe is worn, and "
                "again when the darning thins."
              : "Draw along its upper edge in pencil, and prick a hole at each tick. Darn before "
                "the shoe is worn, and again when the darning thins."})
      y = page_.paragraph({left_edge, y}, width, step, 2.5) - 0.6;
  }

  const SheetContext& context_;
  const std::vector<const FootSolution*>& feet_;
  SheetPage page_;
};

} // namespace

DarningSheet darning_sheet(const SheetContext& context,
                           const std::vector<const FootSolution*>& feet, std::size_t number) {
  return DarningLayout(context, feet, number).draw();
}

} // namespace shankline
