// How a text is set: its weight, and which end of it stands at its anchor.
#pragma once

namespace shankline {

enum class Weight { regular, bold };
enum class Align { left, centre, right };

/// How much of a text this wide stands before its anchor.
inline double before_anchor(Align align, double width) {
  if (align == Align::left) return 0;
  return align == Align::centre ? width / 2 : width;
}

} // namespace shankline
