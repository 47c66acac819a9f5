// Contact of one foot with its shoe, uncut and cut: break, gaps and pry of the heel.
#pragma once

#include "geometry/order/finding.hpp"
#include "geometry/order/order.hpp"
#include "geometry/solution/solution.hpp"
#include "geometry/strip/contact.hpp"
#include "geometry/uncertainty/bench_figure.hpp"

#include <optional>
#include <span>
#include <vector>

namespace shankline {

/// The figures with every place as a station of the foot; then break_from < break_to.
FootContactFigures at_stations(const ContactFigures& figures, FootStation ball);

/// Returns `after` as a share of `before`, a figure of the uncut shoe; 0 if `before` is 0.
double of_uncut(double after, double before);

/// The part of a solved foot that the contact depends on.
struct ContactShoe {
  struct Cut {
    FootStation station; ///< of the board's end
    bool bevelled = false;
  };
  FootSide side = FootSide::left;
  Frames frames;
  SolvedArch arch;
  std::optional<Cut> cut; ///< absent where the board is not cut
  std::optional<CutLayers> layers;
  std::optional<SolvedThinning> thinned;
};
ContactShoe contact_shoe(const FootSolution& solution);

struct ShoeContact {
  ContactProblem problem; ///< along u, the distance from the ball
  ContactVerdict verdict;
  ContactSolution solution; ///< likewise
  FootContactFigures figures;
};

struct FootContact {
  FootStation ball;     ///< where u = 0: x = ball − u
  FootStation clamp;    ///< where the forefoot stops holding the shoe
  bool clamp_estimated; ///< the wing's end was not measured
  BenchFigure board;
  BenchFigure sole;
  BenchFigure pull;
  ShoeContact uncut;
  std::optional<ShoeContact> cut; ///< where the order asks for shank work, or thins the board
  double heel_pry_left;           ///< cut over uncut; 0 where the uncut shoe does not pry either
  double heel_gap_left;           ///< likewise
  double board_left;              ///< board behind the arch break, mm
  Findings cautions;
  bool cut_by_layer = false; ///< the rest of the layers goes on to the heel
  bool only_thinned = false; ///< the board is thinned and cut nowhere
};

/// Either a contact, or the reason why there is none.
struct FootContactResult {
  std::optional<FootContact> contact;
  std::optional<Finding> reason; ///< a caution; an error where readings contradict each other
};

/// The shoe's `side` gives the keys of the findings ("feet.left.arch_depth").
FootContactResult foot_contact(const FootOrder& order, const ContactShoe& shoe,
                               const ContactOptions& options = {});
FootContactResult foot_contact(const FootOrder& order, const FootSolution& solution,
                               const ContactOptions& options = {});

inline constexpr double pry_that_stays = 0.5; ///< share of the uncut shoe's; above it a caution
inline constexpr double break_off_trim = 2;   ///< mm from the trim line; beyond it a caution
/// mm from the arch break, for a thinned board; beyond it a caution. From memory.
inline constexpr double break_off_arch = 10;

/// Solves the same shoe, with the same bevel, cut at other stations, for a chart. An element is
/// absent if there was no solution. Figures are at stations.
std::vector<std::optional<FootContactFigures>> sweep_trim(const FootContact& contact,
                                                          std::span<const FootStation> stations,
                                                          const ContactOptions& options = {});

/// Solves the same shoe with its thinned stretch left at other thicknesses, given as shares of the
/// full one. `contact` must have a thinned board. Figures as from sweep_trim.
std::vector<std::optional<FootContactFigures>> sweep_thickness(const FootContact& contact,
                                                               std::span<const double> ratios,
                                                               const ContactOptions& options = {});

} // namespace shankline
