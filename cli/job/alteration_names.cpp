#include "cli/job/alteration_names.hpp"

#include "cli/text/word_list.hpp"

namespace shankline {
namespace {

template <auto member> bool asks_for(const Alterations& wish) {
  return (wish.*member).has_value();
}

struct Alteration {
  const char* name;
  bool (*wished)(const Alterations& wish);
};

constexpr Alteration known_alterations[] = {
    {"shank", asks_for<&Alterations::shank>},
    {"sides", asks_for<&Alterations::sides>},
    {"liner", asks_for<&Alterations::liner>},
    {"darning", asks_for<&Alterations::darning>},
    {"ribbons", asks_for<&Alterations::ribbons>},
    {"elastics", asks_for<&Alterations::elastics>},
    {"thinned", asks_for<&Alterations::thinned>},
    {"filler", [](const Alterations& wish) { return wish.filler; }},
    {"tuck", asks_for<&Alterations::tuck>},
};

} // namespace

std::vector<std::string> alteration_names() {
  std::vector<std::string> names;
  for (const Alteration& alteration : known_alterations)
    names.emplace_back(alteration.name);
  return names;
}

std::string alterations_of(const Order& order) {
  std::vector<std::string> names;
  for (const Alteration& alteration : known_alterations) {
    const auto wished = [&](const std::optional<FootOrder>& foot) {
      return foot && alteration.wished(foot->alterations);
    };
    if (wished(order.left) || wished(order.right)) names.emplace_back(alteration.name);
  }
  return joined(names, ", ");
}

} // namespace shankline
