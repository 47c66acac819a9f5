#include "geometry/trim_solution.hpp"

#include "geometry/board_thinning.hpp"
#include "geometry/degree.hpp"
#include "geometry/figure.hpp"
#include "geometry/reading_guide.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace shankline {
namespace {

constexpr double three_quarters = 0.75;
constexpr double cautious_reach = 0.7; // common practice, no source
/// Decimal readings make window edges that binary numbers miss by a hair.
constexpr double hair = 1e-9;

class TrimSolver {
public:
  TrimSolver(const TrimInput& input, Findings& findings) : in_(input), findings_(findings) {}

  std::optional<SolvedTrim> solve() {
    trim_.doubt = trim_doubt(in_.model);
    window();
    if (!failed_) station();
    const std::size_t before = findings_.size();
    if (!failed_) hold_to_window();
    if (!failed_ && trim_.reach < cautious_reach) short_of_the_arch(before);
    if (!failed_) skew();
    if (!failed_) lines();
    if (failed_) return {};
    if (in_.wish.end == BoardEnd::straight && in_.wish.corner != ShankWish{}.corner)
      caution(wish("corner"),
              "a corner of radius " + short_figure(in_.wish.corner) +
                  " has no effect: the board's end is straight",
              "", "Write end: rounded, or delete corner.");
    rules();
    trim_.gains = repeat_gains(in_.model, trim_.doubt);
    return trim_;
  }

private:
  /// The gravest of its cautions, so that a sheet's first line is this one.
  void short_of_the_arch(std::size_t before) {
    const double ahead = trim_.station - arch().break_at;
    findings_.insert(findings_.begin() + static_cast<std::ptrdiff_t>(before),
                     {Severity::caution, rule_key(),
                      "the board ends well ahead of the heel front (reach " +
                          short_figure(trim_.reach, 2) + "): " +
                          (ahead > hair ? "nothing is left behind the arch break, it ends " +
                                              short_figure(ahead) + " ahead of it"
                                        : std::string("little is left behind the arch break")),
                      "", "Only with a teacher's or fitter's word."});
  }

  void error(std::string key, std::string what, std::string allowed, std::string advice) {
    failed_ = true;
    findings_.push_back(
        {Severity::error, std::move(key), std::move(what), std::move(allowed), std::move(advice)});
  }
  void caution(std::string key, std::string what, std::string allowed, std::string advice) {
    findings_.push_back({Severity::caution, std::move(key), std::move(what), std::move(allowed),
                         std::move(advice)});
  }
  std::string wish(const std::string& key) const { return in_.wish_path + "." + key; }
  std::string rule_key() const {
    const TrimRule& rule = in_.wish.rule;
    if (std::holds_alternative<KeepRule>(rule)) return wish("keep");
    return std::holds_alternative<MarkRule>(rule) ? wish("mark") : wish("reach");
  }
  /// A foot station as the order's pose counts it.
  std::string posed(double station) const { return short_figure(station + in_.foot.pose_shift); }
  const SolvedArch& arch() const { return in_.foot.arch; }
  std::optional<double> whole_length() const {
    return in_.outline.closed() ? in_.outline.length() : in_.board.sole_length;
  }

  void window() {
    trim_.window =
        trim_window(arch().break_at, arch().heel_front, in_.wish.tuck_max, in_.wish.bearing_min);
    if (trim_.window.from <= trim_.window.to + hair || in_.wish.accept_outside_window) return;
    const double apart = arch().break_at - arch().heel_front;
    const double needed = in_.wish.bearing_min - in_.wish.tuck_max;
    error(in_.foot_path + ".arch_break",
          "the arch break (" + posed(arch().break_at) + ") lies only " + short_figure(apart) +
              " ahead of the heel front (" + posed(arch().heel_front) +
              "): there is no room for a cut",
          "at least " + short_figure(needed) + " apart: " + short_figure(needed - apart) +
              " more (bearing_min " + short_figure(in_.wish.bearing_min) + " less tuck_max " +
              short_figure(in_.wish.tuck_max) + ")",
          "Measure both again; the break is where the sole bends, not the top of the instep. Or "
          "write accept: outside_window in shank, with a fitter's word.");
  }

