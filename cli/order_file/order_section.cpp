#include "cli/order_file/order_section.hpp"

namespace shankline {

const Member* find_member(const Node& map, std::string_view key) {
  const auto found = std::find_if(map.members.rbegin(), map.members.rend(),
                                  [key](const Member& member) { return member.key == key; });
  return found == map.members.rend() ? nullptr : &*found;
}

void refuse_said_twice(ParseContext& context, const Entry& section) {
  const Member* both = find_member(*section.value, "both");
  if (!both) return;
  for (const Member& member : both->value.members) {
    const Member* direct = find_member(*section.value, member.key);
    if (!direct) continue;
    const std::string first = joined_key(section.written, member.key);
    context.error(
        KeyPlace{member.place, joined_key(joined_key(section.written, "both"), member.key)},
        {.what = "holds for both feet, and so does " + first + " in line " +
                 std::to_string(direct->place.line),
         .advice = "keep one of the two"});
  }
}

} // namespace shankline
