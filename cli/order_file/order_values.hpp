// Reads the values of an order: readings, figures, words, texts. Every figure is checked against
// the limits in the reading guide's row for its key.
#pragma once

#include "cli/order_file/parse_context.hpp"
#include "geometry/order/reading.hpp"

#include <algorithm>
#include <array>
#include <cstddef>
#include <iterator>
#include <optional>
#include <span>
#include <stdexcept>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace shankline {

/// The largest number of repeats of one reading.
inline constexpr std::size_t most_repeats = 50;

/// Reads a single number in the order's units (mm, radians, fractions, grams). Like all functions
/// below, it returns nullopt after reporting an error to the context.
std::optional<double> read_number(ParseContext& context, const Entry& entry);

/// Reads a number with the limits of another row of the guide than the entry's own.
std::optional<double> read_number(ParseContext& context, const Entry& entry,
                                  std::string_view guide_key);

/// Reads a number, or the mean of a list of repeats.
std::optional<double> read_figure(ParseContext& context, const Entry& entry);

/// Reads a number, a list of repeats, or {value: …, within: …}. Without `within` the doubt about
/// finding the place comes from the guide.
std::optional<Reading> read_reading(ParseContext& context, const Entry& entry);

/// Reads a number without decimals.
std::optional<int> read_whole(ParseContext& context, const Entry& entry);

/// Returns true if the value is a word where a figure would also be allowed.
bool is_word(const Entry& entry);

/// Reads one of `words` and returns its index. `also` names what else is allowed here, for the
/// error message.
std::optional<std::size_t> read_choice(ParseContext& context, const Entry& entry,
                                       std::span<const std::string_view> words,
                                       std::string_view also = {});

std::optional<bool> read_flag(ParseContext& context, const Entry& entry);

struct TextLimits {
  std::size_t characters;
  bool lines; ///< true if the text may have several lines
};

std::optional<std::string> read_text(ParseContext& context, const Entry& entry, TextLimits limits);

/// Returns true if the text is not empty, within its limits and free of control characters. For
/// texts that are not the value of a key.
bool is_allowed(std::string_view text, TextLimits limits);

/// Reports an error unless the value is one text or number. `wanted` says what is needed.
bool expect_scalar(ParseContext& context, const Entry& entry, std::string_view wanted);

template <class T> struct Word {
  std::string_view word;
  T meaning;
};

template <class T, std::size_t count>
std::vector<std::string> names_of(const Word<T> (&words)[count]) {
  std::vector<std::string> names;
  for (const Word<T>& word : words)
    names.emplace_back(word.word);
  return names;
}

/// Returns the first word for a meaning. Throws std::logic_error if it has none.
template <class T, std::size_t count>
std::string word_for(T meaning, const Word<T> (&words)[count]) {
  const auto found = std::find_if(std::begin(words), std::end(words),
                                  [&](const Word<T>& word) { return word.meaning == meaning; });
  if (found == std::end(words)) throw std::logic_error("a meaning without a word");
  return std::string(found->word);
}

template <class T, std::size_t count>
std::optional<T> read_word(ParseContext& context, const Entry& entry, const Word<T> (&words)[count],
                           std::string_view also = {}) {
  std::array<std::string_view, count> names;
  for (std::size_t i = 0; i < count; ++i)
    names[i] = words[i].word;
  const auto choice = read_choice(context, entry, names, also);
  return choice ? std::optional(words[*choice].meaning) : std::nullopt;
}

// Readers for the rows of a table: each one reads into one member of the table's struct.

template <class T> struct OwnerOf;
template <class T, class Value> struct OwnerOf<Value T::*> { using type = T; };
template <auto member> using Owner = typename OwnerOf<decltype(member)>::type;

template <auto member>
inline constexpr ValueReader<Owner<member>> reading_in{
    [](ParseContext& context, const Entry& entry, Owner<member>& into) {
      if (auto read = read_reading(context, entry)) into.*member = *std::move(read);
    },
    [](const std::string& inside) { return reading_shape(inside); }};

template <auto member>
inline constexpr ValueReader<Owner<member>> figure_in{
    [](ParseContext& context, const Entry& entry, Owner<member>& into) {
      if (const auto read = read_figure(context, entry)) into.*member = *read;
    },
    [](const std::string& inside) { return repeats_shape(inside); }};

template <auto member>
inline constexpr ValueReader<Owner<member>> whole_in{
    [](ParseContext& context, const Entry& entry, Owner<member>& into) {
      if (const auto read = read_whole(context, entry)) into.*member = *read;
    },
    [](const std::string& inside) { return whole_shape(inside); }};

template <auto member>
inline constexpr ValueReader<Owner<member>> flag_in{
    [](ParseContext& context, const Entry& entry, Owner<member>& into) {
      if (const auto read = read_flag(context, entry)) into.*member = *read;
    },
    [](const std::string&) { return flag_shape(); }};

template <auto member, const auto& words>
inline constexpr ValueReader<Owner<member>> word_in{
    [](ParseContext& context, const Entry& entry, Owner<member>& into) {
      if (const auto read = read_word(context, entry, words)) into.*member = *read;
    },
    [](const std::string&) { return words_shape(names_of(words)); }};

template <auto member, const auto& limits>
inline constexpr ValueReader<Owner<member>> text_in{
    [](ParseContext& context, const Entry& entry, Owner<member>& into) {
      if (auto read = read_text(context, entry, limits)) into.*member = *std::move(read);
    },
    [](const std::string&) { return text_shape(limits.characters); }};

template <class T> T& present(T& part) {
  return part;
}
template <class T> T& present(std::optional<T>& part) {
  return part ? *part : part.emplace();
}

/// Reads a map into a struct. Keys from an earlier part of the section stay unless they are given
/// again.
template <auto member, const auto& fields>
inline constexpr ValueReader<Owner<member>> structure_in{
    [](ParseContext& context, const Entry& entry, Owner<member>& into) {
      read_fields(context, entry, fields, present(into.*member));
    },
    [](const std::string& inside) { return shape_of(fields, inside); }};

} // namespace shankline
