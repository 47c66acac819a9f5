#include "export/wording/caution_words.hpp"

#include "export/wording/sentence.hpp"
#include "geometry/order/reading_guide.hpp"

#include <algorithm>
#include <string_view>
#include <utility>

namespace shankline {
namespace {

/// The gravity of a caution; 0 for one that heads no sheet.
int gravity(const Finding& caution) {
  constexpr int about_the_shank = 2;
  if (caution.rank > 0) return about_the_shank + caution.rank;
  if (caution.key.section() == "alterations" && caution.key.path().starts_with("shank"))
    return about_the_shank;
  return caution.key.path() == "heel_front" ? 1 : 0;
}

/// The words for a key without its foot: "heel front" for "feet.left.heel_front".
std::string place_words(const Key& key) {
  if (const ReadingGuide* guide = reading_guide(key.path())) return std::string(guide->name);
  std::string words = key.path().empty() && !key.foot() ? key.section() : key.path();
  std::replace_if(
      words.begin(), words.end(), [](char c) { return c == '.' || c == '_'; }, ' ');
  return words;
}

std::string foot_words(const std::optional<FootSide>& foot) {
  return foot ? foot_name(*foot) + " foot" : std::string();
}

/// A caution with a rank that names no foot concerns both.
bool heads_sheets_of(const Finding& caution, const std::optional<FootSide>& foot) {
  return !foot || is_about(caution, *foot) || (caution.rank > 0 && !caution.key.foot());
}

} // namespace

bool is_about(const Finding& finding, FootSide foot) {
  return finding.key.foot() == foot;
}

const Finding* gravest_caution(const Findings& cautions, std::optional<FootSide> foot) {
  const Finding* gravest = nullptr;
  for (const Finding& caution : cautions)
    if (heads_sheets_of(caution, foot) && gravity(caution) > (gravest ? gravity(*gravest) : 0))
      gravest = &caution;
  return gravest;
}

std::string first_line(const Finding* caution, Units units) {
  if (!caution) return {};
  return with_inches("Caution: " + caution->what +
                         (caution->rank > 0 ? ". " + caution->advice : std::string()),
                     units);
}

std::vector<CautionLine> caution_lines(const Findings& cautions, Units units) {
  struct Found {
    std::string foot; ///< "left foot", "both feet", or empty
    std::string place;
    std::string what;
    int gravity;
  };
  std::vector<Found> found;
  for (const Finding& caution : cautions) {
    const std::string foot = foot_words(caution.key.foot());
    const std::string place = place_words(caution.key);
    std::string what = capital(caution.what) + ".";
    if (!caution.advice.empty()) what += " " + caution.advice;
    const auto same = std::find_if(found.begin(), found.end(), [&](const Found& other) {
      return caution.key.foot() == FootSide::right && other.foot == "left foot" &&
             other.place == place && other.what == what;
    });
    if (same == found.end())
      found.push_back({foot, place, std::move(what), gravity(caution)});
    else
      same->foot = "both feet";
  }
  std::stable_sort(found.begin(), found.end(),
                   [](const Found& a, const Found& b) { return a.gravity > b.gravity; });
  std::vector<CautionLine> lines;
  for (const Found& one : found) {
    const std::string between = one.foot.empty() || one.place.empty() ? "" : ", ";
    lines.push_back({capital(one.foot + between + one.place) + ": " + with_inches(one.what, units),
                     one.gravity > 0});
  }
  return lines;
}

} // namespace shankline
