#include "geometry/comparison/foot_figures.hpp"
#include "geometry/uncertainty/reading_doubt.hpp"

#include <cmath>
#include <cstddef>
#include <string>
#include <utility>
#include <vector>

namespace shankline {
namespace {

/// Sums of what the trim's doubt is made of: every result here is one.
class KnifeFigures {
public:
  explicit KnifeFigures(const SolvedFoot& foot)
      : foot_(foot), trim_(*foot.solution.trim), doubt_(trim_.doubt) {
    group_.sources = doubt_.sources;
    board_length();
  }

  FigureGroup all() && {
    cuts();
    lines();
    stations();
    skew();
    kept();
    chosen();
    return std::move(group_);
  }

private:
  using Parts = std::vector<double>;

  Parts parts(const Uncertain& of, double factor = 1) const {
    Parts parts(group_.sources.size(), 0.0);
    for (std::size_t i = 0; i < of.parts.size(); ++i)
      parts[i] = factor * of.parts[i];
    return parts;
  }
  static Parts sum(Parts a, const Parts& b) {
    for (std::size_t i = 0; i < b.size(); ++i)
      a[i] += b[i];
    return a;
  }

  void add(std::string key, std::string name, FigureUnit unit, double value, Parts of) {
    group_.figures.push_back({std::move(key),
                              std::move(name),
                              FigureRank::knife,
                              unit,
                              combine(value, std::move(of), group_.sources),
                              false,
                              false,
                              {}});
  }
  void add_chosen(std::string key, std::string name, FigureUnit unit, double value) {
    add(std::move(key), std::move(name), unit, value, Parts(group_.sources.size(), 0.0));
    group_.figures.back().chosen = true;
  }
  void add_missing(std::string key, std::string name, FigureUnit unit, std::string why) {
    group_.figures.push_back(
        missing_figure(std::move(key), std::move(name), FigureRank::knife, unit, std::move(why)));
  }

  /// A loose board's length, which only the rule that keeps a fraction reads.
  void board_length() {
    if (!foot_.solution.outline.closed()) return;
    const std::string owner = foot_name(foot_.solution.side);
    const std::string own = owner + ".board.length";
    const std::string habit = "habit of board.length";
    const ReadingDoubt doubt = reading_doubt(*foot_.foot.shoe.board.length);
    const auto part = [&](const Source& source, double reach) {
      for (std::size_t i = 0; i < group_.sources.size(); ++i)
        if (group_.sources[i].name == source.name) {
          length_parts_[i] = reach * source.u;
          return;
        }
      group_.sources.push_back(source);
      length_parts_.push_back(reach * source.u);
    };
    length_parts_.assign(group_.sources.size(), 0.0);
    part({own, doubt.fresh(), doubt.freedom, Shape::normal, false}, 1);
    part(rectangular(habit, 1, true), doubt.habit());
  }

  /// The line's error at an edge is that of the two breaks, in proportion to the edge's distance
  /// from the centre.
  Parts at_edge(const Point& end) const {
    Parts of = parts(trim_.final_doubt());
    if (trim_.skew == 0 || !doubt_.breaks_apart) return of;
    return sum(std::move(of), parts(*doubt_.breaks_apart, end.y / across()));
  }
  double across() const {
    return (*foot_.solution.arch.break_medial - *foot_.solution.arch.break_lateral) /
           std::tan(trim_.skew);
  }

  void cuts() {
    const auto at = [&](const std::string& key, const std::string& name, const CutLine& line) {
      add(key + ".centre", name + ", centre", FigureUnit::mm, line.centre,
          parts(trim_.final_doubt()));
      add(key + ".medial", name + ", big-toe edge", FigureUnit::mm, line.medial,
          at_edge(line.medial_end));
      add(key + ".lateral", name + ", little-toe edge", FigureUnit::mm, line.lateral,
          at_edge(line.lateral_end));
    };
    at("trim.final", "final cut", trim_.final_cut);
    if (trim_.first_cut)
      add("trim.first.centre", "first cut, centre", FigureUnit::mm, trim_.first_cut->centre,
          parts(trim_.final_doubt()));
    else
      add_missing("trim.first.centre", "first cut, centre", FigureUnit::mm,
                  "little comes off: it is filed back");
  }

