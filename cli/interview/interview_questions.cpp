#include "cli/interview/interview_questions.hpp"

#include "cli/order_file/bench_file.hpp"
#include "cli/order_file/order_alterations.hpp"
#include "cli/order_file/order_shoe.hpp"
#include "cli/order_file/order_values.hpp"
#include "cli/order_file/order_words.hpp"
#include "cli/text/quantity.hpp"
#include "cli/text/word_list.hpp"
#include "export/wording/sentence.hpp"
#include "geometry/order/figure.hpp"
#include "geometry/order/growing_foot.hpp"
#include "geometry/order/reading_guide.hpp"
#include "geometry/solution/reading_worth.hpp"
#include "geometry/solution/solution.hpp"

#include <utility>

namespace shankline {
namespace {

const FootOrder& any_foot(const Order& order) {
  return order.left ? *order.left : *order.right;
}

template <class Change> void each_foot(Order& order, const Change& change) {
  for (auto* foot : {&order.left, &order.right})
    if (*foot) change(**foot);
}

Question from_guide(const std::string& key) {
  const ReadingGuide& guide = *reading_guide(key);
  Question question;
  question.id = key;
  question.title = capital(guide.name);
  question.how = guide.how;
  question.why = guide.why;
  question.answers = range_text(guide);
  question.guide = key;
  return question;
}

// What the order is called.

struct TextRow {
  const char* id;
  const char* title;
  const char* how;
  const char* answers;
  const char* why;
  std::string Order::*member;
  std::optional<std::string> (*read)(Scribe&, const Entry&);
  bool needed;
  bool (*asked)(const Order&) = nullptr; ///< null: always
};

std::optional<std::string> read_code(Scribe& scribe, const Entry& entry) {
  return read_text(scribe, entry, code_limits);
}
std::optional<std::string> read_line(Scribe& scribe, const Entry& entry) {
  return read_text(scribe, entry, line_limits);
}

constexpr TextRow text_rows[] = {
    {"dancer", "Dancer", "A code, not a name, so that sheets can be left lying around: M-07.",
     "up to 40 characters", "It stands on every sheet and label, and the archive finds cuts by it.",
     &Order::dancer, read_code, true},
    {"pair", "Pair", "What tells this pair from the dancer's others: touring, spring, second pair.",
     "up to 80 characters; Enter to leave it out",
     "The sheets and labels of one pair are then not mixed up with another's.", &Order::pair,
     read_line, false},
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
    "first; "
    "then give the code of the adult who decides: a teacher, fitter or parent.",
    "a code, up to 40 characters",
    "A cut changes what holds a growing foot up, so an adult has to answer for it.",
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
    return read_answer(node, row.id, [&](Scribe& scribe, const Entry& entry) {
      if (auto read = row.read(scribe, entry)) order.*row.member = *std::move(read);
    });
  };
  if (row.needed) return question;
  question.left_out = "Left out.";
  question.leave_out = [row](Order& order) { (order.*row.member).clear(); };
  return question;
}

// One of a few words.

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

bool cuts_board(const Order& order) {
  return any_foot(order).alterations.shank.has_value();
}
bool lowers_sides(const Order& order) {
  return any_foot(order).alterations.sides.has_value();
}
bool loose_board(const Order& order) {
  return any_foot(order).shoe.board.state == BoardState::loose;
}
bool board_in_shoe(const Order& order) {
  return !loose_board(order);
}
template <bool left, bool right> bool has_feet(const Order& order) {
  return order.left.has_value() == left && order.right.has_value() == right;
}

// The shoe and the wishes of a foot that comes in are the other's.
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
    return read_answer(answer_node(text, {}), "choice", [&](Scribe& scribe, const Entry& entry) {
      if (const auto chosen = read_choice(scribe, entry, words)) choices[*chosen].choose(order);
    });
  };
  return question;
}

// What is measured on a foot.

std::optional<FootOrder>& foot_of(Order& order, FootSide side) {
  return side == FootSide::left ? order.left : order.right;
}
const std::optional<FootOrder>& foot_of(const Order& order, FootSide side) {
  return side == FootSide::left ? order.left : order.right;
}

