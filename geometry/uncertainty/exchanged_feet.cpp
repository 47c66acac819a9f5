#include "geometry/uncertainty/exchanged_feet.hpp"

#include "geometry/order/reading_guide.hpp"
#include "geometry/uncertainty/reading_doubt.hpp"

#include <cmath>

namespace shankline {
namespace {

constexpr double day_to_day = 1;   // mm, SD
constexpr double between_feet = 3; // mm, SD

/// One kind of reading of both feet.
struct BothFeet {
  double left;
  double right;
  double variance; ///< of one of them, on average

  double difference() const { return left - right; }
};

std::optional<BothFeet> both_feet(const Order& order, const ReadingGuide& guide) {
  const auto& left = guide.in_foot.of(order.left->foot);
  const auto& right = guide.in_foot.of(order.right->foot);
  if (!left || !right || left->estimated || right->estimated) return {};
  const auto variance = [](const Reading& reading) {
    return std::pow(reading_doubt(reading).fresh(), 2) + day_to_day * day_to_day;
  };
  return BothFeet{left->value(), right->value(), (variance(*left) + variance(*right)) / 2};
}

} // namespace

std::optional<ExchangedFeet> exchanged_feet(const Order& now, const Order& then) {
  if (!now.left || !now.right || !then.left || !then.right || now.pose != then.pose) return {};
  double log_ratio = 0;
  double most = 0;
  ExchangedFeet found;
  for (const ReadingGuide& guide : reading_guides()) {
    if (!guide.in_foot || guide.quantity != Quantity::length || guide.key == "fold") continue;
    const auto here = both_feet(now, guide);
    const auto there = both_feet(then, guide);
    if (!here || !there) continue;
    constexpr double s2 = between_feet * between_feet;
    const double v = (here->variance + there->variance) / 2;
    const double speaks = -here->difference() * there->difference() * s2 / (2 * v * (v + s2));
    log_ratio += speaks;
    if (speaks <= most) continue;
    most = speaks;
    found = {std::string(guide.name), there->left, there->right, here->left, here->right};
  }
  if (log_ratio < std::log(exchange_told_from)) return {};
  return found;
}

} // namespace shankline
