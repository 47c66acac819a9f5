#include "cli/order_file/order_feet.hpp"

#include "cli/order_file/order_values.hpp"
#include "cli/order_file/order_words.hpp"
#include "geometry/order/reading_guide.hpp"

#include <utility>
#include <vector>

namespace shankline {
namespace {

constexpr Field<ArchBreak> arch_break_fields[] = {
    {"medial", reading_in<&ArchBreak::medial>},
    {"lateral", reading_in<&ArchBreak::lateral>},
    {"across", figure_in<&ArchBreak::across>},
};

// Reads one value for both edges of the foot, or one for each edge.
void read_arch_break(ParseContext& context, const Entry& entry, Foot& foot) {
  context.forget_inside(entry);
  foot.arch_break = {};
  const Node& node = *entry.value;
  if (node.kind != NodeKind::map || has_key(node, "value"))
    return reading_in<&ArchBreak::centre>(context, entry, foot.arch_break);
  read_fields(context, entry, arch_break_fields, foot.arch_break);
  if (!has_key(node, "medial") && !has_key(node, "lateral"))
    context.error(entry, {.what = "neither edge's break is given",
                          .allowed = "one reading, or {medial: …, lateral: …, across: …}",
                          .advice = "write the break of the big-toe side as medial"});
}

ValueShape arch_break_shape(const std::string& inside) {
  ValueShape apart = shape_of(arch_break_fields, inside);
  apart.needed = {{"medial", "lateral"}};
  return either_shape({reading_shape(inside), std::move(apart)});
}

constexpr Field<Roll> roll_fields[] = {
    {"side", word_in<&Roll::side, roll_sides>},
    {"raise", figure_in<&Roll::raise>},
};

// Reads the side alone, or the side and the raise of the darning.
void read_roll(ParseContext& context, const Entry& entry, Foot& foot) {
  context.forget_inside(entry);
  foot.roll = {};
  if (entry.value->kind != NodeKind::map)
    return word_in<&Roll::side, roll_sides>(context, entry, foot.roll);
  read_fields(context, entry, roll_fields, foot.roll);
  if (!has_key(*entry.value, "side"))
    context.error(entry, {.what = "the side that the foot rolls to is missing",
                          .allowed = "in, out, none, or {side: in, raise: 3}",
                          .advice = "add side: in or side: out"});
}

ValueShape roll_shape(const std::string& inside) {
  ValueShape apart = shape_of(roll_fields, inside);
  apart.needed = {{"side"}};
  return either_shape({words_shape(names_of(roll_sides)), std::move(apart)});
}

// Reads the reading whose row of the guide has this key.
void read_by_guide(ParseContext& context, const Entry& entry, Foot& foot) {
  if (auto read = read_reading(context, entry))
    reading_guide(entry.inside)->in_foot.of(foot) = *std::move(read);
}

std::vector<Field<Foot>> all_fields() {
  std::vector<Field<Foot>> fields;
  for (const ReadingGuide& row : reading_guides()) {
    if (row.in_foot && !row.in_foot.is_of_arch_break())
      fields.push_back({row.key, {read_by_guide, [](const std::string& inside) {
                                    return reading_shape(inside);
                                  }}});
    if (row.key == "arch_break") fields.push_back({row.key, {read_arch_break, arch_break_shape}});
  }
  fields.push_back({"roll", {read_roll, roll_shape}});
  return fields;
}

} // namespace

std::span<const Field<Foot>> foot_fields() {
  static const std::vector<Field<Foot>> fields = all_fields();
  return fields;
}

} // namespace shankline
