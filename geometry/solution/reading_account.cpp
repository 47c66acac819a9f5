#include "geometry/solution/reading_account.hpp"

#include "geometry/board/trim_line.hpp"
#include "geometry/solution/reading_worth.hpp"
#include "geometry/uncertainty/reading_doubt.hpp"

namespace shankline {
namespace {

struct ShownRule {
  std::string name;
  TrimRule rule;
};

std::vector<ShownRule> rules_shown() {
  constexpr double some_mark = 62; // where it is moves nothing
  std::vector<ShownRule> rules;
  for (const ReachPreset& preset : reach_presets)
    rules.push_back({std::string(preset.name), rule_of(preset)});
  rules.push_back({"keep 75 %", KeepRule{}});
  rules.push_back({"mark", MarkRule{as_reading(some_mark, "shank.mark"), {}}});
  return rules;
}

} // namespace

ReadingAccount reading_account(const ReadingGuide& guide) {
  ReadingAccount account;
  account.guide = &guide;
  const Order order = typical_order(Pose::pointed);
  account.usual = usual_range(order.estimates_from, guide.key, order.left->foot.length->value());
  account.usual_of_any_foot = usual_range(order.estimates_from, guide.key, {}).has_value();
  for (const auto& [name, rule] : rules_shown()) {
    const auto worth = reading_worth(typical_order(Pose::pointed, rule), FootSide::left, guide.key);
    if (worth) account.moves.push_back({name, worth->per_unit});
  }
  const auto worth = reading_worth(order, FootSide::left, guide.key);
  if (worth && worth->U_left_out)
    account.left_out = {worth->U, *worth->U_left_out, worth->estimate};
  return account;
}

} // namespace shankline
