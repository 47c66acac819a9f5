// Points in the JSON of the sheets' lines.
#pragma once

#include "geometry/plane/point.hpp"

#include <nlohmann/json.hpp>

namespace shankline::tests {

/// Reads [x, y]. Throws nlohmann::json::exception if the value is no pair of numbers.
inline Point point_of(const nlohmann::json& pair) {
  return {pair.at(0).get<double>(), pair.at(1).get<double>()};
}

} // namespace shankline::tests
