#include "export/sets/one_length.hpp"

#include "export/drawing/box.hpp"
#include "export/lettering/typeface.hpp"
#include "export/page/sheet_page.hpp"
#include "geometry/order/figure.hpp"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <optional>
#include <string>
#include <utility>
#include <variant>

namespace shankline {
namespace {

constexpr double edge = SheetPage::margin; ///< from the paper's edge to the frames
constexpr double air = 3;                  ///< from a frame to what stands in it
constexpr double between = 2;              ///< from frame to frame, so that a knife passes

Box box_of(const Page& page, const Typeface& typeface) {
  Box box = nowhere;
  for (const Mark& mark : page.marks)
    if (const Text* text = std::get_if<Text>(&mark))
      widen(box, text_box(*text, typeface));
    else
      for (const Point& p : std::get<Stroke>(mark).points)
        widen(box, p);
  return box;
}

/// Where the next frame may lie on a strip of some width: the outline of what is laid already, as
/// steps from left to right. Each frame goes where its far end is nearest to the strip's beginning,
/// and there as far left as it can (bottom left on a skyline, a usual rule for strips).
class Skyline {
public:
  explicit Skyline(double width) : steps_{{0, width, 0}} {}

  struct Place {
    double x;
    double y; ///< from the strip's beginning
  };

  /// Returns nullopt for a frame that is wider than the strip.
  std::optional<Place> place_for(double width) const {
    std::optional<Place> best;
    for (std::size_t i = 0; i < steps_.size(); ++i) {
      const auto height = height_under(i, width);
      if (height && (!best || *height < best->y)) best = Place{steps_[i].x, *height};
    }
    return best;
  }

  void lay(const Place& at, double width, double height) {
    std::vector<Step> after;
    const double end = at.x + width;
    for (const Step& step : steps_) {
      if (step.x < at.x) after.push_back({step.x, std::min(step.end, at.x), step.height});
      if (step.x <= at.x && at.x < step.end) after.push_back({at.x, end, at.y + height});
      if (step.end > end) after.push_back({std::max(step.x, end), step.end, step.height});
    }
    steps_ = std::move(after);
  }

private:
  struct Step {
    double x;
    double end;
    double height;
  };

  std::optional<double> height_under(std::size_t first, double width) const {
    const double end = steps_[first].x + width;
    constexpr double rounding = 1e-9;
    if (end > steps_.back().end + rounding) return {};
    double height = 0;
    for (std::size_t i = first; i < steps_.size() && steps_[i].x < end - rounding; ++i)
      height = std::max(height, steps_[i].height);
    return height;
  }

