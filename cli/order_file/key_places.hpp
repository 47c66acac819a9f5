// Remembers the line and column of each key of an order, so that a later error can point to them.
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

/// Keys are dotted paths; "" is the whole file.
class KeyPlaces {
public:
  void remember(const std::string& key, KeyPlace at) {
    places_.insert_or_assign(key, std::move(at));
  }
  /// Forgets a key and all keys inside it.
  void forget(std::string_view key);
  bool has(std::string_view key) const { return places_.find(key) != places_.end(); }

  /// Returns the place of the key, or of the nearest enclosing key in the file. The missing part of
  /// the path is appended to `written`.
  KeyPlace nearest(std::string_view key) const;

  /// Adds all keys of `part` below the key `under`, such as "feet.left".
  void take_in(const std::string& under, const KeyPlaces& part);

private:
  std::map<std::string, KeyPlace, std::less<>> places_;
};

/// Joins two keys with a dot: "feet" and "left" give "feet.left". Empty keys are left out.
std::string joined_key(std::string_view outer, std::string_view inner);

} // namespace shankline
