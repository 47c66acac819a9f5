// A try as it is typed in from a filled-in card: "58.5:good,worn,2026-04-02".
#pragma once

#include "geometry/numerics/result.hpp"

#include <string>
#include <string_view>

namespace shankline {

struct TypedTry {
  double end = 0;    ///< mm, as it was typed: cut off, or back from the witness line
  std::string seen;  ///< one of seen_words
  bool worn = false; ///< after wear; else at the barre
  std::string day;   ///< YYYY-MM-DD, or empty
};

inline constexpr const char* typed_try_form =
    "END:SEEN; add ,worn for a try after wear, and the day if it was not today, such as "
    "58.5:good,worn,2026-04-02";

Result<TypedTry> read_typed_try(std::string_view text);

} // namespace shankline
