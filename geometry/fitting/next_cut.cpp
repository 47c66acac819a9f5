#include "geometry/fitting/next_cut.hpp"

#include "geometry/order/figure.hpp"
#include "geometry/order/ruler_number.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace shankline {
namespace {

/// The line after one at `cut_off`: the first cut or one step on, whichever is more, held to
/// `limit`. What would be left beyond it is taken along when it is too little for a cut of its own.
BoardStation step_on(const SolvedTrim& trim, BoardStation cut_off, BoardStation limit) {
  BoardStation next = cut_off + cut_step;
  if (trim.first_cut) next = std::max(next, trim.first_cut->centre);
  return limit - next < too_little_left ? limit : next;
}

/// Where the end of a board cut at `station` is read to lie.
BoardStation as_read(const SolvedTrim& trim, BoardStation station) {
  return trim.witness.centre - ruler_back(trim, station);
}

/// The distance of the board's end past a line, mm, from the figures that are shown for the two:
/// the end is read back from the witness line to tenths, a line is set on the rule.
double shown_past(const SolvedTrim& trim, BoardStation line, BoardStation cut) {
  return ruler_back(trim, line) - std::round(back_from_witness(trim, cut) * 10) / 10;
}

/// Once nothing more comes off. The bevel runs from wherever the board now ends.
std::string finishing(const SolvedTrim& trim) {
  std::string words;
  if (trim.rounded()) words += "round the corners, ";
  if (trim.bevel)
    words += "bevel the foot side over the last " +
             short_figure(trim.bevel->centre - trim.final_cut.centre) + " mm of the board, ";
  return words + "seal and glue it down.";
}

NextCut stopped(StopReason why, double left, std::string reason) {
  return {{}, why, 0, left, std::move(reason)};
}

/// Stops if the signs that were seen, or the length already cut off, forbid another cut.
std::optional<NextCut> stopped_by_the_try(const SolvedTrim& trim, const Tried& tried) {
  const BoardStation cut = tried.cut_off;
  const double left = trim.final_cut.centre - cut;
  const double past_stop = cut - trim.stop.centre;
  if (tried.seen == Seen::pain)
    return stopped(StopReason::seen_pain, left,
                   "stop: it hurts. Take the shoe off, and cut nothing more. Ask the teacher, the "
                   "fitter, or a licensed physiotherapist or podiatrist before it is worn again.");
  if (tried.seen == Seen::over_the_platform)
    return stopped(StopReason::seen_over, left,
                   "stop: the foot rolls over the platform, because too little holds it back. Cut "
                   "nothing more: this board may already be too short. Ask a teacher or fitter "
                   "before the shoe is worn.");
  if (tried.seen == Seen::cut_too_far)
    return stopped(
        StopReason::seen_too_far, left,
        "stop: this board is already too short. Cut nothing more. Set the pair aside, or "
        "let the fitter decide whether it is worn. Record this try, so that the next "
        "pair starts with a longer board.");
  if (past_stop > least_cut)
    return stopped(StopReason::stop_passed, left,
                   "stop: the cut lies " + short_figure(shown_past(trim, trim.stop.centre, cut)) +
                       " mm past the stop line. Ask a fitter before the shoe is worn.");
  const double inside = cut - trim.limit();
  if (tried.seen == Seen::right && inside > least_cut)
    return stopped(StopReason::band_passed, left,
                   "stop: it is good, but the cut lies " +
                       short_figure(shown_past(trim, trim.limit(), cut)) +
                       " mm inside the stop band: little is left to hold the arch. Ask a fitter "
                       "before the shoe is worn.");
  if (tried.seen == Seen::right)
    return stopped(StopReason::seen_right, left,
                   cut < least_cut ? "stop: it is good as it is; nothing has to come off."
                                   : "stop: it is good. Still to do: " + finishing(trim));
  return {};
}

/// Stops because the board already ends at the line that may not be passed.
NextCut stopped_at_a_line(const SolvedTrim& trim, BoardStation cut) {
  const double left = trim.final_cut.centre - cut;
  if (trim.stop.centre - cut < least_cut)
    return stopped(StopReason::stop_line, left,
                   "stop: this is the stop line. Nothing may be cut past it.");
  if (trim.limit() - cut < least_cut) {
    const double inside = cut - trim.limit();
    if (inside > least_cut)
      return stopped(StopReason::band_passed, left,
                     "stop: the cut lies " + short_figure(shown_past(trim, trim.limit(), cut)) +
                         " mm inside the stop band. Ask a fitter before the shoe is worn.");
    if (trim.growing)
      return stopped(StopReason::stop_band, left,
                     "stop: the stop band begins here. On a growing foot it begins at the heel "
                     "front, and nothing may be cut in it.");
    return stopped(StopReason::stop_band, left,
                   "stop: the stop band begins here. The stop line is known to \u00b1" +
                       short_figure(trim.doubt.stop.expanded()) +
                       " mm only, so nothing may be cut in the band.");
  }
  if (left > -least_cut)
    return stopped(StopReason::final_line, left,
                   "stop: this is the final line. Cut past it only if a teacher or fitter says so; "
                   "then add --past-final.");
  return stopped(
      StopReason::final_passed, left,
      "stop: the cut lies " + short_figure(shown_past(trim, trim.final_cut.centre, cut)) +
          " mm past the final line. Cut farther only if a teacher or fitter says so; then add "
          "--past-final.");
}

std::string why_cut_on(const SolvedTrim& trim, const Tried& tried, BoardStation next) {
  const BoardStation final_line = trim.final_cut.centre;
  std::string reason = tried.seen == Seen::low
                           ? "the shoe still bends too low, ahead of where the foot bends"
                           : "the shoe bends at the board's end, which still lies too far back";
  reason += ": " + short_figure(-shown_past(trim, next, tried.cut_off)) + " mm more";
  if (next == trim.stop.centre)
    reason += ", to the stop line, the last cut there is";
  else if (next == trim.limit())
    reason += ", to the stop band, the last cut there is";
  else if (next == final_line)
    reason += ", to the final line";
  else if (next > final_line)
    reason += ", past the final line as asked";
  else if (trim.first_cut && next == trim.first_cut->centre)
    reason += ", to the first cut";
  return reason + ".";
}

} // namespace

