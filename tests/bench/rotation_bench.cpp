// When forty dancers need their next pairs over 120 days, in processor time. Exits 1 when the bar
// is missed.
//
//   bench_rotation
#include "geometry/wear/remaining_life.hpp"
#include "geometry/wear/rotation.hpp"

#include <cstdio>
#include <ctime>

int main() {
  using namespace shankline;
  constexpr double bar = 2; // seconds
  const std::clock_t begin = std::clock();
  int pairs_ordered = 0;
  for (int dancer = 0; dancer < 40; ++dancer) {
    std::vector<RotationPair> pairs(3);
    for (int k = 0; k < 3; ++k) {
      RotationPair& pair = pairs[static_cast<std::size_t>(k)];
      pair.hours = 2 * k + 0.1 * dancer;
      pair.last_worn = -k - 1;
      pair.dry_from = 1 - k;
    }
    std::vector<DanceDay> days;
    for (int day = 0; day < 120; ++day)
      if (day % 7 != 6) days.push_back({day, 1 + 0.5 * (day % 3), day % 7 == 5});
    WeibullLife life = usual_life();
    life.log_scale_se = 0.15;
    rotation_plan(pairs, days, life);
    if (const auto advice = order_advice(pairs, days, life, 0, 30)) pairs_ordered += advice->pairs;
  }
  const double seconds = static_cast<double>(std::clock() - begin) / CLOCKS_PER_SEC;
  std::printf("40 dancers, 120 days: %.2f s (bar %.1f), %d pairs to order\n", seconds, bar,
              pairs_ordered);
  return seconds < bar && pairs_ordered > 0 ? 0 : 1;
}
