// Where each key of the order stands in its file, so that whatever is found wrong later can be
// shown at its place.
#pragma once

#include "cli/yaml/order_document.hpp"

#include <functional>
#include <map>
#include <string>
#include <string_view>
#include <utility>

namespace shankline {

struct KeyPlace {
  Place place;
  std::string written; ///< the key as the user wrote it: "feet.both.arch_break"
};

/// Keys are dotted paths; "" is what encloses them all.
class KeyPlaces {
public:
  void remember(const std::string& key, KeyPlace at) {
    places_.insert_or_assign(key, std::move(at));
  }
  /// Forgets a key and all that it encloses.
  void forget(std::string_view key);
  bool has(std::string_view key) const { return places_.find(key) != places_.end(); }

  /// The key itself, or the nearest enclosing key that stands in the file; `written` is completed
  /// by what is missing there.
  KeyPlace nearest(std::string_view key) const;

  /// Takes in all keys of a part under the key "feet.left" or the like.
  void take_in(const std::string& under, const KeyPlaces& part);

private:
  std::map<std::string, KeyPlace, std::less<>> places_;
};

/// "feet" and "left" give "feet.left"; an empty one is left out.
std::string joined_key(std::string_view outer, std::string_view inner);

} // namespace shankline
