#include "geometry/strip/contact_methods.hpp"

#include <algorithm>
#include <array>
#include <boost/math/tools/roots.hpp>
#include <cmath>
#include <cstdint>
#include <utility>

namespace shankline {
namespace {

constexpr double certificate_limit = 1e-9;
constexpr std::string_view certificate =
    "largest of -g/max g, -contact force/its size and moment left at the contact/largest moment";

/// Root of a function that falls from not negative to not positive over [from, to]. A guess is
/// followed outwards until it is enclosed. Beside bracketed_root because sweeps spend their time
/// here: no std::function, and no nearer than the certificate needs, which judges what comes out.
template <class F>
std::optional<double> falling_root(const F& f, double from, double to,
                                   std::optional<double> guess) {
  double low = from;
  double high = to;
  double f_low, f_high;
  if (guess && *guess > from && *guess < to) {
    double inner = *guess;
    double f_inner = f(inner);
    const double direction = f_inner > 0 ? 1 : -1;
    double width = 0.25;
    for (;;) {
      const double outer = std::clamp(inner + direction * width, from, to);
      const double f_outer = f(outer);
      if (f_outer * direction <= 0) {
        low = std::min(inner, outer);
        high = std::max(inner, outer);
        f_low = direction > 0 ? f_inner : f_outer;
        f_high = direction > 0 ? f_outer : f_inner;
        break;
      }
      if (outer <= from || outer >= to) return {};
      inner = outer;
      f_inner = f_outer;
      width *= 6;
    }
  } else {
    f_low = f(low);
    if (!(f_low >= 0)) return {};
    f_high = f(high);
  }
  if (!(f_low >= 0) || !(f_high <= 0)) return {};
  if (f_low == 0) return low;
  if (f_high == 0) return high;
  std::uintmax_t steps = 60;
  const auto close = [](double a, double b) {
    return std::abs(b - a) <= 1e-11 * (1 + std::abs(b));
  };
  const auto [a, b] = boost::math::tools::toms748_solve(f, low, high, f_low, f_high, close, steps);
  return (a + b) / 2;
}

class OneLift {
public:
  OneLift(const ContactProblem& problem, const StripIntegrals& strip, const FootTable& foot,
          ContactVerdict& verdict)
      : p_(problem), strip_(strip), foot_(foot), verdict_(verdict), bent_to_(arch_end(p_.arch)) {
    if (p_.strip.pre_arch) bent_to_ = std::max(bent_to_, arch_end(*p_.strip.pre_arch));
    bent_to_ = std::clamp(bent_to_, p_.clamp, p_.end);
    // On a bend the strip can lie only where its thickness stays the same.
    lies_from_ = bent_to_;
    const auto& pieces = strip_.pieces();
    for (std::size_t i = pieces.size(); i-- > 0;) {
      const StripIntegrals::Piece& piece = pieces[i];
      if (piece.from >= bent_to_) continue;
      const bool same = piece.to >= bent_to_ || piece.compliance == pieces[i + 1].compliance;
      if (!piece.even || piece.own_share > 0 || !same) break;
      lies_from_ = piece.from;
    }
  }

  std::optional<ContactSolution> solve(const ContactSolution* near) {
    verdict_.method = ContactMethod::one_lift;
    verdict_.inequality = certificate;
    verdict_.limit = certificate_limit;
    std::optional<double> guess;
    if (near != nullptr) guess = near->touches_at;
    begin(p_.clamp);
    if ((!find_contact(guess) || left_at_start() < 0) && !find_start(near)) return {};
    sample();
    if (!certified()) return {};
    solution_.lifts_at = start_;
    solution_.touches_at = at_;
    return std::move(solution_);
  }

private:
  /// The integrals from the start of the stretch off the foot.
  struct FromStart {
    double even_slope, even_shape, lever_slope, lever_shape;
    double fixed_slope, fixed_shape; ///< what does not depend on α and β: load less foot
    double pull_moment;
  };
  FromStart from_start(double u) const {
    const StripIntegral i = strip_.at(u);
    const ArchRise foot = arch_rise(p_.arch, u);
    const StripIntegral& o = start_integral_;
    const double t = u - start_;
    return {i.even_slope - o.even_slope,
            i.even_shape - o.even_shape - o.even_slope * t,
            i.lever_slope - o.lever_slope,
            i.lever_shape - o.lever_shape - o.lever_slope * t,
            i.load_slope - o.load_slope - (foot.angle - start_foot_.angle),
            i.load_shape - o.load_shape - o.load_slope * t -
                (foot.rise - start_foot_.rise - start_foot_.angle * t),
            i.pull_moment};
  }