  void station() {
    if (const auto* reach = std::get_if<ReachRule>(&in_.wish.rule)) {
      trim_.station = station_of_reach(reach->reach, arch().break_at, arch().heel_front);
    } else if (const auto* keep = std::get_if<KeepRule>(&in_.wish.rule)) {
      if (!whole_length()) {
        error(rule_key(), "a fraction to keep needs the length of the whole",
              "board.sole_length for a board in the shoe",
              "Measure the outer sole from end to end, or give a reach instead.");
        return;
      }
      trim_.station = (1 - keep->keep) * *whole_length() - in_.shift;
    } else {
      trim_.station = std::get<MarkRule>(in_.wish.rule).mark - in_.shift;
    }
    trim_.reach = reach_of_station(trim_.station, arch().break_at, arch().heel_front);
  }

  void hold_to_window() {
    const double under_from = trim_.window.from - trim_.station;
    const double past_to = trim_.station - trim_.window.to;
    if (under_from <= hair && past_to <= hair) return near_an_edge();
    const bool tucked = under_from > hair;
    const double off = tucked ? under_from : past_to;
    const Uncertain& inside = tucked ? trim_.doubt.past_tuck : trim_.doubt.before_stop;
    const double U = inside.expanded();
    const std::string what =
        "the board would end at " + posed(trim_.station) + ", " + short_figure(off) +
        (tucked ? " too far under the heel" : " too near to the arch break") +
        (held_inside(inside) == Held::outside_by_less_than_U
             ? " (known to \u00b1" + short_figure(U) + " only: measuring again may settle it)"
             : std::string());
    if (in_.wish.accept_outside_window) {
      caution(rule_key(), what + "; the order accepts it", "",
              "Only with a teacher's or fitter's word.");
      return;
    }
    error(rule_key(), what, posed(trim_.window.from) + " to " + posed(trim_.window.to),
          wish_that_fits(tucked) + " " + reading_that_fits(tucked, off) +
              " With a fitter's word: accept: outside_window.");
  }

  /// Inside, but by less than is known.
  void near_an_edge() {
    for (const auto& [inside, edge] :
         {std::pair{&trim_.doubt.past_tuck, "the farthest tuck under the heel"},
          std::pair{&trim_.doubt.before_stop, "the stop line"}})
      if (held_inside(*inside) == Held::inside_by_less_than_U)
        caution(rule_key(),
                "the cut lies only " + short_figure(inside->value) + " from " + edge +
                    ", which is known to \u00b1" + short_figure(inside->expanded()),
                "", "Take the heel front and the arch break once more.");
  }

  /// The same rule, changed just enough.
  std::string wish_that_fits(bool tucked) const {
    const double edge = tucked ? trim_.window.from : trim_.window.to;
    if (std::holds_alternative<ReachRule>(in_.wish.rule)) {
      const double reach = reach_of_station(edge, arch().break_at, arch().heel_front);
      const double safe = tucked ? std::floor(reach * 100) / 100 : std::ceil(reach * 100) / 100;
      return std::string("Ask for a reach of at ") + (tucked ? "most " : "least ") +
             short_figure(safe, 2) + ".";
    }
    const double mark = edge + in_.shift;
    if (std::holds_alternative<MarkRule>(in_.wish.rule))
      return std::string("Mark the board at ") + (tucked ? "least " : "most ") +
             short_figure(tucked ? std::ceil(mark * 10) / 10 : std::floor(mark * 10) / 10) +
             " from its heel end.";
    const double keep = 1 - mark / *whole_length();
    return std::string("Keep at ") + (tucked ? "most " : "least ") +
           short_figure(100 *
                        (tucked ? std::floor(keep * 1000) / 1000 : std::ceil(keep * 1000) / 1000)) +
           " %.";
  }

  /// Or the reading, if it is the one in doubt.
  std::string reading_that_fits(bool tucked, double off) const {
    if (std::holds_alternative<ReachRule>(in_.wish.rule)) {
      const double apart = arch().break_at - arch().heel_front;
      const double fits =
          tucked ? in_.wish.tuck_max / (trim_.reach - 1) : in_.wish.bearing_min / trim_.reach;
      return "If a reading is in doubt: heel front and arch break would have to lie " +
             short_figure(std::abs(apart - fits)) +
             (tucked ? " nearer together." : " farther apart.");
    }
    return std::string("If a reading is in doubt: the ") +
           (tucked ? "heel front would have to lie " : "arch break would have to lie ") +
           short_figure(off) + (tucked ? " nearer the heel's back." : " nearer the toes.");
  }

