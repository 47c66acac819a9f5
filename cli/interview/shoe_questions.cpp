#include "cli/interview/question_parts.hpp"

#include "cli/order_file/order_shoe.hpp"
#include "cli/order_file/order_values.hpp"
#include "cli/order_file/order_words.hpp"
#include "cli/text/quantity.hpp"
#include "geometry/order/figure.hpp"
#include "geometry/solution/reading_worth.hpp"
#include "geometry/solution/solution.hpp"

#include <utility>

namespace shankline {
namespace {

template <class T> using SaidOf = std::string (*)(const T&);
template <class T> using LeaveOut = void (*)(T&);

struct ShoeRow {
  const char* path; ///< inside the shoe, and in the reading guide: "board.inset"
  bool (*asked)(const Order&);
  SaidOf<Shoe> said;
  LeaveOut<Shoe> leave_out; ///< null for what is needed
  const char* left_out;
  std::optional<Reading> Board::*reading = nullptr; ///< null for a plain figure
};

template <auto member> std::string board_figure(const Shoe& shoe) {
  return typed_if(shoe.board.*member);
}
template <auto member> void drop_board_figure(Shoe& shoe) {
  (shoe.board.*member).reset();
}
template <auto member> std::string side_figure(const Shoe& shoe) {
  return shoe.sides ? typed_if((*shoe.sides).*member) : std::string();
}
template <auto member> void drop_side_figure(Shoe& shoe) {
  if (shoe.sides) ((*shoe.sides).*member).reset();
}
std::string inset(const Shoe& shoe) {
  return shoe.board.inset ? typed(*shoe.board.inset, "board.inset") : std::string();
}
std::string length_of_board(const Shoe& shoe) {
  return shoe.board.length ? typed(*shoe.board.length, "board.length") : std::string();
}
std::string travel(const Shoe& shoe) {
  const Travel* travel = std::get_if<Travel>(&shoe.pull);
  return travel ? typed(travel->travel) : std::string();
}
void drop_pull(Shoe& shoe) {
  shoe.pull = {};
}

constexpr ShoeRow board_rows[] = {
    {"board.length", loose_board, length_of_board, nullptr, ""},
    {"board.inset", nullptr, inset, nullptr, "", &Board::inset},
    {"board.thickness", nullptr, board_figure<&Board::thickness>,
     drop_board_figure<&Board::thickness>, "Then the bevel's edge is not told."},
    {"board.sole_length", board_in_shoe, board_figure<&Board::sole_length>,
     drop_board_figure<&Board::sole_length>, "Then the three-quarter rule is not told."},
};
constexpr ShoeRow travel_row{"pull.travel", cuts_board, travel, drop_pull,
                             "Left out: a usual upper is taken, for the chart."};
constexpr ShoeRow side_rows[] = {
    {"sides.back", lowers_sides, side_figure<&StockSides::back>, nullptr, ""},
    {"sides.low", lowers_sides, side_figure<&StockSides::low>, nullptr, ""},
    {"sides.low_at", lowers_sides, side_figure<&StockSides::low_at>, nullptr, ""},
    {"sides.wing", lowers_sides, side_figure<&StockSides::wing>, nullptr, ""},
    {"sides.wing_at", lowers_sides, side_figure<&StockSides::wing_at>,
     drop_side_figure<&StockSides::wing_at>, "Left out: in proportion to the foot length."},
    {"sides.width_across", lowers_sides, side_figure<&StockSides::width_across>, nullptr, ""},
    {"sides.casing", lowers_sides, side_figure<&StockSides::casing>,
     drop_side_figure<&StockSides::casing>, "Then no stitch line is drawn."},
};

/// Reads the answer into the shoe of every foot.
Refusal take_of_shoe(Order& order, const std::string& text, const std::string& path) {
  Refusal refusal;
  each_foot(order, [&](FootOrder& foot) {
    refusal = take_into<Shoe>(text, path, shoe_fields(), foot.shoe);
  });
  return refusal;
}

Question shoe_question(const ShoeRow& row) {
  Question question = from_guide(row.path);
  question.path = std::string("shoe.") + row.path;
  question.left_out = row.left_out;
  if (row.asked) question.applies = row.asked;
  question.said = [row](const Order& order) { return row.said(any_foot(order).shoe); };
  question.take = [row](Order& order, const std::string& text) {
    return take_of_shoe(order, text, row.path);
  };
  if (row.reading)
    question.reading = [row](const Order& order) {
      const auto& reading = any_foot(order).shoe.board.*row.reading;
      return reading ? &*reading : nullptr;
    };
  if (row.leave_out)
    question.leave_out = [row](Order& order) {
      each_foot(order, [&](FootOrder& foot) { row.leave_out(foot.shoe); });
    };
  return question;
}

/// About where the board of a foot will be cut, mm from its heel end, by what was said so far and
/// what is usual for the rest; nullopt if there is no such cut.
std::optional<double> likely_cut(Order order, FootSide side) {
  // Widths hardly move the cut; those of a whole board reach everywhere.
  each_foot(order, [](FootOrder& foot) { foot.shoe.board.widths.clear(); });
  const Solution solution = solve(completed_order(std::move(order), side));
  const auto& foot = solution.foot(side);
  if (!foot || !foot->trim) return {};
  return foot->trim->final_cut.centre;
}

/// Names the place of the cut if the board is in the shoe: its width must be known there.
std::string place_of_the_cut(const Order& order) {
  if (!board_in_shoe(order) || !cuts_board(order)) return {};
  std::string places;
  for (const FootSide side : {FootSide::left, FootSide::right}) {
    if (!order.foot(side)) continue;
    const auto at = likely_cut(order, side);
    if (!at) return {};
    places += (places.empty() ? "" : ", ") + foot_name(side) + " " + figure(*at, 0);
  }
  return "By your answers so far the cut lies at about " + places +
         " from the heel end: measure there, or a little nearer the toes.";
}

Question widths_question() {
  Question question;
  question.id = "widths";
  question.path = "shoe.board.widths";
  question.title = "Board widths";
  question.how =
      "The width across first, then how far from the board's heel end it is. A loose board: at "
      "heel, waist and ball. In the shoe: near the heel end, and where the cut will be (at about "
      "60).";
  question.hint = place_of_the_cut;
  question.answers = "such as 45 at 22, 33 at 96, 56 at 164: 45 wide, 22 from the heel end";
  question.why = "The template is the board's own outline, drawn through these widths.";
  question.said = [](const Order& order) { return typed(any_foot(order).shoe.board.widths); };
  question.take = [](Order& order, const std::string& text) {
    std::vector<BoardWidth> widths;
    Refusal refusal = take_widths(text, widths);
    if (refusal) return refusal;
    const std::size_t least = loose_board(order) ? 3 : 2;
    if (widths.size() < least) {
      Message few;
      few.what = std::to_string(widths.size()) + (widths.size() == 1 ? " width" : " widths") +
                 " will not give the board's outline";
      few.allowed = least == 3 ? "three or more: heel, waist and ball"
                               : "two or more: near the heel end and where the cut will be";
      few.advice = "write them all in one line: 45 at 22, 33 at 96, 56 at 164";
      if (const std::string place = place_of_the_cut(order); !place.empty())
        few.advice += ". " + place;
      return Refusal(few);
    }
    each_foot(order, [&](FootOrder& foot) { foot.shoe.board.widths = widths; });
    return Refusal();
  };
  return question;
}

std::string grade_words(const Order& order) {
  const Grade* grade = std::get_if<Grade>(&any_foot(order).shoe.stiffness);
  if (!grade) return {};
  return word_for(*grade, grades);
}

Question stiffness_question() {
  Question question;
  question.id = "stiffness";
  question.path = "shoe.stiffness";
  question.title = "Stiffness of the board";
  question.how =
      "What it takes to bend the loose board by hand, or the uncut shoe with its board in it.";
  question.answers = "one thumb, two thumbs, over the knee, hardly over the knee; ? if not known";
  question.choices = {"one thumb", "two thumbs", "over the knee", "hardly over the knee"};
  question.why = "The break chart works with it. It does not move the cut.";
  question.left_out = "Left out: a usual stiffness is taken, for the chart.";
  question.applies = cuts_board;
  question.said = grade_words;
  question.take = [](Order& order, const std::string& text) {
    return take_of_shoe(order, text, "stiffness");
  };
  question.leave_out = [](Order& order) {
    each_foot(order, [](FootOrder& foot) { foot.shoe.stiffness = {}; });
  };
  return question;
}

} // namespace

std::vector<Question> board_questions() {
  std::vector<Question> questions;
  for (const ShoeRow& row : board_rows)
    questions.push_back(shoe_question(row));
  questions.push_back(widths_question());
  questions.push_back(stiffness_question());
  questions.push_back(shoe_question(travel_row));
  return questions;
}

std::vector<Question> side_questions() {
  std::vector<Question> questions;
  for (const ShoeRow& row : side_rows)
    questions.push_back(shoe_question(row));
  return questions;
}

} // namespace shankline
