// The kinds of value that an order holds: readings, figures, words, texts. Every figure is held
// against the row of its key in the reading guide.
#pragma once

#include "cli/order_file/order_scribe.hpp"
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

namespace shankline {

/// A single number in the order's units (mm, radians, fractions, grams). Complaints are written by
/// the scribe; nothing comes back then. The same holds for all that follow.
std::optional<double> read_number(Scribe& scribe, const Entry& entry);

/// The same against another row of the guide than the entry's own.
std::optional<double> read_number(Scribe& scribe, const Entry& entry, std::string_view guide_key);

/// A number, or the mean of a list of repeats.
std::optional<double> read_figure(Scribe& scribe, const Entry& entry);

/// A number, a list of repeats, or {value: …, within: …}; without `within` the doubt of finding the
/// place is the guide's.
std::optional<Reading> read_reading(Scribe& scribe, const Entry& entry);

/// A number without decimals.
std::optional<int> read_whole(Scribe& scribe, const Entry& entry);

/// Whether the fitter chose a word where a figure could stand as well.
bool is_word(const Entry& entry);

/// Which of the words it is; `also` is what else could stand here, for the complaint.
std::optional<std::size_t> read_choice(Scribe& scribe, const Entry& entry,
                                       std::span<const std::string_view> words,
                                       std::string_view also = {});

std::optional<bool> read_flag(Scribe& scribe, const Entry& entry);

struct TextLimits {
  std::size_t characters;
  bool lines; ///< whether it may run over several lines
};

std::optional<std::string> read_text(Scribe& scribe, const Entry& entry, TextLimits limits);

/// Complains unless it is one text or number.
bool expect_scalar(Scribe& scribe, const Entry& entry, std::string_view wanted);

template <class T> struct Word {
  std::string_view word;
  T meaning;
};

/// The first word of a meaning, which has one.
template <class T, std::size_t count>
std::string word_for(T meaning, const Word<T> (&words)[count]) {
  const auto found = std::find_if(std::begin(words), std::end(words),
                                  [&](const Word<T>& word) { return word.meaning == meaning; });
  if (found == std::end(words)) throw std::logic_error("a meaning without a word");
  return std::string(found->word);
}

template <class T, std::size_t count>
std::optional<T> read_word(Scribe& scribe, const Entry& entry, const Word<T> (&words)[count],
                           std::string_view also = {}) {
  std::array<std::string_view, count> names;
  for (std::size_t i = 0; i < count; ++i)
    names[i] = words[i].word;
  const auto choice = read_choice(scribe, entry, names, also);
  return choice ? std::optional(words[*choice].meaning) : std::nullopt;
}

// How a table's row reads straight into a member of its struct.

template <auto member, class T> void reading(Scribe& scribe, const Entry& entry, T& into) {
  if (auto read = read_reading(scribe, entry)) into.*member = *std::move(read);
}

template <auto member, class T> void figure(Scribe& scribe, const Entry& entry, T& into) {
  if (const auto read = read_figure(scribe, entry)) into.*member = *read;
}

template <auto member, class T> void flag(Scribe& scribe, const Entry& entry, T& into) {
  if (const auto read = read_flag(scribe, entry)) into.*member = *read;
}

template <auto member, const auto& words, class T>
void word(Scribe& scribe, const Entry& entry, T& into) {
  if (const auto read = read_word(scribe, entry, words)) into.*member = *read;
}

template <auto member, const auto& limits, class T>
void text(Scribe& scribe, const Entry& entry, T& into) {
  if (auto read = read_text(scribe, entry, limits)) into.*member = *std::move(read);
}

template <class T> T& present(T& part) {
  return part;
}
template <class T> T& present(std::optional<T>& part) {
  return part ? *part : part.emplace();
}

/// A map of structure: keys that an earlier part of the section gave stay unless given again.
template <auto member, const auto& fields, class T>
void structure(Scribe& scribe, const Entry& entry, T& into) {
  read_fields(scribe, entry, fields, present(into.*member));
}

} // namespace shankline
