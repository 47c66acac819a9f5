#include "export/bench/printer_sheet.hpp"

#include "export/drawing/box.hpp"
#include "geometry/order/figure.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <string>

namespace shankline {
namespace {

constexpr double longest_unit = 55; // 275 along the diagonal, at 106 % still within 300
constexpr double unit_step = 5;
constexpr double room_beside = 15; // for the letter of a cross, to the paper's edge
constexpr double room_below = 16;
constexpr double room_above = 40;

class PrinterSheet {
public:
  explicit PrinterSheet(const Paper& paper)
      : command_(measured_command(paper)), frame_(calibration_frame(paper)) {
    page_.paper = text_page(paper);
    page_.title = "Printer calibration";
    page_.label = "calibration";
    const double x = (page_.paper.width - frame_.width) / 2;
    corners_ = {Point{x, room_below},
                {x + frame_.width, room_below},
                {x + frame_.width, room_below + frame_.height},
                {x, room_below + frame_.height}};
  }

  Page draw() && {
    heading();
    stroke(LineKind::frame, {corners_[0], corners_[1]});
    stroke(LineKind::frame, {corners_[0], corners_[3]});
    constexpr const char* letters[] = {"A", "B", "C", "D"};
    for (std::size_t i = 0; i < 4; ++i) {
      cross(corners_[i]);
      sight(corners_[i], corners_[(i + 2) % 4]);
      const bool left = i == 0 || i == 3;
      text({corners_[i].x + (left ? -5.5 : 5.5), corners_[i].y + 4.5}, letters[i], 5, Weight::bold,
           left ? Align::right : Align::left);
    }
    table();
    return std::move(page_);
  }

private:
  void stroke(LineKind kind, Polyline points) {
    page_.marks.emplace_back(Stroke{kind, std::move(points), false});
  }
  void text(Point at, std::string words, double size, Weight weight = Weight::regular,
            Align align = Align::left) {
    page_.marks.emplace_back(Text{at, std::move(words), size, weight, align});
  }

  void heading() {
    const double top = page_.paper.height - 10;
    text({10, top - 4.6}, "Printer calibration", 5.4, Weight::bold);
    text({10, top - 11.5},
         "Print this at 100 % (\u201cactual size\u201d) on the printer and the paper that the "
         "templates go to.",
         3.2);
    text({10, top - 16.5},
         "Only for a printer whose pages are not true at 100 %: there a bank card does not fit its "
         "outline.",
         3.2);
  }

  void cross(const Point& at) {
    constexpr double arm = 4;
    stroke(LineKind::ruler, {{at.x - arm, at.y}, {at.x + arm, at.y}});
    stroke(LineKind::ruler, {{at.x, at.y - arm}, {at.x, at.y + arm}});
  }

  /// The beginning of a diagonal: the rule is laid along both ends.
  void sight(const Point& from, const Point& to) {
    const double length = std::hypot(to.x - from.x, to.y - from.y);
    const auto along = [&](double at) {
      return Point{from.x + (to.x - from.x) * at / length, from.y + (to.y - from.y) * at / length};
    };
    stroke(LineKind::ruler, {along(6), along(32)});
  }

  void table() {
    const double middle = page_.paper.width / 2;
    const double left = middle - std::min(50.0, frame_.width / 2 - 12);
    double y = room_below + frame_.height * 0.5 + 36;
    text({left, y}, "Measure from the middle of one cross", 3.6, Weight::bold);
    text({left, y -= 5}, "to the middle of the other, in mm,", 3.6, Weight::bold);
    text({left, y -= 5}, "with a steel rule, to a quarter of a mm.", 3.6, Weight::bold);
    const std::array<std::pair<const char*, double>, 4> lengths{{{"A to B", frame_.width},
                                                                 {"A to D", frame_.height},
                                                                 {"A to C", frame_.diagonal()},
                                                                 {"B to D", frame_.diagonal()}}};
    y -= 6;
    for (const auto& [words, length] : lengths) {
      y -= 12;
      text({left, y}, words, 4.2, Weight::bold);
      text({left + 24, y}, "drawn " + figure(length), 3.2);
      box({left + 52, y - 2.6}, 30, 9);
      text({left + 85, y}, "mm", 3.2);
    }
    text({left, y -= 13}, "Then, with the four figures in this order:", 3.2);
    text({left, y -= 5.5}, command_, 3.2, Weight::bold);
    text({left, y -= 7}, "printer, date, measured by:", 3.2);
    stroke(LineKind::frame, {{left + 42, y - 1}, {left + 90, y - 1}});
  }

  void box(const Point& corner, double width, double height) {
    page_.marks.emplace_back(Stroke{
        LineKind::frame, corners({corner.x, corner.y, corner.x + width, corner.y + height}), true});
  }

  std::string command_;
  CalibrationFrame frame_;
  std::array<Point, 4> corners_;
  Page page_;
};

} // namespace

std::string measured_command(const Paper& paper) {
  const std::string command = "shankline printer NAME --measured AB,AD,AC,BD";
  const std::string name = written(paper);
  return name == "a4" ? command : command + " --paper " + name;
}

CalibrationFrame calibration_frame(const Paper& paper) {
  const Paper page = text_page(paper);
  const double room =
      std::min((page.width - 2 * room_beside) / 3, (page.height - room_below - room_above) / 4);
  const double unit = std::min(longest_unit, std::floor(room / unit_step) * unit_step);
  return {3 * unit, 4 * unit};
}

Drawing printer_sheet(const Paper& paper) {
  Drawing drawing;
  drawing.title = "Printer calibration";
  drawing.author = "shankline";
  drawing.subject = "calibration of a printer, " + std::string(paper.name);
  drawing.pages.push_back(PrinterSheet(paper).draw());
  return drawing;
}

} // namespace shankline
