// The style of a text: its weight, and which end of it stands at its anchor.
#pragma once

namespace shankline {

enum class Weight { regular, bold };
enum class Align { left, centre, right };

/// The part of a text of this width that stands before its anchor, in the unit of `width`.
inline double before_anchor(Align align, double width) {
  if (align == Align::left) return 0;
  return align == Align::centre ? width / 2 : width;
}

} // namespace shankline
