// The records of a house about its dancers' tries on pointe: plain structs, which the caller fills.
//
// Every place is a distance in mm along the sole from the back of the heel, foot pointed (the foot
// frame), towards the toes. A board that is cut farther ends at a larger distance.
#pragma once

#include "geometry/numerics/result.hpp"
#include "geometry/order/foot_side.hpp"

#include <chrono>
#include <optional>
#include <string>
#include <vector>

namespace shankline {

using Day = std::chrono::sys_days;

/// The judgement of a board after a try. WARNING: `cut_too_far` means that the board is already too
/// short. `Seen::too_far_back` of next_cut.hpp means the opposite, an end that is still too near
/// the heel, and is `too_low` here.
enum class Answer {
  too_low,     ///< the shoe bends ahead of the arch break: the board is still too long
  good,        ///< right
  cut_too_far, ///< the shoe bends too far back: the board is too short
  rolls_over,  ///< carried over the platform; counted, never learned from
  pain,        ///< counted, never learned from
};

/// Returns true if the answer says where the board should end. The others end a sequence of tries.
bool places_the_board(Answer answer);

/// One try on pointe with one board.
struct Trial {
  double board_end = 0; ///< mm from the back of the heel, 0 to 200
  Answer answer = Answer::good;
  bool after_wear = false; ///< else at the barre, at once
  std::string judged_by;   ///< a code; shown, not used by the model
  std::optional<Day> day;  ///< shown, not used by the model
};

/// One person's readings of the heel front at one sitting.
struct ReadingSession {
  std::string reader;   ///< a code. All sessions without one are taken to be one reader's.
  double place = 0;     ///< mm from the back of the heel: the mean of the repeats
  double scatter_u = 0; ///< mm, standard uncertainty of `place` without the reader's habit, over 0
  double finding = 3;   ///< mm, half-width of finding the place; it widens the habit expected
};

/// The place that was promised for a board before it was tried.
struct PromisedPlace {
  double place = 0; ///< mm from the back of the heel
  double U = 0;     ///< mm, at 95 %
};

/// The standard uncertainty, mm, of how far one shoe moves its board's right place, by the pose in
/// which its readings were taken: fold, inset, laying flat, carrying over (from memory).
inline constexpr double shoe_u_in_shoe = 1.5;
inline constexpr double shoe_u_pointed = 2.5;

/// One shoe that was cut and tried. A worn pair that was copied is one too: one `good` after wear,
/// with `shoe_u` a half of its U.
struct TriedShoe {
  std::string pair;  ///< what the pair is known by; one foot has it once
  Day ordered;       ///< day of the order
  std::string style; ///< the user's word. All shoes without one are taken to be of one style.
  double shoe_u = shoe_u_pointed;        ///< mm, 0 to 20
  std::optional<PromisedPlace> promised; ///< for the account of how good the lines were
  std::vector<Trial> trials;             ///< in the order in which they were made
};

/// Everything on record of one foot.
struct FootRecords {
  std::string dancer;
  FootSide side = FootSide::left;
  double estimate = 61;   ///< mm, the heel front as estimated from the foot length
  double estimate_sd = 8; ///< mm, its standard deviation, over 0
  std::vector<ReadingSession> sessions;
  std::vector<TriedShoe> shoes;
};

/// One house: a bench and the people who cut there.
struct HouseRecords {
  std::vector<FootRecords> feet;
};

/// An error in the records of one foot, or of one of its pairs.
struct RecordFault : Advice {
  std::string dancer;
  FootSide side = FootSide::left;
  std::string pair; ///< empty where it is about the foot

  std::string where() const; ///< "M-07, left, pair 12"
};

/// Returns an error for every figure that is not a number or outside its range, for a foot that
/// occurs twice, and for a pair that a foot has twice. Do not learn from records with an error.
std::vector<RecordFault> check_records(const HouseRecords& records);

/// Returns the same records sorted: feet by dancer and side; shoes by day, then pair; sessions and
/// trials by all that they hold. What is learned depends on this order only, so the order in which
/// records arrived leaves no trace, not even in the last bit. The order of trials within a shoe is
/// lost; the fit does not depend on it.
HouseRecords in_order(HouseRecords records);

/// Returns true if something can be learned from this shoe.
bool has_answers(const TriedShoe& shoe);

/// Returns how many of the foot's shoes were `good` after wear with no other answer since. The
/// trials of each shoe must stand in the order in which they were made.
int shoes_good_after_wear(const FootRecords& foot);

/// Returns the board end nearest to the heel, mm, that was `cut_too_far` and that no later answer
/// contradicts; nullopt if there is none. An answer contradicts it if it is `too_low` or `good`, of
/// a shoe ordered on a later day, with a board that ended there or farther ahead. Styles are not
/// distinguished.
std::optional<double> standing_too_far(const FootRecords& foot);

/// A dancer of whom no `too_low` is on record.
struct NeverTooLow {
  std::string dancer;
  int trials = 0; ///< that placed the board, both feet together
};

/// Dancers who were tried and never said `too_low`, by code. First cuts are short on purpose, so
/// somebody who always says "good" may be polite. The model does not cure that.
std::vector<NeverTooLow> never_too_low(const HouseRecords& records);

} // namespace shankline
