// Describes which values may follow a key of an order file. Each reader of a value has its shape
// beside it, so the schema, which is written from the shapes, always agrees with the reader.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace shankline {

/// The allowed form of one value. Rules that need the whole order (which keys belong together) are
/// not part of it.
struct ValueShape {
  enum class Kind {
    number,  ///< one figure within the limits of `guide`
    repeats, ///< a number, or a list of repeats of it
    within,  ///< a half-width of doubt about a number of `guide`
    whole,   ///< a number without decimals
    words,   ///< one of `words`
    text,    ///< `least` to `most` characters
    flag,    ///< true or false
    map,     ///< a map with `keys`, of which `needed` are required
    own, ///< 1 to `most` keys of the user's own, each of 1 to `longest_key` characters, a text each
    list,   ///< `least` to `most` values, each like the one part
    row,    ///< a list of as many values as `parts`, each like its own
    either, ///< one of `parts`
  };
  using Key = std::pair<std::string, ValueShape>;

  Kind kind = Kind::text;
  std::string name{};  ///< set for a map that occurs several times; empty for all others
  std::string guide{}; ///< a row of the reading guide
  std::vector<std::string> words{};
  std::size_t least = 0;
  std::size_t most = 0;
  std::size_t longest_key = 0;
  std::vector<Key> keys{};
  /// Each inner list is a group of keys; at least one key of every group is required.
  std::vector<std::vector<std::string>> needed{};
  std::vector<ValueShape> parts{};
};

ValueShape number_shape(std::string_view guide);
ValueShape repeats_shape(std::string_view guide);
/// Allows a number, a list of repeats, or {value: …, within: …}.
ValueShape reading_shape(std::string_view guide);
ValueShape whole_shape(std::string_view guide);
ValueShape words_shape(std::vector<std::string> words);
ValueShape text_shape(std::size_t most);
ValueShape flag_shape();
/// Allows keys of the user's own with a text after each, up to so many characters and rows.
ValueShape own_words_shape(std::size_t longest_key, std::size_t longest_text,
                           std::size_t most_rows);
ValueShape list_shape(ValueShape item, std::size_t least, std::size_t most);
ValueShape row_shape(std::vector<ValueShape> parts);
ValueShape either_shape(std::vector<ValueShape> parts);
/// Allows a map with these `keys`; `needed` lists the groups of required keys.
ValueShape map_shape(std::vector<ValueShape::Key> keys,
                     std::vector<std::vector<std::string>> needed = {});

} // namespace shankline
