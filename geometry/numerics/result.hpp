// A value, or why there is none. The same words serve findings of the solver, messages about a file
// and functions that may fail.
#pragma once

#include <string>
#include <utility>
#include <variant>

namespace shankline {

/// A fault and its remedy, in words for the fitter. Parts may be empty.
struct Advice {
  std::string what;      ///< what was read, and why it cannot be or is unlikely
  std::string allowed{}; ///< what is allowed, with figures
  std::string advice{};  ///< what to do next

  bool operator==(const Advice&) const = default;
};

/// Like std::optional, with the reason where there is no value.
template <class T> class [[nodiscard]] Result {
public:
  Result(T value) : held_(std::in_place_index<0>, std::move(value)) {}
  Result(Advice why) : held_(std::in_place_index<1>, std::move(why)) {}

  explicit operator bool() const { return held_.index() == 0; }
  // Throw std::bad_variant_access where there is no value.
  const T& operator*() const& { return std::get<0>(held_); }
  T& operator*() & { return std::get<0>(held_); }
  T&& operator*() && { return std::get<0>(std::move(held_)); }
  const T* operator->() const { return &std::get<0>(held_); }
  T* operator->() { return &std::get<0>(held_); }

  /// Throws std::bad_variant_access where there is a value.
  const Advice& why() const { return std::get<1>(held_); }

private:
  std::variant<T, Advice> held_;
};

} // namespace shankline
