#include "tests/support/json_point.hpp"
#include "tests/support/readback.hpp"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <gtest/gtest.h>
#include <limits>
#include <nlohmann/json.hpp>
#include <set>
#include <stdexcept>

#include "tests/support/polyline_distance.hpp"

namespace shankline::tests {
namespace {

using nlohmann::json;

constexpr double bar_length = 100;
/// ISO/IEC 7810 ID-1.
constexpr double card_width = 85.60;
constexpr double card_height = 53.98;

std::string figure(double value, int decimals = 3) {
  char text[64];
  std::snprintf(text, sizeof text, "%.*f", decimals, value);
  return text;
}

std::string shown(Point point) {
  return "(" + figure(point.x) + ", " + figure(point.y) + ")";
}

Polyline ring_closed(Polyline points) {
  if (!points.empty() && points.front() != points.back()) points.push_back(points.front());
  return points;
}

PaperBox bounds(const Polyline& points) {
  constexpr double far = std::numeric_limits<double>::infinity();
  PaperBox box{{far, far}, {-far, -far}};
  for (const Point point : points) {
    box.low = {std::min(box.low.x, point.x), std::min(box.low.y, point.y)};
    box.high = {std::max(box.high.x, point.x), std::max(box.high.y, point.y)};
  }
  return box;
}

struct Placement {
  Point origin;
  Point along;
  Point across;

  Point operator()(Point part) const {
    return {origin.x + part.x * along.x + part.y * across.x,
            origin.y + part.x * along.y + part.y * across.y};
  }
  /// Turned or mirrored is fine, stretched or sheared is not.
  bool keeps_size() const {
    constexpr double rounding = 1e-9;
    return std::abs(along.x * along.x + along.y * along.y - 1) < rounding &&
           std::abs(across.x * across.x + across.y * across.y - 1) < rounding &&
           std::abs(along.x * across.x + along.y * across.y) < rounding;
  }
};

class Comparison {
public:
  Comparison(const PaperDocument& document, const PaperRules& rules)
      : document_(document), rules_(rules) {}

  PaperReport run(const json& lines) {
    file();
    for (std::size_t number = 1; number <= document_.pages.size(); ++number)
      whole_page(number);
    std::set<std::size_t> to_be_proved;
    for (const json& entry : lines.at("templates")) {
      template_page(entry);
      to_be_proved.insert(entry.at("page").get<std::size_t>());
    }
    for (const json& entry : lines.at("proofs")) {
      proof(entry);
      to_be_proved.erase(entry.at("page").get<std::size_t>());
    }
    for (const std::size_t number : to_be_proved)
      complain(number, "a template's page has no proof of its scale");
    if (report_.templates < rules_.least_templates)
      complain("only " + std::to_string(report_.templates) + " templates were compared, not " +
               std::to_string(rules_.least_templates));
    return std::move(report_);
  }

private:
  void complain(std::string what) { report_.complaints.push_back(std::move(what)); }
  void complain(std::size_t page, const std::string& what) {
    complain("page " + std::to_string(page) + ": " + what);
  }

  const PaperPage* page(std::size_t number) {
    if (number >= 1 && number <= document_.pages.size()) return &document_.pages[number - 1];
    complain(number, "there is no such page");
    return nullptr;
  }

  void file() {
    if (!document_.check.empty()) complain(document_.check);
    if (!document_.prints_unscaled) complain("the file does not ask for unscaled printing");
    if (document_.pages.empty()) complain("the file has no pages");
  }

  void whole_page(std::size_t number) {
    const PaperPage& page = document_.pages[number - 1];
    for (const std::string& fault : page.faults)
      complain(number, fault);
    if (page.media.low != Point{0, 0}) complain(number, "the page does not begin at 0, 0");
    for (const PaperStroke& stroke : page.strokes) {
      if (!kind_of(stroke))
        complain(number, "a stroke of no kind from " + shown(stroke.points.front()) + ": width " +
                             figure(stroke.width) + " mm, grey " + figure(stroke.grey) + ", " +
                             std::to_string(stroke.dash.size()) + " dashes");
      margin(number, page, "a stroke", stroke.points, stroke.clip);
    }
    for (const PaperFill& fill : page.fills)
      for (const Polygon& ring : fill.rings)
        if (fill.grey < 1) margin(number, page, "a fill", ring, fill.clip);
    for (const TextRun& text : page.texts)
      margin(number, page, "text", {text.origin}, std::nullopt);
  }

