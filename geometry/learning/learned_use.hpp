// Decides how to use a learned place: whether to trust it, and how far short of it to cut first.
#pragma once

#include "geometry/board/trim_doubt.hpp"
#include "geometry/learning/learned_place.hpp"

namespace shankline {

/// The version of the model that learns places, for what is kept of them.
inline constexpr int learning_model = 1;

/// Above this probability of a jump the learned line is not used: measure again. Simulated, five
/// pairs before the jump: 0.8 % of fits raise a false alarm; 44 % of jumps of 8 mm are found by the
/// next pair, 63 % by the second. After one or two pairs on record few are found. Drift and
/// politeness are not found by it.
inline constexpr double alarming_jump_probability = 0.2;

/// Returns true if the place may have jumped before one of the last two pairs (an injury, new
/// training). One pair often says too little: a first cut is short on purpose, so that a place that
/// moved towards the heel is mostly called good or, as a slip of the tongue may be, cut too far.
bool alarm(const LearnedPlace& place);

/// Returns the next board's final line, mm from the back of the heel: the place, or 3 (half of the
/// width of "right") behind an end that was cut too far, if that lies nearer to the heel. A board
/// that is left too long can still be cut.
double learned_final(const LearnedPlace& place);

/// Returns true if an end that was cut too far moves the final line towards the heel.
bool is_held_behind(const LearnedPlace& place);

/// Returns how far the first cut stays short of the learned line, mm: max(U − 3, 6), or max(U − 3,
/// 3) once three pairs of this foot ended good after wear. 3 is half of the width of "right"
/// (first_cut_hold_back in trim_doubt.hpp). An end that was cut too far may hold it back more
/// (behind_too_far there).
double learned_hold_back(const LearnedPlace& place);

} // namespace shankline
