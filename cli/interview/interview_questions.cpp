#include "cli/interview/interview_questions.hpp"

#include "cli/interview/question_parts.hpp"
#include "cli/order_file/order_alterations.hpp"
#include "cli/order_file/order_values.hpp"
#include "cli/text/quantity.hpp"
#include "export/wording/sentence.hpp"
#include "geometry/order/reading_guide.hpp"

#include <utility>

namespace shankline {
namespace {

// The wishes.

struct RuleTyped {
  std::string operator()(const ReachRule& rule) const {
    return rule.preset.empty() ? typed(rule.reach) : rule.preset;
  }
  std::string operator()(const KeepRule& rule) const { return typed(rule.keep * 100) + " %"; }
  std::string operator()(const MarkRule& rule) const { return "mark " + typed(rule.mark.value()); }
  std::string operator()(const LearnedRule&) const { return "learned"; }
};

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
  const auto add = [&questions](std::vector<Question> more) {
    for (Question& question : more)
      questions.push_back(std::move(question));
  };
  add(naming_questions());
  add(work_questions());
  add(foot_questions());
  questions.push_back(decided_by_question());
  add(board_kind_questions());
  add(board_questions());
  questions.push_back(rule_question());
  questions.push_back(bevel_question());
  add(side_questions());
  questions.push_back(depth_question<&SideWish::medial>("sides.medial"));
  questions.push_back(depth_question<&SideWish::lateral>("sides.lateral"));
  add(finishing_questions());
  add(ankle_questions());
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

const FootOrder& any_foot(const Order& order) {
  return order.left ? *order.left : *order.right;
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

Refusal take_wish(Order& order, const std::string& text, const std::string& path) {
  Refusal refusal;
  each_foot(order, [&](FootOrder& foot) {
    refusal = take_into<Alterations>(text, path, alteration_fields(), foot.alterations);
  });
  return refusal;
}

std::string typed_if(const std::optional<double>& value) {
  return value ? typed(*value) : std::string();
}

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