  void begin(double u) {
    start_ = u;
    start_integral_ = strip_.at(u);
    start_foot_ = arch_rise(p_.arch, u);
  }

  /// The bending moment that the foot's own shape asks of a strip lying on it, N mm.
  double moment_on_foot(double u) const {
    if (u >= bent_to_) return 0;
    return bending_stiffness(p_.strip, u) * (curvature(p_.arch, u) - own_curvature(p_.strip, u));
  }

  double moment(double u, double pull_moment) const {
    return even_ + lever_ * (u - p_.clamp) - pull_moment;
  }

  /// α and β for a contact at u; the moment that is too much there.
  double touch(double u) {
    ++verdict_.steps;
    const FromStart i = from_start(u);
    const double det = i.even_shape * i.lever_slope - i.lever_shape * i.even_slope;
    even_ = (i.fixed_slope * i.lever_shape - i.fixed_shape * i.lever_slope) / det;
    lever_ = (i.fixed_shape * i.even_slope - i.fixed_slope * i.even_shape) / det;
    return moment(u, i.pull_moment) - moment_on_foot(u);
  }

  /// α and β for the end just touching; the slope there, which must not run into the foot.
  double touch_with_end() {
    ++verdict_.steps;
    const FromStart i = from_start(p_.end);
    const double s = p_.end - p_.clamp;
    lever_ = (i.fixed_shape + i.pull_moment * i.even_shape) / (s * i.even_shape - i.lever_shape);
    even_ = i.pull_moment - lever_ * s;
    return i.fixed_slope + even_ * i.even_slope + lever_ * i.lever_slope;
  }

  /// The farther back the contact is tried, the less moment is left there. It lies under the flat
  /// heel, or on the arch where nothing but the sole follows.
  bool find_contact(std::optional<double> guess) {
    const auto left = [this](double u) { return touch(u); };
    std::optional<double> found;
    if (guess && *guess < p_.end) {
      const bool flat = *guess > bent_to_;
      found = flat ? falling_root(left, bent_to_, p_.end, guess)
                   : falling_root(left, lies_from_ + 1e-6, bent_to_, guess);
    }
    if (!found) {
      if (touch_with_end() <= 0) {
        at_ = p_.end;
        left_ = 0;
        return true;
      }
      if (bent_to_ < p_.end) found = falling_root(left, bent_to_, p_.end, {});
      if (!found) {
        const double from = std::max(lies_from_, start_ + 0.01 * (bent_to_ - start_)) + 1e-6;
        if (from < bent_to_) found = falling_root(left, from, bent_to_, {});
      }
    }
    if (!found) return false;
    at_ = *found;
    left_ = touch(at_);
    return true;
  }

  /// Below 0 where the strip would have to bend into the foot to leave it here.
  double left_at_start() const {
    const double b = bending_stiffness(p_.strip, start_);
    return moment(start_, start_integral_.pull_moment) -
           b * (curvature(p_.arch, start_) - own_curvature(p_.strip, start_));
  }

  /// The strip lies on the foot behind the clamp, up to a start from which it has neither to bend
  /// into the foot nor to jump off. Tried too far ahead or back, there may be no contact at all.
  bool find_start(const ContactSolution* near) {
    const auto lacking = [&](double u) {
      begin(u);
      return find_contact(at_) ? -left_at_start() : std::nan("");
    };
    const double last = std::min(strip_.pieces().front().to, p_.arch.to_break);
    std::optional<double> found;
    if (near != nullptr && near->lifts_at > p_.clamp)
      found = falling_root(lacking, p_.clamp, last, near->lifts_at);
    constexpr int places = 16;
    double before = p_.clamp;
    double lacked = lacking(before);
    for (int i = 1; i < places && !found; ++i) {
      const double here = p_.clamp + i * (last - p_.clamp) / places;
      const double lacks = lacking(here);
      if (lacked > 0 && lacks <= 0) found = falling_root(lacking, before, here, {});
      before = here;
      lacked = lacks;
    }
    if (!found) return false;
    begin(*found);
    return find_contact(at_);
  }

