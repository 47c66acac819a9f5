#include "geometry/uncertainty/bench_figure.hpp"

#include "geometry/order/figure.hpp"
#include "geometry/order/reading_guide.hpp"

#include <cmath>

namespace shankline {

double log_sd(double relative_sd) {
  return std::sqrt(std::log1p(relative_sd * relative_sd));
}

double relative_sd(double log_sd) {
  return std::sqrt(std::expm1(log_sd * log_sd));
}

std::optional<Advice> beyond_any(std::string_view key, double value) {
  constexpr double room = 100;
  const ReadingGuide& guide = *reading_guide(key);
  if (value >= guide.least / room && value <= guide.most * room) return {};
  return Advice{std::string(guide.name) + " is " +
                    (std::isfinite(value) ? short_figure(value, 3) : "no number"),
                "from " + short_figure(guide.least, 3) + " to " + short_figure(guide.most, 3),
                std::string(guide.how)};
}

} // namespace shankline
