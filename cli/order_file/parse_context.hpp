// Fills the order's structs from the file's tree. Each struct has a table of keys and their
// readers. The context, which all readers share, records the place of each key and collects all
// errors.
#pragma once

#include "cli/order_file/key_places.hpp"
#include "cli/order_file/value_shape.hpp"
#include "cli/text/message.hpp"
#include "cli/yaml/order_document.hpp"

#include <algorithm>
#include <span>
#include <stdexcept>
#include <string>
#include <string_view>
#include <type_traits>
#include <utility>
#include <vector>

namespace shankline {

/// One value of the file on its way into the order.
struct Entry {
  const Node* value = nullptr;
  Place key_place;
  std::string written; ///< the key as the user wrote it: "feet.both.arch_break"
  std::string inside;  ///< the key inside its section, as in the reading guide: "arch_break"

  Entry member(const Member& member) const;
  /// An item of a list has the list's key.
  Entry item(const Node& node) const;
};

class ParseContext {
public:
  ParseContext(const std::string& file, std::vector<Message>& messages, KeyPlaces& places)
      : file_(&file), messages_(&messages), places_(&places) {}

  /// Returns a context that writes to the same messages and remembers keys in `places`.
  ParseContext with_places(KeyPlaces& places) const { return {*file_, *messages_, places}; }

  void remember(const Entry& entry);
  /// Forgets the keys inside this one that an earlier part of the section gave: the new value
  /// replaces them all.
  void forget_inside(const Entry& entry);
  KeyPlaces& places() { return *places_; }

  void error(const Entry& entry, Advice why);
  void error(const KeyPlace& at, Advice why);
  void caution(const KeyPlace& at, Advice why);

  /// Reports an error and returns false unless the entry is a map. `keys` are those allowed in it.
  bool expect_map(const Entry& entry, std::span<const std::string_view> keys);
  void unknown_key(const Entry& map, const Member& member, std::span<const std::string_view> keys);
  /// Reports an error and returns false if no value follows the key.
  bool expect_something(const Entry& entry);

private:
  void write(Severity severity, const KeyPlace& at, Advice why);

  const std::string* file_;
  std::vector<Message>* messages_;
  KeyPlaces* places_;
};

/// Returns "did you mean 'heel_front'?", or `otherwise` if no known word is similar.
std::string did_you_mean(std::string_view word, std::span<const std::string_view> known,
                         std::string otherwise);

/// Returns "a list", "a set of keys" and the like, for messages such as "…, and … was read".
std::string_view kind_in_words(NodeKind kind);

/// Reads a value into a T; `shape` says what the value may look like, for the schema.
template <class T> struct ValueReader {
  using Read = void (*)(ParseContext& context, const Entry& entry, T& into);
  /// `inside` is the entry's key, which is its row of the reading guide.
  using Shape = ValueShape (*)(const std::string& inside);

  constexpr ValueReader(Read function, Shape shape_function = nullptr)
      : read(function), shape(shape_function) {}
  void operator()(ParseContext& context, const Entry& entry, T& into) const {
    read(context, entry, into);
  }

  Read read;
  Shape shape; ///< null where no schema is written of such files
};

template <class T> struct Field {
  std::string_view key;
  ValueReader<T> reader;
};

template <class T> using Fields = std::type_identity_t<std::span<const Field<T>>>;

template <class T> std::vector<std::string_view> keys_of(std::span<const Field<T>> fields) {
  std::vector<std::string_view> keys;
  for (const Field<T>& field : fields)
    keys.push_back(field.key);
  return keys;
}

/// Reads one key of a map; `keys` are those allowed in it.
template <class T>
void read_member(ParseContext& context, const Entry& map, const Member& member, Fields<T> fields,
                 std::span<const std::string_view> keys, T& into) {
  const auto field = std::find_if(fields.begin(), fields.end(),
                                  [&](const Field<T>& f) { return f.key == member.key; });
  if (field == fields.end()) return context.unknown_key(map, member, keys);
  const Entry entry = map.member(member);
  context.remember(entry);
  if (context.expect_something(entry)) field->reader.read(context, entry, into);
}

template <class T>
void read_fields(ParseContext& context, const Entry& map, Fields<T> fields, T& into) {
  const auto keys = keys_of<T>(fields);
  if (!context.expect_map(map, keys)) return;
  for (const Member& member : map.value->members)
    read_member(context, map, member, fields, keys, into);
}

/// Returns the shape of a map with these keys; `inside` is the key of the map. Throws
/// std::logic_error for a key whose reader has no shape.
template <class Table> ValueShape shape_of(const Table& fields, const std::string& inside) {
  std::vector<ValueShape::Key> keys;
  for (const auto& field : fields) {
    if (!field.reader.shape) throw std::logic_error("no shape for " + std::string(field.key));
    keys.emplace_back(field.key, field.reader.shape(joined_key(inside, field.key)));
  }
  return map_shape(std::move(keys));
}

} // namespace shankline
