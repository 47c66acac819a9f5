// The parts of the interview's table, and what they share. Only the files of the table include
// this.
#pragma once

#include "cli/interview/interview_questions.hpp"

#include <optional>
#include <string>
#include <vector>

namespace shankline {

// One file each.
Question decided_by_question();
std::vector<Question> naming_questions();     ///< what the order is called
std::vector<Question> work_questions();       ///< feet, work and pose
std::vector<Question> foot_questions();       ///< readings of both feet
std::vector<Question> board_kind_questions(); ///< its state and material
std::vector<Question> board_questions();      ///< readings of the board, and of the upper's pull
std::vector<Question> side_questions();       ///< readings of the shoe's sides
std::vector<Question> finishing_questions();  ///< liner, darning and ribbons
std::vector<Question> ankle_questions();      ///< the girth that a ribbon goes round

/// Title, how, why and range of a reading's row in the guide.
Question from_guide(const std::string& key);

/// The left foot, or the only one. What is asked for the shoe is the same for both.
const FootOrder& any_foot(const Order& order);
template <class Change> void each_foot(Order& order, const Change& change) {
  for (auto* foot : {&order.left, &order.right})
    if (*foot) change(**foot);
}

bool cuts_board(const Order& order);
bool lowers_sides(const Order& order);
bool loose_board(const Order& order);
bool board_in_shoe(const Order& order);

/// Reads the answer as a wish of every foot; `path` is inside the alterations: "shank.bevel".
Refusal take_wish(Order& order, const std::string& text, const std::string& path);

/// Returns the figure as it could be typed; empty if there is none.
std::string typed_if(const std::optional<double>& value);

} // namespace shankline
