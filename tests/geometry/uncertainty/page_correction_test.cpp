#include "geometry/uncertainty/page_correction.hpp"

#include <cmath>
#include <gtest/gtest.h>
#include <optional>
#include <random>

namespace shankline::tests::page_correction_test {
namespace {

constexpr CalibrationFrame frame{165, 220};

double apart(const Point& a, const Point& b) {
  return std::hypot(a.x - b.x, a.y - b.y);
}

/// The lengths that a perfect ruler reads on a sheet from such a printer.
PrintedLengths printed_by(const PageCorrection& printer) {
  const Point a = printer.printed({0, 0});
  const Point b = printer.printed({frame.width, 0});
  const Point c = printer.printed({frame.width, frame.height});
  const Point d = printer.printed({0, frame.height});
  return {apart(a, b), apart(a, d), apart(a, c), apart(b, d)};
}

double uniform(std::mt19937& random, double least, double most) {
  return least +
         (most - least) * static_cast<double>(random()) / static_cast<double>(std::mt19937::max());
}

PageCorrection random_printer(std::mt19937& random) {
  return {uniform(random, 0.945, 1.055), uniform(random, 0.945, 1.055),
          uniform(random, -0.017, 0.017)};
}

TEST(PageCorrection, FindsThePrinterThatPrinted) {
  std::mt19937 random(20261125);
  int skewed = 0;
  for (int i = 0; i < 500; ++i) {
    const PageCorrection printer = random_printer(random);
    const Calibration found = calibrate(frame, printed_by(printer));
    // At the limits a diagonal may reach 6 % by skew and scale together, which is refused.
    if (!found.findings.empty()) continue;
    EXPECT_NEAR(found.correction.x_scale, printer.x_scale, 1e-10);
    EXPECT_NEAR(found.correction.y_scale, printer.y_scale, 1e-10);
    EXPECT_NEAR(found.correction.skew, printer.skew, 1e-10);
    EXPECT_NEAR(found.residual, 0, 1e-9);
    if (std::abs(printer.skew) > 0.005) ++skewed;
    const Point wanted{uniform(random, -100, 100), uniform(random, -140, 140)};
    EXPECT_LT(apart(printer.printed(found.correction.drawn(wanted)), wanted), 1e-8);
  }
  EXPECT_GT(skewed, 250);
}

TEST(PageCorrection, KnowsItsUncertainty) {
  // Readings spread evenly over the ruler's reading; the spread of what is found against U = 2 u.
  std::mt19937 random(7);
  const PageCorrection printer{0.97, 0.98, 0.004};
  const PrintedLengths exact = printed_by(printer);
  const Calibration at_rest = calibrate(frame, exact);
  constexpr int runs = 4000;
  double x = 0;
  double y = 0;
  double skew = 0;
  for (int i = 0; i < runs; ++i) {
    PrintedLengths read = exact;
    for (double* length : {&read.across, &read.up, &read.rising, &read.falling})
      *length += uniform(random, -ruler_reading, ruler_reading);
    const Calibration found = calibrate(frame, read);
    ASSERT_TRUE(found.findings.empty()) << found.findings[0].what;
    x += std::pow(found.correction.x_scale - printer.x_scale, 2);
    y += std::pow(found.correction.y_scale - printer.y_scale, 2);
    skew += std::pow(found.correction.skew - printer.skew, 2);
  }
  EXPECT_NEAR(2 * std::sqrt(x / runs), at_rest.scale_x_U, 0.05 * at_rest.scale_x_U);
  EXPECT_NEAR(2 * std::sqrt(y / runs), at_rest.scale_y_U, 0.05 * at_rest.scale_y_U);
  EXPECT_NEAR(2 * std::sqrt(skew / runs), at_rest.skew_U, 0.05 * at_rest.skew_U);
  EXPECT_LT(at_rest.scale_x_U, 0.002);
}

TEST(PageCorrection, TurnsWithThePage) {
  // Lying on its side the page's x is the sheet's y: lengths between any two points are the same.
  std::mt19937 random(5);
  for (int i = 0; i < 100; ++i) {
    const PageCorrection printer = random_printer(random);
    const PageCorrection turned = printer.turned();
    const Point p{uniform(random, -100, 100), uniform(random, -100, 100)};
    const Point q = printer.printed({-p.y, p.x}); // a quarter turn, then through the printer
    const Point r = turned.printed(p);
    EXPECT_NEAR(std::hypot(q.x, q.y), std::hypot(r.x, r.y), 1e-10);
  }
}

struct Refused {
  PrintedLengths lengths;
  const char* key;
  const char* words;
};

TEST(PageCorrection, RefusesWhatNoPrinterDoes) {
  const Refused cases[] = {
      {{150, 220, 275, 275}, "measured.across", "scaled"},
      {{165, 234, 275, 275}, "measured.up", "scaled"},
      {{165, 220, 27.5, 275}, "measured.rising", "no such length"},
      {{165, 220, 275, std::nan("")}, "measured.falling", "no such length"},
      {{165, 220, 275, -275}, "measured.falling", "no such length"},
      {{220, 165, 275, 275}, "measured.across", "scaled"},
      {{165, 220, 275, 273.5}, "measured", "do not belong to one page"},
      {{160, 220, 275, 275}, "measured", "do not belong to one page"},
      {{165, 220, 277.9, 272.1}, "measured", "askew"},
  };
  for (const Refused& refused : cases) {
    const Calibration found = calibrate(frame, refused.lengths);
    ASSERT_FALSE(found.findings.empty()) << refused.words;
    EXPECT_EQ(found.findings[0].severity, Severity::error);
    EXPECT_EQ(found.findings[0].key, refused.key);
    EXPECT_NE(found.findings[0].what.find(refused.words), std::string::npos)
        << found.findings[0].what;
  }
  EXPECT_TRUE(calibrate(frame, {155.2, 207, 258.6, 258.6}).findings.empty()) << "within 6 %";
}

// 6 % of 165, 220 and 275 either way. A length at its limit may still be wrong beside the others.
TEST(PageCorrection, NamesTheLengthsThatItTakes) {
  struct Named {
    double PrintedLengths::*length;
    const char* key;
    double least;
    double most;
    const char* allowed;
  };
  for (const Named& named :
       {Named{&PrintedLengths::across, "measured.across", 155.1, 174.9, "155.1 to 174.9 mm"},
        Named{&PrintedLengths::up, "measured.up", 206.8, 233.2, "206.8 to 233.2 mm"},
        Named{&PrintedLengths::rising, "measured.rising", 258.5, 291.5, "258.5 to 291.5 mm"}}) {
    const auto found = [&](double length) -> std::optional<Finding> {
      PrintedLengths lengths{165, 220, 275, 275};
      lengths.*named.length = length;
      for (const Finding& f : calibrate(frame, lengths).findings)
        if (f.key == named.key) return f;
      return {};
    };
    EXPECT_FALSE(found(named.least + 0.001)) << named.key;
    EXPECT_FALSE(found(named.most - 0.001)) << named.key;
    for (const double length : {named.least - 0.1, named.most + 0.1}) {
      const auto refused = found(length);
      ASSERT_TRUE(refused) << named.key;
      EXPECT_EQ(refused->allowed, named.allowed);
    }
  }
}

TEST(PageCorrection, SaysWhenAPrinterIsTrue) {
  EXPECT_TRUE(calibrate(frame, {165.25, 219.75, 275, 275}).is_true);
  EXPECT_FALSE(calibrate(frame, {165.5, 220, 275, 275}).is_true);
}

} // namespace
} // namespace shankline::tests::page_correction_test
