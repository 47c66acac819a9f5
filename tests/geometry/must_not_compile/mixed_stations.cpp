// Each case mixes two frames, and the compiler must refuse it; without a case the file compiles.
// tests/must_not_compile.sh tries them all.
#include "geometry/order/station.hpp"

namespace shankline {

double half_width(BoardStation at);

double tried(const Frames& frames) {
  const FootStation foot(61);
  const BoardStation board(62);
  const PosedStation posed(61);
#if CASE == 1
  return board - foot;
#elif CASE == 2
  return board < foot;
#elif CASE == 3
  return posed == foot;
#elif CASE == 4
  return board + foot;
#elif CASE == 5
  const FootStation mixed = board;
  return mixed;
#elif CASE == 6
  const BoardStation unnamed = 62.0;
  return unnamed;
#elif CASE == 7
  return frames.on_board(board);
#elif CASE == 8
  return half_width(foot);
#elif CASE == 9
  return from_ball(foot, posed);
#else
  return half_width(frames.on_board(foot)) + (frames.on_board(posed) - board) +
         from_ball(foot + 30, foot) + (board < frames.on_board(foot) ? 1 : 0);
#endif
}

} // namespace shankline
