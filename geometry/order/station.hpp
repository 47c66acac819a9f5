// Distances along the sole. Four frames are in use, and each is a type of its own: the compiler
// refuses to subtract, compare or pass on stations of two frames. All are millimetres.
//
//   const Frames frames = frames_of(Pose::in_shoe, fold, inset);
//   const FootStation heel_front = frames.on_foot(PosedStation(64)); // as the order counts it
//   const BoardStation line = frames.on_board(heel_front);           // as the knife counts it
#pragma once

#include <compare>
#include <concepts>
#include <type_traits>

namespace shankline {

/// One frame's distance. It reads as a plain number wherever a number is wanted (a text, a
/// drawing); it is made from a number only by name.
template <class Frame> class Station {
public:
  constexpr Station() = default;
  constexpr explicit Station(double mm) : mm_(mm) {}

  constexpr double mm() const { return mm_; }
  constexpr operator double() const { return mm_; }

  friend constexpr auto operator<=>(Station, Station) = default;

  template <class Number>
  requires std::is_arithmetic_v<Number>
  friend constexpr Station operator+(Station at, Number along) { return Station(at.mm_ + along); }
  template <class Number>
  requires std::is_arithmetic_v<Number>
  friend constexpr Station operator-(Station at, Number along) { return Station(at.mm_ - along); }
  friend constexpr double operator-(Station a, Station b) { return a.mm_ - b.mm_; }

private:
  double mm_ = 0;
};

// Stations of two frames have nothing to do with each other.
template <class A, class B>
requires(!std::same_as<A, B>) double operator-(Station<A>, Station<B>) = delete;
template <class A, class B> double operator+(Station<A>, Station<B>) = delete;
template <class A, class B>
requires(!std::same_as<A, B>) std::partial_ordering operator<=>(Station<A>, Station<B>) = delete;
template <class A, class B>
requires(!std::same_as<A, B>) bool operator==(Station<A>, Station<B>) = delete;

/// A distance from the back of the heel as the order's pose counts it: the pointed foot, or the
/// inside back of the shoe.
using PosedStation = Station<struct PosedFrame>;
/// A distance from the back of the pointed foot's heel, whatever the order's pose.
using FootStation = Station<struct FootFrame>;
/// A distance from the board's heel end, as a ruler on the board reads it. The model calls it X.
using BoardStation = Station<struct BoardFrame>;
/// A distance from the ball towards the heel, along the sole. The model calls it u.
using BallStation = Station<struct BallFrame>;

constexpr BallStation from_ball(FootStation ball, FootStation at) {
  return BallStation(ball - at);
}
constexpr FootStation on_foot(FootStation ball, BallStation at) {
  return FootStation(ball.mm() - at.mm());
}

/// The distance by which the order's stations lie ahead of the foot's: the fold if the order was
/// measured in the shoe, otherwise 0.
struct PoseShift {
  double mm = 0;

  constexpr FootStation on_foot(PosedStation at) const { return FootStation(at.mm() - mm); }
  constexpr PosedStation posed(FootStation at) const { return PosedStation(at.mm() + mm); }
};

/// The frames of one foot in its shoe, and the only way from one to another.
struct Frames {
  PoseShift pose;
  double board = 0; ///< how far the board's stations lie ahead of the foot's, mm: fold less inset

  constexpr FootStation on_foot(PosedStation at) const { return pose.on_foot(at); }
  constexpr FootStation on_foot(BoardStation at) const { return FootStation(at.mm() - board); }
  constexpr BoardStation on_board(FootStation at) const { return BoardStation(at.mm() + board); }
  constexpr BoardStation on_board(PosedStation at) const { return on_board(on_foot(at)); }
  constexpr PosedStation posed(FootStation at) const { return pose.posed(at); }
  constexpr PosedStation posed(BoardStation at) const { return posed(on_foot(at)); }
};

} // namespace shankline
