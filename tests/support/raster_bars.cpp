#include "tests/support/json_point.hpp"
#include "tests/support/readback.hpp"

#include <algorithm>
#include <cmath>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>
#include <sstream>
#include <stdexcept>

#include "tests/support/process.hpp"
#include "tests/support/scratch_directory.hpp"

namespace shankline::tests {
namespace {

using nlohmann::json;

/// A page as grey pixels, looked at in millimetres from its lower left corner.
class Picture {
public:
  Picture(const std::string& pgm, int dpi) : pixel_(25.4 / dpi) {
    std::istringstream head(pgm.substr(0, 200));
    std::string magic;
    std::string comment;
    int most = 0;
    head >> magic >> std::ws;
    while (head.peek() == '#')
      std::getline(head, comment) >> std::ws;
    head >> width_ >> height_ >> most;
    head.get();
    const std::streamoff start = head.tellg();
    if (magic != "P5" || most != 255 || start < 0 ||
        pgm.size() - static_cast<std::size_t>(start) < width_ * height_)
      throw std::runtime_error("the picture is no grey map of 8 bits");
    grey_ = pgm.substr(static_cast<std::size_t>(start));
  }

  double pixel() const { return pixel_; }

  bool dark(Point at) const {
    const double column = std::floor(at.x / pixel_);
    const double row = std::floor(static_cast<double>(height_) - at.y / pixel_);
    if (column < 0 || row < 0 || column >= static_cast<double>(width_) ||
        row >= static_cast<double>(height_))
      return false;
    const std::size_t index =
        static_cast<std::size_t>(row) * width_ + static_cast<std::size_t>(column);
    return static_cast<unsigned char>(grey_[index]) < 128;
  }

private:
  double pixel_;
  std::size_t width_ = 0;
  std::size_t height_ = 0;
  std::string grey_;
};

struct Run {
  double from = 0;
  double to = 0;
  double middle() const { return (from + to) / 2; }
};

/// Looks along a bar: station 0 is its beginning; `aside` is the distance from its axis.
class Probe {
public:
  Probe(const Picture& picture, Point from, Point to)
      : picture_(picture), from_(from),
        length_(std::hypot(to.x - from.x, to.y - from.y)), along_{(to.x - from.x) / length_,
                                                                  (to.y - from.y) / length_} {}

  double measured() const {
    const double middle = length_ / 2;
    // A pixel more or less beside the axis: renderers shift thin lines onto whole pixels.
    for (const double aside : {0.0, picture_.pixel(), -picture_.pixel()})
      if (dark(middle, aside)) {
        const Run bar = run_around(middle, aside);
        return end(bar.to) - end(bar.from);
      }
    return 0;
  }

private:
  static constexpr double step = 0.25;      // of a pixel
  static constexpr double tick_within = 1;  // mm along the bar
  static constexpr double tick_aside = 0.9; // mm from the axis

  bool dark(double station, double aside) const {
    return picture_.dark({from_.x + station * along_.x - aside * along_.y,
                          from_.y + station * along_.y + aside * along_.x});
  }

  Run run_around(double station, double aside) const {
    const double by = step * picture_.pixel();
    Run run{station, station};
    while (run.to < length_ + 20 && dark(run.to + by, aside))
      run.to += by;
    while (run.from > -20 && dark(run.from - by, aside))
      run.from -= by;
    return run;
  }

  /// With a tick across the end the bar is read at the tick's middle.
  double end(double reached) const {
    const double by = step * picture_.pixel();
    for (const double aside : {tick_aside, -tick_aside})
      for (double off = 0; off <= tick_within; off += by)
        for (const double station : {reached - off, reached + off})
          if (dark(station, aside)) {
            const Run tick = run_around(station, aside);
            if (tick.to - tick.from <= 2 * tick_within) return tick.middle();
          }
    return reached;
  }

  const Picture& picture_;
  Point from_;
  double length_;
  Point along_;
};

Picture drawn(const std::filesystem::path& pdf, std::size_t page, int dpi, Renderer renderer) {
  const ScratchDirectory scratch;
  const std::filesystem::path picture = scratch.path() / "page.pgm";
  const std::string number = std::to_string(page);
  const std::string density = std::to_string(dpi);
  std::vector<std::string> words;
  if (renderer == Renderer::poppler)
    words = {"pdftoppm",
             "-r",
             density,
             "-gray",
             "-f",
             number,
             "-l",
             number,
             "-singlefile",
             pdf.string(),
             (scratch.path() / "page").string()};
  else
    words = {"mutool", "draw",           "-q",         "-r",  density, "-c", "gray",
             "-o",     picture.string(), pdf.string(), number};
  const Finished finished = run(words);
  if (finished.exit_code != 0)
    throw std::runtime_error(words.front() + " on " + pdf.string() + ": " + finished.err);
  return {read_file(picture), dpi};
}

} // namespace

std::vector<RasterBar> raster_bars(const std::filesystem::path& pdf, std::string_view lines_json,
                                   std::size_t page, int dpi, Renderer renderer) {
  const Picture picture = drawn(pdf, page, dpi, renderer);
  std::vector<RasterBar> bars;
  const json lines = json::parse(lines_json);
  for (const json& proof : lines.at("proofs")) {
    if (proof.at("page").get<std::size_t>() != page) continue;
    for (const json& ends : proof.at("bars")) {
      const Point from = point_of(ends.at(0));
      const Point to = point_of(ends.at(1));
      bars.push_back({page, from, to, Probe(picture, from, to).measured(), picture.pixel()});
    }
  }
  return bars;
}

void expect_bars_in_pixels(const std::filesystem::path& pdf, std::string_view lines_json, int dpi,
                           Renderer renderer) {
  std::size_t count = 0;
  const json lines = json::parse(lines_json);
  for (const json& proof : lines.at("proofs"))
    for (const RasterBar& bar :
         raster_bars(pdf, lines_json, proof.at("page").get<std::size_t>(), dpi, renderer)) {
      ++count;
      EXPECT_NEAR(bar.length, 100, 2 * bar.pixel)
          << pdf.string() << ": page " << bar.page << ", the bar from (" << bar.from.x << ", "
          << bar.from.y << ")";
    }
  EXPECT_GT(count, 0u) << pdf.string() << " has no bars to measure";
}

} // namespace shankline::tests
