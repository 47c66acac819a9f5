#include "geometry/solution/reading_worth.hpp"

#include "geometry/numerics/degree.hpp"
#include "geometry/order/foot_estimates.hpp"
#include "geometry/uncertainty/reading_doubt.hpp"

#include <algorithm>
#include <array>
#include <utility>

namespace shankline {
namespace {

constexpr double typical_length = 238;
constexpr double step = 0.5; // mm or degrees, either way

void move(std::optional<Reading>& reading, double by) {
  if (!reading) return;
  for (double& value : reading->values)
    value += by;
}

template <auto member> void move_foot(FootOrder& order, double by) {
  move(order.foot.*member, by);
}

template <auto member> void drop_foot(FootOrder& order) {
  (order.foot.*member).reset();
}

void move_bend(FootOrder& order, double by) {
  move(order.foot.arch_bend_rad, by * degree);
}

template <auto member> void move_break(FootOrder& order, double by) {
  move(order.foot.arch_break.*member, by);
}

void move_breaks(FootOrder& order, double by) {
  move(order.foot.arch_break.centre, by);
  move(order.foot.arch_break.medial, by);
  move(order.foot.arch_break.lateral, by);
}

void drop_lateral(FootOrder& order) {
  order.foot.arch_break.lateral.reset();
}

void move_inset(FootOrder& order, double by) {
  move(order.shoe.board.inset, by);
}

void move_board_length(FootOrder& order, double by) {
  move(order.shoe.board.length, by);
}

void move_mark(FootOrder& order, double by) {
  if (!order.alterations.shank) return;
  if (MarkRule* rule = std::get_if<MarkRule>(&order.alterations.shank->rule))
    for (double& value : rule->mark.values)
      value += by;
}

/// A reading with its ways to be made larger and, if possible, to be left out.
struct Row {
  std::string_view key;
  void (*move)(FootOrder&, double by);
  void (*leave_out)(FootOrder&) = nullptr;
};

constexpr std::array rows{
    Row{"length", move_foot<&Foot::length>},
    Row{"ball_length", move_foot<&Foot::ball_length>, drop_foot<&Foot::ball_length>},
    Row{"heel_front", move_foot<&Foot::heel_front>, drop_foot<&Foot::heel_front>},
    Row{"arch_break", move_breaks},
    Row{"arch_break.medial", move_break<&ArchBreak::medial>},
    Row{"arch_break.lateral", move_break<&ArchBreak::lateral>, drop_lateral},
    Row{"arch_depth", move_foot<&Foot::arch_depth>, drop_foot<&Foot::arch_depth>},
    Row{"deepest", move_foot<&Foot::deepest>, drop_foot<&Foot::deepest>},
    Row{"arch_bend", move_bend, drop_foot<&Foot::arch_bend_rad>},
    Row{"fold", move_foot<&Foot::fold>, drop_foot<&Foot::fold>},
    Row{"board.inset", move_inset},
    Row{"board.length", move_board_length},
    Row{"shank.mark", move_mark},
};

const Row* row_of(std::string_view key) {
  const auto found =
      std::find_if(rows.begin(), rows.end(), [key](const Row& row) { return row.key == key; });
  return found == rows.end() ? nullptr : &*found;
}

/// The solved foot, if its board is cut.
std::optional<FootSolution> cut_of(const Order& order, FootSide side) {
  Solution solution = solve(order);
  std::optional<FootSolution> foot = std::move(solution.foot(side));
  if (!foot || !foot->trim) return {};
  return foot;
}

std::optional<double> cut_at(Order order, FootSide side, const Row& row, double by) {
  row.move(*order.foot(side), by);
  const auto foot = cut_of(order, side);
  return foot ? std::optional(foot->trim->final_cut.centre) : std::nullopt;
}

FootOrder typical_foot(Pose pose, const TrimRule& rule) {
  const double fold = estimated_fold().value();
  const double shift = pose == Pose::in_shoe ? fold : 0;
  FootOrder order;
  Foot& foot = order.foot;
  foot.length = as_reading(typical_length, "length");
  foot.ball_length = as_reading(172, "ball_length");
  foot.heel_front = as_reading(61 + shift, "heel_front");
  foot.arch_break.medial = as_reading(97 + shift, "arch_break.medial");
  foot.arch_break.lateral = as_reading(93 + shift, "arch_break.lateral");
  foot.arch_depth = as_reading(12.5, "arch_depth");
  foot.fold = as_reading(fold, "fold");
  Board& board = order.shoe.board;
  board.length = as_reading(220, "board.length");
  board.inset = as_reading(5, "board.inset");
  board.thickness = 3.2;
  board.widths = {{22, 22.5, 22.5}, {96, 16.5, 16.5}, {164, 28, 28}};
  order.shoe.stiffness = Grade::over_the_knee;
  order.alterations.shank = ShankWish{};
  order.alterations.shank->rule = rule;
  return order;
}

void scale(std::optional<Reading>& reading, double factor) {
  if (!reading) return;
  for (double& value : reading->values)
    value *= factor;
}

template <class T> void fill_in(std::optional<T>& value, const std::optional<T>& typical) {
  if (!value) value = typical;
}

void complete(FootOrder& begun, FootOrder typical) {
  Foot& usual = typical.foot;
  const double factor =
      begun.foot.length ? begun.foot.length->value() / usual.length->value() : 1.0;
  for (auto* reading :
       {&usual.ball_length, &usual.heel_front, &usual.arch_break.medial, &usual.arch_break.lateral})
    scale(*reading, factor);
  Foot& foot = begun.foot;
  fill_in(foot.length, usual.length);
  fill_in(foot.ball_length, usual.ball_length);
  fill_in(foot.heel_front, usual.heel_front);
  fill_in(foot.fold, usual.fold);
  fill_in(foot.arch_depth, usual.arch_depth);
  ArchBreak& breaks = foot.arch_break;
  if (!breaks.centre && !breaks.medial && !breaks.lateral && !foot.deepest)
    breaks = usual.arch_break;
  Board& board = begun.shoe.board;
  fill_in(board.inset, typical.shoe.board.inset);
  if (board.state == BoardState::loose) fill_in(board.length, typical.shoe.board.length);
  if (board.widths.empty()) board.widths = typical.shoe.board.widths;
  if (!begun.alterations.shank) begun.alterations.shank = typical.alterations.shank;
}

} // namespace

Order typical_order(Pose pose, const TrimRule& rule) {
  Order order;
  order.dancer = "M-07";
  order.pose = pose;
  order.left = order.right = typical_foot(pose, rule);
  return order;
}

Order completed_order(Order begun, FootSide side) {
  const Order typical = typical_order(begun.pose);
  std::optional<FootOrder>& foot = begun.foot(side);
  if (!foot) foot.emplace();
  complete(*foot, *typical.left);
  // The worth of a reading can be worked out before an adult has decided.
  if (begun.decided_by.empty()) begun.decided_by = "T-1";
  // The other foot has no say in this one's cut.
  begun.foot(side == FootSide::left ? FootSide::right : FootSide::left).reset();
  return begun;
}

std::optional<ReadingWorth> reading_worth(const Order& order, FootSide side, std::string_view key) {
  const Row* row = row_of(key);
  if (!row) return {};
  const Order whole = completed_order(order, side);
  const auto taken = cut_of(whole, side);
  const auto less = cut_at(whole, side, *row, -step);
  const auto more = cut_at(whole, side, *row, step);
  if (!taken || !less || !more) return {};
  ReadingWorth worth;
  worth.per_unit = (*more - *less) / (2 * step);
  worth.U = taken->trim->doubt.board.expanded();
  if (!row->leave_out) return worth;
  Order without = whole;
  row->leave_out(*without.foot(side));
  const auto left_out = cut_of(without, side);
  if (!left_out) return worth;
  worth.U_left_out = left_out->trim->doubt.board.expanded();
  for (const Estimated& estimated : left_out->estimated)
    if (estimated.key == key) worth.estimate = estimated;
  return worth;
}

} // namespace shankline
