#include "cli/interview/question_parts.hpp"

#include "cli/order_file/order_values.hpp"
#include "cli/text/quantity.hpp"
#include "geometry/order/reading_guide.hpp"

#include <utility>

namespace shankline {
namespace {

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

bool has_ribbons(const FootOrder& order) {
  return order.alterations.ribbons.has_value();
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

constexpr FootRow ankle_row{
    "ankle_girth", has_ribbons, never,
    "Then the ribbon's length is an estimate too: measure before it is cut."};

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
    return order.foot(side) && row.asked(*order.foot(side));
  };
  question.needed = [row, side](const Order& order) { return row.needed(*order.foot(side)); };
  question.reading = [row, side](const Order& order) -> const Reading* {
    const Foot& foot_so_far = order.foot(side)->foot;
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
    return take_answer(text, row.key, [&](ParseContext& context, const Entry& entry) {
      auto reading = read_reading(context, entry);
      if (reading) set_reading(order.foot(side)->foot, reading_guide(row.key)->in_foot, reading);
    });
  };
  question.leave_out = [row, side](Order& order) {
    set_reading(order.foot(side)->foot, reading_guide(row.key)->in_foot, {});
  };
  return question;
}

} // namespace

std::vector<Question> foot_questions() {
  std::vector<Question> questions;
  for (const FootRow& row : foot_rows)
    for (const FootSide side : {FootSide::left, FootSide::right})
      questions.push_back(foot_question(row, side));
  return questions;
}

std::vector<Question> ankle_questions() {
  std::vector<Question> questions;
  for (const FootSide side : {FootSide::left, FootSide::right}) {
    questions.push_back(foot_question(ankle_row, side));
    questions.back().why = "The ribbon's length is worked out from it.";
  }
  return questions;
}

} // namespace shankline
