// The contact programme on evenly spaced nodes: finite differences of the gap.
#pragma once

#include "geometry/numerics/banded_programme.hpp"
#include "geometry/strip/contact.hpp"

#include <vector>

namespace shankline {

/// The unknowns are the gaps at the nodes behind the clamp; `bending` has one entry more, the
/// clamp's own. Between nodes curvature and compliance are averaged with the hat of each node, so
/// that the second difference of a gap is exactly the average of its curvature and a soft stretch
/// counts by how much it gives (harmonically): B at a node is never sampled.
struct ContactMesh {
  double clamp = 0;            ///< u, mm
  double step = 0;             ///< mm between nodes
  std::vector<double> bending; ///< B, N·mm²
  std::vector<double> foot;    ///< κ − κ₀, 1/mm
  BandedProgramme programme;
};
ContactMesh contact_mesh(const ContactProblem& problem, const StripIntegrals& strip, int cells);

/// B (κ + g″ − κ₀) at every node from the clamp to the last but one.
std::vector<double> mesh_moments(const ContactMesh& mesh, const std::vector<double>& gap);

} // namespace shankline
