#include "geometry/foot/foot_stations.hpp"

#include "geometry/numerics/degree.hpp"
#include "geometry/order/figure.hpp"
#include "geometry/order/foot_estimates.hpp"
#include "geometry/order/reading_guide.hpp"

#include <algorithm>
#include <cmath>

namespace shankline {
namespace {

constexpr double unlikely_bend = 60 * degree; // Russell et al. 2011: about 25° within the foot
constexpr double far_apart_deepest = 8;       // mm; the model puts it within that of most readings
constexpr double far_apart_bend = 10 * degree;

/// Works through one foot; every step adds what it finds.
class StationSolver {
public:
  StationSolver(const Foot& foot, Pose pose, Population population, const std::string& path,
                Findings& findings)
      : foot_(foot), pose_(pose), population_(population), path_(path), findings_(findings) {}

  std::optional<FootStations> solve() {
    if (!require_readings()) return {};
    fold();
    ball();
    heel_front();
    if (!frame_in_order() || !arch_break() || !breaks_in_order()) return {};
    arch_bend();
    if (failed_) return {};
    return result_;
  }

private:
  void error(const std::string& key, std::string what, std::string allowed, std::string advice) {
    failed_ = true;
    findings_.push_back({Severity::error, path_ + "." + key, std::move(what), std::move(allowed),
                         std::move(advice)});
  }
  void caution(const std::string& key, std::string what, std::string allowed, std::string advice) {
    findings_.push_back({Severity::caution, path_ + "." + key, std::move(what), std::move(allowed),
                         std::move(advice)});
  }
  void list_estimate(const std::string& key, const Reading& reading, double value) {
    result_.estimated.push_back(
        {key, std::string(reading_guide(key)->name), value, reading.estimate_sd, reading.source});
  }

  bool has_break() const {
    const ArchBreak& b = foot_.arch_break;
    return b.centre || b.medial || b.lateral;
  }

  bool require_readings() {
    if (!foot_.length)
      error("length", "the foot length is missing",
            "a length from " + limits_in_words(*reading_guide("length")), how_to_take("length"));
    if (!has_break() && !(foot_.deepest && foot_.arch_depth))
      error("arch_break", "the arch break is missing",
            "arch_break, or arch_depth together with deepest", how_to_take("arch_break"));
    return !failed_;
  }

  /// The station on the foot of a reading that was taken in the order's pose.
  FootStation on_foot(const Reading& reading) const {
    return result_.pose.on_foot(PosedStation(reading.value()));
  }
  std::string posed(FootStation at) const { return short_figure(result_.pose.posed(at)); }

  void fold() {
    const Reading fold = foot_.fold.value_or(estimated_fold());
    result_.fold = fold.value();
    result_.pose = pose_shift(pose_, result_.fold);
    if (foot_.fold)
      caution_if_unusual("fold", result_.fold, 0,
                         "A fold that is too deep brings the cut nearer to the arch break.");
    // For readings in the shoe the fold cancels in the cut; it matters only for estimates on the
    // foot.
    if (!foot_.fold && (pose_ == Pose::pointed || !foot_.heel_front))
      list_estimate("fold", fold, result_.fold);
  }

  /// `value` and what is usual are said `shift` farther: as the order's pose counts them.
  void caution_if_unusual(const char* key, double value, double shift, const std::string& why) {
    const auto usual = usual_range(population_, key, foot_.length->value());
    if (!usual || usual->holds(value)) return;
    // A slip among its repeats is an error already.
    const std::string full = path_ + "." + key;
    if (std::any_of(findings_.begin(), findings_.end(), [&](const Finding& f) {
          return f.severity == Severity::error && f.key == full;
        }))
      return;
    caution(key,
            "a " + std::string(reading_guide(key)->name) + " of " + short_figure(value + shift) +
                " mm is unusual",
            "on most feet of this length: " + short_figure(usual->least + shift, 0) + " to " +
                short_figure(usual->most + shift, 0) + " mm, common practice",
            in_centimetres_words(*usual, value) + "Take it once more before cutting. " + why + " " +
                how_to_take(key));
  }

  void ball() {
    const bool given = foot_.ball_length.has_value();
    const Reading ball =
        given ? *foot_.ball_length : estimated_ball_length(population_, foot_.length->value());
    result_.arch.ball = FootStation(ball.value());
    if (!given) list_estimate("ball_length", ball, result_.arch.ball);
  }