std::optional<NextCut> next_cut(const BoardOutline& outline, const SolvedTrim& trim,
                                const Tried& tried) {
  const BoardStation cut = tried.cut_off;
  if (!(cut >= 0.0 && cut < trim.witness.centre)) return {};
  if (auto stop = stopped_by_the_try(trim, tried)) return stop;
  const BoardStation final_line = trim.final_cut.centre;
  const BoardStation limit = tried.past_final ? std::max(trim.limit(), final_line) : final_line;
  if (limit - cut < least_cut) return stopped_at_a_line(trim, cut);
  const BoardStation next = step_on(trim, cut, limit);
  const auto line = cut_line(outline, next, trim.skew);
  if (!line) return {};
  return NextCut{line, {}, next - cut, final_line - next, why_cut_on(trim, tried, next)};
}

double back_from_witness(const SolvedTrim& trim, BoardStation station) {
  return trim.witness.centre - station;
}

double ruler_back(const SolvedTrim& trim, BoardStation station) {
  return ruler_number(back_from_witness(trim, station), Rounding::up);
}

std::vector<BoardStation> cut_steps(const SolvedTrim& trim, BoardStation end) {
  const BoardStation final_line = trim.final_cut.centre;
  std::vector<BoardStation> steps;
  BoardStation at = end;
  while (final_line - at >= least_cut) {
    const BoardStation next = step_on(trim, at, final_line);
    steps.push_back(next);
    // next_cut is asked with what is read: its steps and these are the same.
    at = next == final_line ? next : as_read(trim, next);
  }
  return steps;
}

std::optional<BoardStation> meant_by_a_slip(const SolvedTrim& trim, BoardStation cut_off) {
  const BoardStation first = trim.line_to_cut().centre;
  const BoardStation tenfold(10 * cut_off.mm());
  if (cut_off < least_cut || cut_off > first - cut_step) return {};
  if (tenfold < first - cut_step || tenfold > trim.stop.centre) return {};
  return tenfold;
}

} // namespace shankline
