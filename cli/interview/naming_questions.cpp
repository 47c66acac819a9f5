#include "cli/interview/question_parts.hpp"

#include "cli/order_file/bench_file.hpp"
#include "cli/order_file/order_values.hpp"
#include "cli/text/word_list.hpp"
#include "geometry/order/growing_foot.hpp"

#include <utility>

namespace shankline {
namespace {

// Texts that name the order.

struct TextRow {
  const char* id;
  const char* title;
  const char* how;
  const char* answers;
  const char* why;
  std::string Order::*member;
  std::optional<std::string> (*read)(ParseContext&, const Entry&);
  bool needed;
  bool (*asked)(const Order&) = nullptr; ///< null: always
};

std::optional<std::string> read_code(ParseContext& context, const Entry& entry) {
  return read_text(context, entry, code_limits);
}
std::optional<std::string> read_line(ParseContext& context, const Entry& entry) {
  return read_text(context, entry, line_limits);
}

constexpr TextRow text_rows[] = {
    {"dancer", "Dancer", "A code, not a name, so that sheets can be left lying around: M-07.",
     "up to 40 characters",
     "It is printed on every sheet and label, and the archive finds cuts by it.", &Order::dancer,
     read_code, true},
    {"pair", "Pair",
     "A name that tells this pair from the dancer's others: touring, spring, second pair.",
     "up to 80 characters; Enter to leave it out",
     "Sheets and labels of two pairs are then not mixed up.", &Order::pair, read_line, false},
    {"date", "Date", "The day of the measuring, for the sheets.",
     "2026-03-14, 14 March 2026 or today; Enter to leave it out",
     "It tells how old the readings are, and which of a dancer's cuts was the last.", &Order::date,
     read_answered_day, false},
};

bool has_growing_foot(const Order& order) {
  for (const auto* foot : {&order.left, &order.right})
    if (*foot && is_growing(order, (*foot)->foot)) return true;
  return false;
}

constexpr TextRow decided_by_row{
    "decided_by",
    "Who decides",
    "A foot shorter than 215 counts as growing. Ask a licensed physiotherapist or podiatrist "
    "first; then give the code of the adult who decides: a teacher, fitter or parent.",
    "a code, up to 40 characters",
    "A cut changes what holds a growing foot up, so an adult must be responsible for it.",
    &Order::decided_by,
    read_code,
    true,
    has_growing_foot};

Question text_question(const TextRow& row) {
  Question question;
  question.id = question.path = row.id;
  question.title = row.title;
  question.how = row.how;
  question.answers = row.answers;
  question.why = row.why;
  if (row.asked) question.applies = row.asked;
  question.said = [row](const Order& order) { return order.*row.member; };
  question.take = [row](Order& order, const std::string& text) {
    Node node;
    node.kind = NodeKind::scalar;
    node.text = text;
    return read_answer(node, row.id, [&](ParseContext& context, const Entry& entry) {
      if (auto read = row.read(context, entry)) order.*row.member = *std::move(read);
    });
  };
  if (row.needed) return question;
  question.left_out = "Left out.";
  question.leave_out = [row](Order& order) { (order.*row.member).clear(); };
  return question;
}

// Questions with a few words to choose from.

struct Choice {
  std::string_view word;
  bool (*is)(const Order&);
  void (*choose)(Order&);
};

struct ChoiceRow {
  const char* id;
  const char* path;
  const char* title;
  const char* how;
  const char* why;
  std::span<const Choice> choices;    ///< the first is what Enter alone means
  const char* if_not_known = nullptr; ///< said when the first is taken for `?`; null: it is needed
};

template <bool left, bool right> bool has_feet(const Order& order) {
  return order.left.has_value() == left && order.right.has_value() == right;
}

// A foot that is added takes the shoe and the wishes of the other foot.
template <bool left, bool right> void keep_feet(Order& order) {
  FootOrder begun = any_foot(order);
  begun.foot = Foot{};
  const auto keep = [&](std::optional<FootOrder>& foot, bool kept) {
    if (!kept)
      foot.reset();
    else if (!foot)
      foot = begun;
  };
  keep(order.left, left);
  keep(order.right, right);
}

template <bool board, bool sides> bool asks_for(const Order& order) {
  return cuts_board(order) == board && lowers_sides(order) == sides;
}

template <bool board, bool sides> void ask_for(Order& order) {
  each_foot(order, [](FootOrder& foot) {
    Alterations& wish = foot.alterations;
    if (!board)
      wish.shank.reset();
    else if (!wish.shank)
      wish.shank = ShankWish{};
    if (!sides) {
      wish.sides.reset();
      foot.shoe.sides.reset();
    } else if (!wish.sides) {
      wish.sides = SideWish{};
    }
  });
}

template <Pose pose> bool has_pose(const Order& order) {
  return order.pose == pose;
}
template <Pose pose> void set_pose(Order& order) {
  order.pose = pose;
}
template <BoardState state> bool has_state(const Order& order) {
  return any_foot(order).shoe.board.state == state;
}
template <BoardState state> void set_state(Order& order) {
  each_foot(order, [](FootOrder& foot) {
    Board& board = foot.shoe.board;
    board.state = state;
    if (state == BoardState::loose)
      board.sole_length.reset();
    else
      board.length.reset();
  });
}
template <BoardMaterial material> bool is_of(const Order& order) {
  return any_foot(order).shoe.board.material == material;
}
template <BoardMaterial material> void set_material(Order& order) {
  each_foot(order, [](FootOrder& foot) { foot.shoe.board.material = material; });
}

constexpr Choice feet_choices[] = {{"both", has_feet<true, true>, keep_feet<true, true>},
                                   {"left", has_feet<true, false>, keep_feet<true, false>},
                                   {"right", has_feet<false, true>, keep_feet<false, true>}};
constexpr Choice work_choices[] = {{"board", asks_for<true, false>, ask_for<true, false>},
                                   {"board and sides", asks_for<true, true>, ask_for<true, true>},
                                   {"sides", asks_for<false, true>, ask_for<false, true>}};
constexpr Choice pose_choices[] = {{"pointed", has_pose<Pose::pointed>, set_pose<Pose::pointed>},
                                   {"in_shoe", has_pose<Pose::in_shoe>, set_pose<Pose::in_shoe>}};
constexpr Choice state_choices[] = {
    {"in_shoe", has_state<BoardState::in_shoe>, set_state<BoardState::in_shoe>},
    {"loose", has_state<BoardState::loose>, set_state<BoardState::loose>}};
constexpr Choice material_choices[] = {
    {"fibreboard", is_of<BoardMaterial::fibreboard>, set_material<BoardMaterial::fibreboard>},
    {"leather", is_of<BoardMaterial::leather>, set_material<BoardMaterial::leather>}};

constexpr ChoiceRow feet_row{
    "feet",
    "feet",
    "Feet",
    "Which feet are to be measured?",
    "Left and right are measured and cut apart; only what is needed is asked.",
    feet_choices};
constexpr ChoiceRow work_row{"work",
                             "alterations",
                             "Work",
                             "What is to be done: the board cut, the sides lowered, or both?",
                             "Only the readings for this work are asked.",
                             work_choices};
constexpr ChoiceRow pose_row{
    "pose",
    "pose",
    "Pose",
    "pointed: seated, leg straight, foot fully pointed, a second person measures along the sole "
    "from the back of the heel. in_shoe: standing on pointe in the uncut shoe, marked through the "
    "satin, measured along the outer sole from the back seam.",
    "It says where distances along the foot are counted from: the same place has another figure in "
    "the shoe.",
    pose_choices};
constexpr ChoiceRow state_row{
    "state",
    "shoe.board.state",
    "Board",
    "Does the board stay in the shoe, as in most, or was it taken out?",
    "A loose board can be measured whole; one in the shoe only where it is "
    "within reach.",
    state_choices};
constexpr ChoiceRow material_row{
    "material",
    "shoe.board.material",
    "Board's material",
    "Moulded plastic boards are not cut: stop here if it is one.",
    "A moulded plastic board cannot be shortened, so what it is made of has "
    "to be looked at before the knife is taken.",
    material_choices,
    "Taken as fibreboard, as most boards are. Look before you cut: moulded "
    "plastic is not cut."};

Question choice_question(const ChoiceRow& row) {
  Question question;
  question.id = row.id;
  question.path = row.path;
  question.title = row.title;
  question.how = row.how;
  question.why = row.why;
  question.usual = row.choices.front().word;
  const auto choices = row.choices;
  for (const Choice& choice : choices)
    question.choices.push_back(choice.word);
  question.answers = joined(question.choices, ", ");
  if (row.if_not_known) {
    question.answers += "; ? if not known";
    question.left_out = row.if_not_known;
    question.leave_out = [choices](Order& order) { choices.front().choose(order); };
  }
  question.said = [choices](const Order& order) {
    for (const Choice& choice : choices)
      if (choice.is(order)) return std::string(choice.word);
    return std::string();
  };
  question.take = [choices, words = question.choices](Order& order, const std::string& text) {
    return read_answer(answer_node(text, {}), "choice",
                       [&](ParseContext& context, const Entry& entry) {
                         if (const auto chosen = read_choice(context, entry, words))
                           choices[*chosen].choose(order);
                       });
  };
  return question;
}

/// Plastic is no choice, and whoever types it has to know why.
Question material_question() {
  Question question = choice_question(material_row);
  question.take = [take = question.take](Order& order, const std::string& text) -> Refusal {
    if (text != "plastic") return take(order, text);
    Message wrong;
    wrong.what = "a moulded plastic board is not cut";
    wrong.allowed = "fibreboard, leather";
    wrong.advice = "type stop, and ask for another shank or another shoe";
    return wrong;
  };
  return question;
}

} // namespace

Question decided_by_question() {
  return text_question(decided_by_row);
}

std::vector<Question> naming_questions() {
  std::vector<Question> questions;
  for (const TextRow& row : text_rows)
    questions.push_back(text_question(row));
  return questions;
}

std::vector<Question> work_questions() {
  std::vector<Question> questions;
  for (const ChoiceRow* row : {&feet_row, &work_row, &pose_row})
    questions.push_back(choice_question(*row));
  return questions;
}

std::vector<Question> board_kind_questions() {
  std::vector<Question> questions;
  questions.push_back(choice_question(state_row));
  questions.push_back(material_question());
  return questions;
}

} // namespace shankline
