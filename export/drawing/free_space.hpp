// Room on a page that nothing has taken yet.
#pragma once

#include "export/drawing/box.hpp"

#include <optional>
#include <vector>

namespace shankline {

class FreeSpace {
public:
  explicit FreeSpace(const Box& page) : page_(page) {}

  void take(const Box& box) { boxes_.push_back(box); }
  void take(const Polyline& line) { lines_.push_back(line); }
  bool is_free(const Box& box) const;

  enum class From { top, bottom };
  /// The first free rectangle of this size in rows from the top or the bottom, each row from the
  /// left or, from the bottom, from the right. It is taken then.
  std::optional<Box> find(double width, double height, From from);

private:
  /// A rectangle that is taken and overlaps this one; null if there is none.
  const Box* in_the_way(const Box& box) const;

  Box page_;
  std::vector<Box> boxes_;
  std::vector<Polyline> lines_;
};

} // namespace shankline
