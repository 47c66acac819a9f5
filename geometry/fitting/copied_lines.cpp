#include "geometry/fitting/copied_lines.hpp"

#include "geometry/board/trim_doubt.hpp"
#include "geometry/uncertainty/reading_doubt.hpp"

#include <span>

namespace shankline {
namespace {

/// `mark` of the inputs, and what carrying it adds: the three inputs from `carrying` on.
CopiedLine copied(const Inputs& inputs, std::size_t carrying, const Measurand& mark) {
  const std::span<const Source> sources = inputs.sources();
  return {{sources.begin(), sources.end()},
          propagate(inputs, Measurand([&](std::span<const double> in) {
                      return mark(in) + in[carrying] + in[carrying + 1] + in[carrying + 2];
                    })),
          propagate(inputs, mark)};
}

void add_reading(Inputs& inputs, const Reading& reading, const std::string& key,
                 const std::string& kind, const std::string& owner) {
  add_reading(inputs, key, kind, owner, reading.value(), reading_doubt(reading));
}

} // namespace

std::optional<CopiedLine> copied_trim(const Reading& kept_worn, const Reading& whole_new,
                                      const std::string& owner) {
  if (!(whole_new.value() > kept_worn.value())) return {};
  Inputs inputs;
  add_reading(inputs, whole_new, "new pair", "platform to board", owner);
  add_reading(inputs, kept_worn, "worn pair", "platform to board", owner);
  inputs.add_own("wear", 0, rectangular(owner + ".wear", wear_half_width));
  const std::size_t carrying = add_carrying_inputs(inputs, owner);
  return copied(inputs, carrying, [](std::span<const double> in) { return in[0] - in[1] + in[2]; });
}

CopiedLine copied_height(const Reading& worn, const std::string& key, const std::string& owner) {
  Inputs inputs;
  add_reading(inputs, worn, key, key, owner);
  inputs.add_own("wear", 0, rectangular(owner + ".wear of " + key, wear_half_width));
  const std::size_t carrying = add_carrying_inputs(inputs, owner);
  return copied(inputs, carrying, [](std::span<const double> in) { return in[0] + in[1]; });
}

} // namespace shankline
