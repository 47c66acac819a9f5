#include "geometry/next_cut.hpp"

#include "geometry/figure.hpp"

#include <algorithm>
#include <utility>

namespace shankline {
namespace {

/// The line after one at `cut_off`: the first cut or one step on, whichever is more, held to
/// `limit`. What would be left beyond it is taken along when it is too little for a cut of its own.
double step_on(const SolvedTrim& trim, double cut_off, double limit) {
  double next = cut_off + cut_step;
  if (trim.first_cut) next = std::max(next, trim.first_cut->centre);
  return limit - next < least_cut ? limit : next;
}

/// Once nothing more comes off. The bevel runs from wherever the board now ends.
std::string finishing(const SolvedTrim& trim) {
  std::string words;
  if (trim.rounded()) words += "round the corners, ";
  if (trim.bevel)
    words += "bevel the foot side over the last " +
             short_figure(trim.bevel->centre - trim.final_cut.centre) + " of the board, ";
  return words + "seal and glue it down.";
}

NextCut stopped(StopReason why, double left, std::string reason) {
  return {{}, why, 0, left, std::move(reason)};
}

/// What was seen, or what is already cut off, forbids another cut.
std::optional<NextCut> stopped_by_the_try(const SolvedTrim& trim, const Tried& tried) {
  const double cut = tried.cut_off;
  const double left = trim.final_cut.centre - cut;
  const double past_stop = cut - trim.stop.centre;
  if (tried.seen == Seen::pain)
    return stopped(StopReason::seen_pain, left,
                   "stop: it hurts. Take the shoe off and ask before anything more is cut.");
  if (tried.seen == Seen::over_the_platform)
    return stopped(StopReason::seen_over, left,
                   "stop: carried over the platform, too little holds the foot back. Nothing more "
                   "may come off; this board may already be too short.");
  if (past_stop > least_cut)
    return stopped(StopReason::stop_passed, left,
                   "stop: the cut lies " + short_figure(past_stop) +
                       " past the stop line. Ask a fitter before the shoe is worn.");
  if (tried.seen == Seen::right)
    return stopped(StopReason::seen_right, left,
                   cut < least_cut ? "stop: it is right as it is; nothing has to come off."
                                   : "stop: it is right. What is left: " + finishing(trim));
  return {};
}

/// Nothing is left up to the line that may not be passed.
NextCut stopped_at_a_line(const SolvedTrim& trim, double cut) {
  const double left = trim.final_cut.centre - cut;
  if (trim.stop.centre - cut < least_cut)
    return stopped(StopReason::stop_line, left,
                   "stop: this is the stop line. Nothing may be cut past it.");
  if (trim.limit() - cut < least_cut) {
    const double inside = cut - trim.limit();
    if (inside > least_cut)
      return stopped(StopReason::band_passed, left,
                     "stop: the cut lies " + short_figure(inside) +
                         " inside the stop band. Ask a fitter before the shoe is worn.");
    return stopped(StopReason::stop_band, left,
                   "stop: the stop band begins here. The stop line is known to \u00b1" +
                       short_figure(trim.doubt.stop.expanded()) +
                       " only, so nothing may be cut in the band.");
  }
  if (left > -least_cut)
    return stopped(StopReason::final_line, left,
                   "stop: this is the final line. Past it only with a teacher's or fitter's "
                   "word, then ask for it by name.");
  return stopped(StopReason::final_passed, left,
                 "stop: the cut lies " + short_figure(-left) +
                     " past the final line. Farther only with a teacher's or fitter's word, then "
                     "ask for it by name.");
}

std::string why_cut_on(const SolvedTrim& trim, const Tried& tried, double next) {
  const double final_line = trim.final_cut.centre;
  std::string reason = tried.seen == Seen::low
                           ? "it still bends ahead of the foot's own place"
                           : "it bends at the board's end, which still lies too far back";
  reason += ": " + short_figure(next - tried.cut_off) + " more";
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
  const double cut = tried.cut_off;
  if (!(cut >= 0 && cut < trim.witness.centre)) return {};
  if (auto stop = stopped_by_the_try(trim, tried)) return stop;
  const double final_line = trim.final_cut.centre;
  const double limit = tried.past_final ? std::max(trim.limit(), final_line) : final_line;
  if (limit - cut < least_cut) return stopped_at_a_line(trim, cut);
  const double next = step_on(trim, cut, limit);
  const auto line = cut_line(outline, next, trim.skew);
  if (!line) return {};
  return NextCut{line, {}, next - cut, final_line - next, why_cut_on(trim, tried, next)};
}

double back_from_witness(const SolvedTrim& trim, double station) {
  return trim.witness.centre - station;
}

std::vector<double> cut_steps(const SolvedTrim& trim) {
  const double final_line = trim.final_cut.centre;
  std::vector<double> steps;
  double at = 0;
  while (final_line - at >= least_cut) {
    at = step_on(trim, at, final_line);
    steps.push_back(at);
  }
  return steps;
}

} // namespace shankline
