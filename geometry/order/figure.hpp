// Numbers as a person reads them, the same in every locale.
#pragma once

#include <string>

namespace shankline {

/// Fixed decimals: figure(62, 1) is "62.0". Never "-0.0".
std::string figure(double value, int decimals = 1);

/// Writes as few decimals as needed, at most `decimals`: short_figure(62) is "62",
/// short_figure(62.25) is "62.3".
std::string short_figure(double value, int decimals = 1);

/// `a` less `b`, each rounded as `figure` shows it: readers subtract the figures that they see.
double shown_difference(double a, double b, int decimals = 1);

} // namespace shankline
