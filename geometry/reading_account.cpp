#include "geometry/reading_account.hpp"

#include "geometry/reading_worth.hpp"

#include <utility>

namespace shankline {
namespace {

const std::vector<std::pair<std::string, TrimRule>>& rules_shown() {
  static const std::vector<std::pair<std::string, TrimRule>> rules{
      {"short", ReachRule{0.75, "short"}},
      {"edge", ReachRule{1, "edge"}},
      {"tucked", ReachRule{1.15, "tucked"}},
      {"keep 75 %", KeepRule{0.75}},
      {"mark", MarkRule{62, {}}}};
  return rules;
}

} // namespace

ReadingAccount reading_account(const ReadingGuide& guide) {
  ReadingAccount account;
  account.guide = &guide;
  const Order order = typical_order(Pose::pointed);
  account.usual = usual_range(order.estimates_from, guide.key, order.left->foot.length->value());
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
