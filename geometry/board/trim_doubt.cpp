#include "geometry/board/trim_doubt.hpp"

#include "geometry/board/trim_line.hpp"
#include "geometry/foot/arch.hpp"
#include "geometry/order/figure.hpp"
#include "geometry/order/foot_estimates.hpp"
#include "geometry/order/reading_guide.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace shankline {
namespace {

std::size_t number(TrimResult result) {
  return static_cast<std::size_t>(result);
}

/// Depth and deepest station of an arch.
struct Depth {
  double depth;
  double deepest;
};
Depth depth_of(double ball, double break_at, double heel_front, double bend) {
  const ArchDepth depth = arch_depth(arch_of_foot(ball, break_at, heel_front, bend));
  return {depth.depth, ball - depth.at_u};
}

} // namespace

std::size_t add_carrying_inputs(Inputs& inputs, const std::string& owner) {
  const std::size_t first =
      inputs.add_own("print scale", 0, rectangular("print scale", print_scale_half_width, true));
  inputs.add_own("tracing", 0, rectangular(owner + ".tracing", tracing_half_width));
  inputs.add_own("knife", 0, rectangular(owner + ".knife", knife_half_width));
  return first;
}

TrimModel::TrimModel(const FootOrder& order, Pose pose, Population population,
                     const FootStations& stations, const std::string& owner, bool one_reader)
    : pose_(pose), population_(population), owner_(owner), one_reader_(one_reader),
      wish_(order.alterations.shank.value_or(ShankWish{})) {
  const Foot& foot = order.foot;
  const Board& board = order.shoe.board;
  length_ = add("length", "length", *foot.length);
  heel_front_estimated_ = !foot.heel_front;
  heel_front_ = foot.heel_front ? add("heel_front", "heel_front", *foot.heel_front)
                                : add("heel_front", "heel_front",
                                      estimated_heel_front(population, foot.length->value()), 0);
  add_break(foot, stations);
  fold_ = add("fold", "fold", foot.fold.value_or(estimated_fold()));
  inset_ = add("board.inset", "board.inset", *board.inset);

  if (std::holds_alternative<KeepRule>(wish_.rule)) {
    const bool loose = board.state == BoardState::loose;
    if (loose) {
      whole_ = add("board.length", "board.length", board.length.value_or(measured(0)));
    } else {
      whole_ = add("board.sole_length", "board.sole_length",
                   as_reading(board.sole_length.value_or(0), "board.sole_length"));
      sole_end_ = inputs_.add_own("sole's end", sole_end_behind_back,
                                  Source{owner_ + ".sole's end", sole_end_behind_back_sd});
    }
  } else if (const auto* mark = std::get_if<MarkRule>(&wish_.rule)) {
    mark_ = mark->carried_over
                ? inputs_.add_own("shank.mark", mark->mark.value(),
                                  Source{owner_ + ".carried over", mark->carried_over->u,
                                         mark->carried_over->freedom})
                : *add("shank.mark", "shank.mark", mark->mark);
  } else if (const auto* rule = std::get_if<LearnedRule>(&wish_.rule); rule && rule->line) {
    const double u = rule->line->U / coverage_factor(known);
    learned_ = inputs_.add_own("shank.reach", rule->line->station, Source{owner_ + ".learned", u});
  }
  usual_frames_ = frames_of(pose_, stations.fold, board.inset->value());
  laid_flat_ =
      inputs_.add_own("laid flat", 0, rectangular(owner_ + ".laid flat", laid_flat_half_width));
  carrying_ = add_carrying_inputs(inputs_, owner_);
}

TrimModel::Index TrimModel::add(const std::string& key, const std::string& kind,
                                const Reading& reading, std::optional<double> value) {
  const ReadingDoubt doubt = reading_doubt(reading);
  const ReadingInput at =
      add_reading(inputs_, key, kind, owner_, value.value_or(reading.value()), doubt);
  used_readings_.push_back({key, reading.estimated, reading_guide(key)->finding, doubt, at});
  return at.input;
}

