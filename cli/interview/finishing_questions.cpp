#include "cli/interview/question_parts.hpp"

#include "cli/order_file/order_values.hpp"
#include "cli/text/word_list.hpp"
#include "geometry/finishing/ribbons.hpp"

#include <algorithm>
#include <string_view>
#include <utility>

namespace shankline {
namespace {

constexpr const char* as_it_was = "Stays as it was.";

/// An answer that is left out changes nothing. The order keeps figures that the interview does not
/// ask for, such as the clearance of a liner and the raise of a wrap.
void leave_alone(Order&) {}

const Alterations& wishes(const Order& order) {
  return any_foot(order).alterations;
}

bool has_liner(const Order& order) {
  return wishes(order).liner.has_value();
}
bool has_darning(const Order& order) {
  return wishes(order).darning.has_value();
}
bool has_ribbon(const Order& order) {
  return wishes(order).ribbons.has_value();
}

template <auto member> void drop(Order& order) {
  each_foot(order, [](FootOrder& foot) { (foot.alterations.*member).reset(); });
}

/// Begins the wish on every foot that is without it.
template <auto member> void begin(Order& order) {
  each_foot(order, [](FootOrder& foot) {
    if (!(foot.alterations.*member)) (foot.alterations.*member).emplace();
  });
}

/// One of the words, or the refusal of anything else.
Refusal take_word(const std::string& text, const std::vector<std::string_view>& words,
                  std::size_t& chosen) {
  return read_answer(answer_node(text, {}), "choice",
                     [&](ParseContext& context, const Entry& entry) {
                       if (const auto found = read_choice(context, entry, words)) chosen = *found;
                     });
}

Question liner_question() {
  Question question;
  question.id = "liner";
  question.path = "alterations.liner";
  question.title = "Liner";
  question.how = "A new liner over the board, to the very heel end of the shoe?";
  question.why = "It covers the cut edge and the seat that the cut leaves empty.";
  question.choices = {"none", "full"};
  question.answers = joined(question.choices, ", ");
  question.left_out = as_it_was;
  question.leave_out = leave_alone;
  question.said = [](const Order& order) {
    return std::string(has_liner(order) ? "full" : "none");
  };
  question.take = [words = question.choices](Order& order, const std::string& text) {
    std::size_t chosen = 0;
    Refusal refusal = take_word(text, words, chosen);
    if (!refusal)
      chosen == 0 ? drop<&Alterations::liner>(order) : begin<&Alterations::liner>(order);
    return refusal;
  };
  return question;
}

/// The seat of a board in the shoe has no known front.
Question liner_length_question() {
  Question question = from_guide("liner.length");
  question.path = "alterations.liner.length";
  question.why = "With its board in the shoe, only the old liner tells how long the new one is.";
  question.applies = [](const Order& order) { return has_liner(order) && board_in_shoe(order); };
  question.said = [](const Order& order) { return typed_if(wishes(order).liner->length); };
  question.take = [](Order& order, const std::string& text) {
    return take_wish(order, text, "liner.length");
  };
  return question;
}

Question darning_question() {
  Question question = from_guide("darning.passes");
  question.id = "darning";
  question.path = "alterations.darning";
  question.title = "Darning";
  question.how = "Is the platform's edge darned, and in how many passes? " + question.how;
  question.why = "It keeps the satin from wearing through and gives the edge a grip.";
  question.answers = "none, or passes: " + question.answers;
  question.guide.clear();
  question.left_out = as_it_was;
  question.leave_out = leave_alone;
  question.said = [](const Order& order) {
    return has_darning(order) ? std::to_string(wishes(order).darning->passes) : std::string("none");
  };
  question.take = [](Order& order, const std::string& text) {
    if (text != "none") return take_wish(order, text, "darning.passes");
    drop<&Alterations::darning>(order);
    return Refusal();
  };
  return question;
}

Question darning_height_question() {
  Question question = from_guide("darning.height");
  question.path = "alterations.darning.height";
  question.why = "The wrap's template and the length of yarn are drawn by it.";
  question.applies = has_darning;
  question.left_out = as_it_was;
  question.leave_out = leave_alone;
  question.said = [](const Order& order) { return typed(wishes(order).darning->height); };
  question.take = [](Order& order, const std::string& text) {
    return take_wish(order, text, "darning.height");
  };
  return question;
}

/// Both figures in one answer: half a platform could not be kept in the file.
Question platform_question() {
  Question question;
  question.id = "platform";
  question.path = "shoe.platform";
  question.title = "Platform";
  question.how =
      "The flat tip: across it from edge to edge, then through it from the pleats to the "
      "vamp side.";
  question.why = "The darning goes round its edge.";
  question.answers = "two lengths, such as 44, 26";
  question.applies = has_darning;
  question.said = [](const Order& order) {
    const auto& platform = any_foot(order).shoe.platform;
    return platform ? typed(*platform) : std::string();
  };
  question.take = [](Order& order, const std::string& text) {
    Platform read;
    Refusal refusal = take_platform(text, read);
    if (!refusal) each_foot(order, [&](FootOrder& foot) { foot.shoe.platform = read; });
    return refusal;
  };
  return question;
}

Question ribbons_question() {
  Question question;
  question.id = "ribbons";
  question.path = "alterations.ribbons";
  question.title = "Ribbons";
  question.how =
      "Are ribbons cut and sewn? ring: one stretch ribbon that is not tied; tied: two of "
      "them, knotted.";
  question.why = "Their lengths are worked out and marked for the needle.";
  question.choices = {"none", "ring", "tied"};
  question.answers = joined(question.choices, ", ");
  question.left_out = as_it_was;
  question.leave_out = leave_alone;
  question.said = [](const Order& order) {
    if (!has_ribbon(order)) return std::string("none");
    return std::string(wishes(order).ribbons->ring ? "ring" : "tied");
  };
  question.take = [words = question.choices](Order& order, const std::string& text) -> Refusal {
    std::size_t chosen = 0;
    if (Refusal refusal = take_word(text, words, chosen)) return refusal;
    if (chosen == 0) {
      drop<&Alterations::ribbons>(order);
      return {};
    }
    begin<&Alterations::ribbons>(order);
    each_foot(order, [&](FootOrder& foot) { foot.alterations.ribbons->ring = chosen == 1; });
    return {};
  };
  return question;
}

Question stretch_question() {
  Question question = from_guide("ribbons.stretch");
  question.path = "alterations.ribbons.stretch";
  question.why = "A ribbon that stretches is cut shorter than the way it goes.";
  question.applies = has_ribbon;
  question.needed = [](const Order& order) {
    const RibbonWish& ribbons = *wishes(order).ribbons;
    return ribbons.ring && ribbons.stretch < least_ring_stretch;
  };
  question.left_out = as_it_was;
  question.leave_out = leave_alone;
  question.said = [](const Order& order) {
    const RibbonWish& ribbons = *wishes(order).ribbons;
    if (ribbons.ring && ribbons.stretch == 0) return std::string();
    return typed(ribbons.stretch * 100) + " %";
  };
  question.take = [](Order& order, const std::string& text) {
    return take_wish(order, text, "ribbons.stretch");
  };
  return question;
}

} // namespace

std::vector<Question> finishing_questions() {
  return {liner_question(),    liner_length_question(),   darning_question(),
          platform_question(), darning_height_question(), ribbons_question(),
          stretch_question()};
}

} // namespace shankline
