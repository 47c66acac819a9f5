#include "cli/order_file/key_places.hpp"

namespace shankline {

std::string joined_key(std::string_view outer, std::string_view inner) {
  std::string key(outer);
  if (!outer.empty() && !inner.empty()) key += '.';
  return key.append(inner);
}

void KeyPlaces::forget(std::string_view key) {
  const std::string inside = std::string(key) + '.';
  std::erase_if(places_, [&](const auto& entry) {
    return entry.first == key || entry.first.starts_with(inside);
  });
}

KeyPlace KeyPlaces::nearest(std::string_view key) const {
  for (std::string_view outer = key;;) {
    if (const auto found = places_.find(outer); found != places_.end()) {
      const std::string_view rest = key.substr(outer.empty() ? 0 : outer.size());
      const std::string_view missing = rest.starts_with('.') ? rest.substr(1) : rest;
      return {found->second.place, joined_key(found->second.written, missing)};
    }
    if (outer.empty()) return {{}, std::string(key)};
    const std::size_t dot = outer.rfind('.');
    outer = outer.substr(0, dot == std::string_view::npos ? 0 : dot);
  }
}

void KeyPlaces::take_in(const std::string& under, const KeyPlaces& part) {
  for (const auto& [key, at] : part.places_)
    remember(joined_key(under, key), at);
}

} // namespace shankline
