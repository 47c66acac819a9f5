// The liner against GEOS: the same seat, inset by another library.
#include "geometry/finishing/liner.hpp"

#include "geometry/plane/inset.hpp"
#include "tests/geometry/random_orders.hpp"
#include "tests/geometry/sides_of_order.hpp"

#include <gtest/gtest.h>

#include <geos_c.h>

#include <memory>

namespace shankline::tests::liner_geos_test {
namespace {

struct Geos {
  GEOSContextHandle_t handle = GEOS_init_r();
  Geos() = default;
  Geos(const Geos&) = delete;
  Geos& operator=(const Geos&) = delete;
  ~Geos() { GEOS_finish_r(handle); }
};

/// Area of the outline moved inwards, by GEOS's buffer with mitred corners.
double inset_area_by_geos(const Polygon& outline, double distance) {
  const Geos geos;
  const auto free_geometry = [&](GEOSGeometry* g) { GEOSGeom_destroy_r(geos.handle, g); };
  using Owned = std::unique_ptr<GEOSGeometry, decltype(free_geometry)>;
  const auto count = static_cast<unsigned>(outline.size());
  GEOSCoordSequence* points = GEOSCoordSeq_create_r(geos.handle, count + 1, 2);
  for (unsigned i = 0; i <= count; ++i)
    GEOSCoordSeq_setXY_r(geos.handle, points, i, outline[i % count].x, outline[i % count].y);
  GEOSGeometry* ring = GEOSGeom_createLinearRing_r(geos.handle, points);
  const Owned polygon(GEOSGeom_createPolygon_r(geos.handle, ring, nullptr, 0), free_geometry);
  const Owned moved(GEOSBufferWithStyle_r(geos.handle, polygon.get(), -distance, 64,
                                          GEOSBUF_CAP_FLAT, GEOSBUF_JOIN_MITRE, 10),
                    free_geometry);
  double area = 0;
  EXPECT_EQ(GEOSArea_r(geos.handle, moved.get(), &area), 1);
  return area;
}

TEST(LinerByGeos, HasTheSameArea) {
  Draw draw(20261126);
  int tried = 0;
  for (int i = 0; i < 200; ++i) {
    const Order order = random_order(draw);
    for (const std::optional<FootOrder>* foot : {&order.left, &order.right}) {
      if (!*foot) continue;
      const Board& board = (*foot)->shoe.board;
      LinerWish wish;
      wish.clearance = draw.uniform(0.5, 3);
      if (board.state == BoardState::in_shoe)
        wish.length = board.widths.back().station + board.inset->value();
      Findings findings;
      const BoardOutline outline = outline_of(**foot);
      const auto liner = solve_liner(board, outline, wish, "left", findings);
      if (!liner) continue;
      ++tried;
      std::optional<double> front;
      if (wish.length) front = *wish.length + 2 * wish.clearance;
      const Polygon seat = shoe_seat(board, outline, front).polygon();
      const double theirs = inset_area_by_geos(seat, wish.clearance);
      EXPECT_NEAR(liner->area, theirs, 1e-3 * theirs) << i;
    }
  }
  EXPECT_GE(tried, 150);
}

TEST(LinerByGeos, AgreesOnOutlinesThatNeedRepair) {
  Draw draw(20261127);
  int tried = 0;
  for (int i = 0; i < 100; ++i) {
    // A bumpy rectangle: its corners and bumps are eaten by larger distances.
    Polygon outline;
    const int bumps = 12;
    for (int k = 0; k < bumps; ++k)
      outline.push_back({5.0 * k, draw.uniform(0, 2)});
    for (int k = bumps; k-- > 0;)
      outline.push_back({5.0 * k, 30 + draw.uniform(0, 2)});
    const double distance = draw.uniform(0.5, 8);
    const auto moved = inset(outline, distance);
    if (!moved) continue;
    ++tried;
    const double theirs = inset_area_by_geos(outline, distance);
    EXPECT_NEAR(signed_area(*moved), theirs, 1e-3 * theirs) << i << " by " << distance;
  }
  EXPECT_GE(tried, 60);
}

} // namespace
} // namespace shankline::tests::liner_geos_test
