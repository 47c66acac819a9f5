#include "geometry/breaking/break_chart.hpp"

#include "geometry/order/figure.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <iterator>

namespace shankline {
namespace {

constexpr double beyond_window = 8; ///< the chart goes on a little past the window
constexpr double chart_step = 1;
constexpr double same_cut = 0.05; ///< mm; cuts are shown to tenths

// A share below `hardly` is too small to name as a fraction; one from `nearly_all` to
// `more_than_all` counts as unchanged.
constexpr double hardly = 0.05;
constexpr double nearly_all = 0.95;
constexpr double more_than_all = 1.05;

/// "a quarter", of what was before; for a person, not for a calculation.
std::string fraction_words(double fraction) {
  struct Named {
    double value;
    const char* words;
  };
  static constexpr std::array<Named, 8> named{{{0.1, "a tenth"},
                                               {0.2, "a fifth"},
                                               {0.25, "a quarter"},
                                               {1.0 / 3, "a third"},
                                               {0.5, "half"},
                                               {2.0 / 3, "two thirds"},
                                               {0.75, "three quarters"},
                                               {0.9, "nine tenths"}}};
  const auto nearest =
      std::min_element(named.begin(), named.end(), [&](const Named& a, const Named& b) {
        return std::abs(a.value - fraction) < std::abs(b.value - fraction);
      });
  return nearest->words;
}

std::string heel_gap_words(double left) {
  if (left < hardly) return "stands off the heel hardly at all";
  if (left > more_than_all) return "stands off the heel farther";
  if (left > nearly_all) return "stands off the heel as far";
  return "stands off the heel " + fraction_words(left) + " as far";
}

std::string heel_pry_words(double left) {
  if (left < hardly) return "pries it with hardly any of the force";
  if (left > more_than_all) return "pries it harder";
  if (left > nearly_all) return "pries it with all of the force";
  return "pries it with " + fraction_words(left) + " of the force";
}

/// In whole steps from the final line, and at the first cut.
std::vector<ChartPoint> charted_cuts(const FootSolution& foot, const FootContact& contact) {
  std::vector<FootStation> stations;
  const FootStation to = std::min(foot.trim->window.to + beyond_window, foot.arch.break_at);
  // Take whole steps from the ordered station, so that it is one of the points.
  const FootStation from = foot.trim->window.from - beyond_window;
  const FootStation first =
      foot.trim->station - std::floor((foot.trim->station - from) / chart_step);
  for (FootStation station = first; station <= to; station = station + chart_step)
    if (station > 0.0) stations.push_back(station);
  if (foot.trim->first_cut) {
    const FootStation cut = foot.frames.on_foot(foot.trim->first_cut->centre);
    const auto place = std::lower_bound(stations.begin(), stations.end(), cut);
    const bool is_there = (place != stations.end() && *place - cut < same_cut) ||
                          (place != stations.begin() && cut - *std::prev(place) < same_cut);
    if (cut > 0.0 && !is_there) stations.insert(place, cut);
  }
  const auto figures = sweep_trim(contact, stations);
  const FootContactFigures& uncut = contact.uncut.figures;
  std::vector<ChartPoint> points;
  for (std::size_t i = 0; i < stations.size(); ++i)
    if (figures[i])
      points.push_back({stations[i], figures[i]->break_at, of_uncut(figures[i]->gap, uncut.gap),
                        of_uncut(figures[i]->heel_gap, uncut.heel_gap),
                        of_uncut(figures[i]->heel_pry, uncut.heel_pry)});
  return points;
}

/// From the full thickness downwards. The ordered thickness is one of the points.
std::vector<double> charted_thicknesses(const SolvedThinning& thinned) {
  constexpr double rounding = 1e-9; // a sum of steps may fall that far short of a whole
  const double full = thinned.thickness / thinned.ratio;
  const double least = std::min(thinned.thickness, full * least_charted_share);
  std::vector<double> found{full};
  const double above = std::ceil((full - thinned.thickness) / thickness_step - rounding) - 1;
  for (double step = above; step >= 1; --step)
    found.push_back(thinned.thickness + step * thickness_step);
  for (double step = 0; thinned.thickness - step * thickness_step >= least - rounding; ++step)
    found.push_back(thinned.thickness - step * thickness_step);
  return found;
}

std::vector<ThicknessPoint> charted_thinning(const SolvedThinning& thinned,
                                             const FootContact& contact) {
  const std::vector<double> thicknesses = charted_thicknesses(thinned);
  const double full = thicknesses.front();
  std::vector<double> ratios;
  ratios.reserve(thicknesses.size());
  for (const double thickness : thicknesses)
    ratios.push_back(thickness / full);
  const auto figures = sweep_thickness(contact, ratios);
  const FootContactFigures& uncut = contact.uncut.figures;
  std::vector<ThicknessPoint> points;
  for (std::size_t i = 0; i < ratios.size(); ++i)
    if (figures[i])
      points.push_back({thicknesses[i], std::pow(ratios[i], 3), figures[i]->break_at,
                        of_uncut(figures[i]->gap, uncut.gap),
                        of_uncut(figures[i]->heel_gap, uncut.heel_gap),
                        of_uncut(figures[i]->heel_pry, uncut.heel_pry)});
  return points;
}

} // namespace

std::optional<BreakChart> break_chart(const Order& order, const FootSolution& foot,
                                      const FootContact& contact) {
  if (!contact.cut) return {};
  BreakChart chart{contact, {}, {}, contact_doubt(order, foot, contact)};
  if (foot.trim)
    chart.points = charted_cuts(foot, contact);
  else
    chart.thicknesses = charted_thinning(*foot.thinned, contact);
  return chart;
}

FootStation charted_to(const FootSolution& foot) {
  constexpr double rounding = 1e-9; // a sum of steps may fall that far short of a whole
  return std::max(foot.frames.on_foot(foot.trim->limit()), foot.trim->station) + rounding;
}

std::string sentence(const FootContact& contact) {
  if (!contact.cut) return "The board is not cut.";
  const FootContactFigures& uncut = contact.uncut.figures;
  const FootContactFigures& cut = contact.cut->figures;
  std::string words = contact.only_thinned ? "Thinned like this, the shoe should "
                                           : "Cut to the final line, the shoe should ";
  if (!cut.breaks_in_arch)
    words += "still not bend under your arch";
  else if (!uncut.breaks_in_arch)
    words += "bend under your arch; uncut it would not";
  else {
    const double nearer = uncut.break_at - cut.break_at;
    words += "bend " + figure(std::abs(nearer), 0) + " mm nearer the " +
             (nearer >= 0 ? "heel" : "toes") + " than uncut";
  }
  words += ". Compared with uncut it " + heel_gap_words(contact.heel_gap_left);
  words += " and " + heel_pry_words(contact.heel_pry_left) + ".";
  if (contact.only_thinned) return words;
  return words + " " + figure(contact.board_left, 0) + " mm of board stay behind the arch break.";
}

} // namespace shankline
