#include "geometry/breaking/contact_doubt.hpp"

#include "geometry/foot/foot_stations.hpp"
#include "geometry/order/figure.hpp"
#include "geometry/order/foot_estimates.hpp"
#include "geometry/order/order_limits.hpp"
#include "geometry/uncertainty/monte_carlo.hpp"
#include "geometry/uncertainty/reading_doubt.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <limits>
#include <utility>
#include <vector>

namespace shankline {
namespace {

enum Figure : std::size_t {
  break_at,
  gap,
  heel_gap,
  heel_pry_left,
  heel_gap_left,
  uncut_break_at,
  uncut_gap,
  uncut_heel_gap,
  figures
};

/// An input of the calculation: how the order takes it, and its name in words.
struct Moved {
  std::string words;
  std::function<void(FootOrder&, double)> set;
};

class DoubtOfContact {
public:
  DoubtOfContact(const Order& order, const FootSolution& foot, const FootContact& contact)
      : foot_order_(foot.side == FootSide::left ? *order.left : *order.right), pose_(order.pose),
        population_(order.estimates_from), shoe_(contact_shoe(foot)), owner_(foot_name(foot.side)) {
    if (foot.trim) final_ = foot.trim->final_cut.centre;
    add_readings(foot_order_.foot, foot);
    add_bench(contact);
  }

  std::optional<ContactDoubt> found() {
    const Propagation moved =
        propagate(inputs_, Measurands([this](std::span<const double> in, std::span<double> out) {
                    solve_at(in, out);
                  }),
                  figures);
    for (const Uncertain& result : moved.results)
      if (!std::isfinite(result.value) || !std::isfinite(result.u)) return {};
    ContactDoubt doubt{moved.results[break_at],
                       moved.results[gap],
                       moved.results[heel_gap],
                       moved.results[heel_pry_left],
                       moved.results[heel_gap_left],
                       {},
                       {},
                       {},
                       moved.results[uncut_break_at],
                       moved.results[uncut_gap],
                       moved.results[uncut_heel_gap],
                       depends_on(moved)};
    add_limits(doubt);
    return doubt;
  }

private:
  void add_limits(ContactDoubt& doubt) {
    const bool pry = doubt.heel_pry_left.value < hardly_left;
    const bool gap_at_heel = doubt.heel_gap_left.value < hardly_left;
    if (!pry && !gap_at_heel) return;
    const std::vector<double> limits =
        upper_limits(inputs_, Measurands([this](std::span<const double> in, std::span<double> out) {
                       solve_at(in, out);
                     }),
                     figures);
    if (pry) doubt.heel_pry_left_up_to = limits[heel_pry_left];
    if (!gap_at_heel) return;
    doubt.heel_gap_left_up_to = limits[heel_gap_left];
    doubt.heel_gap_up_to = limits[heel_gap];
  }

  void add(const std::string& key, const std::string& kind, std::string words,
           const Reading& reading, double value, std::function<void(FootOrder&, double)> set) {
    add_reading(inputs_, key, kind, owner_, value, reading_doubt(reading));
    moved_.push_back({std::move(words), std::move(set)});
  }

  void add_foot(const std::string& key, std::string words, std::optional<Reading> Foot::*member,
                const std::optional<Reading>& reading,
                const std::optional<Reading>& estimate = {}) {
    if (!reading && !estimate) return;
    const Reading& taken = reading ? *reading : *estimate;
    add(key, key, std::move(words), taken, taken.value(),
        [member](FootOrder& foot, double value) { foot.foot.*member = measured(value); });
  }

  void add_break(const std::string& key, const std::string& kind,
                 std::optional<Reading> ArchBreak::*member, const ArchBreak& taken) {
    if (!(taken.*member)) return;
    const Reading& reading = *(taken.*member);
    add(key, kind, "the arch break", reading, reading.value(),
        [member](FootOrder& foot, double value) {
          foot.foot.arch_break.*member = measured(value);
        });
  }

  void add_readings(const Foot& foot, const FootSolution& solved) {
    add_foot("ball_length", "the ball length", &Foot::ball_length, foot.ball_length,
             estimated_ball_length(population_, foot.length->value()));
    // An estimated heel front counts from the back of the heel; the order's pose from the shoe's.
    Reading heel_front = estimated_heel_front(population_, foot.length->value());
    for (double& value : heel_front.values)
      value += solved.frames.pose.mm;
    add_foot("heel_front", "the heel front", &Foot::heel_front, foot.heel_front, heel_front);
    add_break("arch_break", "arch_break", &ArchBreak::centre, foot.arch_break);
    add_break("arch_break.medial", "arch_break", &ArchBreak::medial, foot.arch_break);
    add_break("arch_break.lateral", "arch_break", &ArchBreak::lateral, foot.arch_break);
    add_foot("arch_depth", "the arch depth", &Foot::arch_depth, foot.arch_depth);
    add_foot("deepest", "the deepest point", &Foot::deepest, foot.deepest);
    if (foot.arch_bend_rad) {
      // An angle's scatter is all in its finding half-width: no tape was laid.
      const Reading& bend = *foot.arch_bend_rad;
      add_reading(inputs_, "arch_bend", "arch_bend", owner_, bend.value(), reading_doubt(bend, 0));
      moved_.push_back({"the arch bend", [](FootOrder& changed, double value) {
                          changed.foot.arch_bend_rad = measured(value);
                        }});
    }
    add_foot("fold", "the fold", &Foot::fold, foot.fold, estimated_fold());
  }

