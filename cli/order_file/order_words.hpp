// The words that an order uses for choices, shared by the reader, the writer and the interview. The
// writer uses the first word of a meaning.
#pragma once

#include "cli/order_file/order_values.hpp"
#include "geometry/order/order.hpp"

namespace shankline {

inline constexpr Word<Pose> poses[] = {{"pointed", Pose::pointed}, {"in_shoe", Pose::in_shoe}};
inline constexpr Word<Population> populations[] = {{"women", Population::women},
                                                   {"men", Population::men}};
inline constexpr Word<ToleranceClass> tolerance_classes[] = {
    {"bench", ToleranceClass::coarse}, {"knife", ToleranceClass::very_coarse}};

inline constexpr Word<RollSide> roll_sides[] = {
    {"none", RollSide::none}, {"in", RollSide::in}, {"out", RollSide::out}};

inline constexpr Word<BoardState> board_states[] = {{"loose", BoardState::loose},
                                                    {"in_shoe", BoardState::in_shoe}};
inline constexpr Word<BoardMaterial> board_materials[] = {{"fibreboard", BoardMaterial::fibreboard},
                                                          {"leather", BoardMaterial::leather},
                                                          {"plastic", BoardMaterial::plastic}};
inline constexpr Word<Grade> grades[] = {{"one thumb", Grade::one_thumb},
                                         {"bends under one thumb", Grade::one_thumb},
                                         {"two thumbs", Grade::two_thumbs},
                                         {"over the knee", Grade::over_the_knee},
                                         {"hardly over the knee", Grade::hardly_over_the_knee}};
inline constexpr Word<Clamp> clamps[] = {{"wing", Clamp::wing}, {"ball", Clamp::ball}};

inline constexpr Word<BoardEnd> board_ends[] = {{"straight", BoardEnd::straight},
                                                {"rounded", BoardEnd::rounded}};
inline constexpr Word<SideEdge> side_edges[] = {
    {"bound", SideEdge::bound}, {"turned", SideEdge::turned}, {"folded", SideEdge::folded}};
inline constexpr Word<Drawstring> drawstrings[] = {{"cotton", Drawstring::cotton},
                                                   {"elastic", Drawstring::elastic}};

} // namespace shankline