void TrimModel::add_break(const Foot& foot, const FootStations& stations) {
  const ArchBreak& b = foot.arch_break;
  if (b.centre) {
    medial_ = lateral_ = add("arch_break", "arch_break", *b.centre);
    return;
  }
  if (b.medial) medial_ = add("arch_break.medial", "arch_break", *b.medial);
  if (b.lateral) lateral_ = add("arch_break.lateral", "arch_break", *b.lateral);
  if (b.medial || b.lateral) return;

  depth_ = add("arch_depth", "arch_depth", *foot.arch_depth);
  deepest_ = add("deepest", "deepest", *foot.deepest);
  ball_estimated_ = !foot.ball_length;
  ball_ = foot.ball_length ? add("ball_length", "ball_length", *foot.ball_length)
                           : add("ball_length", "ball_length",
                                 estimated_ball_length(population_, foot.length->value()), 0);
  solved_from_ = {stations.arch.ball, stations.arch.heel_front, foot.arch_depth->value(),
                  stations.pose.on_foot(PosedStation(foot.deepest->value()))};
  solved_break_ = stations.arch.break_at;
  solved_bend_ = stations.arch.arch->bend;
  constexpr double mm = 0.01;
  constexpr double angle = 1e-4;
  const auto at = [&](double off, double bent) {
    return depth_of(stations.arch.ball, solved_break_ + off, stations.arch.heel_front,
                    solved_bend_ + bent);
  };
  const Depth ahead = at(mm, 0), behind = at(-mm, 0), more = at(0, angle), less = at(0, -angle);
  const double depth_by_break = (ahead.depth - behind.depth) / (2 * mm);
  const double depth_by_bend = (more.depth - less.depth) / (2 * angle);
  const double deepest_by_break = (ahead.deepest - behind.deepest) / (2 * mm);
  const double deepest_by_bend = (more.deepest - less.deepest) / (2 * angle);
  const double det = depth_by_break * deepest_by_bend - depth_by_bend * deepest_by_break;
  undo_ = {deepest_by_bend / det, -depth_by_bend / det, -deepest_by_break / det,
           depth_by_break / det};
}

FootStation TrimModel::on_foot(double reading, std::span<const double> in) const {
  return pose_shift(pose_, in[*fold_]).on_foot(PosedStation(reading));
}

// If the heel front is estimated by foot length, its input is the foot's deviation from that rule.
FootStation TrimModel::heel_front(std::span<const double> in) const {
  if (!heel_front_estimated_) return on_foot(in[*heel_front_], in);
  return FootStation(estimated_heel_front(population_, in[*length_]).value() + in[*heel_front_]);
}

FootStation TrimModel::ball(std::span<const double> in) const {
  if (!ball_estimated_) return FootStation(in[*ball_]);
  return FootStation(estimated_ball_length(population_, in[*length_]).value() + in[*ball_]);
}

TrimModel::Places TrimModel::places(std::span<const double> in) const {
  const FootStation x_hf = heel_front(in);
  if (deepest_) return {x_hf, break_from_deepest(in, x_hf), ball(in)};
  const FootStation medial = on_foot(in[medial_ ? *medial_ : *lateral_], in);
  const FootStation lateral = on_foot(in[lateral_ ? *lateral_ : *medial_], in);
  return {x_hf, mean_break(medial, lateral), {}};
}

/// Newton's method from the solved arch with the slopes there: the readings are never far from it.
FootStation TrimModel::break_from_deepest(std::span<const double> in, FootStation heel_at) const {
  const double heel_front = heel_at.mm();
  const double ball = this->ball(in).mm();
  const double depth = in[*depth_];
  const double deepest = on_foot(in[*deepest_], in).mm();
  if (solved_from_ == std::array{ball, heel_front, depth, deepest}) return solved_break_;
  constexpr double close = 1e-9;
  constexpr double edge = 0.5;
  double at = std::clamp(solved_break_.mm(), heel_front + edge, ball - edge);
  double bend = solved_bend_;
  for (int i = 0; i < 40; ++i) {
    const Depth now = depth_of(ball, at, heel_front, bend);
    const double too_shallow = depth - now.depth;
    const double too_near = deepest - now.deepest;
    const double move = undo_[0] * too_shallow + undo_[1] * too_near;
    at = std::clamp(at + move, heel_front + edge, ball - edge);
    bend = std::clamp(bend + undo_[2] * too_shallow + undo_[3] * too_near, 0.01, largest_bend);
    if (std::abs(move) < close) break;
  }
  return FootStation(at);
}

