#include "export/drawing/corrected_drawing.hpp"

#include "geometry/order/figure.hpp"

#include <utility>

namespace shankline {
namespace {

// The printer puts what is drawn here back to where the sheet kept clear of the edge.
constexpr double least_edge = 0.5;

class PageMap {
public:
  PageMap(const Paper& paper, const PrinterDrawing& printer)
      : paper_(paper), printer_(printer), middle_{paper.width / 2, paper.height / 2},
        // A page on its side goes through the printer as every other: upright.
        correction_(paper.width > paper.height ? printer.correction.turned() : printer.correction) {
  }

  Point operator()(const Point& wanted) const {
    const Point from_middle = correction_.drawn({wanted.x - middle_.x, wanted.y - middle_.y});
    const Point p{middle_.x + from_middle.x, middle_.y + from_middle.y};
    if (p.x < least_edge || p.y < least_edge || p.x > paper_.width - least_edge ||
        p.y > paper_.height - least_edge)
      throw OffThePage("this sheet does not fit on " + std::string(paper_.name) +
                       " when it is drawn for printer " + printer_.name + ", which prints " +
                       figure(100 * correction_.x_scale) + " and " +
                       figure(100 * correction_.y_scale) + " % of what is drawn");
    return p;
  }

  std::string words() const {
    const PageCorrection& upright = printer_.correction;
    return "drawn for printer " + printer_.name + " (x " + figure(1 / upright.x_scale, 3) + ", y " +
           figure(1 / upright.y_scale, 3) + "): prints right there only";
  }

private:
  const Paper& paper_;
  const PrinterDrawing& printer_;
  Point middle_;
  PageCorrection correction_;
};

void move(Mark& mark, const PageMap& map) {
  if (auto* line = std::get_if<Stroke>(&mark))
    for (Point& p : line->points)
      p = map(p);
  if (auto* text = std::get_if<Text>(&mark)) text->at = map(text->at);
}

} // namespace

Page corrected_page(Page page, const PrinterDrawing& printer) {
  const PageMap map(page.paper, printer);
  // Between what is drawn, which ends at 10, and what printers reach.
  page.marks.emplace_back(
      Text{{page.paper.width / 2, 8.2}, map.words(), 2.3, Weight::regular, Align::centre});
  for (Mark& mark : page.marks)
    move(mark, map);
  return page;
}

Drawing corrected_drawing(Drawing drawing, const PrinterDrawing& printer) {
  drawing.margin = least_edge;
  for (Page& page : drawing.pages)
    page = corrected_page(std::move(page), printer);
  return drawing;
}

} // namespace shankline
