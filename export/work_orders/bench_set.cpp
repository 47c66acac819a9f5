#include "export/work_orders/bench_set.hpp"

namespace shankline {

ChosenLettering lettering_of(const std::vector<RackShoe>& shoes, const FindFaces& find) {
  std::vector<std::string> texts;
  for (const RackShoe& shoe : shoes)
    for (const std::string* text : {&shoe.dancer, &shoe.pair, &shoe.date})
      texts.push_back(*text);
  return choose_lettering(texts, find);
}

} // namespace shankline
