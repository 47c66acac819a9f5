#include "geometry/strip/contact_mesh.hpp"

#include "geometry/numerics/hermite.hpp"
#include "geometry/strip/contact_methods.hpp"

#include <algorithm>
#include <utility>

namespace shankline {
namespace {

constexpr int coarsest = 22; // nodes: few enough to find the contact without a set to begin with

/// A place between two coarse nodes is held where both are.
std::vector<char> refined(const std::vector<char>& coarse, std::size_t size) {
  std::vector<char> fine(size);
  for (std::size_t i = 0; i < size; ++i) { // node i + 1; coarse node (i + 1)/2
    const std::size_t node = i + 1;
    const auto held = [&](std::size_t k) {
      return k == 0 || k > coarse.size() || coarse[k - 1] != 0;
    };
    fine[i] = node % 2 == 0 ? held(node / 2) : held(node / 2) && held(node / 2 + 1);
  }
  return fine;
}

/// Gaps between the nodes: a cubic with differences for slopes. Node 0 is the clamp.
class GapOnMesh {
public:
  GapOnMesh(const std::vector<double>& behind_clamp, double step)
      : gap_(behind_clamp), step_(step), last_(behind_clamp.size()) {}

  double at(std::size_t node) const { return node == 0 ? 0 : std::max(0.0, gap_[node - 1]); }
  double slope(std::size_t node) const {
    if (node == 0) return 0.0;
    if (node == last_) return (3 * at(node) - 4 * at(node - 1) + at(node - 2)) / (2 * step_);
    return (at(node + 1) - at(node - 1)) / (2 * step_);
  }
  double between(std::size_t node, double share) const {
    return std::max(
        0.0, hermite({at(node), slope(node)}, {at(node + 1), slope(node + 1)}, step_, share));
  }

private:
  const std::vector<double>& gap_;
  double step_;
  std::size_t last_;
};

/// Bending moments at every node from the clamp to the free end, N mm.
std::vector<double> moments_to_end(const ContactMesh& mesh, const ProgrammeSolution& found) {
  std::vector<double> moment = mesh_moments(mesh, found.x);
  // If the first node is off the foot, balance gives the clamp's moment. If it is held, the moment
  // is a mean over half a hat, whose centre lies a third of a step ahead: extrapolate to the clamp.
  if (found.held[0]) moment[0] -= (moment[1] - moment[0]) / 2;
  moment.push_back(0);
  return moment;
}

ContactCurves curves_on(const ContactProblem& problem, const StripIntegrals& strip,
                        const ContactMesh& mesh, const ProgrammeSolution& found) {
  const std::size_t n = found.x.size();
  const GapOnMesh gap(found.x, mesh.step);
  const std::vector<double> moment = moments_to_end(mesh, found);
  ContactCurves c;
  const auto put = [&](double u, Side side) {
    const double place = std::clamp((u - mesh.clamp) / mesh.step, 0.0, static_cast<double>(n));
    const std::size_t i = std::min(static_cast<std::size_t>(place), n - 1);
    const double t = place - static_cast<double>(i);
    c.u.push_back(u);
    c.gap.push_back(gap.between(i, t));
    c.slope.push_back(gap.slope(i) + t * (gap.slope(i + 1) - gap.slope(i)));
    c.moment.push_back(moment[i] + t * (moment[i + 1] - moment[i]));
    c.foot.push_back(curvature(problem.arch, u));
    c.curvature.push_back(own_curvature(problem.strip, u, side) +
                          c.moment.back() / bending_stiffness(problem.strip, u, side));
  };
  const auto place_of = [&](std::size_t node) {
    return mesh.clamp + mesh.step * static_cast<double>(node);
  };
  std::size_t node = 1;
  for (const StripIntegrals::Piece& piece : strip.pieces()) {
    put(piece.from, Side::heel);
    for (; node < n && place_of(node) < piece.to; ++node)
      put(place_of(node), Side::heel);
    put(piece.to, Side::ball);
  }
  return c;
}

ContactSolution solution_on(const ContactProblem& problem, const StripIntegrals& strip,
                            const ContactMesh& mesh, const ProgrammeSolution& found) {
  ContactSolution solution;
  solution.curves = curves_on(problem, strip, mesh, found);
  const std::size_t n = found.x.size(); // nodes behind the clamp
  double last_gap = problem.clamp;
  for (std::size_t i = 0; i < n; ++i) {
    const double u = mesh.clamp + mesh.step * static_cast<double>(i + 1);
    if (found.held[i] && found.force[i] > 0) solution.forces.push_back({u, found.force[i]});
    if (!found.held[i]) last_gap = u;
  }
  std::size_t first = 0;
  while (first < n && found.held[first])
    ++first;
  solution.lifts_at = problem.clamp + mesh.step * static_cast<double>(first);
  solution.touches_at = std::min(problem.end, last_gap + mesh.step);
  return solution;
}

/// 1/B, κ − κ₀ and p, each integrated twice from the clamp: their second differences are averages
/// with the hats of the nodes.
class TwiceIntegrated {
public:
  TwiceIntegrated(const ContactProblem& problem, const StripIntegrals& strip)
      : arch_(problem.arch), clamp_(problem.clamp), strip_(strip), begin_(arch_rise(arch_, clamp_)),
        unloaded_(of_pre_arch(problem)) {}

