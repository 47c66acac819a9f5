// How many cases to draw: under the sanitizers, which take ten times as long, a quarter of them.
// The optimized program tries them all on the same day.
#pragma once

namespace shankline::tests {

#if defined(__SANITIZE_ADDRESS__)
inline constexpr bool under_sanitizers = true;
#elif defined(__has_feature)
inline constexpr bool under_sanitizers = __has_feature(address_sanitizer);
#else
inline constexpr bool under_sanitizers = false;
#endif

constexpr int fewer_cases(int cases) {
  return under_sanitizers ? (cases + 3) / 4 : cases;
}

} // namespace shankline::tests
