// Yarn counts: how fine a yarn is and what a length of it weighs (ISO 1144).
#pragma once

#include <optional>
#include <string_view>

namespace shankline {

/// tex = grams per kilometre = 1000/Nm, Nm the metric number (metres per gram).
double tex_of_metric_number(double metric_number);

/// "50 tex", "Nm 20", "Nm 34/2" (two threads of Nm 34 folded: 2·1000/34 tex). Nothing for any other
/// text, or a count that is not positive.
std::optional<double> parse_yarn(std::string_view text);

/// Grams of `length` mm.
double yarn_grams(double length, double tex);

} // namespace shankline