// One figure for both edges gives way to the edges apart.
void set_reading(Foot& foot, const PlaceInFoot& place, const std::optional<Reading>& reading) {
  if (place.is_of_arch_break()) foot.arch_break.centre.reset();
  place.of(foot) = reading;
}

using Condition = bool (*)(const FootOrder&);

bool no_break(const FootOrder& order) {
  const ArchBreak& breaks = order.foot.arch_break;
  return !breaks.centre && !breaks.medial && !breaks.lateral;
}
bool always(const FootOrder&) {
  return true;
}
bool never(const FootOrder&) {
  return false;
}

struct FootRow {
  const char* key; ///< in the reading guide
  Condition asked;
  Condition needed;
  const char* left_out; ///< in words, where the solver has nothing to say
};

constexpr FootRow foot_rows[] = {
    {"length", always, always, ""},
    {"ball_length", always, never, ""},
    {"heel_front", always, never, ""},
    {"arch_break.medial", always, never,
     "The arch depth and its deepest point have to do instead: an error of 1 there becomes 3 in "
     "the break."},
    {"arch_break.lateral", always, never, "The line is then square."},
    {"arch_depth", always, no_break, "Then there is no break chart."},
    {"deepest", no_break, no_break, ""},
    {"fold", always, never, ""},
};

std::string foot_words(FootSide side) {
  return side == FootSide::left ? "left" : "right";
}

Question foot_question(const FootRow& row, FootSide side) {
  Question question = from_guide(row.key);
  const std::string foot = foot_words(side);
  question.id += " " + foot;
  question.path = "feet." + foot + "." + row.key;
  question.title += ", " + foot + " foot";
  question.side = side;
  question.left_out = row.left_out;
  question.applies = [row, side](const Order& order) {
    return foot_of(order, side) && row.asked(*foot_of(order, side));
  };
  question.needed = [row, side](const Order& order) { return row.needed(*foot_of(order, side)); };
  question.reading = [row, side](const Order& order) -> const Reading* {
    const Foot& foot_so_far = foot_of(order, side)->foot;
    const std::optional<Reading>& reading = reading_guide(row.key)->in_foot.of(foot_so_far);
    if (reading) return &*reading;
    // A file may give one figure for both edges.
    const auto& centre = foot_so_far.arch_break.centre;
    return std::string_view(row.key) == "arch_break.medial" && centre ? &*centre : nullptr;
  };
  question.said = [row, reading = question.reading](const Order& order) {
    const Reading* taken = reading(order);
    return taken ? typed(*taken, row.key) : std::string();
  };
  question.take = [row, side](Order& order, const std::string& text) {
    return take_answer(text, row.key, [&](Scribe& scribe, const Entry& entry) {
      auto reading = read_reading(scribe, entry);
      if (reading)
        set_reading(foot_of(order, side)->foot, reading_guide(row.key)->in_foot, reading);
    });
  };
  question.leave_out = [row, side](Order& order) {
    set_reading(foot_of(order, side)->foot, reading_guide(row.key)->in_foot, {});
  };
  return question;
}

// What is measured on the shoe: the same for both feet.

std::string typed_if(const std::optional<double>& value) {
  return value ? typed(*value) : std::string();
}

template <class T> using SaidOf = std::string (*)(const T&);
template <class T> using LeaveOut = void (*)(T&);

