// Finds where the shoe breaks: board and sole are an elastic strip along the foot on pointe.
//
// The strip is held along the forefoot up to the clamp, drawn to the foot by the upper's pull p,
// and cannot enter the foot. With g ≥ 0 the gap between foot and shoe along u, the distance from
// the ball towards the heel, it takes the shape that minimises
//   ½ ∫ B (κ + g″ − κ₀)² du + ∫ p g du,   g = g′ = 0 at the clamp, free at the other end,
// κ the foot's curvature, κ₀ the board's own, B the bending stiffness: small slopes against the
// foot, any bend of the foot itself. Everything here is an estimate for choosing between cuts.
//
// Millimetres, newtons, radians.
#pragma once

#include "geometry/foot/arch.hpp"
#include "geometry/order/station.hpp"
#include "geometry/strip/strip_integrals.hpp"
#include "geometry/strip/strip_stiffness.hpp"

#include <memory>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace shankline {

struct ContactProblem {
  Arch arch;             ///< the foot on pointe
  double clamp = 0;      ///< u up to which the forefoot holds the shoe: wing end, or 0 for the ball
  double heel_front = 0; ///< u of the heel's front edge
  double end = 0;        ///< u of the free end: the back of the heel
  Strip strip;
  std::vector<PullStretch> pull; ///< stretches may overlap: they add up
};

/// The pull as the sides give it: even from the clamp to the heel front, none behind, where the
/// heel cup holds by its shape.
std::vector<PullStretch> even_pull(double per_length, double clamp, double heel_front);

enum class ContactMethod {
  one_lift,      ///< closed form: one stretch off the foot, on it before and behind
  active_set,    ///< banded programme, coarse to fine
  interior_point ///< banded programme, where the active set gave up
};

inline constexpr int most_programme_cells = 1400;

struct ContactOptions {
  int cells = 172;         ///< of the curves; at least 8. Closed form: figures hardly depend on it
  bool closed_form = true; ///< try the closed form first; else the banded programme
  /// Cells of the banded programme; 0 stands for twice `cells`. Rounding grows with the fourth
  /// power of the nodes, so there are at most `most_programme_cells`.
  int programme_cells = 0;
};

/// Options for sweeps and sensitivities: gaps to 1e-4 mm, slack to 1 %, moments and places of
/// contact exact, curves too coarse to draw.
inline constexpr ContactOptions figures_only{43, true, 344};

/// Why the answer may be believed, or why there is none.
struct ContactVerdict {
  bool converged = false;
  ContactMethod method = ContactMethod::one_lift;
  std::string_view inequality; ///< "largest violation of g >= 0, ... <= limit"
  double value = 0;
  double limit = 0;
  int steps = 0;     ///< trial places (closed form) and factorizations (programme)
  std::string fault; ///< what is wrong with the problem itself, in words
};

/// A force by which the foot's surface presses, N. An even pressure over a stretch is given as the
/// forces of its cells: only their sums have a meaning.
struct ContactForce {
  double at; ///< u
  double force;
};

/// Places are `Place`s: from the ball as they are solved, on the foot as they are told.
template <class Place> struct ContactFiguresAt {
  /// The place where the sole's curvature κ + g″ is largest. If it is the clamp, the shoe does not
  /// break in the arch.
  bool breaks_in_arch = false;
  Place break_at{};
  Place break_from{}; ///< the stretch round it within a tenth of the peak
  Place break_to{};
  double peak_curvature = 0;      ///< 1/mm
  std::vector<Place> rival_peaks; ///< other places within a tenth of the peak, beyond a dip below
  double gap = 0;                 ///< the largest
  Place gap_at{};
  double heel_gap = 0;          ///< at the heel front
  std::optional<Place> bearing; ///< centroid of the force behind the arch break; absent if none
  double bearing_force = 0;     ///< N
  double heel_pry = 0;          ///< moment of the force behind the heel front about it, N·mm
  double slack = 0; ///< ∫ (κ g − ½ g′²) du: length of shoe left over behind the heel
  double clamp_moment = 0; ///< N·mm
};
using ContactFigures = ContactFiguresAt<BallStation>;
using FootContactFigures = ContactFiguresAt<FootStation>;

/// Curves from the clamp to the end. Where the strip steps there are two stations at one place;
/// where it lies on the flat heel there are few.
struct ContactCurves {
  std::vector<double> u;
  std::vector<double> gap;
  std::vector<double> slope;     ///< g′
  std::vector<double> moment;    ///< B (κ + g″ − κ₀), N·mm
  std::vector<double> curvature; ///< κ + g″ of the sole
  std::vector<double> foot;      ///< κ of the foot
};

struct FootTable; ///< of the foot alone, kept for the next solve

struct ContactSolution {
  ContactFigures figures;
  ContactCurves curves;
  std::vector<ContactForce> forces; ///< by rising u, those of the foot on the strip
  double lifts_at = 0;              ///< u where the strip leaves the foot: mostly the clamp
  double touches_at = 0; ///< u behind which it lies on the foot, or just touches with its end
  std::shared_ptr<const FootTable> foot;
};

/// `solution` is set only if the verdict says that the method converged.
struct ContactResult {
  ContactVerdict verdict;
  std::optional<ContactSolution> solution;
};

/// `near` is the solution of a similar problem (another trim, a little more pull): what it has in
/// common with this one is taken over, and the search begins there. The answer does not depend on
/// it beyond rounding, and the place of contact moves smoothly, so that differences between two
/// solutions are sensitivities on one set of contacts.
ContactResult solve_contact(const ContactProblem& problem, const ContactOptions& options = {},
                            const ContactSolution* near = nullptr);

/// Solves the same shoe cut at each of `board_ends` (u, mm); each solution starts from the one
/// before.
std::vector<ContactResult> sweep_board_end(ContactProblem problem,
                                           std::span<const double> board_ends,
                                           const ContactOptions& options = {});

} // namespace shankline