  struct At {
    double compliance, foot, pull;
  };
  At operator()(double from_clamp) const {
    const double u = clamp_ + from_clamp;
    const StripIntegral integral = strip_.at(u);
    double foot = arch_rise(arch_, u).rise - begin_.rise - begin_.angle * from_clamp;
    if (unloaded_) foot -= unloaded_->at(u).load_shape;
    return {integral.even_shape, foot, integral.pull_moment};
  }

private:
  static std::optional<StripIntegrals> of_pre_arch(const ContactProblem& problem) {
    if (!problem.strip.pre_arch) return {};
    return StripIntegrals(problem.strip, {}, problem.clamp, problem.end);
  }

  const Arch& arch_;
  double clamp_;
  const StripIntegrals& strip_;
  ArchRise begin_;
  std::optional<StripIntegrals> unloaded_;
};

/// B, κ − κ₀ and the loads, averaged over each node's hat.
void average(ContactMesh& mesh, const ContactProblem& problem, const StripIntegrals& strip) {
  const std::size_t n = mesh.bending.size();
  const double h = mesh.step;
  std::vector<double>& load = mesh.programme.linear;
  const TwiceIntegrated twice(problem, strip);
  TwiceIntegrated::At before{};
  TwiceIntegrated::At here{};
  TwiceIntegrated::At next = twice(h);
  // The clamp's half cell: the gap is mirrored there.
  mesh.bending[0] = h * h / 2 / next.compliance;
  mesh.foot[0] = 2 / (h * h) * next.foot;
  for (std::size_t i = 1; i < n; ++i) {
    before = here;
    here = next;
    next = twice(h * static_cast<double>(i + 1));
    mesh.bending[i] = h * h / (before.compliance - 2 * here.compliance + next.compliance);
    mesh.foot[i] = (before.foot - 2 * here.foot + next.foot) / (h * h);
    load[i - 1] += (before.pull - 2 * here.pull + next.pull) / h;
  }
  // Half a hat at the free end.
  load[n - 1] += strip.at(problem.end).pull_force - (next.pull - here.pull) / h;
}

/// Energy ½ Σ w B (d + κ)², d = (1, −2, 1)·g/h²; at the clamp d = 2 g₁/h² and w = h/2.
void add_bending_energy(ContactMesh& mesh) {
  BandedProgramme& p = mesh.programme;
  const double h = mesh.step;
  const double h3 = h * h * h;
  p.diagonal[0] += 2 * mesh.bending[0] / h3;
  p.linear[0] += mesh.bending[0] * mesh.foot[0] / h;
  for (std::size_t i = 1; i < p.size(); ++i) { // nodes i − 1, i, i + 1 are unknowns i − 2, i − 1, i
    const double b = mesh.bending[i] / h3;
    const double load = mesh.bending[i] * mesh.foot[i] / h;
    p.diagonal[i - 1] += 4 * b;
    p.linear[i - 1] -= 2 * load;
    p.diagonal[i] += b;
    p.beside[i - 1] -= 2 * b;
    p.linear[i] += load;
    if (i < 2) continue;
    p.diagonal[i - 2] += b;
    p.beside[i - 2] -= 2 * b;
    p.beyond[i - 2] += b;
    p.linear[i - 2] += load;
  }
}

} // namespace

ContactMesh contact_mesh(const ContactProblem& problem, const StripIntegrals& strip, int cells) {
  const auto n = static_cast<std::size_t>(cells);
  ContactMesh mesh;
  mesh.clamp = problem.clamp;
  mesh.step = (problem.end - problem.clamp) / cells;
  mesh.bending.resize(n);
  mesh.foot.resize(n);
  mesh.programme.diagonal.assign(n, 0);
  mesh.programme.beside.assign(n - 1, 0);
  mesh.programme.beyond.assign(n - 2, 0);
  mesh.programme.linear.assign(n, 0);
  average(mesh, problem, strip);
  add_bending_energy(mesh);
  return mesh;
}

std::vector<double> mesh_moments(const ContactMesh& mesh, const std::vector<double>& gap) {
  const std::size_t n = gap.size();
  const double h2 = mesh.step * mesh.step;
  std::vector<double> moment;
  moment.reserve(n + 1);
  moment.push_back(mesh.bending[0] * (mesh.foot[0] + 2 * gap[0] / h2));
  for (std::size_t i = 1; i < n; ++i) {
    const double second = (i < 2 ? 0 : gap[i - 2]) - 2 * gap[i - 1] + gap[i];
    moment.push_back(mesh.bending[i] * (mesh.foot[i] + second / h2));
  }
  return moment;
}

std::optional<ContactSolution> on_mesh(const ContactProblem& problem, const StripIntegrals& strip,
                                       int cells, ContactVerdict& verdict) {
  verdict.method = ContactMethod::active_set;
  verdict.inequality =
      "largest of -g/max g, -contact force/largest and the lesser of both at a node";
  verdict.limit = programme_tolerance;
  verdict.converged = false;
  int doublings = 0;
  while ((cells >> doublings) > coarsest && (cells >> doublings) % 2 == 0)
    ++doublings;
  std::vector<char> held;
  ProgrammeSolution found;
  ContactMesh mesh;
  for (; doublings >= 0; --doublings) {
    mesh = contact_mesh(problem, strip, cells >> doublings);
    held = held.empty() ? std::vector<char>(mesh.programme.size())
                        : refined(held, mesh.programme.size());
    found = solve_active_set(mesh.programme, std::move(held));
    verdict.steps += found.steps;
    held = found.held;
  }
  if (!found.converged) {
    verdict.method = ContactMethod::interior_point;
    found = solve_interior_point(mesh.programme);
    verdict.steps += found.steps;
  }
  verdict.value = found.residual;
  verdict.converged = found.converged;
  if (!found.converged) return {};
  return solution_on(problem, strip, mesh, found);
}

} // namespace shankline