struct ShoeRow {
  const char* path; ///< inside the shoe, and in the reading guide: "board.inset"
  bool (*asked)(const Order&);
  SaidOf<Shoe> said;
  LeaveOut<Shoe> leave_out; ///< null for what is needed
  const char* left_out;
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
    {"board.inset", nullptr, inset, nullptr, ""},
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

Question shoe_question(const ShoeRow& row) {
  Question question = from_guide(row.path);
  question.path = std::string("shoe.") + row.path;
  question.left_out = row.left_out;
  if (row.asked) question.applies = row.asked;
  question.said = [row](const Order& order) { return row.said(any_foot(order).shoe); };
  question.take = [row](Order& order, const std::string& text) {
    Refusal refusal;
    each_foot(order, [&](FootOrder& foot) {
      refusal = take_into<Shoe>(text, row.path, shoe_fields(), foot.shoe);
    });
    return refusal;
  };
  if (row.leave_out)
    question.leave_out = [row](Order& order) {
      each_foot(order, [&](FootOrder& foot) { row.leave_out(foot.shoe); });
    };
  return question;
}

/// About where the board of a foot will be cut, mm from its heel end, by what was said so far and
/// what is usual for the rest; nothing if there is no such cut.
std::optional<double> likely_cut(Order order, FootSide side) {
  // Widths hardly move the cut; those of a whole board reach everywhere.
  each_foot(order, [](FootOrder& foot) { foot.shoe.board.widths.clear(); });
  const Solution solution = solve(completed_order(std::move(order), side));
  const auto& foot = side == FootSide::left ? solution.left : solution.right;
  if (!foot || !foot->trim) return {};
  return foot->trim->final_cut.centre;
}

/// For a board in the shoe, whose width has to be known where it is cut.
std::string place_of_the_cut(const Order& order) {
  if (!board_in_shoe(order) || !cuts_board(order)) return {};
  std::string places;
  for (const FootSide side : {FootSide::left, FootSide::right}) {
    if (!(side == FootSide::left ? order.left : order.right)) continue;
    const auto at = likely_cut(order, side);
    if (!at) return {};
    places += (places.empty() ? "" : ", ") + foot_name(side) + " " + figure(*at, 0);
  }
  return "By what was said so far the cut lies at about " + places +
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
    Refusal refusal;
    each_foot(order, [&](FootOrder& foot) {
      refusal = take_into<Shoe>(text, "stiffness", shoe_fields(), foot.shoe);
    });
    return refusal;
  };
  question.leave_out = [](Order& order) {
    each_foot(order, [](FootOrder& foot) { foot.shoe.stiffness = {}; });
  };
  return question;
}

// What is to be done.

struct RuleTyped {
  std::string operator()(const ReachRule& rule) const {
    return rule.preset.empty() ? typed(rule.reach) : rule.preset;
  }
  std::string operator()(const KeepRule& rule) const { return typed(rule.keep * 100) + " %"; }
  std::string operator()(const MarkRule& rule) const { return "mark " + typed(rule.mark.value()); }
  std::string operator()(const LearnedRule&) const { return "learned"; }
};

Refusal take_wish(Order& order, const std::string& text, const std::string& path) {
  Refusal refusal;
  each_foot(order, [&](FootOrder& foot) {
    refusal = take_into<Alterations>(text, path, alteration_fields(), foot.alterations);
  });
  return refusal;
}

Question rule_question() {
  Question question;
  question.id = "reach";
  question.path = "alterations.shank";
  question.title = "How far the board reaches";
  question.how =
      "edge ends it at the heel's front edge, tucked a little under the heel, short ahead "
      "of it. Or a reach as a number, how much of the board stays (75 %), or a mark made "
      "by hand (mark 58, from the board's heel end).";
  question.answers =
      "edge, tucked, short, 0.5 to 1.5, a percentage, mark and a length; ? takes edge";
  question.left_out = "Taken as edge, the usual rule.";
  question.leave_out = [](Order& order) { take_wish(order, "edge", "shank.reach"); };
  question.why = "It decides where the board ends. Beginners and growing feet: only what a teacher "
                 "or fitter says.";
  question.choices = {"edge", "tucked", "short"};
  question.usual = "edge";
  question.applies = cuts_board;
  question.said = [](const Order& order) {
    return std::visit(RuleTyped{}, any_foot(order).alterations.shank->rule);
  };
  question.take = [](Order& order, const std::string& text) {
    constexpr std::string_view mark = "mark ";
    if (text.starts_with(mark)) return take_wish(order, text.substr(mark.size()), "shank.mark");
    return take_wish(order, text, text.ends_with('%') ? "shank.keep" : "shank.reach");
  };
  return question;
}

