#include "export/wording/caution_words.hpp"

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

/// "feet.left.heel_front" as a person says it: "left heel front".
std::string key_words(const Key& key) {
  std::string words = key.text();
  for (const std::string_view section : {"feet.", "shoe.", "alterations."})
    if (words.starts_with(section)) words.erase(0, section.size());
  std::replace_if(
      words.begin(), words.end(), [](char c) { return c == '.' || c == '_'; }, ' ');
  return words;
}

} // namespace

bool is_about(const Finding& finding, FootSide foot) {
  return finding.key.foot() == foot;
}

const Finding* gravest_caution(const Findings& cautions, std::optional<FootSide> foot) {
  const Finding* gravest = nullptr;
  for (const Finding& caution : cautions)
    if ((!foot || is_about(caution, *foot)) && gravity(caution) > (gravest ? gravity(*gravest) : 0))
      gravest = &caution;
  return gravest;
}

std::string first_line(const Finding* caution) {
  if (!caution) return {};
  return "Caution: " + caution->what + (caution->rank > 0 ? ". " + caution->advice : std::string());
}

std::vector<CautionLine> caution_lines(const Findings& cautions) {
  struct Found {
    std::string where;
    std::string what;
    int gravity;
  };
  std::vector<Found> found;
  for (const Finding& caution : cautions) {
    const std::string where = key_words(caution.key);
    const std::string what = caution.what + ". " + caution.advice;
    const auto same = std::find_if(found.begin(), found.end(), [&](const Found& other) {
      return other.what == what && other.where.starts_with("left ") &&
             where == "right " + other.where.substr(5);
    });
    if (same == found.end())
      found.push_back({where, what, gravity(caution)});
    else
      same->where = "both feet, " + where.substr(6);
  }
  std::stable_sort(found.begin(), found.end(),
                   [](const Found& a, const Found& b) { return a.gravity > b.gravity; });
  std::vector<CautionLine> lines;
  for (const Found& one : found)
    lines.push_back({one.where + ": " + one.what, one.gravity > 0});
  return lines;
}

} // namespace shankline
