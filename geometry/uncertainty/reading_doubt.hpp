// Uncertainty of one reading: its repeats, finding the place, the reader's habit.
//
// A taking of a reading with finding half-width h is off by the tape (rectangular, ± 1), by finding
// the place anew (rectangular, ± h) and by the reader's habit (rectangular, ± h/2), which is the
// same at every repeat. So the scatter of one taking is expected to be σ0² = (1 + h²)/3. Few
// repeats say little of their own scatter s: s² is pooled with σ0², which counts as 8 degrees of
// freedom,
//   s_p² = (8 σ0² + (n − 1) s²)/(7 + n),   u² = s_p²/n + (h/2)²/3,   7 + n degrees for s_p.
// (From memory: the 1, the half and the 8. The bars that they have to meet are in the tests.)
//
// The habit is shared by all readings of one kind: whoever finds the arch break too far forward
// does so on both edges and on both feet. The tape is laid anew each time; an error of its scale,
// 0.5 in a metre, is lost beside the rest and has no source of its own.
#pragma once

#include "geometry/order/reading.hpp"
#include "geometry/uncertainty/uncertainty.hpp"

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

namespace shankline {

inline constexpr double tape_half_width = 1;    // mm, from memory
inline constexpr double habit_of_finding = 0.5; // of the finding half-width, from memory
inline constexpr double freedom_of_default = 8; // from memory

struct ReadingDoubt {
  double scatter = 0; ///< SD of one taking, s_p; the residual SD of an estimate
  double repeats = 1;
  double freedom = known; ///< of the scatter
  double finding = 0;     ///< half-width h; 0 for an estimate, which has no reader

  double fresh() const; ///< u of the mean from what is fresh at each repeat
  double habit() const; ///< half-width of the reader's habit
  double u() const;
};

/// An estimate carries its own spread and nothing else. `tape` is the half-width of the instrument
/// in the reading's unit (an angle's is not the tape's).
ReadingDoubt reading_doubt(const Reading& reading, double tape = tape_half_width);

/// A figure that an order gives as a plain number: one taking, with the half-width of the guide's
/// row `key`. Angles in radians.
Reading as_reading(double value, std::string_view key);

/// Returns the doubt of the reading after `more` further takings with the same scatter. An estimate
/// would be measured for the first time, with a finding half-width of `finding`.
ReadingDoubt taken_again(const ReadingDoubt& doubt, bool estimated, int more, double finding,
                         double tape = tape_half_width);

/// Adds a reading, or an estimate, as an input. `owner` ("left") tells its own source from the
/// other foot's; `kind` is what the habit is shared by ("arch_break" for both its edges).
struct ReadingInput {
  std::size_t input;
  std::size_t fresh_source;
  std::optional<std::size_t> habit_source; ///< absent for an estimate, which has no reader
};
ReadingInput add_reading(Inputs& inputs, const std::string& key, const std::string& kind,
                         const std::string& owner, double value, const ReadingDoubt& doubt);

} // namespace shankline