  /// Stations in order: even ones, and where something changes.
  void sample() {
    std::array stops{
        start_, arch_begin(p_.arch), p_.arch.to_break, arch_end(p_.arch), p_.heel_front, at_,
        p_.end};
    std::sort(stops.begin(), stops.end());
    const std::size_t cells = foot_.rises.rise.size() - 1;
    resize(cells + 1 + 2 * strip_.pieces().size() + stops.size());
    EvenStations even{p_.clamp, (p_.end - p_.clamp) / static_cast<double>(cells), 1, 0};
    // Flat under the heel there is nothing between the stations where something changes.
    const double bent_to = std::max(at_, bent_to_);
    even.end = std::min(cells, 1 + static_cast<std::size_t>((bent_to - p_.clamp) / even.step));
    std::size_t n = 0;
    for (const StripIntegrals::Piece& piece : strip_.pieces()) {
      const std::size_t first = n;
      n = add_stations(piece, stops, even, n);
      evaluate(piece, first, n);
    }
    resize(n);
  }

  void resize(std::size_t stations) {
    ContactCurves& c = solution_.curves;
    for (std::vector<double>* v :
         {&c.u, &c.gap, &c.slope, &c.moment, &c.curvature, &c.foot, &rise_, &angle_})
      v->resize(stations);
  }

  /// Those of the foot's table that are still to come.
  struct EvenStations {
    double clamp;
    double step;
    std::size_t next;
    std::size_t end;

    double u() const { return clamp + step * static_cast<double>(next); }
  };

  /// Stations of one piece, the first of them number n; the number of the first that follows.
  template <std::size_t count>
  std::size_t add_stations(const StripIntegrals::Piece& piece,
                           const std::array<double, count>& stops, EvenStations& even,
                           std::size_t n) {
    ContactCurves& c = solution_.curves;
    const ArchRises& foot = foot_.rises;
    const auto add = [&](double u, const ArchRise& a) {
      c.u[n] = u;
      c.foot[n] = a.curvature;
      angle_[n] = a.angle;
      rise_[n] = a.rise;
      ++n;
    };
    add(piece.from, arch_rise(p_.arch, piece.from));
    for (const double at : stops) {
      if (at <= piece.from) continue;
      const double stop = std::min(at, piece.to);
      for (; even.next < even.end && even.u() < stop; ++even.next)
        add(even.u(), {foot.curvature[even.next], foot.angle[even.next], foot.rise[even.next]});
      if (stop > c.u[n - 1]) add(stop, arch_rise(p_.arch, stop));
      if (at >= piece.to) break;
    }
    return n;
  }

  /// Gap, slope, moment and curvature at stations first to last of one piece.
  void evaluate(const StripIntegrals::Piece& piece, std::size_t first, std::size_t last) {
    const std::vector<double>& u = solution_.curves.u;
    const bool even = piece.even && piece.own_share == 0;
    const EvenBend bend = even_bend(piece);
    StripIntegral carried = piece.start; // of an uneven piece, from station to station
    double carried_to = piece.from;
    for (std::size_t n = first; n < last; ++n) {
      if (u[n] < start_ || u[n] > at_) {
        lie(piece, even, n);
      } else if (even) {
        bend_evenly(bend, u[n] - piece.from, n);
      } else {
        carried = strip_.advance(piece, carried, carried_to, u[n]);
        carried_to = u[n];
        bend_unevenly(piece, carried, n);
      }
    }
  }

  static Side side_of(const StripIntegrals::Piece& piece, double u) {
    return u >= piece.to ? Side::ball : Side::heel;
  }

