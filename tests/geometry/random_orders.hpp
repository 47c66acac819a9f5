// Orders drawn at random, the same ones on every machine: feet from the published regressions, the
// rest from ordinary ranges of the bench (common practice, no source).
#pragma once

#include "geometry/order/order.hpp"

#include <cstddef>
#include <cstdint>
#include <random>

namespace shankline::tests {

/// Seeded draws. The engine is fixed by the language standard, its distributions are not, so the
/// transforms are our own.
class Draw {
public:
  explicit Draw(std::uint64_t seed) : engine_(seed) {}

  double uniform(double from, double to);
  double normal(double mean, double sd); ///< Box and Muller
  bool chance(double probability);
  std::size_t below(std::size_t count); ///< 0 to count − 1

private:
  std::mt19937_64 engine_;
};

/// Sizes of one person in a survey of feet, mm.
struct FootSize {
  double length;
  double ball_length;
  double ball_width;
  double heel_width;
  double ankle_height;
  double ankle_girth;
};

/// Foot length normal, the others by their regressions on it with the residual spread.
/// ANSUR II (2012), Gordon et al. 2014, NATICK/TR-15/007.
FootSize random_foot_size(Draw& draw, Population population);

/// One foot, its shoe and its wishes: everything that `size` lacks is drawn. The stations count as
/// `pose` says.
FootOrder random_foot_order(Draw& draw, const FootSize& size, Pose pose);

/// A pair: mostly both feet, now and then one; every pose, rule, board state and way of telling the
/// arch comes up.
Order random_order(Draw& draw, Population population = Population::women);

/// Stock sides and how far they are to be lowered, for an order that has a foot and a board; most
/// boards in the shoe also get the widths up to the wing that this needs. Ranges of the bench
/// (common practice, no source).
void add_random_sides(Draw& draw, FootOrder& order, Pose pose);

/// Whatever else may be done to a foot that has its sides drawn: liner, darning, ribbons, elastics,
/// filler, tuck, thinned or layered boards, each on most orders. Ranges of the bench (common
/// practice, no source).
void add_random_work(Draw& draw, FootOrder& order);

/// Like random_order, with sides on every foot. The sides have a generator of their own, so that
/// all other values are those of random_order.
Order random_order_with_sides(Draw& draw, Draw& sides, Population population = Population::women);

/// A foot of a known size on one side only.
Order random_order_of(Draw& draw, const FootSize& size, Population population);

} // namespace shankline::tests
