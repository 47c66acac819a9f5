#include "geometry/board/trim_solution.hpp"

#include "geometry/board/board_thinning.hpp"
#include "geometry/numerics/degree.hpp"
#include "geometry/order/figure.hpp"
#include "geometry/order/reading_guide.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace shankline {
namespace {

constexpr double three_quarters = 0.75;
constexpr double cautious_reach = 0.7; // common practice, no source
/// mm. A place that was written to lie exactly on an edge of the window may miss it by this much in
/// binary.
constexpr double rounding_error = 1e-9;

class TrimSolver {
public:
  TrimSolver(const TrimInput& input, Findings& findings) : in_(input), findings_(findings) {}

  std::optional<SolvedTrim> solve() {
    trim_.doubt = trim_doubt(in_.model);
    trim_.growing = in_.growing;
    trim_.may_enter_band = in_.wish.accept_in_stop_band && !in_.growing;
    window();
    if (!failed_) station();
    if (!failed_) behind_the_break();
    if (!failed_) grown_enough();
    if (!failed_) hold_to_window();
    if (!failed_) skew();
    if (!failed_) stop_band();
    if (!failed_ && trim_.reach < cautious_reach) short_of_the_arch();
    if (!failed_) lines();
    if (failed_) return {};
    if (in_.wish.end == BoardEnd::straight && in_.wish.corner != ShankWish{}.corner)
      caution(wish("corner"),
              "a corner of radius " + short_figure(in_.wish.corner) +
                  " mm has no effect: the board's end is straight",
              "", "Write end: rounded, or delete corner.");
    rules();
    trim_.gains = repeat_gains(in_.model, trim_.doubt);
    return trim_;
  }

private:
  void short_of_the_arch() {
    caution(rule_key(),
            "the board ends well ahead of the heel front (reach " + short_figure(trim_.reach, 2) +
                "): little is left behind the arch break",
            "", "Only with a teacher's or fitter's word.", rank_of_short_board);
  }

  void error(Key key, std::string what, std::string allowed, std::string advice) {
    failed_ = true;
    findings_.push_back(
        {Severity::error, std::move(key), std::move(what), std::move(allowed), std::move(advice)});
  }
  void caution(Key key, std::string what, std::string allowed, std::string advice, int rank = 0) {
    findings_.push_back({Severity::caution, std::move(key), std::move(what), std::move(allowed),
                         std::move(advice), rank});
  }
  std::string wish(const std::string& key) const { return in_.wish_path + "." + key; }
  std::string rule_key() const {
    const TrimRule& rule = in_.wish.rule;
    if (std::holds_alternative<KeepRule>(rule)) return wish("keep");
    return std::holds_alternative<MarkRule>(rule) ? wish("mark") : wish("reach");
  }
  /// A foot station as the order's pose counts it.
  std::string posed(FootStation at) const { return short_figure(in_.frames.posed(at)); }
  /// Where the order's pose counts from; a cut on the board counts from the board's heel end.
  const char* counted_from() const {
    return in_.frames.posed(FootStation(0.0)) > 0.0 ? "the shoe's back seam"
                                                    : "the back of the heel";
  }
  const SolvedArch& arch() const { return in_.foot.arch; }
  bool goes_by_reach() const { return std::holds_alternative<ReachRule>(in_.wish.rule); }
  /// A rule that the order gives as a reach is drawn at the stop band's near edge where it would
  /// end inside the band.
  bool may_be_held() const { return goes_by_reach() || is_learned(); }
  bool is_learned() const { return std::holds_alternative<LearnedRule>(in_.wish.rule); }
  std::optional<double> whole() const { return whole_length(in_.board); }