  void add_lognormal(std::string words, const BenchFigure& figure,
                     std::function<void(FootOrder&, double)> set) {
    inputs_.add_own(words, std::log(figure.value),
                    Source{owner_ + "." + words, log_sd(figure.relative_sd)});
    moved_.push_back({std::move(words), std::move(set)});
  }

  void add_bench(const FootContact& contact) {
    foot_order_.shoe.stiffness = BendingStiffness{contact.board.value, contact.sole.value};
    foot_order_.shoe.pull = PullForce{contact.pull.value};
    add_lognormal("the board's stiffness", contact.board, [](FootOrder& foot, double value) {
      std::get<BendingStiffness>(foot.shoe.stiffness).board = std::exp(value);
    });
    add_lognormal("the sole's stiffness", contact.sole, [](FootOrder& foot, double value) {
      std::get<BendingStiffness>(foot.shoe.stiffness).sole = std::exp(value);
    });
    if (contact.pull.value > 0)
      add_lognormal("the pull", contact.pull, [](FootOrder& foot, double value) {
        foot.shoe.pull = PullForce{std::exp(value)};
      });
  }

  /// The figures depend on the mean of two breaks alone. Their difference, drawn freely, would now
  /// and then give a line too skew to be cut.
  static void join_breaks(ArchBreak& breaks) {
    if (!breaks.medial || !breaks.lateral) return;
    const double mean = (breaks.medial->value() + breaks.lateral->value()) / 2;
    breaks = {};
    breaks.centre = measured(mean);
  }

  void solve_at(std::span<const double> in, std::span<double> out) {
    std::fill(out.begin(), out.end(), std::numeric_limits<double>::quiet_NaN());
    FootOrder changed = foot_order_;
    for (std::size_t i = 0; i < moved_.size(); ++i)
      moved_[i].set(changed, in[i]);
    join_breaks(changed.foot.arch_break);
    const std::optional<ContactShoe> shoe = shoe_of(changed);
    if (!shoe) return;
    const FootContactResult result = foot_contact(changed, *shoe);
    if (!result.contact || !result.contact->cut) return;
    const FootContactFigures& cut = result.contact->cut->figures;
    out[break_at] = cut.break_at;
    out[gap] = cut.gap;
    out[heel_gap] = cut.heel_gap;
    const FootContactFigures& uncut = result.contact->uncut.figures;
    out[uncut_break_at] = uncut.break_at;
    out[uncut_gap] = uncut.gap;
    out[uncut_heel_gap] = uncut.heel_gap;
    out[heel_pry_left] = result.contact->heel_pry_left;
    out[heel_gap_left] = result.contact->heel_gap_left;
  }

  /// The shoe on the moved foot. Its board stays as it is cut, so neither outline nor pieces are
  /// asked for again: they would take a hundred times as long as the contact itself.
  std::optional<ContactShoe> shoe_of(const FootOrder& changed) const {
    if (has_error(outside_limits(changed, owner_))) return {};
    Findings findings;
    auto stations = foot_stations(changed.foot, pose_, population_, "feet." + owner_, findings);
    if (!stations) return {};
    ContactShoe shoe = shoe_;
    shoe.frames = frames_of(pose_, stations->fold, changed.shoe.board.inset->value());
    shoe.arch = stations->arch;
    if (!final_) return shoe;
    shoe.cut->station = shoe.frames.on_foot(*final_);
    if (!(shoe.cut->station < shoe.arch.break_at)) return {};
    return shoe;
  }

  std::string depends_on(const Propagation& found) const {
    double most = 1e-9;
    std::string words;
    for (std::size_t i = 0; i < moved_.size(); ++i) {
      const double part = std::abs(found.sensitivity(heel_pry_left, i)) * inputs_.u(i);
      if (part <= most) continue;
      most = part;
      words = moved_[i].words;
    }
    return words;
  }

  FootOrder foot_order_; ///< as it is; each solve moves a copy
  Pose pose_;
  Population population_;
  ContactShoe shoe_;
  std::optional<BoardStation> final_; ///< where the board is cut; absent if it is only thinned
  std::string owner_;
  Inputs inputs_;
  std::vector<Moved> moved_; ///< one an input, in their order
};

std::string whole_words(double expanded) {
  return "\u00b1" + figure(std::max(1.0, expanded), 0);
}

} // namespace

std::string share_doubt_words(const Uncertain& share, const std::optional<double>& up_to) {
  if (!up_to) return whole_words(100 * share.expanded()) + " %";
  if (!std::isfinite(*up_to)) return "not known";
  return "up to " + figure(std::max(1.0, std::ceil(100 * *up_to - 1e-9)), 0) + " %";
}

std::string whole_doubt_words(const Uncertain& length) {
  return whole_words(length.expanded());
}

std::optional<ContactDoubt> contact_doubt(const Order& order, const FootSolution& foot,
                                          const FootContact& contact) {
  if (!contact.cut) return {};
  return DoubtOfContact(order, foot, contact).found();
}

} // namespace shankline
