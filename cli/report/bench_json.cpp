#include "cli/report/bench_json.hpp"

#include "cli/order_file/seen_words.hpp"
#include "cli/text/quantity.hpp"
#include "export/json/json_figure.hpp"

#include <iterator>
#include <nlohmann/json.hpp>
#include <optional>

namespace shankline {
namespace {

using Json = nlohmann::ordered_json;

/// Also takes a station; returns null for an absent figure.
Json number(const std::optional<double>& value) {
  return value ? Json(json_figure(*value)) : Json(nullptr);
}

constexpr Word<StopReason> stop_words[] = {
    {"seen_right", StopReason::seen_right},   {"seen_too_far", StopReason::seen_too_far},
    {"seen_over", StopReason::seen_over},     {"seen_pain", StopReason::seen_pain},
    {"final_line", StopReason::final_line},   {"stop_band", StopReason::stop_band},
    {"stop_line", StopReason::stop_line},     {"final_passed", StopReason::final_passed},
    {"band_passed", StopReason::band_passed}, {"stop_passed", StopReason::stop_passed},
};
static_assert(std::size(stop_words) == static_cast<std::size_t>(StopReason::stop_passed) + 1,
              "every reason to stop has a word");
constexpr Word<Acceptance> verdicts[] = {
    {"accepted", Acceptance::accepted},
    {"refused", Acceptance::refused},
    {"not_decided", Acceptance::not_decided},
};

Json edges(double medial, double centre, double lateral) {
  return {{"medial", number(medial)}, {"centre", number(centre)}, {"lateral", number(lateral)}};
}

std::string text_of(const Json& json) {
  return json.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

constexpr const char* rack_head = "{\n  \"format\": \"shankline-rack/1\",\n  \"shoes\": ";

/// Adds a printed document as it stands inside a list of another: no text in it holds a line's end.
void add_indented(std::string& text, std::string_view document) {
  text += "    ";
  for (const char c : document) {
    text += c;
    if (c == '\n') text += "    ";
  }
}

Json with_U(const Uncertain& value) {
  return {{"value", number(value.value)}, {"U", number(value.expanded())}};
}

} // namespace

std::string match_json(const Order& order, const MatchedLines& lines) {
  Json json{{"format", "shankline-match/1"}, {"dancer", order.dancer}, {"lines", Json::array()}};
  for (const MatchedLine& line : lines) {
    Json apart = nullptr;
    if (line.apart) {
      apart = with_U(*line.apart);
      apart["differs"] = told_apart(*line.apart);
    }
    json["lines"].push_back(
        {{"foot", foot_name(line.foot)},
         {"line", line.key},
         {"copied", with_U(line.copied)},
         {"model", {{"value", number(line.model)}, {"U", number(line.model_U)}}},
         {"difference", std::move(apart)}});
  }
  return text_of(json);
}

std::string acceptance_json(const Order& order, const JudgedPair& pair) {
  Json json{{"format", "shankline-acceptance/1"},
            {"dancer", order.dancer},
            {"verdict", word_for(pair.verdict, verdicts)},
            {"lines", Json::array()}};
  for (const JudgedLine& judged : pair.lines) {
    const AcceptanceLine& line = judged.line;
    const SizeLimits limits = line.limits();
    Json made = nullptr;
    if (judged.made)
      made = {{"value", number(judged.made->value)},
              {"U", number(judged.made->U)},
              {"with", judged.made->with}};
    json["lines"].push_back(
        {{"foot", foot_name(line.foot)},
         {"line", line.key},
         {"ordered", number(line.nominal)},
         {"least", number(limits.least)},
         {"most", number(limits.most)},
         {"instrument", line.instrument ? Json(std::string(instrument_guide(*line.instrument).name))
                                        : Json(nullptr)},
         {"made", std::move(made)},
         {"verdict", judged.made ? Json(word_for(judged.verdict, verdicts)) : Json(nullptr)}});
  }
  return text_of(json);
}

std::string next_json(const Order& order, const FootSolution& foot, const Tried& tried,
                      const NextCut& next, bool worn) {
  const double witness = foot.trim->witness.centre;
  Json json{{"format", "shankline-next/1"},
            {"dancer", order.dancer},
            {"foot", foot_name(foot.side)},
            {"cut_off", number(tried.cut_off)},
            {"seen", word_for(tried.seen, seen_words)},
            {"worn", worn},
            {"ask_again_after_wear", tried.seen == Seen::right && !worn},
            {"witness", number(witness)},
            {"stop_from", number(foot.trim->stop_from.centre)},
            {"U_stop", number(foot.trim->doubt.stop.expanded())},
            {"next", nullptr},
            {"stop", nullptr}};
  if (next.line)
    json["next"] = {{"board", edges(next.line->medial, next.line->centre, next.line->lateral)},
                    {"back", edges(witness - next.line->medial, witness - next.line->centre,
                                   witness - next.line->lateral)},
                    {"more", number(next.more)}};
  if (next.stop) json["stop"] = word_for(*next.stop, stop_words);
  json["left_to_final"] = number(next.left_to_final);
  json["reason"] = next.reason;
  return text_of(json);
}

std::string RackJson::row(const RackShoe& shoe) {
  const auto cut = [](const std::optional<CutLine>& line) {
    return line ? edges(line->medial, line->centre, line->lateral) : Json();
  };
  Json entry{{"dancer", shoe.dancer},
             {"pair", shoe.pair},
             {"date", shoe.date},
             {"order", shoe.digest},
             {"foot", foot_name(shoe.foot)},
             {"first", cut(shoe.first_cut)},
             {"final", cut(shoe.final_cut)}};
  entry["final_from_witness"] = shoe.from_witness ? number(*shoe.from_witness) : Json();
  entry["sides"] = shoe.sides ? Json{{"medial", number(shoe.sides->medial)},
                                     {"lateral", number(shoe.sides->lateral)},
                                     {"back", number(shoe.sides->back)}}
                              : Json();
  entry["also"] = shoe.also;
  entry["see"] = shoe.see;
  if (shoe.entry > 0) entry["entry"] = shoe.entry;
  std::string text = any_ ? ",\n" : std::string(rack_head) + "[\n";
  any_ = true;
  add_indented(text, entry.dump(2, ' ', false, Json::error_handler_t::replace));
  return text;
}

std::string RackJson::end() const {
  return any_ ? "\n  ]\n}\n" : std::string(rack_head) + "[]\n}\n";
}

namespace {

Json account_json(const ReadingAccount& account) {
  const ReadingGuide& guide = *account.guide;
  Json json;
  json["key"] = guide.key;
  json["name"] = guide.name;
  json["unit"] = unit_of(guide.quantity);
  json["how"] = guide.how;
  json["why"] = guide.why.empty() ? Json() : Json(guide.why);
  json["allowed"] = {number(guide.least), number(guide.most)};
  json["usual"] =
      account.usual ? Json({number(account.usual->least), number(account.usual->most)}) : Json();
  json["within"] = guide.finding > 0 ? Json(number(guide.finding)) : Json();
  json["moves"] = account.moves.empty() ? Json() : Json::object();
  for (const ReadingMove& move : account.moves)
    json["moves"][move.rule] = number(move.per_unit);
  json["left_out"] = Json();
  if (account.left_out) {
    const auto& left_out = *account.left_out;
    json["left_out"] = {{"U", number(left_out.U)}, {"U_left_out", number(left_out.U_left_out)}};
    json["left_out"]["estimate"] =
        left_out.estimate ? Json(number(left_out.estimate->value)) : Json();
  }
  return json;
}

} // namespace

std::string readings_json(const std::vector<ReadingAccount>& readings,
                          const std::vector<std::pair<std::string, std::string>>& in_words) {
  Json json;
  json["format"] = "shankline-readings/1";
  json["readings"] = Json::array();
  for (const ReadingAccount& account : readings)
    json["readings"].push_back(account_json(account));
  for (const auto& [key, words] : in_words)
    json["keys"].push_back({{"key", key}, {"words", words}});
  return text_of(json);
}

} // namespace shankline
