#include "cli/order_file/order_feet.hpp"

#include "cli/order_file/order_values.hpp"
#include "cli/order_file/order_words.hpp"

namespace shankline {
namespace {

constexpr Field<ArchBreak> arch_break_fields[] = {
    {"medial", reading<&ArchBreak::medial>},
    {"lateral", reading<&ArchBreak::lateral>},
    {"across", figure<&ArchBreak::across>},
};

// One reading for both edges, or the edges apart.
void read_arch_break(Scribe& scribe, const Entry& entry, Foot& foot) {
  scribe.forget_inside(entry);
  foot.arch_break = {};
  const Node& node = *entry.value;
  if (node.kind != NodeKind::map || has_key(node, "value"))
    return reading<&ArchBreak::centre>(scribe, entry, foot.arch_break);
  read_fields(scribe, entry, arch_break_fields, foot.arch_break);
  if (!has_key(node, "medial") && !has_key(node, "lateral"))
    scribe.error(entry, {.what = "neither edge's break is given",
                         .allowed = "one reading, or {medial: …, lateral: …, across: …}",
                         .advice = "write the break of the big-toe side as medial"});
}

constexpr Field<Roll> roll_fields[] = {
    {"side", word<&Roll::side, roll_sides>},
    {"raise", figure<&Roll::raise>},
};

// The side alone, or with the raise of the darning.
void read_roll(Scribe& scribe, const Entry& entry, Foot& foot) {
  scribe.forget_inside(entry);
  foot.roll = {};
  if (entry.value->kind != NodeKind::map)
    return word<&Roll::side, roll_sides>(scribe, entry, foot.roll);
  read_fields(scribe, entry, roll_fields, foot.roll);
  if (!has_key(*entry.value, "side"))
    scribe.error(entry, {.what = "the side that the foot rolls to is missing",
                         .allowed = "in, out, none, or {side: in, raise: 3}",
                         .advice = "add side: in or side: out"});
}

constexpr Field<Foot> fields[] = {
    {"length", reading<&Foot::length>},
    {"ball_length", reading<&Foot::ball_length>},
    {"heel_front", reading<&Foot::heel_front>},
    {"arch_break", read_arch_break},
    {"arch_depth", reading<&Foot::arch_depth>},
    {"deepest", reading<&Foot::deepest>},
    {"arch_bend", reading<&Foot::arch_bend_rad>},
    {"fold", reading<&Foot::fold>},
    {"ankle_girth", reading<&Foot::ankle_girth>},
    {"ankle_height", reading<&Foot::ankle_height>},
    {"ball_width", reading<&Foot::ball_width>},
    {"heel_width", reading<&Foot::heel_width>},
    {"roll", read_roll},
};

} // namespace

std::span<const Field<Foot>> foot_fields() {
  return fields;
}

} // namespace shankline
