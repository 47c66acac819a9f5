// A closed outline moved inwards by the same distance all along.
#pragma once

#include "geometry/plane/point.hpp"

#include <optional>

namespace shankline {

/// Every edge moved inwards by `distance`, neighbours joined where they meet (a mitre; of a smooth
/// outline the vertices move along its normals). Edges that the distance eats are left out.
/// `outline` is simple and counter-clockwise; so is the result. Returns nullopt if the distance
/// uses up the whole, or a waist of it. A negative distance moves the edges outwards, corners
/// mitred.
std::optional<Polygon> inset(const Polygon& outline, double distance);

} // namespace shankline
