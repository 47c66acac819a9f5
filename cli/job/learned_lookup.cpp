#include "cli/job/learned_lookup.hpp"

#include "cli/archive/archive_opening.hpp"
#include "cli/archive/archive_place.hpp"
#include "geometry/learning/learned_use.hpp"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <utility>

namespace shankline {
namespace {

constexpr const char* measure_again =
    "Measure the heel front and the arch break of this foot again and write reach: edge, until new "
    "tries are on record.";

LearnedLine line_of(const LearnedPlace& place) {
  constexpr double rounding_error = 1e-9; // so that a U of 4.5 stays 4.5
  LearnedLine line{std::round(learned_final(place) * 10) / 10,
                   std::ceil(place.U * 10 - rounding_error) / 10,
                   place.pairs,
                   day_text(*place.last),
                   learning_model,
                   place.good_after_wear};
  if (place.too_far) {
    line.too_far =
        std::floor(*place.too_far * 10 + rounding_error) / 10; // towards the heel, the safe side
    line.station = std::min(line.station, *line.too_far - right_half_width);
  }
  return line;
}

bool asks(const std::optional<FootOrder>& foot) {
  if (!foot || !foot->alterations.shank) return false;
  const auto* rule = std::get_if<LearnedRule>(&foot->alterations.shank->rule);
  return rule && !rule->line;
}

} // namespace

void LearnedLookup::open() {
  if (!archive_is_there(archive_.file)) {
    no_house_ = refused({}, "a learned line is asked for, and there is no archive to learn from",
                        "Name the archive with --archive, or write reach: edge.");
    return;
  }
  try {
    const auto store = open_archive(archive_file(archive_.file), ArchiveUse::read);
    store->with_snapshot([&] { house_ = learned_house(house_history(*store)); });
    predictor_.emplace(house_->fit);
  } catch (const ArchiveFault& fault) {
    no_house_ = refused({}, std::string("the learned line cannot be looked up: ") + fault.what(),
                        fault.advice + "; or write reach: edge.");
  }
}

Finding LearnedLookup::refused(const std::string& key, std::string what, std::string advice) const {
  return {Severity::error, key, std::move(what), {}, std::move(advice)};
}

LearnedPlace LearnedLookup::place_of(const FootRecords& foot, const AskedPlace& asked) {
  const std::lock_guard alone(predicting_);
  return predictor_->place(foot, asked);
}

std::optional<Finding> LearnedLookup::fill(const Order& order, FootSide side, FootOrder& foot) {
  const std::string key = "alterations." + foot_name(side) + ".shank.reach";
  if (!house_) return refused(key, no_house_.what, no_house_.advice);
  const std::vector<FootRecords>& feet = house_->history.records.feet;
  const auto found = std::find_if(feet.begin(), feet.end(), [&](const FootRecords& one) {
    return one.dancer == order.dancer && one.side == side;
  });
  std::optional<LearnedPlace> place;
  if (found != feet.end())
    place = place_of(*found, {foot.shoe.style,
                              order.pose == Pose::in_shoe ? shoe_u_in_shoe : shoe_u_pointed,
                              day_in(order.date)});
  if (!place || place->pairs == 0 || !place->last)
    return refused(key, "no tries of this foot are on record in the archive",
                   "Write reach: edge; keep its tries with `shankline next --save`.");
  if (alarm(*place))
    return refused(key,
                   "the right place of this foot may have jumped before one of its last two pairs: "
                   "what was learned is not used",
                   measure_again);
  foot.alterations.shank->rule = LearnedRule{line_of(*place)};
  return {};
}

Findings LearnedLookup::fill(Order& order) {
  Findings errors;
  for (const FootSide side : {FootSide::left, FootSide::right}) {
    auto& foot = order.foot(side);
    if (!asks(foot)) continue;
    std::call_once(opened_, [this] { open(); });
    if (auto error = fill(order, side, *foot)) errors.push_back(*std::move(error));
  }
  return errors;
}

} // namespace shankline