void TrimModel::operator()(std::span<const double> in, std::span<double> out) const {
  Frames frames = frames_of(pose_, in[*fold_], in[*inset_]);
  frames.board += in[laid_flat_];
  const auto [x_hf, x_b, ball] = places(in);
  const double carried = in[carrying_] + in[carrying_ + 1] + in[carrying_ + 2];
  const RuleLine line =
      rule_line(wish_.rule, x_b, x_hf, frames,
                {whole(in), mark_ ? in[*mark_] : 0, learned_ ? in[*learned_] : 0});
  const Window window = trim_window(x_b, x_hf, wish_.tuck_max, wish_.bearing_min);
  // A learned place varies with the shoe in a way that its own U already holds.
  out[number(TrimResult::board)] =
      learned_ ? usual_frames_.on_board(line.foot).mm() : line.board + carried;
  out[number(TrimResult::station)] = line.foot;
  out[number(TrimResult::past_tuck)] = line.foot - window.from;
  out[number(TrimResult::before_stop)] = window.to - line.foot;
  out[number(TrimResult::breaks_apart)] = medial_ && lateral_ ? in[*medial_] - in[*lateral_] : 0;
  out[number(TrimResult::stop)] = frames.on_board(window.to) + carried;
  out[number(TrimResult::heel_front_line)] = frames.on_board(x_hf) + carried;
}

double TrimModel::whole(std::span<const double> in) const {
  if (!whole_) return 0;
  return sole_end_ ? length_in_shoe(in[*whole_], in[*inset_], in[*sole_end_]) : in[*whole_];
}

namespace {

/// The difference of the two break marks, as two readers may have taken them: the habit of each
/// edge counts in full. (For their mean one shared habit is the larger doubt, and is kept there.)
Uncertain with_both_habits(const TrimModel& model, const Uncertain& apart,
                           std::span<const Source> sources) {
  double square = 0;
  std::optional<std::size_t> habit;
  for (const TrimModel::UsedReading& used : model.used_readings())
    if (used.key.starts_with("arch_break.") && used.doubt.habit() > 0) {
      square += std::pow(rectangular({}, used.doubt.habit()).u, 2);
      habit = used.at.habit_source;
    }
  if (!habit) return apart;
  std::vector<double> parts = apart.parts;
  parts[*habit] = std::sqrt(square);
  return combine(apart.value, std::move(parts), sources);
}

} // namespace

TrimDoubt trim_doubt(const TrimModel& model) {
  Propagation found = propagate(
      model.inputs(),
      Measurands([&](std::span<const double> in, std::span<double> out) { model(in, out); }),
      trim_results);
  const auto take = [&](TrimResult result) { return std::move(found.results[number(result)]); };
  const std::span<const Source> sources = model.inputs().sources();
  TrimDoubt doubt{{sources.begin(), sources.end()}, take(TrimResult::board),
                  take(TrimResult::station),        take(TrimResult::past_tuck),
                  take(TrimResult::before_stop),    {},
                  take(TrimResult::stop),           take(TrimResult::heel_front_line)};
  Uncertain apart = take(TrimResult::breaks_apart);
  if (apart.u > 0)
    doubt.breaks_apart =
        model.one_reader() ? std::move(apart) : with_both_habits(model, apart, doubt.sources);
  return doubt;
}