  /// A station on the foot.
  void lie(const StripIntegrals::Piece& piece, bool even, std::size_t n) {
    ContactCurves& c = solution_.curves;
    const Side side = side_of(piece, c.u[n]);
    c.gap[n] = 0;
    c.slope[n] = 0;
    c.curvature[n] = c.foot[n];
    c.moment[n] = even ? c.foot[n] / piece.compliance
                       : bending_stiffness(p_.strip, c.u[n], side) *
                             (c.foot[n] - own_curvature(p_.strip, c.u[n], side));
  }

  /// On an even piece the moment is a cubic in t = u − from; slope and shape follow from it.
  struct EvenBend {
    double compliance;
    double m0, m1, m2, m3;
    double slope0, shape0; ///< of the strip where the piece begins
  };
  EvenBend even_bend(const StripIntegrals::Piece& piece) const {
    const StripIntegral& b = piece.start;
    return {piece.compliance,
            moment(piece.from, b.pull_moment),
            lever_ - b.pull_force,
            -piece.pull / 2,
            -piece.pull_step / 6,
            strip_slope(b),
            strip_shape(b, piece.from - start_)};
  }

  void bend_evenly(const EvenBend& b, double t, std::size_t n) {
    ContactCurves& c = solution_.curves;
    const double q = b.compliance;
    const double m = b.m0 + t * (b.m1 + t * (b.m2 + t * b.m3));
    c.moment[n] = m;
    c.curvature[n] = q * m;
    c.slope[n] =
        b.slope0 - angle_[n] + q * t * (b.m0 + t * (b.m1 / 2 + t * (b.m2 / 3 + t * b.m3 / 4)));
    c.gap[n] =
        b.shape0 - rise_[n] +
        t * (b.slope0 + q * t * (b.m0 / 2 + t * (b.m1 / 6 + t * (b.m2 / 12 + t * b.m3 / 20))));
  }

  /// `i` are the integrals up to the station.
  void bend_unevenly(const StripIntegrals::Piece& piece, const StripIntegral& i, std::size_t n) {
    ContactCurves& c = solution_.curves;
    const double u = c.u[n];
    const Side side = side_of(piece, u);
    c.moment[n] = moment(u, i.pull_moment);
    c.curvature[n] =
        own_curvature(p_.strip, u, side) + c.moment[n] / bending_stiffness(p_.strip, u, side);
    c.slope[n] = strip_slope(i) - angle_[n];
    c.gap[n] = strip_shape(i, u - start_) - rise_[n];
  }

  /// Slope and shape of the strip off the foot, from the integrals up to a place `d` from the
  /// start.
  double strip_slope(const StripIntegral& i) const {
    const StripIntegral& o = start_integral_;
    return i.load_slope - o.load_slope + even_ * (i.even_slope - o.even_slope) +
           lever_ * (i.lever_slope - o.lever_slope) + start_foot_.angle;
  }
  double strip_shape(const StripIntegral& i, double d) const {
    const StripIntegral& o = start_integral_;
    return i.load_shape - o.load_shape - o.load_slope * d +
           even_ * (i.even_shape - o.even_shape - o.even_slope * d) +
           lever_ * (i.lever_shape - o.lever_shape - o.lever_slope * d) + start_foot_.rise +
           start_foot_.angle * d;
  }

  bool certified() {
    const ContactCurves& c = solution_.curves;
    double highest = 0;
    double lowest = 0;
    double largest_moment = 0;
    for (std::size_t n = 0; n < c.u.size(); ++n) {
      highest = std::max(highest, c.gap[n]);
      lowest = std::min(lowest, c.gap[n]);
      largest_moment = std::max(largest_moment, std::abs(c.moment[n]));
    }
    // Below these nothing moves and nothing presses: an arch that does not bend.
    const double size_g = std::max(highest, 1e-6);
    const double size_m = std::max(largest_moment, 1e-6);
    const double size_f = size_m / (p_.end - p_.clamp);
    double worst = -lowest / size_g;
    double stretch = 0; // least force found where the strip lies on the foot
    if (start_ > p_.clamp) {
      stretch = std::min(stretch, lie_on_foot(p_.clamp, start_));
      const double jump = lever_ - start_integral_.pull_force - shear_on_foot(start_);
      solution_.forces.push_back({start_, jump});
      worst = std::max({worst, -jump / size_f, std::abs(left_at_start()) / size_m});
    } else {
      worst = std::max(worst, -left_at_start() / size_m);
    }
    const double shear = lever_ - strip_.at(at_).pull_force; // M′ just ahead of the contact
    const double force = at_ < p_.end ? shear_on_foot(at_) - shear : -shear;
    solution_.forces.push_back({at_, force});
    worst = std::max({worst, -force / size_f, std::abs(left_) / size_m});
    if (at_ < p_.end) stretch = std::min(stretch, lie_on_foot(at_, p_.end));
    verdict_.value = std::max(worst, -stretch / size_f);
    verdict_.converged = verdict_.value <= certificate_limit;
    return verdict_.converged;
  }