  void skew() {
    const bool medial = arch().break_medial.has_value();
    const bool lateral = arch().break_lateral.has_value();
    if (!medial || !lateral) {
      trim_.skew_reason = medial || lateral ? "square: the arch break was found on one edge only"
                                            : "square: one arch break for both edges";
      return;
    }
    const double at_break = arch().break_at + in_.shift;
    const double across = in_.across.value_or(in_.outline.half_width(Edge::medial, at_break) +
                                              in_.outline.half_width(Edge::lateral, at_break));
    if (!(across > 0)) {
      error(in_.foot_path + ".arch_break",
            "the arch break (" + posed(arch().break_at) + ") lies off the board",
            "a break on the board", "Measure the arch break, the inset and the board again.");
      return;
    }
    const double apart = std::abs(*arch().break_medial - *arch().break_lateral);
    if (apart == 0) {
      trim_.skew_reason = "square: both arch breaks are the same";
      return;
    }
    const auto& known = trim_.doubt.breaks_apart;
    if (!known || !told_apart(*known)) {
      trim_.skew_reason = "square: the two arch breaks differ by " + short_figure(apart) +
                          ", known to \u00b1" + short_figure(known ? known->expanded() : 0) +
                          " only";
      return;
    }
    trim_.skew = skew_angle(*arch().break_medial, *arch().break_lateral, across);
    trim_.skew_reason = "parallel to the line through the two arch breaks";
    if (std::abs(trim_.skew) > largest_skew) refuse_skew(apart, across);
  }

  void refuse_skew(double apart, double across) {
    const double most = std::tan(largest_skew) * across;
    error(in_.foot_path + ".arch_break",
          "the two arch breaks differ by " + short_figure(apart) + " over a width of " +
              short_figure(across) + ": a line at " +
              short_figure(std::abs(trim_.skew) / degree, 0) + " degrees",
          "up to " + short_figure(largest_skew / degree, 0) + " degrees, here " +
              short_figure(std::floor(most * 10) / 10) + " apart",
          "Bring them " + short_figure(std::ceil((apart - most) * 10) / 10) +
              " nearer: measure the little-toe side again (it is the harder one), or leave it "
              "out: the line is then square.");
  }

  std::optional<CutLine> place(double centre) { return cut_line(in_.outline, centre, trim_.skew); }

  void lines() {
    const double centre = trim_.station + in_.shift;
    const std::optional<CutLine> final_cut = place(centre);
    if (!final_cut) {
      error(
          rule_key(),
          "the cut would lie " + short_figure(std::abs(centre)) +
              (centre <= 0 ? " behind the board's heel end" : " from the heel end, off the board"),
          "a place on the board",
          centre <= 0 ? "The board already ends ahead of that: leave it, or ask for a smaller "
                        "reach. Check the inset (a larger one moves the board forward)."
                      : "Check the board's length, the inset and the arch break.");
      return;
    }
    trim_.final_cut = *final_cut;
    if (!known_at(trim_.final_cut)) return;
    end();
    if (failed_) return;

    trim_.first_cut = place(centre - first_cut_reserve(trim_.doubt.board));
    if (!trim_.first_cut)
      caution(rule_key(),
              "only " + short_figure(centre) + " come off in all: too little to cut in two steps",
              "", "File it back a little at a time.");

    // With the window accepted by name the final line itself is the limit.
    const double bearing_at = arch().break_at - in_.wish.bearing_min + in_.shift;
    const double stop_at = std::max(bearing_at, centre);
    const auto stop = place(stop_at);
    double foremost = stop ? std::max({stop->centre, stop->medial, stop->lateral}) : stop_at;
    for (const Point& p : trim_.end)
      foremost = std::max(foremost, p.x);
    const auto witness = cut_line(in_.outline, witness_station(foremost), 0);
    const auto lift = place(centre + lift_past_cut);
    if (!stop || !witness || !lift) {
      error(in_.board_path + ".length", "the board is too short for its lines",
            "beyond " + short_figure(witness_station(foremost)) +
                ", where the witness line would be",
            how_to_take("board.length"));
      return;
    }
    if (stop_at <= bearing_at && !corners_behind(stop_at - centre)) return;
    trim_.stop = *stop;
    trim_.witness = *witness;
    trim_.lift_limit = *lift;
    bevel(centre);
  }