  void lines() {
    add("trim.stop_from", "stop band begins", FigureUnit::mm, trim_.stop_from.centre,
        parts(doubt_.stop));
    add("trim.stop", "stop line", FigureUnit::mm, trim_.stop.centre, parts(doubt_.stop));
    add_chosen("trim.witness", "witness line", FigureUnit::mm, trim_.witness.centre);
  }

  void stations() {
    // A line held at the stop band goes with the break alone.
    add("trim.station", "board's end on the foot", FigureUnit::mm, trim_.station,
        trim_.held_from ? sum(parts(doubt_.station), parts(doubt_.before_stop))
                        : parts(doubt_.station));
    add("trim.window.from", "window, farthest tuck", FigureUnit::mm, trim_.window.from,
        sum(parts(doubt_.station), parts(doubt_.past_tuck, -1)));
    add("trim.window.to", "window, stop", FigureUnit::mm, trim_.window.to,
        sum(parts(doubt_.station), parts(doubt_.before_stop)));
    add("trim.board_left", "board behind the break", FigureUnit::mm,
        foot_.solution.arch.break_at - trim_.station,
        trim_.held_from ? Parts(group_.sources.size(), 0.0) : parts(doubt_.before_stop));
  }

  /// The skew as drawn: 0 where the two breaks are too close to call, with the doubt that they have
  /// all the same.
  void skew() {
    const SolvedArch& arch = foot_.solution.arch;
    if (!doubt_.breaks_apart) {
      add_missing("trim.skew", "skew", FigureUnit::angle, "one arch break only");
      return;
    }
    const BoardStation at_break = foot_.solution.frames.on_board(arch.break_at);
    const double wide = foot_.foot.foot.arch_break.across.value_or(
        foot_.solution.outline.half_width(Edge::medial, at_break) +
        foot_.solution.outline.half_width(Edge::lateral, at_break));
    const double slope = std::tan(trim_.skew);
    add("trim.skew", "skew", FigureUnit::angle, trim_.skew,
        parts(*doubt_.breaks_apart, 1 / (wide * (1 + slope * slope))));
  }

  void kept() {
    const SolvedPieces& pieces = foot_.solution.pieces;
    const char* const why = "board in the shoe: its length is not known";
    if (!pieces.kept_length) {
      add_missing("pieces.kept.length", "keep", FigureUnit::mm, why);
      add_missing("pieces.kept_fraction", "keep, of the board", FigureUnit::fraction, why);
      return;
    }
    const double length = *foot_.solution.outline.length();
    Parts of = sum(length_parts_, parts(trim_.final_doubt(), -1));
    add("pieces.kept.length", "keep", FigureUnit::mm, *pieces.kept_length, of);
    // 1 − X/L
    Parts fraction = parts(trim_.final_doubt(), -1 / length);
    for (std::size_t i = 0; i < length_parts_.size(); ++i)
      fraction[i] += trim_.final_cut.centre / (length * length) * length_parts_[i];
    add("pieces.kept_fraction", "keep, of the board", FigureUnit::fraction, *pieces.kept_fraction,
        std::move(fraction));
  }

  void chosen() {
    const ShankWish& wish = *foot_.foot.alterations.shank;
    if (const auto* reach = std::get_if<ReachRule>(&wish.rule))
      add_chosen("trim.reach", "reach", FigureUnit::number, reach->reach);
    else
      add_missing("trim.reach", "reach", FigureUnit::number, "cut by another rule");
    add_chosen("trim.bevel", "bevel", FigureUnit::mm, wish.bevel);
    add_chosen("trim.corner", "corner radius, 0 is straight", FigureUnit::mm,
               trim_.rounded() ? wish.corner : 0);
    group_.figures.back().not_asked_for = !trim_.rounded();
  }

  const SolvedFoot& foot_;
  const SolvedTrim& trim_;
  const TrimDoubt& doubt_;
  FigureGroup group_;
  Parts length_parts_;
};

} // namespace

FigureGroup knife_figures(const SolvedFoot& foot) {
  if (!foot.solution.trim) return {};
  return KnifeFigures(foot).all();
}

} // namespace shankline