  void margin(std::size_t number, const PaperPage& page, const char* what, const Polyline& points,
              const std::optional<PaperBox>& clip) {
    constexpr double rounding = 1e-4;
    const double least = rules_.margin - rounding;
    for (const Point point : points) {
      const bool hidden = clip && (point.x < clip->low.x || point.x > clip->high.x ||
                                   point.y < clip->low.y || point.y > clip->high.y);
      const double free = std::min({point.x - page.media.low.x, page.media.high.x - point.x,
                                    point.y - page.media.low.y, page.media.high.y - point.y});
      if (hidden || free >= least) continue;
      complain(number, std::string(what) + " at " + shown(point) + " lies within " +
                           figure(rules_.margin, 1) + " mm of the paper's edge");
      return;
    }
  }

  void template_page(const json& entry) {
    ++report_.templates;
    const std::size_t number = entry.at("page").get<std::size_t>();
    const PaperPage* const on = page(number);
    if (on == nullptr) return;
    const Point paper = point_of(entry.at("paper"));
    const Point size{on->media.high.x - on->media.low.x, on->media.high.y - on->media.low.y};
    if (!(std::abs(size.x - paper.x) <= rules_.paper_within) ||
        !(std::abs(size.y - paper.y) <= rules_.paper_within))
      complain(number, "the page is " + figure(size.x) + " x " + figure(size.y) +
                           " mm, the paper " + figure(paper.x) + " x " + figure(paper.y));

    const json& place = entry.at("placement");
    const Placement placement{point_of(place.at("origin")), point_of(place.at("along")),
                              point_of(place.at("across"))};
    if (!placement.keeps_size()) complain(number, "the placement stretches or shears the part");

    const std::string part = entry.value("foot", "") + " " + entry.at("part").get<std::string>();
    std::size_t index = 0;
    std::set<const PaperStroke*> taken;
    for (const json& line : entry.at("lines"))
      solved_line(number, *on, part + ", line " + std::to_string(++index), line, placement, taken);
    if (index < rules_.least_lines)
      complain(number, part + ": only " + std::to_string(index) + " lines were compared, not " +
                           std::to_string(rules_.least_lines));
  }

  void solved_line(std::size_t number, const PaperPage& on, const std::string& name,
                   const json& line, const Placement& placement,
                   std::set<const PaperStroke*>& taken) {
    const std::string kind = line.at("kind").get<std::string>();
    const bool closed = line.at("closed").get<bool>();
    Polyline expected;
    for (const json& pair : line.at("points"))
      expected.push_back(placement(point_of(pair)));
    if (expected.size() < 2) {
      complain(number, name + ", " + kind + ": fewer than two points");
      return;
    }
    if (closed) expected = ring_closed(std::move(expected));

    const auto styles = line_styles();
    const auto style = std::ranges::find(styles, std::string_view(kind), &LineStyle::name);
    if (style == styles.end()) {
      complain(number, name + ": there is no kind '" + kind + "'");
      return;
    }
    ++report_.lines;
    report_.points += expected.size();

    Apart nearest{std::numeric_limits<double>::infinity(), {}};
    for (const PaperStroke& stroke : on.strokes) {
      if (taken.contains(&stroke) || stroke.closed != closed || kind_of(stroke) != style->kind)
        continue;
      const Polyline drawn = closed ? ring_closed(stroke.points) : stroke.points;
      Apart here = boxes_apart(expected, drawn);
      if (here.distance <= rules_.within) here = apart(expected, drawn);
      if (!closed) here.distance = std::max(here.distance, ends_apart(expected, drawn));
      if (here.distance <= rules_.within) {
        taken.insert(&stroke);
        return;
      }
      if (here.distance < nearest.distance) nearest = here;
    }
    complain(number, name + ", " + kind + " from " + shown(expected.front()) + ": " +
                         (std::isfinite(nearest.distance)
                              ? "the nearest stroke is " + figure(nearest.distance) +
                                    " mm off near " + shown(nearest.at)
                              : std::string("no such stroke is left on the page")));
  }

  /// No line is nearer than the sides of its box; much cheaper than to look at every point.
  static Apart boxes_apart(const Polyline& one, const Polyline& other) {
    const PaperBox a = bounds(one);
    const PaperBox b = bounds(other);
    return {std::max({std::abs(a.low.x - b.low.x), std::abs(a.low.y - b.low.y),
                      std::abs(a.high.x - b.high.x), std::abs(a.high.y - b.high.y)}),
            one.front()};
  }