  std::vector<Step> steps_;
};

struct Laid {
  std::size_t page; ///< of the set
  Box box;          ///< of its marks, on its own page
  std::size_t length = 0;
  Skyline::Place at{}; ///< of its frame
};

double frame_width(const Laid& one) {
  return one.box.right - one.box.left + 2 * air + between;
}
double frame_height(const Laid& one) {
  return one.box.top - one.box.bottom + 2 * air + between;
}

/// The longest frames first: short ones fill what these leave. Pages alike keep their order.
std::vector<Laid> laid_out(const SheetSet& set, double width, double longest) {
  const Typeface typeface(set.drawing.lettering);
  std::vector<Laid> all;
  for (std::size_t i = 0; i < set.drawing.pages.size(); ++i)
    all.push_back({i, box_of(set.drawing.pages[i], typeface)});
  std::stable_sort(all.begin(), all.end(),
                   [](const Laid& a, const Laid& b) { return frame_height(a) > frame_height(b); });
  std::vector<Skyline> lengths;
  for (Laid& one : all) {
    const double height = frame_height(one);
    for (one.length = 0;; ++one.length) {
      if (one.length == lengths.size()) lengths.emplace_back(width);
      const auto at = lengths[one.length].place_for(frame_width(one));
      if (!at)
        throw DoesNotFit("the page \"" + set.drawing.pages[one.page].title + "\" is " +
                         figure(frame_width(one), 0) + " wide, the roll takes " + figure(width, 0));
      if (at->y > 0 && at->y + height > longest) continue; // the next length takes it
      one.at = *at;
      lengths[one.length].lay(*at, frame_width(one), height);
      break;
    }
  }
  return all;
}

Mark moved(const Mark& mark, const Placement& by) {
  if (const Stroke* line = std::get_if<Stroke>(&mark)) return placed(*line, by);
  Text text = std::get<Text>(mark);
  text.at = by(text.at);
  return text;
}

} // namespace

std::string roll_words(const Drawing& drawing) {
  double length = 0;
  for (const Page& page : drawing.pages)
    length += page.paper.height;
  return "it takes " + figure(std::ceil(length), 0) + " mm of the roll, " +
         short_figure(drawing.pages.front().paper.width) + " wide";
}

SheetSet joined(std::vector<SheetSet> sets, std::vector<std::size_t>& left_out) {
  SheetSet all = std::move(sets.at(0));
  for (std::size_t i = 1; i < sets.size(); ++i) {
    SheetSet& next = sets[i];
    const auto same_files = [](const Face& a, const Face& b) {
      return a.regular == b.regular && a.bold == b.bold;
    };
    if (!std::ranges::equal(all.drawing.lettering.faces, next.drawing.lettering.faces,
                            same_files)) {
      left_out.push_back(i);
      continue;
    }
    const std::size_t before = all.drawing.pages.size();
    for (Template& part : next.templates) {
      part.page += before;
      all.templates.push_back(std::move(part));
    }
    for (Proof& proof : next.proofs) {
      proof.page += before;
      all.proofs.push_back(proof);
    }
    std::ranges::move(next.drawing.pages, std::back_inserter(all.drawing.pages));
  }
  return all;
}

SheetSet on_one_length(SheetSet set, const Paper& roll) {
  const double width = roll.width - 2 * edge + between;
  const double longest = longest_page - 2 * edge;
  const std::vector<Laid> all = laid_out(set, width, longest);
  std::vector<double> lengths;
  for (const Laid& one : all) {
    lengths.resize(std::max(lengths.size(), one.length + 1));
    lengths[one.length] = std::max(lengths[one.length], one.at.y + frame_height(one) - between);
  }
  std::vector<Page> pages;
  for (const double length : lengths) {
    Paper paper = roll;
    paper.height = length + 2 * edge;
    pages.push_back(
        {paper,
         "All sheets, " + figure(paper.width, 0) + " by " + figure(paper.height, 0) + " mm",
         {},
         "roll " + std::to_string(pages.size() + 1)});
  }
  std::vector<Placement> moves(set.drawing.pages.size());
  std::vector<std::size_t> page_now(set.drawing.pages.size());
  for (const Laid& one : all) {
    Page& page = pages[one.length];
    // The strip begins at the top of the page.
    const Point corner{edge + one.at.x, page.paper.height - edge - one.at.y};
    const Placement by{
        {corner.x + air - one.box.left, corner.y - air - one.box.top}, {1, 0}, {0, 1}};
    const Stroke frame{LineKind::paper_trim, corners(with_air(one.box, air)), true};
    page.marks.push_back(placed(frame, by));
    for (const Mark& mark : set.drawing.pages[one.page].marks)
      page.marks.push_back(moved(mark, by));
    moves[one.page] = by;
    page_now[one.page] = one.length;
  }
  for (Template& part : set.templates) {
    part.placement = placed(part.placement, moves[part.page]);
    part.page = page_now[part.page];
    part.paper = pages[part.page].paper;
  }
  for (Proof& proof : set.proofs) {
    const Placement& by = moves[proof.page];
    for (Proof::Bar& bar : proof.bars)
      bar = {by(bar.from), by(bar.to)};
    proof.card_corner = by(proof.card_corner);
    proof.page = page_now[proof.page];
  }
  set.drawing.pages = std::move(pages);
  return set;
}

} // namespace shankline
