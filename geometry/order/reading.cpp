#include "geometry/order/reading.hpp"

#include <numeric>
#include <utility>

namespace shankline {

double Reading::value() const {
  return std::accumulate(values.begin(), values.end(), 0.0) / static_cast<double>(values.size());
}

Reading measured(double value, double finding) {
  Reading reading;
  reading.values = {value};
  reading.finding = finding;
  return reading;
}

Reading estimate(double value, double sd, std::string source) {
  Reading reading;
  reading.values = {value};
  reading.estimated = true;
  reading.estimate_sd = sd;
  reading.source = std::move(source);
  return reading;
}

} // namespace shankline