std::vector<RepeatGain> repeat_gains(const TrimModel& model, const TrimDoubt& doubt) {
  std::vector<RepeatGain> gains;
  const Uncertain& board = doubt.board;
  const double now = board.expanded();
  for (const TrimModel::UsedReading& used : model.used_readings()) {
    const std::size_t fresh = used.at.fresh_source;
    // The fresh source is the reading's own, so its part gives the reading's sensitivity.
    const double sensitivity = board.parts[fresh] / doubt.sources[fresh].u;
    if (std::abs(sensitivity) * used.doubt.u() < 1e-6 * board.u) continue;
    const auto after = [&](int more) {
      const ReadingDoubt then = taken_again(used.doubt, used.estimated, more, used.usual_finding);
      std::vector<double> parts = board.parts;
      std::vector<Source> sources = doubt.sources;
      parts[fresh] = sensitivity * then.fresh();
      sources[fresh].freedom = then.freedom;
      if (used.estimated) { // a reading replaces the estimate, so it gets a habit
        parts.push_back(sensitivity * rectangular({}, then.habit()).u);
        sources.push_back(rectangular({}, then.habit()));
      }
      return combine(board.value, std::move(parts), sources).expanded();
    };
    gains.push_back({used.key, std::string(reading_guide(used.key)->name), used.estimated,
                     std::pow(sensitivity * used.doubt.u() / board.u, 2), now, after(1), after(2)});
  }
  // Readings that win the same stay in the order in which they are taken.
  const auto rank = [](const RepeatGain& gain) { return std::round(gain.U_twice_more * 100); };
  std::stable_sort(gains.begin(), gains.end(),
                   [&](const RepeatGain& a, const RepeatGain& b) { return rank(a) < rank(b); });
  return gains;
}

std::string repeat_first(std::span<const RepeatGain> gains) {
  constexpr double worth_saying = 0.1;
  if (gains.empty()) return {};
  const RepeatGain& first = gains.front();
  if (first.U_now - first.U_twice_more < worth_saying) return {};
  return "measure the " + first.name + (first.estimated ? " twice" : " twice more") + ": ±" +
         figure(first.U_now) + " becomes ±" + figure(first.U_twice_more) + " mm";
}

Sampled sampled_board_station(const TrimModel& model, TrimResult which, const SamplingPlan& plan) {
  std::array<double, trim_results> out{};
  return sample(
      model.inputs(),
      [&](std::span<const double> in) {
        model(in, out);
        return out[number(which)];
      },
      plan);
}

std::string weakest_reading(const TrimModel& model, const Uncertain& place,
                            std::span<const Source> sources) {
  std::string name;
  double most = 0;
  for (const TrimModel::UsedReading& used : model.used_readings()) {
    const Source& fresh = sources[used.at.fresh_source];
    if (fresh.u == 0) continue;
    const double part = std::abs(place.parts[used.at.fresh_source] / fresh.u) * used.doubt.u();
    if (part <= most) continue;
    most = part;
    name = reading_guide(used.key)->name;
  }
  return name;
}

double right_place_U(double heel_front_U, std::optional<double> copied_U) {
  if (copied_U) return std::hypot(*copied_U, next_pair_U);
  return std::hypot(heel_front_U, unknown_dancer_U);
}

double first_cut_hold_back(double right_place_U) {
  return std::max(right_place_U - right_half_width, first_cut_in_hand);
}

double learned_hold_back(double U, int worn_good) {
  const bool trusted = worn_good >= pairs_to_trust;
  return std::max(U - right_half_width, trusted ? least_hold_back_when_trusted : first_cut_in_hand);
}

EdgeCheck check_edge(const Uncertain& inside) {
  constexpr double rounding_error = 1e-9; // as the window itself is judged
  const double off = std::abs(inside.value);
  const bool doubtful = off < inside.expanded();
  if (inside.value >= -rounding_error)
    return doubtful ? EdgeCheck::inside_by_less_than_U : EdgeCheck::inside;
  return doubtful ? EdgeCheck::outside_by_less_than_U : EdgeCheck::outside;
}

} // namespace shankline
