// A house's learned figures as JSON for other programs.
#pragma once

#include "cli/job/learned_house.hpp"

#include <string>

namespace shankline {

/// "shankline-learned/1". Lengths in mm, places from the back of the pointed foot's heel; U at 95
/// %. What does not exist is null.
std::string learned_json(const LearnedHouse& house);

/// An object with the keys of "all" in its "track".
std::string track_json(const TrackRecord& record);

} // namespace shankline
