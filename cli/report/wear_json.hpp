// Pairs, overview and rotation as JSON.
#pragma once

#include "cli/job/company_overview.hpp"
#include "cli/job/pair_book.hpp"
#include "cli/job/rotation_job.hpp"

#include <string>
#include <vector>

namespace shankline {

/// "shankline-archive-pairs/1": `day`, `drying_hours`, `house` and `pairs`. A pair has `entry`,
/// `dancer`, `pair`, `state`, `kept_for`, `hours` (on pointe, of the shoe that has more),
/// `left_hours`, `right_hours`, `wears`, `first_worn`, `last_worn`, `worn_wet`, `dry_from`, `dry`,
/// `done` (a day and what was done to it, each), `hours_left` and `basis`. Days are YYYY-MM-DD,
/// null where nobody said them. `hours_left` has `least`, `middle` and `most`: the hours by which
/// one such pair in ten, half of them, and nine in ten are done. `house` says how long its pairs
/// last: whether that was `learned`, from how many `ended_pairs`, `median_hours`, and the Weibull
/// distribution's `log_scale`, `log_scale_se` and `log_shape` (pair_lifetimes.hpp).
std::string pairs_json(const std::vector<BookPair>& pairs, const HouseLife& life,
                       double drying_hours, const std::string& today);

/// "shankline-archive-overview/1": `day`, counts of `dancers`, `pairs` and `unread` orders,
/// `house`, and `rows` by what needs doing, each with `what`, `dancer`, `entry`, `day`, `words`,
/// and of a pair in use `hours` and `hours_left`.
std::string overview_json(const CompanyOverview& overview);

/// "shankline-rotation/1": `day`, `drying_hours`, `wanted_pairs`, the `limit` of the chance,
/// `runs`, `lead_days` (null where it is not known), `house`, and `dancers`. A dancer has `pairs`
/// as above, `days` (`day`, `hours`, `stage`, the `entry` to wear or null, `dry`,
/// `chance_of_too_few` and its standard error `chance_se`) and `order`, null where nothing is to be
/// ordered: `too_few_from`, `order_by`, `there_on`, `pairs`, `too_late`, `worst_before`, `enough`.
std::string rotation_json(const RotationJob& job);

} // namespace shankline
