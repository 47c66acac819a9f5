#include "tests/geometry/learning_cases.hpp"

#include <sstream>
#include <utility>

namespace shankline::tests {

std::vector<TriedShoe> shoes(const std::string& style, const std::string& trials, double shoe_u) {
  std::vector<TriedShoe> result;
  std::istringstream pairs(trials);
  std::string pair;
  while (std::getline(pairs, pair, ';')) {
    TriedShoe shoe;
    shoe.pair = std::to_string(result.size());
    shoe.ordered = Day(std::chrono::days(20000 + 14 * static_cast<int>(result.size())));
    shoe.style = style;
    shoe.shoe_u = shoe_u;
    std::istringstream words(pair);
    double end = 0;
    char answer = 0;
    while (words >> end >> answer) {
      Trial trial;
      trial.board_end = end;
      trial.answer = answer == 'l'   ? Answer::too_low
                     : answer == 'g' ? Answer::good
                                     : Answer::cut_too_far;
      shoe.trials.push_back(trial);
    }
    result.push_back(std::move(shoe));
  }
  return result;
}

FootRecords foot(const std::string& dancer, std::vector<ReadingSession> sessions,
                 std::vector<TriedShoe> shoes) {
  return {dancer, FootSide::left, 61, 8, std::move(sessions), std::move(shoes)};
}

HouseRecords three_feet() {
  return {{foot("A", {{"1", 61, 2.8, 3}, {"2", 63, 2.8, 3}}, shoes("s", "56l 59l 62g; 58l 61g")),
           foot("B", {{"2", 66, 2.8, 3}}, shoes("t", "60l 63g; 66f")),
           foot("C", {{"1", 59, 2.8, 3}}, {})}};
}

HouseRecords six_feet() {
  return {{foot("1", {{"0", 58, 2.8, 3}}, shoes("0", "50l 53l 56l 59g; 56l 59g; 57g; 58l 61g")),
           foot("2", {{"1", 66, 2.8, 3}}, shoes("1", "54l 57l 60l 63g; 60l 63l 66g; 62g")),
           foot("3", {{"0", 61, 2.8, 3}}, shoes("1", "49g; 52l 55l 58l 61l 64g; 61g; 62g")),
           foot("4", {{"1", 55, 2.8, 3}}, shoes("0", "46l 49l 52g; 49l 52g; 50g; 50l 53g; 51f")),
           foot("5", {{"1", 70, 2.8, 3}}, shoes("0", "58l 61l 64l 67f; 61l 64g; 63g")),
           foot("6", {{"0", 63, 2.8, 3}}, {})}};
}

std::string style_of_six(std::size_t i) {
  return i == 1 || i == 2 || i == 5 ? "1" : "0";
}

LearningPriors fixed_figures() {
  LearningPriors priors;
  priors.width.sd = priors.noise.sd = priors.dancers.sd = 0;
  priors.drift = priors.politeness = {0, 0};
  priors.slip = priors.jump_probability = 0;
  return priors;
}

LearningPriors without_jumps() {
  LearningPriors priors;
  priors.jump_probability = 0;
  return priors;
}

} // namespace shankline::tests
