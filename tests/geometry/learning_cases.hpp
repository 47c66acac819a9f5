// Small houses with known answers: what is learned from them was worked out by programs written
// apart from this project (a prototype of the same method; JAGS for the three feet).
#pragma once

#include "geometry/learning/house_fit.hpp"
#include "geometry/learning/learned_place.hpp"

#include <string>
#include <vector>

namespace shankline::tests {

/// "56l 59l 62g; 58l 61g": trials with the board's end, l too low, g good, f cut too far; pairs are
/// divided by semicolons, a month or less apart.
std::vector<TriedShoe> shoes(const std::string& style, const std::string& trials,
                             double shoe_u = 1.5);

FootRecords foot(const std::string& dancer, std::vector<ReadingSession> sessions,
                 std::vector<TriedShoe> shoes);

/// Feet A, B, C; styles s, t; readers 1, 2; readings with u 2.8, estimates 61 ± 8.
HouseRecords three_feet();
/// Six feet, readers 0 and 1, styles 0 and 1; the last was never tried.
HouseRecords six_feet();
/// The style in which foot `i` of six_feet() is asked for.
std::string style_of_six(std::size_t i);

/// Everything fixed, for comparison with a sampler: w 3, σ 2, τ 4, without politeness, slips, drift
/// and jumps.
LearningPriors fixed_figures();
LearningPriors without_jumps();

} // namespace shankline::tests