  void heel_front() {
    if (foot_.heel_front) {
      result_.arch.heel_front = on_foot(*foot_.heel_front);
      caution_if_unusual("heel_front", result_.arch.heel_front.mm(), result_.pose.mm,
                         "At reach edge the board ends there.");
      return;
    }
    const Reading guess = estimated_heel_front(population_, foot_.length->value());
    result_.arch.heel_front = FootStation(guess.value());
    list_estimate("heel_front", guess, result_.pose.posed(result_.arch.heel_front));
    caution("heel_front",
            "the heel front is only estimated, give or take " +
                short_figure(2 * guess.estimate_sd) + " mm",
            "", "Measure it before cutting. " + how_to_take("heel_front"));
  }

  bool arch_break() {
    const ArchBreak& b = foot_.arch_break;
    SolvedArch& arch = result_.arch;
    if (b.medial) arch.break_medial = on_foot(*b.medial);
    if (b.lateral) arch.break_lateral = on_foot(*b.lateral);
    if (b.centre) {
      arch.break_at = on_foot(*b.centre);
      if (b.medial || b.lateral)
        error("arch_break", "the arch break is given for both edges together and apart",
              "one number, or medial and lateral", how_to_take("arch_break"));
    } else if (b.medial && b.lateral) {
      arch.break_at = mean_break(*arch.break_medial, *arch.break_lateral);
    } else if (b.medial || b.lateral) {
      arch.break_at = b.medial ? *arch.break_medial : *arch.break_lateral;
    } else {
      return break_from_deepest_point();
    }
    return true;
  }

  bool break_from_deepest_point() {
    SolvedArch& arch = result_.arch;
    const auto found = break_from_deepest(arch.ball, arch.heel_front, foot_.arch_depth->value(),
                                          on_foot(*foot_.deepest));
    if (!found) {
      refuse_deepest();
      return false;
    }
    arch.break_at = FootStation(found->break_at);
    caution("deepest",
            "the arch break (" + posed(arch.break_at) +
                " mm) is worked out from the deepest point: an error of 1 there becomes 3 in the "
                "break",
            "", "Measure the break itself if you can. " + how_to_take("arch_break"));
    return true;
  }

  /// The deepest points that an arch of this depth can have, else the depth that it can have.
  void refuse_deepest() {
    const SolvedArch& arch = result_.arch;
    const double depth = foot_.arch_depth->value();
    if (const auto range = deepest_range(arch.ball, arch.heel_front, depth)) {
      // Rounded inwards: each figure that is printed is allowed.
      constexpr double rounding_error = 1e-6;
      const double least =
          std::ceil(result_.pose.posed(FootStation(range->least)) * 10 + rounding_error) / 10;
      const double most =
          std::floor(result_.pose.posed(FootStation(range->most)) * 10 - rounding_error) / 10;
      if (least <= most) {
        error("deepest",
              "no arch of this foot is " + short_figure(depth) +
                  " deep with its deepest point at " + short_figure(foot_.deepest->value()),
              "for this depth a deepest point from " + short_figure(least) + " to " +
                  short_figure(most),
              "Take both again. " + how_to_take("deepest") + " " + how_to_take("arch_depth"));
        return;
      }
    }
    error("arch_depth", "an arch of this foot cannot be " + short_figure(depth) + " deep",
          "up to " + short_figure(std::floor(largest_depth(arch.ball, arch.heel_front))) + " mm",
          how_to_take("arch_depth"));
  }

  /// Heel front and ball, between which the break has to be.
  bool frame_in_order() {
    const SolvedArch& arch = result_.arch;
    if (!(arch.ball < foot_.length->value()))
      error("ball_length",
            "the ball (" + short_figure(arch.ball) + ") lies ahead of the longest toe (" +
                short_figure(foot_.length->value()) + ")",
            "below the foot length", how_to_take("ball_length"));
    if (!(arch.heel_front > 0.0))
      error("heel_front", "the heel front lies behind the heel",
            "above " + short_figure(result_.pose.mm) + " (the fold)", how_to_take("heel_front"));
    if (!(arch.heel_front < arch.ball))
      error("heel_front",
            "the heel front (" + posed(arch.heel_front) + ") lies ahead of the ball (" +
                posed(arch.ball) + ")",
            "below the ball, by some 100 mm", how_to_take("heel_front"));
    return !failed_;
  }

