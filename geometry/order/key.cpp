#include "geometry/order/key.hpp"

#include <algorithm>

namespace shankline {
namespace {

/// Takes the first part off.
std::string_view take_part(std::string_view& dotted) {
  const std::size_t dot = std::min(dotted.find('.'), dotted.size());
  const std::string_view part = dotted.substr(0, dot);
  dotted.remove_prefix(std::min(dot + 1, dotted.size()));
  return part;
}

std::optional<FootSide> foot_of(std::string_view part) {
  for (const FootSide side : {FootSide::left, FootSide::right})
    if (part == foot_name(side)) return side;
  return {};
}

} // namespace

Key::Key(std::string_view dotted) {
  std::string_view rest = dotted;
  std::string_view part = take_part(rest);
  foot_ = foot_of(part);
  if (foot_) {
    path_ = rest;
    return;
  }
  section_ = part;
  path_ = rest;
  part = take_part(rest);
  foot_ = foot_of(part);
  if (foot_) path_ = rest;
}

std::string Key::text() const {
  std::string text = section_;
  const auto add = [&](std::string_view part) {
    if (!text.empty() && !part.empty()) text += '.';
    text += part;
  };
  if (foot_) add(foot_name(*foot_));
  add(path_);
  return text;
}

} // namespace shankline
