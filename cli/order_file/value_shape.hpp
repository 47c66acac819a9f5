// What may stand after a key of an order file. Each way to read a value has its shape beside it, so
// the schema that is written from the shapes cannot drift from the reader.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace shankline {

/// A value, without what only the whole order can tell (which keys belong together, say).
struct ValueShape {
  enum class Kind {
    number,  ///< one figure within the limits of `guide`
    repeats, ///< a number, or a list of repeats of it
    within,  ///< a half-width of doubt about a number of `guide`
    whole,   ///< a number without decimals
    words,   ///< one of `words`
    text,    ///< `least` to `most` characters
    flag,    ///< true or false
    map,     ///< `keys`, of which `needed` have to be there
    own, ///< 1 to `most` keys of the user's own, each of 1 to `longest_key` characters, a text each
    list,   ///< `least` to `most` values, each like the one part
    row,    ///< a list of as many values as `parts`, each like its own
    either, ///< one of `parts`
  };
  using Key = std::pair<std::string, ValueShape>;

  Kind kind = Kind::text;
  std::string name{};  ///< of a map that occurs several times; empty for the others
  std::string guide{}; ///< a row of the reading guide
  std::vector<std::string> words{};
  std::size_t least = 0;
  std::size_t most = 0;
  std::size_t longest_key = 0;
  std::vector<Key> keys{};
  /// Of each of these groups at least one key has to be there.
  std::vector<std::vector<std::string>> needed{};
  std::vector<ValueShape> parts{};
};

ValueShape number_shape(std::string_view guide);
ValueShape repeats_shape(std::string_view guide);
/// A number, a list of repeats, or {value: …, within: …}.
ValueShape reading_shape(std::string_view guide);
ValueShape whole_shape(std::string_view guide);
ValueShape words_shape(std::vector<std::string> words);
ValueShape text_shape(std::size_t most);
ValueShape flag_shape();
/// Keys of the user's own, a text after each; how many characters and rows at most.
ValueShape own_words_shape(std::size_t longest_key, std::size_t longest_text,
                           std::size_t most_rows);
ValueShape list_shape(ValueShape item, std::size_t least, std::size_t most);
ValueShape row_shape(std::vector<ValueShape> parts);
ValueShape either_shape(std::vector<ValueShape> parts);
/// `keys` without further ado; add to `needed` what has to be there.
ValueShape map_shape(std::vector<ValueShape::Key> keys,
                     std::vector<std::vector<std::string>> needed = {});

} // namespace shankline
