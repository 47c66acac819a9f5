// Uncertainty of the trim line: U of the cut on the board, of its place in the window, of the skew;
// and which reading to repeat first.
//
// The inputs of X_t (board station of the cut) depend on the rule:
// - a reach: heel front, arch break, fold, inset (what is estimated brings in the foot length), and
//   laying the worn curve flat. In the shoe the fold moves nothing that was read there;
// - a fraction to keep: the length that it is taken of; in the shoe that is the outer sole's length
//   less the inset and less how far the sole's end lies behind the shoe's inside back;
// - a mark: the mark;
// - a learned line: its own U, which holds how the place shifts from one shoe to the next (fold,
//   inset, laying flat and carrying). None of these is counted twice.
// All but the learned line are then carried to the board by print, tracing and knife.
//
// Two more places are known by the readings alone, whatever the rule: the stop line, and the line
// at the heel front. They decide where the stop band begins and how long the first cut is left.
#pragma once

#include "geometry/board/trim_line.hpp"
#include "geometry/foot/foot_stations.hpp"
#include "geometry/order/order.hpp"
#include "geometry/uncertainty/monte_carlo.hpp"
#include "geometry/uncertainty/reading_doubt.hpp"
#include "geometry/uncertainty/uncertainty.hpp"

#include <array>
#include <optional>
#include <span>
#include <string>
#include <vector>

namespace shankline {

// Half-widths of what comes after the readings, mm; from memory.
inline constexpr double print_scale_half_width = 0.5; ///< one printer: shared by both feet
inline constexpr double tracing_half_width = 0.5;
inline constexpr double knife_half_width = 0.5;
inline constexpr double laid_flat_half_width = 1.5; ///< sole thickness and slack of a worn curve

/// Adds print scale, tracing and knife as three inputs of value 0. Returns the index of the first.
/// Their sum is how far a line ends up from where it was drawn, mm.
std::size_t add_carrying_inputs(Inputs& inputs, const std::string& owner);

// The sole's end lies this far behind the shoe's inside back, mm; from memory.
inline constexpr double sole_end_behind_back = 1;
inline constexpr double sole_end_behind_back_sd = 1;

/// Length of a board in the shoe, for the rules that keep a fraction of it, mm.
inline double length_in_shoe(double sole_length, double inset, double sole_end) {
  return sole_length - inset - sole_end;
}

/// The right place's distance from the heel front varies by this from one dancer to the next, U at
/// 95 %, mm. The standard deviations of house (3), dancer (4) and style of shoe (2) are from
/// memory.
inline constexpr double unknown_dancer_U = 10.555; // 1.96·√(3² + 4² + 2²)
/// The part of it that stays when the line is copied from a worn pair of hers that was right.
inline constexpr double next_pair_U = 3.92; // 1.96·2

enum class TrimResult {
  board,           ///< X_t, the rule's line on the board
  station,         ///< x_t, the same on the foot
  past_tuck,       ///< x_t − window.from
  before_stop,     ///< window.to − x_t
  breaks_apart,    ///< medial − lateral break, 0 unless both are read
  stop,            ///< X_stop, the stop line on the board
  heel_front_line, ///< the line at the heel front on the board
};
inline constexpr std::size_t trim_results = 7;

/// The stations of foot_stations and solve_trim as functions of the readings. The arithmetic is
/// shared with them (frames_of, mean_break, rule_line, trim_window); checks and words are left out,
/// which takes a hundredth of the time.
class TrimModel {
public:
  /// `stations` as solved from the same foot. The board has its inset. With `one_reader` the order
  /// says that one person took every reading: the habit then cancels between the two break marks.
  TrimModel(const FootOrder& order, Pose pose, Population population, const FootStations& stations,
            const std::string& owner, bool one_reader = false);

  const Inputs& inputs() const { return inputs_; }

  bool one_reader() const { return one_reader_; }

  /// Fills `out` with the trim_results of TrimResult, in its order.
  void operator()(std::span<const double> in, std::span<double> out) const;

  /// Places of the arch.
  struct Places {
    FootStation heel_front;
    FootStation break_at;
    std::optional<FootStation> ball; ///< where the deepest point gives the break, which needs it
  };
  Places places(std::span<const double> in) const;

  /// Inputs that other figures of the same foot go by as well.
  std::size_t fold_input() const { return *fold_; }
  std::size_t inset_input() const { return *inset_; }
  std::size_t laid_flat_input() const { return laid_flat_; }
  std::size_t carrying_input() const { return carrying_; } ///< the first of add_carrying_inputs
  std::optional<std::size_t> depth_input() const { return depth_; }

  /// One reading or estimate among the inputs.
  struct UsedReading {
    std::string key;
    bool estimated;
    double usual_finding; ///< the guide's half-width, for one that is not yet measured
    ReadingDoubt doubt;
    ReadingInput at;
  };
  std::span<const UsedReading> used_readings() const { return used_readings_; }

private:
  using Index = std::optional<std::size_t>;