  /// A board in the shoe: the width at the cut has to be known.
  bool known_at(const CutLine& line) {
    if (in_.outline.closed()) return true;
    const double foremost = std::max(line.medial, line.lateral);
    const double last = in_.outline.last_station();
    if (foremost <= last + held_past_last) return true;
    error(in_.board_path + ".widths",
          "the board's width is known up to " + short_figure(last) + " only, the cut lies at " +
              short_figure(line.centre),
          "a width at the place of the cut",
          "Measure the board's width at about " + short_figure(line.centre, 0) +
              " from its heel end and add it.");
    return false;
  }

  void bevel(double centre) {
    const double length = in_.wish.bevel;
    if (length == 0) return;
    const double behind_break = arch().break_at - trim_.station;
    if (length > behind_break) {
      error(wish("bevel"),
            "a bevel of " + short_figure(length) + " would thin the board under the arch break",
            "up to " + short_figure(std::floor(behind_break * 10) / 10),
            "Usually 12; 0 leaves the edge as it is.");
      return;
    }
    trim_.bevel = place(centre + length);
    trim_.bevel_edge_thickness = bevelled_edge();
  }

  /// Where layers stay behind the cut, the bevel runs out on the first of them.
  std::optional<double> bevelled_edge() const {
    const Board& board = in_.board;
    if (const auto layers = layers_left(board, in_.wish))
      return board.thickness ? std::optional(layers->ratio() * *board.thickness) : std::nullopt;
    if (board.edge_thickness || !board.thickness) return board.edge_thickness;
    return usual_edge_ratio * *board.thickness;
  }

  void end() {
    const auto points = board_end(in_.outline, trim_.final_cut, in_.wish.end, in_.wish.corner);
    if (points) {
      trim_.end = *points;
      return;
    }
    const double width = trim_.final_cut.medial_end.y - trim_.final_cut.lateral_end.y;
    double fits = std::floor(width);
    while (fits > 0 && !board_end(in_.outline, trim_.final_cut, in_.wish.end, fits / 2))
      --fits;
    error(wish("corner"),
          "corners of radius " + short_figure(in_.wish.corner) +
              " do not fit on the board's end, " + short_figure(width) + " wide",
          "up to " + short_figure(fits / 2), "Make the radius smaller, or write end: straight.");
  }

  /// How far ahead of the final line its rounded corners end.
  double corners_ahead(const Polyline& end) const {
    double ahead = 0;
    for (const Point& p : end)
      ahead = std::max(ahead, ahead_of(trim_.final_cut, p));
    return ahead;
  }

  /// A rounded corner is cut too: it stays behind the stop line, `room` ahead of the final one.
  bool corners_behind(double room) {
    const double past = corners_ahead(trim_.end) - room;
    if (past <= hair) return true;
    double fits = std::floor(in_.wish.corner * 2) / 2;
    while (fits > 0) {
      const auto smaller = board_end(in_.outline, trim_.final_cut, in_.wish.end, fits);
      if (smaller && corners_ahead(*smaller) <= room) break;
      fits -= 0.5;
    }
    error(wish("corner"),
          "corners of radius " + short_figure(in_.wish.corner) + " end the board's edges " +
              short_figure(past) + " past the stop line",
          fits > 0 ? "a radius up to " + short_figure(fits) : "end: straight",
          "Make the radius smaller, or write end: straight.");
    return false;
  }

  void rules() {
    const double shift = in_.foot.pose_shift;
    const double b = arch().break_at;
    const double h = arch().heel_front;
    trim_.other_rules.heel_front = h + shift;
    trim_.other_rules.short_reach = station_of_reach(short_reach.reach, b, h) + shift;
    trim_.other_rules.tucked_reach = station_of_reach(tucked_reach.reach, b, h) + shift;
    if (whole_length())
      trim_.other_rules.three_quarter = (1 - three_quarters) * *whole_length() - in_.shift + shift;
  }

  const TrimInput& in_;
  Findings& findings_;
  SolvedTrim trim_{};
  bool failed_ = false;
};

} // namespace

std::optional<SolvedTrim> solve_trim(const TrimInput& input, Findings& findings) {
  return TrimSolver(input, findings).solve();
}

} // namespace shankline