  /// M′ of a strip on the foot, of one thickness.
  double shear_on_foot(double u) const {
    if (u >= bent_to_) return 0;
    return bending_stiffness(p_.strip, u) * curvature_slope(p_.arch, u);
  }

  /// Forces λ = p + (B (κ − κ₀))″ of a stretch on the foot; the least of them, if below 0.
  double lie_on_foot(double from, double to) {
    double least = 0;
    for (const StripIntegrals::Piece& piece : strip_.pieces()) {
      const double a = std::max(from, piece.from);
      const double b = std::min(to, piece.to);
      if (!(a < b)) continue;
      const bool bent = a < bent_to_;
      if (bent && (!piece.even || piece.own_share > 0)) return -HUGE_VAL;
      if (!bent && piece.pull == 0 && piece.pull_step == 0) continue;
      const double stiffness = bent ? 1 / piece.compliance : 0;
      const int parts = 1 + static_cast<int>(b - a); // about a millimetre each
      const double h = (b - a) / parts;
      for (int n = 0; n < parts; ++n) {
        const double begin = a + n * h;
        const double middle = begin + h / 2;
        const double pull = piece.pull + piece.pull_step * (middle - piece.from);
        least = std::min(least, h * (pull + stiffness * curvature_bow(p_.arch, middle)));
        const double turn = curvature_slope(p_.arch, begin + h) - curvature_slope(p_.arch, begin);
        const double force = pull * h + stiffness * turn;
        if (force > 0) solution_.forces.push_back({middle, force});
      }
    }
    return least;
  }

  const ContactProblem& p_;
  const StripIntegrals& strip_;
  const FootTable& foot_;
  ContactVerdict& verdict_;
  double bent_to_;   ///< u behind which foot and board are straight
  double lies_from_; ///< u from which the thickness stays the same up to there
  double start_ = 0; ///< u where the strip leaves the foot
  StripIntegral start_integral_;
  ArchRise start_foot_;
  double even_ = 0;  ///< α
  double lever_ = 0; ///< β
  double at_ = 0;    ///< u where it touches again
  double left_ = 0;
  std::vector<double> rise_, angle_;
  ContactSolution solution_;
};

} // namespace

std::shared_ptr<const FootTable> foot_table(const ContactProblem& problem, int cells,
                                            const ContactSolution* near) {
  const Arch& a = problem.arch;
  const auto count = static_cast<std::size_t>(cells) + 1;
  if (near != nullptr && near->foot != nullptr) {
    const FootTable& t = *near->foot;
    if (t.rises.rise.size() == count && t.clamp == problem.clamp && t.end == problem.end &&
        t.arch.to_break == a.to_break && t.arch.width_front == a.width_front &&
        t.arch.width_heel == a.width_heel && t.arch.bend == a.bend)
      return near->foot;
  }
  const double step = (problem.end - problem.clamp) / cells;
  return std::make_shared<const FootTable>(
      FootTable{a, problem.clamp, problem.end, arch_rises(a, problem.clamp, step, count)});
}

std::optional<ContactSolution> one_lift(const ContactProblem& problem, const StripIntegrals& strip,
                                        const FootTable& foot, const ContactSolution* near,
                                        ContactVerdict& verdict) {
  return OneLift(problem, strip, foot, verdict).solve(near);
}

} // namespace shankline
