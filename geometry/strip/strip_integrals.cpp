#include "geometry/strip/strip_integrals.hpp"

#include "geometry/foot/arch_rise.hpp"
#include "geometry/numerics/gauss_rule.hpp"

#include <algorithm>
#include <cmath>

namespace shankline {
namespace {

double pull_at(const std::vector<PullStretch>& pull, double u) {
  double sum = 0;
  for (const PullStretch& p : pull)
    if (u > p.from && u < p.to)
      sum += p.at_from + (p.at_to - p.at_from) * (u - p.from) / (p.to - p.from);
  return sum;
}

/// Places where anything except the thickness changes.
std::vector<double> knots_of(const Strip& strip, const std::vector<PullStretch>& pull) {
  std::vector<double> knots;
  knots.reserve(2 * pull.size() + 3);
  for (const PullStretch& p : pull) {
    knots.push_back(p.from);
    knots.push_back(p.to);
  }
  if (strip.pre_arch)
    for (const double u :
         {arch_begin(*strip.pre_arch), strip.pre_arch->to_break, arch_end(*strip.pre_arch)})
      knots.push_back(u);
  std::sort(knots.begin(), knots.end());
  return knots;
}

} // namespace

StripIntegrals::StripIntegrals(const Strip& strip, const std::vector<PullStretch>& pull,
                               double clamp, double end)
    : strip_(strip), clamp_(clamp) {
  const std::vector<double> knots = knots_of(strip, pull);
  const std::vector<StripPiece> stretches = strip_pieces(strip, clamp, end);
  pieces_.reserve(stretches.size() + knots.size());
  for (const StripPiece& stretch : stretches) {
    double from = stretch.from;
    const auto add_up_to = [&](double to) {
      Piece piece = piece_of(stretch, pull, from, to);
      if (!pieces_.empty()) piece.start = within(pieces_.back(), from);
      pieces_.push_back(piece);
      from = to;
    };
    for (const double knot : knots)
      if (knot > from && knot < stretch.to) add_up_to(knot);
    add_up_to(stretch.to);
  }
}

StripIntegrals::Piece StripIntegrals::piece_of(const StripPiece& stretch,
                                               const std::vector<PullStretch>& pull, double from,
                                               double to) const {
  Piece piece{};
  piece.from = from;
  piece.to = to;
  piece.ratio_step = (stretch.ratio_to - stretch.ratio_from) / (stretch.to - stretch.from);
  piece.ratio = stretch.ratio_from + piece.ratio_step * (from - stretch.from);
  piece.even = std::abs(stretch.ratio_to - stretch.ratio_from) < 1e-12;
  const double board = strip_.board * piece.ratio * piece.ratio * piece.ratio;
  piece.compliance = 1 / (strip_.sole + board);
  piece.own_share = strip_.pre_arch ? board * piece.compliance : 0;
  // A straight line is known by two places inside, where nothing steps.
  const double first = pull_at(pull, from + 0.25 * (to - from));
  const double second = pull_at(pull, from + 0.75 * (to - from));
  piece.pull_step = 2 * (second - first) / (to - from);
  piece.pull = first - (second - first) / 2;
  return piece;
}

StripIntegral StripIntegrals::advance(const Piece& piece, const StripIntegral& sum, double from,
                                      double to) const {
  const double t = to - from;
  const double t2 = t * t / 2;
  const Step step{from, t, piece.pull + piece.pull_step * (from - piece.from)};
  StripIntegral r = sum;
  r.pull_force += step.pull * t + piece.pull_step * t2;
  r.pull_moment += sum.pull_force * t + step.pull * t2 + piece.pull_step * (t2 * t / 3);
  r.even_shape += sum.even_slope * t;
  r.lever_shape += sum.lever_slope * t;
  r.load_shape += sum.load_slope * t;
  if (piece.even)
    bend_evenly(piece, sum, step, r);
  else
    bend_unevenly(piece, sum, step, r);
  return r;
}

/// One compliance all along: polynomials.
void StripIntegrals::bend_evenly(const Piece& piece, const StripIntegral& sum, const Step& step,
                                 StripIntegral& r) const {
  const double c = piece.compliance;
  const double t = step.length;
  const double t2 = t * t / 2;
  const double t3 = t2 * t / 3;
  const double t4 = t3 * t / 4;
  const double t5 = t4 * t / 5;
  const double s0 = step.from - clamp_;
  r.even_slope += c * t;
  r.even_shape += c * t2;
  r.lever_slope += c * (s0 * t + t2);
  r.lever_shape += c * (s0 * t2 + t3);
  r.load_slope -=
      c * (sum.pull_moment * t + sum.pull_force * t2 + step.pull * t3 + piece.pull_step * t4);
  r.load_shape -=
      c * (sum.pull_moment * t2 + sum.pull_force * t3 + step.pull * t4 + piece.pull_step * t5);
  if (piece.own_share > 0) {
    const ArchRise a = arch_rise(*strip_.pre_arch, step.from);
    const ArchRise b = arch_rise(*strip_.pre_arch, step.from + t);
    r.load_slope += piece.own_share * (b.angle - a.angle);
    r.load_shape += piece.own_share * (b.rise - a.rise - a.angle * t);
  }
}

/// The thickness changes: by Gauss's rule.
void StripIntegrals::bend_unevenly(const Piece& piece, const StripIntegral& sum, const Step& step,
                                   StripIntegral& r) const {
  const double t = step.length;
  const double s0 = step.from - clamp_;
  for (const GaussPlace& place : gauss_of_four) {
    const double v = t / 2 * (1 + place.at);
    const double ratio = piece.ratio + piece.ratio_step * (step.from - piece.from + v);
    const double board = strip_.board * ratio * ratio * ratio;
    const double w = t / 2 * place.weight / (strip_.sole + board);
    const double moment =
        sum.pull_moment + v * (sum.pull_force + v * (step.pull / 2 + v * piece.pull_step / 6));
    double load = -w * moment;
    if (strip_.pre_arch) load += w * board * curvature(*strip_.pre_arch, step.from + v);
    r.even_slope += w;
    r.even_shape += w * (t - v);
    r.lever_slope += w * (s0 + v);
    r.lever_shape += w * (s0 + v) * (t - v);
    r.load_slope += load;
    r.load_shape += load * (t - v);
  }
}

StripIntegral StripIntegrals::within(const Piece& piece, double u) const {
  if (piece.even) return advance(piece, piece.start, piece.from, u);
  constexpr double longest = 2; // mm at a time
  const int parts = 1 + static_cast<int>((u - piece.from) / longest);
  const double step = (u - piece.from) / parts;
  StripIntegral sum = piece.start;
  for (int i = 0; i < parts; ++i)
    sum = advance(piece, sum, piece.from + i * step, piece.from + (i + 1) * step);
  return sum;
}

StripIntegral StripIntegrals::at(double u) const {
  std::size_t i = pieces_.size() - 1;
  while (i > 0 && u < pieces_[i].from)
    --i;
  return within(pieces_[i], u);
}

} // namespace shankline
