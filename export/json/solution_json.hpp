// The solution as JSON: the contract that other programs rely on, format shankline-solution/1.
#pragma once

#include "export/page/sheet_set.hpp"
#include "geometry/breaking/pair_contact.hpp"
#include "geometry/solution/solution.hpp"

#include <string>
#include <vector>

namespace shankline {

inline constexpr const char* solution_format = "shankline-solution/1";

/// Lengths in mm, angles in degrees, areas in mm², moments in N mm, stiffness in N mm², nine
/// decimals at most. Stations count from the back of the heel, with pose in_shoe from the shoe's
/// back; board distances from the board's heel end. What does not exist is null. With `charts` also
/// what each cut would do; with `sheets` also every template's lines and the pages' proofs of
/// scale.
std::string solution_json(const Order& order, const Solution& solution, const PairContact& contact,
                          const std::vector<FootChart>& charts, const Findings& cautions,
                          const SheetSet* sheets);

/// {"templates": [...], "proofs": [...]}: every template's lines in its own frame, where it lies,
/// and the pages' proofs of scale.
std::string templates_json(const SheetSet& sheets);

} // namespace shankline