  void window() {
    trim_.window =
        trim_window(arch().break_at, arch().heel_front, in_.wish.tuck_max, in_.wish.bearing_min);
    if (const double usual = ShankWish().bearing_min; in_.wish.bearing_min < usual)
      caution(wish("bearing_min"),
              "the stop line leaves only " + short_figure(in_.wish.bearing_min) +
                  " mm of board behind the arch break, where " + short_figure(usual) +
                  " are usual: it and the stop band lie " +
                  short_figure(usual - in_.wish.bearing_min) + " mm nearer to the toes",
              "", "Only with a teacher's or fitter's word.", rank_of_stop_band);
    if (trim_.window.from <= trim_.window.to + rounding_error || in_.wish.accept_outside_window)
      return;
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

  FootStation rule_at(const TrimRule& rule) const {
    const auto* mark = std::get_if<MarkRule>(&rule);
    const auto* learned = std::get_if<LearnedRule>(&rule);
    return rule_line(rule, arch().break_at, arch().heel_front, in_.frames,
                     {whole().value_or(0), mark ? mark->mark.value() : 0,
                      learned && learned->line ? learned->line->station : 0})
        .foot;
  }

  void station() {
    if (std::holds_alternative<KeepRule>(in_.wish.rule) && !whole()) {
      error(rule_key(), "to keep a fraction of the board, its whole length has to be known",
            "board.sole_length for a board in the shoe",
            "Measure the outer sole from end to end, or give a reach instead.");
      return;
    }
    if (const auto* rule = std::get_if<LearnedRule>(&in_.wish.rule)) {
      if (!rule->line) return not_looked_up();
      trim_.learned = rule->line;
    }
    trim_.station = rule_at(in_.wish.rule);
    trim_.reach = reach_of_station(trim_.station, arch().break_at, arch().heel_front);
  }

  void not_looked_up() {
    error(rule_key(), "the learned line of this foot is asked for, and the order does not hold it",
          "reach: {learned: 60.4, U: 4.5, pairs: 4, until: 2026-08-14, model: 1}, as an archive "
          "of this dancer's tries gives it",
          "Name the kept pair by its entry (next --entry NUMBER), or write the figures that its "
          "sheets "
          "show. The line by the readings alone may lie farther.");
  }

  /// No accepted exception lets a board end at the arch break or nearer to the toes.
  void behind_the_break() {
    const double ahead = trim_.station - arch().break_at;
    if (ahead < -rounding_error) return;
    error(rule_key(),
          "the board would end at " + posed(trim_.station) + " from " + counted_from() +
              (ahead > rounding_error ? ", " + short_figure(ahead) + " ahead of the arch break"
                                      : std::string(", at the arch break")) +
              ": nothing would be left to hold the arch",
          allowed_range(in_.frames.on_foot(near_edge())),
          wish_that_fits(false) + " No accept: word allows this.");
  }

  void grown_enough() {
    const double ahead = trim_.station - arch().heel_front;
    if (!in_.growing || ahead <= rounding_error) return;
    error(rule_key(),
          "on a growing foot the board would end " + short_figure(ahead) +
              " ahead of the heel front",
          allowed_range(arch().heel_front),
          "Ask for reach: edge or more, so that the board supports the whole arch. For a grown "
          "dancer with small feet write growing: false.");
  }

  void hold_to_window() {
    const double under_from = trim_.window.from - trim_.station;
    const double past_to = trim_.station - trim_.window.to;
    if (under_from <= rounding_error && past_to <= rounding_error) return near_the_tuck();
    const bool tucked = under_from > rounding_error;
    const double off = tucked ? under_from : past_to;
    const Uncertain& inside = tucked ? trim_.doubt.past_tuck : trim_.doubt.before_stop;
    const double U = inside.expanded();
    const std::string what =
        "the board would end at " + posed(trim_.station) + " mm from " + counted_from() + ", " +
        short_figure(off) +
        (tucked ? " mm too far under the heel" : " mm too near to the arch break") +
        (check_edge(inside) == EdgeCheck::outside_by_less_than_U
             ? " (known to \u00b1" + short_figure(U) + " mm only: measuring again may settle it)"
             : std::string());
    if (in_.wish.accept_outside_window) {
      caution(rule_key(), what + "; the order accepts it", "",
              "Only with a teacher's or fitter's word.", rank_of_stop_band);
      return;
    }
    error(rule_key(), what, allowed_range(in_.frames.on_foot(near_edge())),
          wish_that_fits(tucked) + " " + reading_that_fits(tucked, off) +
              " With a fitter's word: accept: " +
              (tucked ? "outside_window." : "[outside_window, in_stop_band]."));
  }

  /// Inside, but by less than is known. At the other edge the stop band takes care of it.
  void near_the_tuck() {
    const Uncertain& inside = trim_.doubt.past_tuck;
    if (check_edge(inside) != EdgeCheck::inside_by_less_than_U) return;
    caution(rule_key(),
            "the cut lies only " + short_figure(inside.value) +
                " mm from the farthest tuck under the heel, which is known to \u00b1" +
                short_figure(inside.expanded()) + " mm",
            "", "Take the heel front and the arch break once more.");
  }

  BoardStation stop_at() const { return in_.frames.on_board(trim_.window.to); }
  BoardStation near_edge() const { return stop_at() - trim_.doubt.stop.expanded(); }

  /// The values that the rule may have, from the farthest tuck to station `to`, in the rule's own
  /// terms and within the limits that its reading has anyway.
  std::string allowed_range(FootStation to) const {
    const FootStation from = trim_.window.from;
    // A reach inside the stop band is drawn at the band's near edge, so it may be asked for.
    if (may_be_held() && !in_.growing) to = std::max(to, trim_.window.to);
    if (to < from - rounding_error) return "no cut, until the readings are known better";
    const auto range = [](double least, double most, int decimals, const std::string& unit) {
      const double scale = std::pow(10.0, decimals);
      least = std::ceil(least * scale - rounding_error) / scale;
      most = std::floor(most * scale + rounding_error) / scale;
      if (least > most) return std::string("none: no value fits these readings");
      return short_figure(least, decimals) + " to " + short_figure(most, decimals) + unit;
    };
    if (goes_by_reach()) {
      const ReadingGuide& guide = *reading_guide("shank.reach");
      return "a reach of " +
             range(std::max(guide.least, reach_of_station(to, arch().break_at, arch().heel_front)),
                   std::min(guide.most, reach_of_station(from, arch().break_at, arch().heel_front)),
                   2, "");
    }
    if (is_learned()) {
      const ReadingGuide& guide = *reading_guide("shank.reach.learned");
      return "a learned line of " + range(std::max(guide.least, from.mm()),
                                          std::min(guide.most, to.mm()), 1,
                                          " from the back of the heel");
    }
    if (std::holds_alternative<MarkRule>(in_.wish.rule)) {
      const ReadingGuide& guide = *reading_guide("shank.mark");
      return "a mark of " + range(std::max(guide.least, in_.frames.on_board(from).mm()),
                                  std::min(guide.most, in_.frames.on_board(to).mm()), 1,
                                  " from the heel end");
    }
    const ReadingGuide& guide = *reading_guide("shank.keep");
    const auto kept = [&](FootStation at) {
      return 100 * (1 - in_.frames.on_board(at) / *whole());
    };
    return "keep " +
           range(std::max(guide.least, kept(to)), std::min(guide.most, kept(from)), 1, " %");
  }

  /// The wish's own rule with a value that fits; empty if no value fits.
  std::string wish_that_fits(bool tucked) const {
    if (is_learned()) return "Write reach: edge: this foot is cut by its readings then.";
    const FootStation edge = tucked            ? trim_.window.from
                             : goes_by_reach() ? trim_.window.to
                                               : in_.frames.on_foot(near_edge());
    if (!tucked && edge < trim_.window.from) return take_again("Take", trim_.doubt.stop);
    const std::string at = tucked ? "most " : "least ";
    if (goes_by_reach()) {
      const double reach = reach_of_station(edge, arch().break_at, arch().heel_front);
      const double safe = tucked ? std::floor(reach * 100) / 100 : std::ceil(reach * 100) / 100;
      const ReadingGuide& guide = *reading_guide("shank.reach");
      if (safe < guide.least || safe > guide.most)
        return "No reach from " + limits_in_words(guide) + " fits.";
      return "Ask for a reach of at " + at + short_figure(safe, 2) + "." + all_at_the_band(tucked);
    }
    const BoardStation mark = in_.frames.on_board(edge);
    if (std::holds_alternative<MarkRule>(in_.wish.rule))
      return std::string("Mark the board at ") + (tucked ? "least " : "most ") +
             short_figure(tucked ? std::ceil(mark * 10) / 10 : std::floor(mark * 10) / 10) +
             " from its heel end.";
    const double keep = 1 - mark / *whole();
    return "Keep at " + at +
           short_figure(100 *
                        (tucked ? std::floor(keep * 1000) / 1000 : std::ceil(keep * 1000) / 1000)) +
           " %.";
  }

  /// Says where the line comes to lie if that is one place for every reach that fits.
  std::string all_at_the_band(bool tucked) const {
    if (tucked || in_.growing || in_.wish.end != BoardEnd::straight) return {};
    const double most =
        std::min(reading_guide("shank.reach")->most,
                 reach_of_station(trim_.window.from, arch().break_at, arch().heel_front));
    const BoardStation farthest = in_.frames.on_board(rule_at(ReachRule{most, {}}));
    if (farthest < near_edge() || near_edge() < in_.frames.on_board(trim_.window.from)) return {};
    return " Every such reach gives one line, at " + short_figure(near_edge()) +
           " mm from the heel end, where the stop band begins.";
  }

  /// "Take the arch break twice more": the reading that `place` depends on most.
  std::string take_again(const std::string& verb, const Uncertain& place) const {
    const std::string name = weakest_reading(in_.model, place, trim_.doubt.sources);
    return name.empty() ? std::string() : verb + " the " + name + " twice more.";
  }

  /// Returns the sentence that says how far a doubtful reading would have to move.
  std::string reading_that_fits(bool tucked, double off) const {
    if (goes_by_reach()) {
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

  /// The final line and its rounded corners stay behind the stop band: a reach is drawn at the
  /// band's near edge, a mark or a fraction inside it is refused. A fitter's word allows both.
  void stop_band() {
    const BoardStation rule = in_.frames.on_board(trim_.station);
    const double past = rule + corners_ahead_at(rule) - near_edge();
    if (past <= rounding_error) return;
    // A line that lies past the stop line carries it along: no page shows another one.
    const std::string stop_words = rule > stop_at() + rounding_error
                                       ? "the stop line is drawn at the cut; where it belongs"
                                       : "the stop line at " + short_figure(stop_at()) + " mm";
    const std::string band = "the stop band, which begins at " + short_figure(near_edge()) +
                             " mm from the heel end (" + stop_words + " is known to \u00b1" +
                             short_figure(trim_.doubt.stop.expanded()) + " mm)";
    const std::string corners =
        rule <= near_edge() + rounding_error ? "the rounded corners of the cut" : "the cut";
    if (in_.wish.accept_in_stop_band) {
      caution(rule_key(),
              corners + " at " + short_figure(rule) + " mm would end inside " + band +
                  "; the order accepts it",
              "", "Only with a teacher's or fitter's word.", rank_of_stop_band);
      return;
    }
    if (!may_be_held()) {
      error(rule_key(), corners + " at " + short_figure(rule) + " mm would end inside " + band,
            allowed_range(in_.frames.on_foot(near_edge()) - corners_ahead_at(near_edge())),
            take_again("Take", trim_.doubt.stop) +
                (in_.wish.end == BoardEnd::rounded ? " Write end: straight, or m" : " M") +
                "ove the cut. With a fitter's word: accept: in_stop_band.");
      return;
    }
    BoardStation held = near_edge();
    if (in_.wish.end == BoardEnd::rounded)
      for (int round = 0; round < 3; ++round) // the corners change a little with the board's width
        held = near_edge() - corners_ahead_at(held);
    if (held < in_.frames.on_board(trim_.window.from) - rounding_error || held <= 0.0) {
      error(in_.foot_path + ".arch_break",
            "there is no room for a cut: it would end at " + short_figure(rule) + ", inside " +
                band,
            "a stop line that is known better", take_again("Take", trim_.doubt.stop));
      return;
    }
    trim_.held_from = rule;
    trim_.station = in_.frames.on_foot(held);
    trim_.reach = reach_of_station(trim_.station, arch().break_at, arch().heel_front);
    caution(rule_key(),
            corners + " at " + short_figure(rule) + " mm would end inside " + band +
                ": it is drawn at " + short_figure(held) + " mm instead",
            "",
            take_again("Take", trim_.doubt.stop) +
                " Farther only with a fitter's word: accept: in_stop_band.",
            rank_of_stop_band);
  }

  void skew() {
    const bool medial = arch().break_medial.has_value();
    const bool lateral = arch().break_lateral.has_value();
    if (!medial || !lateral) {
      trim_.skew_reason = medial || lateral ? "square: the arch break was found on one edge only"
                                            : "square: one arch break for both edges";
      return;
    }
    const BoardStation at_break = in_.frames.on_board(arch().break_at);
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
                          " mm, known to \u00b1" + short_figure(known ? known->expanded() : 0) +
                          " mm only";
      return;
    }
    trim_.skew = skew_angle(*arch().break_medial, *arch().break_lateral, across);
    trim_.skew_reason = "parallel to the line through the two arch breaks";
    if (std::abs(trim_.skew) > largest_skew) return refuse_skew(apart, across);
    if (!in_.growing) return;
    trim_.skew = 0; // one edge of a skew line would lie ahead of the heel front
    trim_.skew_reason = "square: on a growing foot neither edge is cut ahead of the heel front";
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

  std::optional<CutLine> place(BoardStation centre) {
    return cut_line(in_.outline, centre, trim_.skew);
  }

  void lines() {
    const BoardStation centre = in_.frames.on_board(trim_.station);
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
    if (!failed_) corners_of_a_growing_foot(centre);
    if (failed_) return;

    first_cut(centre);
    if (failed_) return;

    // If the order accepts a line outside the window, the final line itself is the limit.
    const BoardStation bearing_at = stop_at();
    const BoardStation limit = std::max(bearing_at, centre);
    const auto stop = place(limit);
    // On a growing foot nothing is cut ahead of the heel front, whatever is seen at a try.
    const BoardStation heel_front = std::max(in_.frames.on_board(arch().heel_front), centre);
    const BoardStation band_from = in_.growing ? std::min(near_edge(), heel_front) : near_edge();
    const auto stop_from = place(std::max(band_from, BoardStation(rounding_error)));
    BoardStation foremost = stop ? std::max({stop->centre, stop->medial, stop->lateral}) : limit;
    for (const Point& p : trim_.end)
      foremost = std::max(foremost, BoardStation(p.x));
    const auto witness = cut_line(in_.outline, witness_station(foremost), 0);
    const auto lift = place(centre + lift_past_cut);
    if (!stop || !stop_from || !witness || !lift) {
      error(in_.board_path + ".length", "the board is too short for its lines",
            "beyond " + short_figure(witness_station(foremost)) +
                ", where the witness line would be",
            how_to_take("board.length"));
      return;
    }
    if (limit <= bearing_at && !corners_behind(limit - centre)) return;
    trim_.stop = *stop;
    trim_.stop_from = *stop_from;
    trim_.witness = *witness;
    trim_.lift_limit = *lift;
    bevel(centre);
  }

  /// ", and a board that ended at 53.5 was cut too far", on the board; empty where none was.
  std::string too_far_words() const {
    if (!trim_.learned || !trim_.learned->too_far) return {};
    return ", and a board that ended at " +
           short_figure(in_.frames.on_board(FootStation(*trim_.learned->too_far)).mm()) +
           " mm was cut too far";
  }

  /// The first cut stays short of the final one by the hold-back.
  void first_cut(BoardStation final_at) {
    std::optional<double> copied;
    if (const auto* rule = std::get_if<MarkRule>(&in_.wish.rule); rule && rule->carried_over)
      copied = trim_.doubt.board.expanded();
    if (const auto& learned = trim_.learned) {
      trim_.right_U = learned->U;
      trim_.usual_hold_back = learned_hold_back(learned->U, learned->worn_good);
      if (learned->too_far) {
        const BoardStation too_far = in_.frames.on_board(FootStation(*learned->too_far));
        trim_.usual_hold_back =
            std::max(trim_.usual_hold_back, final_at - too_far + behind_too_far);
      }
    } else {
      trim_.right_U = right_place_U(trim_.doubt.heel_front_line.expanded(), copied);
      trim_.usual_hold_back = first_cut_hold_back(trim_.right_U);
    }
    trim_.hold_back = in_.wish.hold_back.value_or(trim_.usual_hold_back);
    if (trim_.hold_back < trim_.usual_hold_back - rounding_error)
      caution(wish("hold_back"),
              "the first cut is held back by " + short_figure(trim_.hold_back) +
                  " mm only: the right place of this dancer is known to ±" +
                  short_figure(trim_.right_U) + " mm" + too_far_words(),
              "usually " + short_figure(trim_.usual_hold_back) + " mm",
              "Only with a teacher's or fitter's word.", rank_of_short_board);
    const BoardStation first_at = final_at - trim_.hold_back;
    if (first_at >= least_first_cut - rounding_error) {
      trim_.first_cut = place(first_at);
      return;
    }
    if (final_at <= filed_at_most + rounding_error) {
      caution(rule_key(),
              "little comes off (" + short_figure(final_at) +
                  " mm): file it back a little at a time",
              "", "Try after every few strokes.");
      return;
    }
    error(rule_key(),
          short_figure(final_at) + " would come off in all. The first cut stays " +
              short_figure(trim_.hold_back) + " short of that and would take off " +
              short_figure(std::max(0.0, first_at.mm())) + ", less than the " +
              short_figure(least_first_cut) + " that a first cut needs",
          "up to " + short_figure(filed_at_most) + " in all, filed back without a first cut; or " +
              short_figure(std::ceil(2 * (least_first_cut + trim_.hold_back)) / 2) +
              " and more, in two cuts",
          (is_learned()
               ? std::string("The more pairs have tries on record")
               : take_again("Take", trim_.doubt.heel_front_line) + " The better it is known") +
              ", the less the first cut stays short. Or, with a teacher's or "
              "fitter's word, write hold_back: " +
              short_figure(std::floor(2 * (final_at - least_first_cut)) / 2) + " in shank.");
  }

  /// A board in the shoe: the width at the cut has to be known.
  bool known_at(const CutLine& line) {
    if (in_.outline.closed()) return true;
    const BoardStation foremost = std::max(line.medial, line.lateral);
    const double last = in_.outline.last_station();
    if (foremost <= last + held_past_last) return true;
    error(in_.board_path + ".widths",
          "the board's width is known up to " + short_figure(last) + " only, the cut lies at " +
              short_figure(line.centre),
          "a width where the cut will be",
          "Measure the board's width at about " + short_figure(line.centre, 0) +
              " from its heel end and add it.");
    return false;
  }

  void bevel(BoardStation centre) {
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

  /// If layers stay behind the cut, the bevel ends on the first of them.
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
      trim_.corners = end_corners(trim_.end, trim_.final_cut);
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

  /// Distance ahead of a line at `centre` at which its rounded corners end, mm; 0 if it has none.
  double corners_ahead_at(BoardStation centre) const {
    if (in_.wish.end == BoardEnd::straight) return 0;
    const auto line = cut_line(in_.outline, centre, trim_.skew);
    if (!line) return 0;
    const auto end = board_end(in_.outline, *line, in_.wish.end, in_.wish.corner);
    double ahead = 0;
    if (end)
      for (const Point& p : *end)
        ahead = std::max(ahead, ahead_of(*line, p));
    return ahead;
  }

  void corners_of_a_growing_foot(BoardStation centre) {
    if (!in_.growing || in_.wish.end == BoardEnd::straight) return;
    const double ahead = centre + corners_ahead(trim_.end) - in_.frames.on_board(arch().heel_front);
    if (ahead <= rounding_error) return;
    error(wish("end"),
          "on a growing foot the rounded corners would end " + short_figure(ahead) +
              " ahead of the heel front",
          "end: straight, or a line that much farther back",
          "Write end: straight. For a grown dancer with small feet write growing: false.");
  }

  /// Distance ahead of the final line at which its rounded corners end, mm.
  double corners_ahead(const Polyline& end) const {
    double ahead = 0;
    for (const Point& p : end)
      ahead = std::max(ahead, ahead_of(trim_.final_cut, p));
    return ahead;
  }

  /// A rounded corner is cut too: it stays behind the stop line, `room` ahead of the final one.
  bool corners_behind(double room) {
    const double past = corners_ahead(trim_.end) - room;
    if (past <= rounding_error) return true;
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
    const auto posed_at = [&](const TrimRule& rule) { return in_.frames.posed(rule_at(rule)); };
    trim_.other_rules.heel_front = in_.frames.posed(arch().heel_front);
    trim_.other_rules.short_reach = posed_at(rule_of(short_reach));
    trim_.other_rules.tucked_reach = posed_at(rule_of(tucked_reach));
    if (whole()) trim_.other_rules.three_quarter = posed_at(KeepRule{three_quarters});
  }

  const TrimInput& in_;
  Findings& findings_;
  SolvedTrim trim_{};
  bool failed_ = false;
};

} // namespace

std::optional<double> whole_length(const Board& board) {
  if (board.state == BoardState::loose) return board.loose_length();
  if (!board.sole_length || !board.inset) return {};
  return length_in_shoe(*board.sole_length, board.inset->value(), sole_end_behind_back);
}

std::optional<SolvedTrim> solve_trim(const TrimInput& input, Findings& findings) {
  return TrimSolver(input, findings).solve();
}

} // namespace shankline
