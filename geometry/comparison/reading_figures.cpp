#include "geometry/comparison/foot_figures.hpp"
#include "geometry/order/figure.hpp"
#include "geometry/order/foot_estimates.hpp"
#include "geometry/order/reading_guide.hpp"
#include "geometry/uncertainty/reading_doubt.hpp"

#include <algorithm>
#include <array>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace shankline {
namespace {

constexpr double caliper = 0; // mm, half-width; the guide's own half-width is all the doubt

/// A reading that is taken on each edge of the shoe.
struct SideReading {
  const char* key;
  const char* name; ///< shorter than the guide's: the side is said too
  std::optional<double> StockSides::*both;
  std::optional<double> StockHeights::*own;
  bool station;
};
constexpr std::array side_readings{
    SideReading{"sides.low", "low height", &StockSides::low, &StockHeights::low, false},
    SideReading{"sides.low_at", "low point at", &StockSides::low_at, &StockHeights::low_at, true},
    SideReading{"sides.wing", "wing height", &StockSides::wing, &StockHeights::wing, false},
    SideReading{"sides.wing_at", "wing ends at", &StockSides::wing_at, &StockHeights::wing_at,
                true}};

class ReadingFigures {
public:
  explicit ReadingFigures(const SolvedFoot& foot)
      : foot_(foot), owner_(foot_name(foot.solution.side)) {}

  FigureGroup all() && {
    fold(); // first: stations that were read in the shoe depend on it
    feet();
    board();
    sides();
    platform();
    const Propagation found =
        propagate(inputs_, Measurands([&](std::span<const double> in, std::span<double> out) {
                    for (std::size_t i = 0; i < rows_.size(); ++i)
                      out[i] = (in[rows_[i].input] + in[rows_[i].with]) / 2 -
                               (in_shoe() && rows_[i].station ? in[fold_] : 0);
                  }),
                  rows_.size());
    const std::span<const Source> sources = inputs_.sources();
    FigureGroup group{{sources.begin(), sources.end()}, {}};
    for (std::size_t i = 0; i < rows_.size(); ++i)
      group.figures.push_back({rows_[i].key,
                               rows_[i].name,
                               FigureRank::reading,
                               rows_[i].unit,
                               found.results[i],
                               rows_[i].estimated,
                               false,
                               {}});
    // Put the readings back into the order of measuring; the fold had to come first.
    if (!group.figures.empty())
      std::rotate(group.figures.begin(), group.figures.begin() + 1,
                  group.figures.begin() + static_cast<std::ptrdiff_t>(foot_readings_));
    return group;
  }

private:
  struct Row {
    std::string key;
    std::string name;
    FigureUnit unit;
    std::size_t input;
    bool estimated;
    bool station;
    std::size_t with = input; ///< the row is the mean of `input` and this one; mostly the same
  };

  bool in_shoe() const { return foot_.order.pose == Pose::in_shoe; }

  std::size_t add(const std::string& key, const std::string& name, const std::string& kind,
                  const Reading& reading, bool station = false, FigureUnit unit = FigureUnit::mm,
                  double tape = tape_half_width) {
    const ReadingInput at =
        add_reading(inputs_, key, kind, owner_, reading.value(), reading_doubt(reading, tape));
    rows_.push_back({key, name, unit, at.input, reading.estimated, station});
    return at.input;
  }
  std::size_t add(const std::string& key, const std::string& kind, const Reading& reading,
                  bool station = false) {
    return add(key, std::string(reading_guide(key)->name), kind, reading, station);
  }

  void fold() {
    const Reading fold = foot_.foot.foot.fold.value_or(estimated_fold());
    fold_ = add("fold", "fold", fold);
  }

  void feet() {
    for (const ReadingGuide& guide : reading_guides())
      if (guide.in_foot && guide.key != "fold") foot_reading(guide);
    foot_readings_ = rows_.size();
  }