  Index add(const std::string& key, const std::string& kind, const Reading& reading,
            std::optional<double> value = {});
  void add_break(const Foot& foot, const FootStations& stations);
  FootStation on_foot(double reading, std::span<const double> in) const;
  FootStation heel_front(std::span<const double> in) const;
  FootStation ball(std::span<const double> in) const;
  double whole(std::span<const double> in) const; ///< of the rule that keeps a fraction, mm
  FootStation break_from_deepest(std::span<const double> in, FootStation heel_front) const;

  Pose pose_;
  Population population_;
  std::string owner_;
  bool one_reader_;
  ShankWish wish_;
  Inputs inputs_;
  std::vector<UsedReading> used_readings_;
  Frames usual_frames_; ///< by the readings as they are
  Index length_, ball_, heel_front_, medial_, lateral_, depth_, deepest_, fold_, inset_, whole_,
      sole_end_, mark_, learned_;
  std::size_t laid_flat_, carrying_;
  bool ball_estimated_ = false;
  bool heel_front_estimated_ = false;
  // If the deepest point gives the break: the solved break and bend, from which near ones are
  // found.
  std::array<double, 4> solved_from_{}; ///< ball, heel front, depth, deepest, in the foot frame
  FootStation solved_break_;
  double solved_bend_ = 0;
  std::array<double, 4> undo_{}; ///< (depth, deepest) back to (break, bend), first order
};

/// U(X_t) after one more measurement of a reading, and after two more.
struct RepeatGain {
  std::string key;  ///< "heel_front"
  std::string name; ///< "heel front"
  bool estimated;   ///< not measured yet: the gain is that of measuring it once, and twice
  double share;     ///< of u², 0 to 1, the reader's habit counted with each reading that has it
  double U_now;
  double U_once_more;
  double U_twice_more;
};

struct TrimDoubt {
  std::vector<Source> sources;
  Uncertain board;                       ///< X_t
  Uncertain station;                     ///< x_t, where the line belongs on the foot
  Uncertain past_tuck;                   ///< x_t − window.from
  Uncertain before_stop;                 ///< window.to − x_t
  std::optional<Uncertain> breaks_apart; ///< medial − lateral
  Uncertain stop;                        ///< X_stop
  Uncertain heel_front_line;             ///< X of the heel front
};

TrimDoubt trim_doubt(const TrimModel& model);

/// Every reading that U(X_t) depends on, the one to take again first at the front (most gained by
/// two more takings). Sensitivities stay as they are: where a heel front measured in the shoe would
/// also get rid of the fold, the promise is too small.
std::vector<RepeatGain> repeat_gains(const TrimModel& model, const TrimDoubt& doubt);

/// "measure the heel front twice more: ± 6.5 becomes ± 5.6 mm"; empty when no reading helps by 0.1.
std::string repeat_first(std::span<const RepeatGain> gains);

/// A place on the board (X_t, or the stop line) by drawing from every reading, to check the
/// first-order U.
Sampled sampled_board_station(const TrimModel& model, TrimResult which = TrimResult::board,
                              const SamplingPlan& plan = {});

/// Name of the reading or estimate that adds most to the u of `place`, a result of this model.
std::string weakest_reading(const TrimModel& model, const Uncertain& place,
                            std::span<const Source> sources);

/// U_T, mm at 95 %: how well the place that is right for this dancer is known. `heel_front_U` is
/// that of the line at the heel front. A line copied from a worn pair of hers that was right
/// (`copied_U`) says more than the heel front does.
double right_place_U(double heel_front_U, std::optional<double> copied_U = {});

/// H, mm: how far the first cut stays short of the final one, max(U_T − 3, 6). It makes the first
/// cut already too far for at most 2.5 % of dancers, since 3 is half of the width of "right".
double first_cut_hold_back(double right_place_U);

/// The number of pairs that ended good after wear from which the least hold-back is halved.
inline constexpr int pairs_to_trust = 3;
inline constexpr double least_hold_back_when_trusted = 3; // mm, from memory

/// H of a learned line, mm: max(U − 3, 6), or max(U − 3, 3) once three pairs of this foot ended
/// good after wear. `U` is that of the learned place on the next shoe, mm at 95 %.
double learned_hold_back(double U, int worn_good);

/// The distance, mm, by which the first cut of a later board stays behind an end that was cut too
/// far. Such an end lies at least 3, half of the width of "right", past the right place; 3 more is
/// the least hold-back. Common practice, no source.
inline constexpr double behind_too_far = right_half_width + least_hold_back_when_trusted;

/// A line against one edge of its window, `inside` being its distance from the edge, positive on
/// the safe side. Outside is an error however doubtful, since a cut cannot be put back; inside by
/// less than U is a caution, and outside by less than U a reason to measure again before giving up.
enum class EdgeCheck { inside, inside_by_less_than_U, outside_by_less_than_U, outside };
EdgeCheck check_edge(const Uncertain& inside);

} // namespace shankline
