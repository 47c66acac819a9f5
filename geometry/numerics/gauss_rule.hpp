// Gauss's rules of three and four places, for integrands so cheap that looking the rule up counts.
//
// Boost.Math tabulates rules from seven places on and searches for the places of shorter ones when
// it is first asked: with its rule of three the sample's lowered sides take 3 % more. Everything
// else integrates with Boost's own.
#pragma once

#include <array>

namespace shankline {

/// A place on [−1, 1] and its weight; the weights add up to 2.
struct GaussPlace {
  double at;
  double weight;
};

/// Exact up to the fifth degree: √(3/5), 5/9 and 8/9.
inline constexpr std::array gauss_of_three{GaussPlace{-0.774596669241483377, 5.0 / 9},
                                           GaussPlace{0, 8.0 / 9},
                                           GaussPlace{0.774596669241483377, 5.0 / 9}};

/// Exact up to the seventh degree; as in any table of quadrature.
inline constexpr std::array gauss_of_four{GaussPlace{-0.86113631159405258, 0.34785484513745386},
                                          GaussPlace{-0.33998104358485626, 0.65214515486254614},
                                          GaussPlace{0.33998104358485626, 0.65214515486254614},
                                          GaussPlace{0.86113631159405258, 0.34785484513745386}};

} // namespace shankline