  bool breaks_in_order() {
    const SolvedArch& arch = result_.arch;
    check_break("arch_break.medial", arch.break_medial);
    check_break("arch_break.lateral", arch.break_lateral);
    if (foot_.arch_break.centre || !has_break()) check_break("arch_break", arch.break_at);
    return !failed_;
  }

  void check_break(const std::string& key, std::optional<FootStation> at) {
    if (!at) return;
    const SolvedArch& arch = result_.arch;
    const std::string allowed = "between the heel front (" + posed(arch.heel_front) +
                                ") and the ball (" + posed(arch.ball) + ")";
    if (!(*at < arch.ball))
      error(key,
            "the arch break (" + posed(*at) + ") lies ahead of the ball (" + posed(arch.ball) + ")",
            allowed, how_to_take(key));
    if (!(*at > arch.heel_front))
      error(key,
            "the heel front (" + posed(arch.heel_front) + ") lies ahead of the arch break (" +
                posed(*at) + ")",
            allowed, how_to_take(key) + " " + how_to_take("heel_front"));
  }

  void arch_bend() {
    SolvedArch& arch = result_.arch;
    std::optional<double> bend;
    if (foot_.arch_bend_rad) bend = foot_.arch_bend_rad->value();
    if (foot_.arch_depth) {
      const Arch shape = arch_of_foot(arch.ball, arch.break_at, arch.heel_front, largest_bend);
      const auto from_depth = bend_from_depth(shape, foot_.arch_depth->value());
      if (!from_depth) {
        error("arch_depth",
              "an arch of this foot cannot be " + short_figure(foot_.arch_depth->value()) + " deep",
              "up to " + short_figure(std::floor(arch_depth(shape).depth)) +
                  " mm, which is a bend of 90 degrees",
              how_to_take("arch_depth"));
        return;
      }
      if (bend && std::abs(*bend - *from_depth) > far_apart_bend)
        caution("arch_bend",
                "a bend of " + short_figure(*bend / degree, 0) + " degrees and a depth of " +
                    short_figure(foot_.arch_depth->value()) + " (" +
                    short_figure(*from_depth / degree, 0) + " degrees) do not agree",
                "", "The depth is used. Measure both once more.");
      bend = from_depth;
    }
    if (!bend) return;
    if (*bend > unlikely_bend)
      caution(foot_.arch_depth ? "arch_depth" : "arch_bend",
              "an arch that bends by " + short_figure(*bend / degree, 0) + " degrees is unusual",
              "most dancers: 15 to 45 degrees", how_to_take("arch_depth"));
    arch.arch = arch_of_foot(arch.ball, arch.break_at, arch.heel_front, *bend);
    const ArchDepth depth = shankline::arch_depth(*arch.arch);
    arch.depth = depth.depth;
    arch.deepest = arch.ball - depth.at_u;
    check_deepest();
  }

  void check_deepest() {
    if (!foot_.deepest || !has_break()) return;
    const double off = on_foot(*foot_.deepest) - *result_.arch.deepest;
    if (std::abs(off) <= far_apart_deepest) return;
    caution("deepest",
            "with this arch break the deepest point would lie at " + posed(*result_.arch.deepest) +
                " mm, not at " + short_figure(foot_.deepest->value()) + " mm",
            "", "The break is used. Measure both once more.");
  }

  const Foot& foot_;
  Pose pose_;
  Population population_;
  const std::string& path_;
  Findings& findings_;
  FootStations result_{};
  bool failed_ = false;
};

} // namespace

PoseShift pose_shift(Pose pose, double fold) {
  return {pose == Pose::in_shoe ? fold : 0};
}

Frames frames_of(Pose pose, double fold, double inset) {
  return {pose_shift(pose, fold), fold - inset};
}

FootStation mean_break(FootStation medial, FootStation lateral) {
  return FootStation((medial.mm() + lateral.mm()) / 2);
}

std::optional<FootStations> foot_stations(const Foot& foot, Pose pose, Population population,
                                          const std::string& path, Findings& findings) {
  for (Finding& finding : unlikely_readings(foot, population, path))
    findings.push_back(std::move(finding));
  return StationSolver(foot, pose, population, path, findings).solve();
}

} // namespace shankline
