// The table of what the interview asks, in the order in which the readings are taken. A question
// looks at the order begun so far and changes it; it knows no streams.
#pragma once

#include "cli/interview/answer.hpp"
#include "geometry/order/order.hpp"

#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace shankline {

struct Question {
  std::string id;      ///< "heel_front left": typed to come back to it
  std::string path;    ///< as findings name it, without the foot for a shoe: "feet.left.heel_front"
  std::string title;   ///< "Heel front, left foot"
  std::string how;     ///< how to take it
  std::string answers; ///< what may be typed
  std::vector<std::string_view> choices{}; ///< words to choose from; empty for anything else
  std::string why;                         ///< what it is for; never empty
  std::string usual;    ///< what Enter alone means where nothing is said yet; may be empty
  std::string left_out; ///< what happens without it; empty for one that is needed
  /// The reading's row in the guide, and its foot, where the solver can tell what it is worth.
  std::string guide;
  std::optional<FootSide> side;

  std::function<bool(const Order&)> applies; ///< empty: always
  std::function<bool(const Order&)> needed;  ///< empty: it may be left out if `left_out` says how
  /// Words for this order that follow `how`; empty function: none.
  std::function<std::string(const Order&)> hint;
  std::function<std::string(const Order&)> said; ///< as it could be typed; empty for nothing yet
  std::function<Refusal(Order&, const std::string&)> take;
  /// The reading that this question sets; null where the question sets none.
  std::function<const Reading*(const Order&)> reading;
  std::function<void(Order&)> leave_out; ///< empty: it cannot be left out

  bool asked_of(const Order& order) const { return !applies || applies(order); }
  bool may_be_left_out(const Order& order) const { return leave_out && !(needed && needed(order)); }
};

/// All questions, in the order of asking.
const std::vector<Question>& interview_questions();

/// An order before the first question: both feet, boards to be cut.
Order order_to_ask();

/// The question that a finding's key belongs to, or null.
const Question* question_of(const std::string& finding_key, const Order& order);

} // namespace shankline
