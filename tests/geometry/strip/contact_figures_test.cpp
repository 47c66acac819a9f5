// Figures read from curves whose tops are known in closed form.
#include "geometry/strip/contact_figures.hpp"

#include "tests/geometry/contact_problems.hpp"

#include <gtest/gtest.h>

#include <cstddef>
#include <functional>
#include <vector>

namespace shankline::tests::contact_figures_test {
namespace {

ContactCurves curves_of(const std::vector<double>& u, const std::function<double(double)>& gap,
                        const std::function<double(double)>& slope,
                        const std::function<double(double)>& curvature) {
  ContactCurves curves;
  curves.u = u;
  for (const double at : u) {
    curves.gap.push_back(gap(at));
    curves.slope.push_back(slope(at));
    curves.curvature.push_back(curvature(at));
    curves.moment.push_back(0);
    curves.foot.push_back(0);
  }
  return curves;
}

double nothing(double) {
  return 0;
}

// Stations that lie unevenly: the break is the parabola's own top all the same.
TEST(ContactFigures, BreakIsTheTopOfTheParabolaBetweenStations) {
  for (const double top : {49.0, 50.4, 51.5}) {
    const auto parabola = [top](double u) { return 0.02 - 1e-6 * (u - top) * (u - top); };
    const ContactCurves curves =
        curves_of({0, 30, 47, 50, 54, 60, 90, 120}, nothing, nothing, parabola);
    const ContactFigures f = read_figures(worked_contact(0.03, 61), curves, {});
    EXPECT_NEAR(f.break_at.mm(), top, 1e-9);
    EXPECT_TRUE(f.breaks_in_arch);
  }
}

// Straight between stations, from 0.01 at 40 up to 0.02 at 50 and down to 0.012 at 70: nine tenths
// of the top, 0.018, are crossed at 48 and at 55.
TEST(ContactFigures, TheBreakReachesToWhereNineTenthsAreCrossed) {
  ContactCurves curves = curves_of({0, 40, 50, 70, 120}, nothing, nothing, nothing);
  curves.curvature = {0.002, 0.01, 0.02, 0.012, 0.004};
  const ContactFigures f = read_figures(worked_contact(0.03, 61), curves, {});
  EXPECT_NEAR(f.break_from.mm(), 48, 1e-9);
  EXPECT_NEAR(f.break_to.mm(), 55, 1e-9);
  EXPECT_TRUE(f.rival_peaks.empty());
}

// g = u²(100 − u)/10⁴ has its top at 200/3; its slopes make the cubic between stations exact.
TEST(ContactFigures, GapIsTheTopOfTheCubicBetweenStations) {
  const auto gap = [](double u) { return u * u * (100 - u) * 1e-4; };
  const auto slope = [](double u) { return (200 * u - 3 * u * u) * 1e-4; };
  const double top = 200.0 / 3;
  for (const std::vector<double>& u :
       {std::vector<double>{0, 20, 60, 70, 100},
        {0, 20, 64, 70, 100},
        {0, 50, 65, 80, 100},
        {60, 70, 100},  // in the first stretch, below the highest station
        {0, 64, 70}}) { // in the last, above it
    const ContactFigures f =
        read_figures(worked_contact(0.03, 61), curves_of(u, gap, slope, nothing), {});
    EXPECT_NEAR(f.gap, gap(top), 1e-9);
    EXPECT_NEAR(f.gap_at.mm(), top, 1e-6);
  }
}

TEST(ContactFigures, PryIsTheMomentOfTheForceBehindTheHeelFront) {
  const ContactProblem problem = worked_contact(0.03, 61);
  const double front = problem.heel_front;
  const double behind_break = problem.arch.to_break + 1;
  const ContactFigures f =
      read_figures(problem, curves_of({0, 60, 120}, nothing, nothing, nothing),
                   {{problem.arch.to_break - 5, 9}, {behind_break, 2}, {front, 5}, {front + 8, 3}});
  EXPECT_NEAR(f.heel_pry, 3 * 8, 1e-12);
  EXPECT_NEAR(f.bearing_force, 2 + 5 + 3, 1e-12);
  ASSERT_TRUE(f.bearing);
  EXPECT_NEAR(f.bearing->mm(), (2 * behind_break + 5 * front + 3 * (front + 8)) / 10, 1e-9);
}

} // namespace
} // namespace shankline::tests::contact_figures_test
