// The two ways to solve the contact programme: a closed form with its certificate, and a mesh.
#pragma once

#include "geometry/strip/contact.hpp"

#include "geometry/foot/arch_rise.hpp"

#include <memory>
#include <optional>

namespace shankline {

/// The foot at evenly spaced stations from the clamp to the end.
struct FootTable {
  Arch arch;
  double clamp; ///< u, mm
  double end;   ///< u, mm
  ArchRises rises;
};
/// Returns the table of `near` if that is of the same foot.
std::shared_ptr<const FootTable> foot_table(const ContactProblem& problem, int cells,
                                            const ContactSolution* near);

/// One stretch off the foot, from a place a (the clamp, mostly) to a place c, and on the foot ahead
/// of a and behind c; or touching with the very end only. Off the foot the moment is α + β s −
/// S(s); g = g′ = 0 at c fixes α and β, and the moment at c has to be what the foot's own shape
/// asks of a strip that lies on it: one scalar root, and a second of the same kind where the strip
/// lies on the foot behind the clamp. The programme is convex, so whatever passes the certificate
/// (g ≥ 0 and λ ≥ 0 all along) is *the* solution. Returns nullopt if it does not pass. Adds its
/// steps to the verdict. No figures yet.
std::optional<ContactSolution> one_lift(const ContactProblem& problem, const StripIntegrals& strip,
                                        const FootTable& foot, const ContactSolution* near,
                                        ContactVerdict& verdict);

/// Finite differences, solved by active sets from coarse to fine, by an interior point where that
/// gives up; nullopt if neither converges. The figures are not filled in.
std::optional<ContactSolution> on_mesh(const ContactProblem& problem, const StripIntegrals& strip,
                                       int cells, ContactVerdict& verdict);

} // namespace shankline