Question bevel_question() {
  Question question = from_guide("shank.bevel");
  question.id = "bevel";
  question.path = "alterations.shank.bevel";
  question.answers += ", or none";
  question.why = "Without it the cut edge is felt as a ridge under the arch.";
  question.left_out = "Taken as 12, as usual.";
  question.leave_out = [](Order& order) { take_wish(order, "12", "shank.bevel"); };
  question.usual = "12";
  question.applies = cuts_board;
  question.said = [](const Order& order) {
    const double bevel = any_foot(order).alterations.shank->bevel;
    return bevel == 0 ? std::string("none") : typed(bevel);
  };
  question.take = [](Order& order, const std::string& text) {
    return take_wish(order, text, "shank.bevel");
  };
  return question;
}

template <std::optional<double> SideWish::*member> Question depth_question(const char* key) {
  Question question = from_guide(key);
  question.path = std::string("alterations.") + key;
  question.applies = lowers_sides;
  question.left_out = "This side stays as it is.";
  question.said = [](const Order& order) {
    return typed_if((*any_foot(order).alterations.sides).*member);
  };
  question.take = [path = std::string(key)](Order& order, const std::string& text) {
    return take_wish(order, text, path);
  };
  question.leave_out = [](Order& order) {
    each_foot(order, [](FootOrder& foot) { ((*foot.alterations.sides).*member).reset(); });
  };
  return question;
}

std::vector<Question> table() {
  std::vector<Question> questions;
  for (const TextRow& row : text_rows)
    questions.push_back(text_question(row));
  for (const ChoiceRow* row : {&feet_row, &work_row, &pose_row})
    questions.push_back(choice_question(*row));
  for (const FootRow& row : foot_rows)
    for (const FootSide side : {FootSide::left, FootSide::right})
      questions.push_back(foot_question(row, side));
  questions.push_back(text_question(decided_by_row));
  for (const ChoiceRow* row : {&state_row, &material_row})
    questions.push_back(choice_question(*row));
  for (const ShoeRow& row : board_rows)
    questions.push_back(shoe_question(row));
  questions.push_back(widths_question());
  questions.push_back(stiffness_question());
  questions.push_back(shoe_question(travel_row));
  questions.push_back(rule_question());
  questions.push_back(bevel_question());
  for (const ShoeRow& row : side_rows)
    questions.push_back(shoe_question(row));
  questions.push_back(depth_question<&SideWish::medial>("sides.medial"));
  questions.push_back(depth_question<&SideWish::lateral>("sides.lateral"));
  return questions;
}

/// "shoe.left.board.inset" as a question's path: the shoe and the wishes are asked for both feet.
std::string without_foot(std::string key) {
  if (key.starts_with("feet.")) return key;
  for (const char* foot : {".left", ".right"})
    if (const auto at = key.find(foot); at != std::string::npos)
      key.erase(at, std::string_view(foot).size());
  return key;
}

} // namespace

const std::vector<Question>& interview_questions() {
  static const std::vector<Question> questions = table();
  return questions;
}

Order order_to_ask() {
  Order order;
  order.left.emplace();
  order.left->alterations.shank = ShankWish{};
  order.left->shoe.board.state = BoardState::in_shoe;
  order.right = order.left;
  return order;
}

const Question* question_of(const std::string& finding_key, const Order& order) {
  const std::string key = without_foot(finding_key);
  const Question* inner = nullptr;
  const Question* outer = nullptr;
  for (const Question& question : interview_questions()) {
    if (!question.asked_of(order)) continue;
    const std::string& path = question.path;
    if (path == key) return &question;
    // A finding about the whole of a break is mended at its first edge.
    if (!inner && path.starts_with(key + ".")) inner = &question;
    if (key.starts_with(path + ".") && (!outer || path.size() > outer->path.size()))
      outer = &question;
  }
  return inner ? inner : outer;
}

} // namespace shankline