  void foot_reading(const ReadingGuide& guide) {
    const Foot& foot = foot_.foot.foot;
    const std::string key(guide.key);
    const std::optional<Reading>& taken = guide.in_foot.of(foot);
    if (guide.in_foot.is_of_arch_break()) {
      if (key == "arch_break") arch_break(foot.arch_break);
    } else if (taken && guide.quantity == Quantity::angle) {
      // A protractor adds no error of a tape. The unit has a column of its own.
      add(key, "arch bend", key, *taken, false, FigureUnit::angle, 0);
    } else if (taken) {
      add(key, key, *taken, guide.posed);
    } else if (const auto estimated = stand_in(key)) {
      add(key, key, *estimated, false); // worked out in the foot frame
    }
  }

  /// The estimate that replaces a missing reading which every order needs.
  std::optional<Reading> stand_in(std::string_view key) const {
    const double length = foot_.foot.foot.length->value();
    if (key == "ball_length") return estimated_ball_length(foot_.order.estimates_from, length);
    if (key == "heel_front") return estimated_heel_front(foot_.order.estimates_from, length);
    return {};
  }

  /// Adds the middle too, so that an order with one break compares with one that has two.
  void arch_break(const ArchBreak& b) {
    if (b.centre) add("arch_break", "arch_break", *b.centre, true);
    std::optional<std::size_t> medial;
    std::optional<std::size_t> lateral;
    if (b.medial) medial = add("arch_break.medial", "arch_break", *b.medial, true);
    if (b.lateral) lateral = add("arch_break.lateral", "arch_break", *b.lateral, true);
    if (!medial && !lateral) return;
    rows_.push_back({"arch_break", "arch break", FigureUnit::mm, medial ? *medial : *lateral, false,
                     true, lateral ? *lateral : *medial});
  }

  /// Adds a figure of the order that is not a reading, with the doubt that the guide gives.
  void plain(const std::string& key, const std::string& name, const std::string& guide,
             std::optional<double> value, bool station = false, double tape = tape_half_width) {
    if (!value) return;
    const bool angle = reading_guide(guide)->quantity == Quantity::angle;
    add(key, name, guide, as_reading(*value, guide), station,
        angle ? FigureUnit::angle : FigureUnit::mm, angle ? 0 : tape);
  }
  void plain(const std::string& key, std::optional<double> value, double tape = tape_half_width) {
    plain(key, std::string(reading_guide(key)->name), key, value, false, tape);
  }

  void board() {
    const Board& board = foot_.foot.shoe.board;
    if (board.length) add("board.length", "board.length", *board.length);
    plain("board.sole_length", board.sole_length);
    if (board.inset) add("board.inset", "board.inset", *board.inset);
    plain("board.thickness", board.thickness, caliper);
    plain("board.edge_thickness", board.edge_thickness, caliper);
    for (const BoardWidth& width : board.widths) {
      const std::string at = short_figure(width.station);
      plain("board.width." + at, "board width at " + at, "board.widths.width",
            width.medial + width.lateral);
    }
  }

  void sides() {
    if (!foot_.foot.shoe.sides) return;
    const StockSides& sides = *foot_.foot.shoe.sides;
    plain("sides.back", sides.back);
    for (const SideReading& reading : side_readings)
      for (const auto& [own, edge, words] :
           {std::tuple{&sides.medial, ".medial", ", big-toe side"},
            std::tuple{&sides.lateral, ".lateral", ", little-toe side"}}) {
        const std::optional<double> mine = *own ? (**own).*reading.own : std::nullopt;
        plain(std::string(reading.key) + edge, std::string(reading.name) + words, reading.key,
              mine ? mine : sides.*reading.both, reading.station);
      }
    plain("sides.lean", sides.lean_rad);
    plain("sides.width_across", sides.width_across);
    plain("sides.casing", sides.casing, caliper);
    plain("sides.throat", sides.throat);
  }

  void platform() {
    if (!foot_.foot.shoe.platform) return;
    plain("platform.width", foot_.foot.shoe.platform->width);
    plain("platform.depth", foot_.foot.shoe.platform->depth);
  }

  const SolvedFoot& foot_;
  std::string owner_;
  Inputs inputs_;
  std::vector<Row> rows_;
  std::size_t fold_ = 0;
  std::size_t foot_readings_ = 0;
};

} // namespace

FigureGroup reading_figures(const SolvedFoot& foot) {
  return ReadingFigures(foot).all();
}

} // namespace shankline
