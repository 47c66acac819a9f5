#include "geometry/strip/contact.hpp"

#include "geometry/strip/contact_figures.hpp"
#include "geometry/strip/contact_methods.hpp"

#include <algorithm>
#include <cmath>
#include <initializer_list>
#include <utility>

namespace shankline {
namespace {

bool finite(std::initializer_list<double> values) {
  for (const double v : values)
    if (!std::isfinite(v)) return false;
  return true;
}

constexpr double least_strip = 1e-3; // mm: of less there is nothing that bends

/// Why the problem itself is not valid; empty if it is.
std::string fault_of(const ContactProblem& p, const ContactOptions& options) {
  const Arch& a = p.arch;
  const Strip& s = p.strip;
  if (!finite({a.to_break, a.width_front, a.width_heel, a.bend, p.clamp, p.heel_front, p.end,
               s.board, s.sole, s.board_end, s.bevel, s.edge_ratio}))
    return "a number of the contact problem is not finite";
  if (!(a.width_front > 0) || !(a.width_heel > 0) || a.bend < 0)
    return "the arch needs widths above 0 and a bend that is not negative";
  if (!(p.heel_front - p.clamp > least_strip) || !(p.heel_front <= p.end))
    return "the clamp has to lie ahead of the heel front, and that ahead of the heel's end";
  if (!(s.sole > 0) || s.board < 0)
    return "the sole needs a stiffness above 0, the board one that is not negative";
  if (s.bevel < 0 || s.edge_ratio < 0 || s.edge_ratio > 1)
    return "a bevel has a length and leaves 0 to 1 of the thickness";
  if (s.thinned && (!finite({s.thinned->from, s.thinned->to, s.thinned->ratio, s.thinned->bevel}) ||
                    !(s.thinned->from < s.thinned->to) || s.thinned->ratio < 0 ||
                    s.thinned->ratio > 1 || s.thinned->bevel < 0))
    return "a thinned stretch runs towards the heel and leaves 0 to 1 of the thickness, and its "
           "bevel has a length";
  if (s.pre_arch && (!finite({s.pre_arch->to_break, s.pre_arch->width_front, s.pre_arch->width_heel,
                              s.pre_arch->bend}) ||
                     !(s.pre_arch->width_front > 0) || !(s.pre_arch->width_heel > 0)))
    return "the board's own arch needs widths above 0";
  for (const PullStretch& pull : p.pull)
    if (!finite({pull.from, pull.to, pull.at_from, pull.at_to}) || !(pull.from < pull.to) ||
        pull.at_from < 0 || pull.at_to < 0)
      return "a pull runs towards the heel and is not negative";
  if (options.cells < 8 || options.cells > 100000) return "curves have 8 to 100000 cells";
  if (options.programme_cells != 0 &&
      (options.programme_cells < 8 || options.programme_cells > most_programme_cells))
    return "a banded programme has 8 to " + std::to_string(most_programme_cells) + " cells";
  return {};
}

} // namespace

std::vector<PullStretch> even_pull(double per_length, double clamp, double heel_front) {
  return {{clamp, heel_front, per_length, per_length}};
}

ContactResult solve_contact(const ContactProblem& problem, const ContactOptions& options,
                            const ContactSolution* near) {
  ContactResult result;
  result.verdict.fault = fault_of(problem, options);
  if (!result.verdict.fault.empty()) return result;
  const StripIntegrals strip(problem.strip, problem.pull, problem.clamp, problem.end);
  std::shared_ptr<const FootTable> foot = foot_table(problem, options.cells, near);
  std::optional<ContactSolution> found;
  if (options.closed_form) found = one_lift(problem, strip, *foot, near, result.verdict);
  if (!found) {
    const int cells = options.programme_cells > 0
                          ? options.programme_cells
                          : std::min(2 * options.cells, most_programme_cells);
    found = on_mesh(problem, strip, cells, result.verdict);
  }
  if (!found) return result;
  found->figures = read_figures(problem, found->curves, found->forces);
  found->foot = std::move(foot);
  result.solution = std::move(found);
  return result;
}

std::vector<ContactResult> sweep_board_end(ContactProblem problem,
                                           std::span<const double> board_ends,
                                           const ContactOptions& options) {
  std::vector<ContactResult> results;
  results.reserve(board_ends.size());
  for (const double end : board_ends) {
    problem.strip.board_end = end;
    const ContactSolution* near = nullptr;
    if (!results.empty() && results.back().solution) near = &*results.back().solution;
    results.push_back(solve_contact(problem, options, near));
  }
  return results;
}

} // namespace shankline