  void proof(const json& entry) {
    const std::size_t number = entry.at("page").get<std::size_t>();
    const PaperPage* const on = page(number);
    if (on == nullptr) return;
    bool along_x = false;
    bool along_y = false;
    for (const json& ends : entry.at("bars")) {
      const Point from = point_of(ends.at(0));
      const Point to = point_of(ends.at(1));
      bar(number, *on, from, to);
      along_x = along_x || std::abs(from.y - to.y) <= rules_.within;
      along_y = along_y || std::abs(from.x - to.x) <= rules_.within;
    }
    if (!along_x) complain(number, "no bar along x");
    if (!along_y) complain(number, "no bar along y");
    card(number, *on, entry.at("card"));
  }

  void bar(std::size_t number, const PaperPage& on, Point from, Point to) {
    ++report_.bars;
    const std::string name = "the bar from " + shown(from);
    const double length = std::hypot(to.x - from.x, to.y - from.y);
    if (!(std::abs(length - bar_length) <= rules_.within))
      complain(number, name + " is said to be " + figure(length) + " mm long");
    double nearest = std::numeric_limits<double>::infinity();
    for (const PaperStroke& stroke : on.strokes)
      if (kind_of(stroke) == LineKind::scale_bar && !stroke.closed)
        nearest = std::min(nearest, std::max(apart({from, to}, stroke.points).distance,
                                             ends_apart({from, to}, stroke.points)));
    if (!(nearest <= rules_.within))
      complain(number, name + (std::isfinite(nearest)
                                   ? ": the nearest stroke is " + figure(nearest) + " mm off"
                                   : std::string(" is not on the page")));
  }

  void card(std::size_t number, const PaperPage& on, const json& outline) {
    ++report_.cards;
    const Point corner = point_of(outline.at("corner"));
    const double width = outline.at("width").get<double>();
    const double height = outline.at("height").get<double>();
    const bool lying = width == card_width && height == card_height;
    const bool upright = width == card_height && height == card_width;
    if (!lying && !upright)
      complain(number, "the card is said to be " + figure(width) + " x " + figure(height));
    const double radius = outline.value("radius", 0.0);
    double nearest = std::numeric_limits<double>::infinity();
    for (const PaperStroke& stroke : on.strokes) {
      if (kind_of(stroke) != LineKind::card || !stroke.closed) continue;
      const PaperBox box = bounds(stroke.points);
      double off = std::max({std::abs(box.low.x - corner.x), std::abs(box.low.y - corner.y),
                             std::abs(box.high.x - corner.x - width),
                             std::abs(box.high.y - corner.y - height)});
      // A round corner passes its box's corner at this distance.
      off = std::max(off, std::abs(corner_gap(stroke, box) - radius * (std::sqrt(2.0) - 1)));
      nearest = std::min(nearest, off);
    }
    if (!(nearest <= rules_.within))
      complain(number, std::isfinite(nearest)
                           ? "the card's outline is " + figure(nearest) + " mm off"
                           : std::string("the card's outline is not on the page"));
  }

  static double corner_gap(const PaperStroke& stroke, const PaperBox& box) {
    const Polyline ring = ring_closed(stroke.points);
    double gap = std::numeric_limits<double>::infinity();
    for (std::size_t i = 1; i < ring.size(); ++i)
      gap = std::min(gap, distance_to_segment(box.low, ring[i - 1], ring[i]));
    return gap;
  }

  const PaperDocument& document_;
  const PaperRules& rules_;
  PaperReport report_;
};

} // namespace

PaperReport compare_with_paper(const PaperDocument& document, std::string_view lines_json,
                               const PaperRules& rules) {
  return Comparison(document, rules).run(json::parse(lines_json));
}

void expect_true_to_paper(const std::filesystem::path& pdf, std::string_view lines_json,
                          const PaperRules& rules) {
  try {
    const PaperDocument document = read_document(pdf);
    for (const std::string& complaint : compare_with_paper(document, lines_json, rules).complaints)
      ADD_FAILURE() << pdf.string() << ": " << complaint;
    // A font's box is higher than its ink, hence the millimetre.
    const double margin = rules.margin - 1;
    for (std::size_t number = 1; number <= document.pages.size(); ++number) {
      const PaperBox& paper = document.pages[number - 1].media;
      for (const Word& word : page_words(pdf, number))
        EXPECT_TRUE(
            word.box.low.x >= paper.low.x + margin && word.box.low.y >= paper.low.y + margin &&
            word.box.high.x <= paper.high.x - margin && word.box.high.y <= paper.high.y - margin)
            << pdf.string() << ": page " << number << ": '" << word.text
            << "' runs to the paper's edge, from " << shown(word.box.low) << " to "
            << shown(word.box.high);
    }
  } catch (const std::exception& error) {
    ADD_FAILURE() << pdf.string() << ": " << error.what();
  }
}

} // namespace shankline::tests
