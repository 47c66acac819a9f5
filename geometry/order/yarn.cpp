#include "geometry/order/yarn.hpp"

#include <charconv>

namespace shankline {
namespace {

std::string_view without_spaces_around(std::string_view text) {
  const std::size_t begin = text.find_first_not_of(' ');
  if (begin == std::string_view::npos) return {};
  return text.substr(begin, text.find_last_not_of(' ') - begin + 1);
}

/// Digits with at most one point between them, nothing else.
std::optional<double> positive_number(std::string_view text) {
  text = without_spaces_around(text);
  if (text.empty() || text.find_first_not_of("0123456789.") != std::string_view::npos) return {};
  double value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc() || end != text.data() + text.size() || !(value > 0)) return {};
  return value;
}

} // namespace

double tex_of_metric_number(double metric_number) {
  return 1000 / metric_number;
}

std::optional<double> parse_yarn(std::string_view text) {
  text = without_spaces_around(text);
  constexpr std::string_view metric = "Nm";
  constexpr std::string_view tex = "tex";
  if (text.size() > tex.size() && text.substr(text.size() - tex.size()) == tex)
    return positive_number(text.substr(0, text.size() - tex.size()));
  if (text.substr(0, metric.size()) != metric) return {};
  text.remove_prefix(metric.size());
  const std::size_t slash = text.find('/');
  const auto number = positive_number(text.substr(0, slash));
  if (!number) return {};
  if (slash == std::string_view::npos) return tex_of_metric_number(*number);
  const auto threads = positive_number(text.substr(slash + 1));
  if (!threads) return {};
  return *threads * tex_of_metric_number(*number);
}

double yarn_grams(double length, double tex) {
  return length / 1e6 * tex;
}

} // namespace shankline
