#include "tests/geometry/simulated_company.hpp"

#include <cmath>
#include <numbers>
#include <string>

namespace shankline::tests {

SimulatedCompany::SimulatedCompany(const World& world, int feet, std::uint64_t seed)
    : world_(world), engine_(seed) {
  const double house = world.house + world.house_sd * normal();
  const double styles[] = {world.style_sd * normal(), world.style_sd * normal()};
  habits_ = {world.habit_sd * normal(), world.habit_of_second + world.habit_sd * normal()};
  for (int i = 0; i < feet; ++i) {
    const std::size_t reader = i % 2 == 0 ? 0 : 1;
    const std::size_t style = i / 2 % 2 == 0 ? 0 : 1;
    const double heel_front = 61 + world.feet_sd * normal();
    FootRecords foot;
    foot.dancer = "D-" + std::to_string(100 + i);
    foot.sessions = {{reader == 0 ? "R1" : "R2",
                      heel_front + habits_[reader] + world.reading * normal(), world.reading, 3}};
    records_.feet.push_back(foot);
    places_.push_back(heel_front + house + world.dancers * normal() + styles[style]);
    styles_.push_back(style == 0 ? "S1" : "S2");
  }
}

void SimulatedCompany::try_pair(std::size_t foot, double first_cut) {
  TriedShoe shoe;
  const std::size_t pairs = records_.feet[foot].shoes.size();
  shoe.pair = "P-" + std::to_string(pairs);
  shoe.ordered = Day(std::chrono::days(20000 + 14 * static_cast<int>(pairs)));
  shoe.style = styles_[foot];
  shoe.shoe_u = world_.shoe;
  const double place = next_place(foot);
  double end = first_cut;
  for (int k = 0; k < 40; ++k, end += 3) {
    Trial trial;
    trial.board_end = end;
    trial.answer = judged(place - end);
    shoe.trials.push_back(trial);
    if (trial.answer != Answer::too_low) break;
  }
  records_.feet[foot].shoes.push_back(shoe);
  places_[foot] += world_.drift * normal();
}

double SimulatedCompany::next_place(std::size_t foot) {
  return places_[foot] + world_.shoe * normal();
}

Answer SimulatedCompany::judged(double longer_by) {
  if (uniform() < world_.slips) {
    const double any = uniform();
    return any < 1.0 / 3 ? Answer::too_low : any < 2.0 / 3 ? Answer::good : Answer::cut_too_far;
  }
  if (uniform() < world_.politeness) return Answer::good;
  const double felt = longer_by + world_.noise * normal();
  if (felt > world_.width) return Answer::too_low;
  return felt < -world_.width ? Answer::cut_too_far : Answer::good;
}

double SimulatedCompany::uniform() {
  return (static_cast<double>(engine_() >> 11) + 0.5) * 0x1p-53;
}

double SimulatedCompany::normal() {
  const double radius = std::sqrt(-2 * std::log(uniform()));
  return radius * std::cos(2 * std::numbers::pi * uniform());
}

} // namespace shankline::tests
