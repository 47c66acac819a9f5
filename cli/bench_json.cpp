#include "cli/bench_json.hpp"

#include <cmath>
#include <nlohmann/json.hpp>

namespace shankline {
namespace {

using Json = nlohmann::ordered_json;

Json number(double value) {
  constexpr double decimals = 1e9;
  const double rounded = std::round(value * decimals) / decimals;
  return rounded == 0 ? 0.0 : rounded;
}

const char* name_of(FootSide side) {
  return side == FootSide::left ? "left" : "right";
}

const char* name_of(Seen seen) {
  switch (seen) {
  case Seen::low:
    return "low";
  case Seen::right:
    return "right";
  case Seen::too_far_back:
    return "too-far-back";
  case Seen::over_the_platform:
    return "over";
  case Seen::pain:
    return "pain";
  }
  return "";
}

const char* name_of(StopReason reason) {
  switch (reason) {
  case StopReason::seen_right:
    return "seen_right";
  case StopReason::seen_over:
    return "seen_over";
  case StopReason::seen_pain:
    return "seen_pain";
  case StopReason::final_line:
    return "final_line";
  case StopReason::stop_line:
    return "stop_line";
  case StopReason::final_passed:
    return "final_passed";
  case StopReason::stop_passed:
    return "stop_passed";
  }
  return "";
}

Json edges(double medial, double centre, double lateral) {
  return {{"medial", number(medial)}, {"centre", number(centre)}, {"lateral", number(lateral)}};
}

std::string text_of(const Json& json) {
  return json.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

} // namespace

std::string next_json(const Order& order, const FootSolution& foot, const Tried& tried,
                      const NextCut& next) {
  const double witness = foot.trim->witness.centre;
  Json json{{"format", "shankline-next/1"},
            {"dancer", order.dancer},
            {"foot", name_of(foot.side)},
            {"cut_off", number(tried.cut_off)},
            {"seen", name_of(tried.seen)},
            {"witness", number(witness)},
            {"next", nullptr},
            {"stop", nullptr}};
  if (next.line)
    json["next"] = {{"board", edges(next.line->medial, next.line->centre, next.line->lateral)},
                    {"back", edges(witness - next.line->medial, witness - next.line->centre,
                                   witness - next.line->lateral)},
                    {"more", number(next.more)}};
  if (next.stop) json["stop"] = name_of(*next.stop);
  json["left_to_final"] = number(next.left_to_final);
  json["reason"] = next.reason;
  return text_of(json);
}

} // namespace shankline
