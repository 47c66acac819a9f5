// Reads a section of the order (feet, shoe, alterations): the values for both feet, and those that
// one foot overrides.
#pragma once

#include "cli/order_file/parse_context.hpp"
#include "geometry/order/order.hpp"

#include <algorithm>
#include <optional>
#include <span>
#include <utility>
#include <vector>

namespace shankline {

/// Holds the values of a section for one foot: the shared keys and the foot's own keys merged.
template <class T> struct FootPart {
  T value;
  KeyPlaces places;
  std::optional<KeyPlace> own; ///< where the foot's own part begins
};

template <class T> struct Section {
  bool shared = false; ///< true if any key applies to both feet
  FootPart<T> left;
  FootPart<T> right;

  const FootPart<T>& of(FootSide side) const { return side == FootSide::left ? left : right; }
};

inline constexpr std::string_view part_keys[] = {"both", "left", "right"};

/// Reports an error for each key that the section gives directly and again under `both`.
void refuse_said_twice(ParseContext& context, const Entry& section);

/// Returns the last member with that key, or null: of two repeated keys the later one is read.
const Member* find_member(const Node& map, std::string_view key);

/// Reads a section whose keys stand in it directly (for both feet), or under `both`, `left` and
/// `right`.
template <class T>
ValueShape section_shape(std::string_view name, std::span<const Field<T>> fields) {
  ValueShape part = shape_of(fields, {});
  ValueShape section = part;
  part.name = name;
  for (const std::string_view key : part_keys)
    section.keys.emplace_back(key, part);
  return section;
}

template <class T> class SectionReader {
public:
  SectionReader(const ParseContext& context, Entry section, std::span<const Field<T>> fields)
      : context_(context), section_(std::move(section)), fields_(fields),
        keys_(keys_of<T>(fields)) {
    section_.inside.clear();
    keys_.insert(keys_.end(), std::begin(part_keys), std::end(part_keys));
  }

  Section<T> read() {
    Section<T> section;
    if (!context_.expect_map(section_, keys_)) return section;
    FootPart<T> shared;
    const bool direct = read_direct(shared);
    const bool both = read_part("both", shared).has_value();
    section.shared = direct || both;
    refuse_said_twice(context_, section_);
    section.left = section.right = std::move(shared);
    section.left.own = read_part("left", section.left);
    section.right.own = read_part("right", section.right);
    return section;
  }

private:
  // Reads the keys that stand directly in the section. Returns true if there are any.
  bool read_direct(FootPart<T>& into) {
    ParseContext context = context_.with_places(into.places);
    context.remember(section_);
    bool any = false;
    for (const Member& member : section_.value->members) {
      if (std::find(std::begin(part_keys), std::end(part_keys), member.key) != std::end(part_keys))
        continue;
      any = true;
      read_member(context, section_, member, fields_, keys_, into.value);
    }
    return any;
  }

  std::optional<KeyPlace> read_part(std::string_view key, FootPart<T>& into) {
    const Member* member = find_member(*section_.value, key);
    if (!member) return std::nullopt;
    ParseContext context = context_.with_places(into.places);
    Entry part = section_.member(*member);
    part.inside.clear();
    context.remember(part);
    if (context.expect_something(part)) read_fields(context, part, fields_, into.value);
    return KeyPlace{member->place, part.written};
  }

  ParseContext context_;
  Entry section_;
  std::span<const Field<T>> fields_;
  std::vector<std::string_view> keys_;
};

} // namespace shankline
