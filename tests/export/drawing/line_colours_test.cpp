// The colours of line kinds in SVG and DXF: each its own, told apart by every eye and on a grey
// print.
#include "export/drawing/line_kind.hpp"
#include "export/formats/part_drawing.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <gtest/gtest.h>
#include <set>
#include <stdexcept>
#include <vector>

namespace shankline::tests::line_colours_test {
namespace {

using Three = std::array<double, 3>;

/// Linear light, IEC 61966-2-1.
Three linear(const ScreenColour& colour) {
  const auto part = [](int byte) {
    const double c = byte / 255.0;
    return c <= 0.04045 ? c / 12.92 : std::pow((c + 0.055) / 1.055, 2.4);
  };
  return {part(colour.red), part(colour.green), part(colour.blue)};
}

/// CIELAB under D65.
Three lab(const Three& l) {
  const auto f = [](double t) {
    return t > 216.0 / 24389 ? std::cbrt(t) : (24389.0 / 27 * t + 16) / 116;
  };
  const double x = f((0.4124564 * l[0] + 0.3575761 * l[1] + 0.1804375 * l[2]) / 0.95047);
  const double y = f(0.2126729 * l[0] + 0.7151522 * l[1] + 0.0721750 * l[2]);
  const double z = f((0.0193339 * l[0] + 0.1191920 * l[1] + 0.9503041 * l[2]) / 1.08883);
  return {116 * y - 16, 500 * (x - y), 200 * (y - z)};
}

enum class Eye { ordinary, without_red, without_green };

/// Vienot, Brettel and Mollon 1999, in linear light.
Three seen_by(Eye eye, const Three& l) {
  if (eye == Eye::ordinary) return l;
  double L = 17.8824 * l[0] + 43.5161 * l[1] + 4.11935 * l[2];
  double M = 3.45565 * l[0] + 27.1554 * l[1] + 3.86714 * l[2];
  const double S = 0.0299566 * l[0] + 0.184309 * l[1] + 1.46709 * l[2];
  if (eye == Eye::without_red)
    L = 2.02344 * M - 2.52581 * S;
  else
    M = 0.494207 * L + 1.24827 * S;
  const auto held = [](double value) { return std::clamp(value, 0.0, 1.0); };
  return {held(0.080944 * L - 0.130504 * M + 0.116721 * S),
          held(-0.0102485 * L + 0.0540194 * M - 0.113615 * S),
          held(-0.000365294 * L - 0.00412163 * M + 0.693513 * S)};
}

double apart(int one, int other) {
  double least = 1e9;
  for (const Eye eye : {Eye::ordinary, Eye::without_red, Eye::without_green}) {
    const Three a = lab(seen_by(eye, linear(screen_colour(one))));
    const Three b = lab(seen_by(eye, linear(screen_colour(other))));
    least = std::min(least, std::hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]));
  }
  return least;
}

double lightness(int colour) {
  return lab(linear(screen_colour(colour)))[0];
}

/// Kinds that stand in the files of parts.
std::vector<int> colours_of_parts() {
  using enum LineKind;
  std::vector<int> colours{name_colour};
  for (const LineKind kind :
       {thinned_fill, centre, ruler, paper_trim, lift_limit, bevel, stitch, sewn, stock_top, edge,
        witness, fold, corner, thinned, stop, final_cut, first_cut, removed_piece, kept_piece})
    colours.push_back(line_style(kind).colour);
  return colours;
}

TEST(LineColours, AreEachOnesOwn) {
  std::set<int> colours{name_colour};
  std::set<std::array<int, 3>> seen;
  for (const LineStyle& style : line_styles()) {
    EXPECT_TRUE(colours.insert(style.colour).second) << style.name;
    const ScreenColour screen = screen_colour(style.colour);
    EXPECT_TRUE(seen.insert({screen.red, screen.green, screen.blue}).second) << style.name;
    EXPECT_LT(lightness(style.colour), 73) << style.name << " is too pale for white paper";
  }
}

TEST(LineColours, OfOneFileAreToldApartByEveryEye) {
  const std::vector<int> colours = colours_of_parts();
  for (const int one : colours)
    for (const int other : colours)
      if (one < other) {
        EXPECT_GE(apart(one, other), 15) << one << " and " << other;
        EXPECT_GE(std::abs(lightness(one) - lightness(other)), 2.3) << one << " and " << other;
      }
}

/// The lines that matter most are far apart.
TEST(LineColours, OfTheCutsAreFarApart) {
  using enum LineKind;
  const std::array cuts{first_cut, final_cut, stop, kept_piece};
  for (const LineKind one : cuts)
    for (const LineKind other : cuts)
      if (one < other) {
        EXPECT_GE(apart(line_style(one).colour, line_style(other).colour), 19);
      }
}

/// On an office printer a grey line is a row of dots.
TEST(LineGreys, LinesToCutAndFoldAreBlackAndPointersDarkEnough) {
  using enum LineKind;
  for (const LineKind kind : {first_cut, final_cut, stop, cut_a, cut_b, fold, thinned, witness,
                              edge, stock_top, sewn, card, scale_bar, registration, kept_piece})
    EXPECT_EQ(line_style(kind).grey, 0) << line_style(kind).name;
  for (const LineKind kind :
       {leader, ruler, paper_trim, dimension, lift_limit, bevel, stitch, corner, centre, farthest})
    EXPECT_LE(line_style(kind).grey, 0.4) << line_style(kind).name;
}

/// A few of the format's numbers, as its importers show them.
TEST(LineColours, AreTheFormatsOwn) {
  const auto is = [](int index, int red, int green, int blue) {
    const ScreenColour colour = screen_colour(index);
    EXPECT_EQ(colour.red, red) << index;
    EXPECT_EQ(colour.green, green) << index;
    EXPECT_EQ(colour.blue, blue) << index;
  };
  is(10, 255, 0, 0);
  is(50, 255, 255, 0);
  is(90, 0, 255, 0);
  is(130, 0, 255, 255);
  is(170, 0, 0, 255);
  is(210, 255, 0, 255);
  is(11, 255, 128, 128);
  is(150, 0, 128, 255);
  EXPECT_THROW(screen_colour(9), std::out_of_range);
  EXPECT_THROW(screen_colour(250), std::out_of_range);
}

} // namespace
} // namespace shankline::tests::line_colours_test
