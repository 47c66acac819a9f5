#include "geometry/board/board_thinning.hpp"

#include "geometry/order/figure.hpp"
#include "geometry/order/reading_guide.hpp"

#include <utility>

namespace shankline {

std::optional<SolvedThinning> solve_thinning(const Board& board, const ThinWish& wish,
                                             const std::string& name, Findings& findings) {
  const std::string key = "alterations." + name + ".thinned";
  bool ok = true;
  const auto error = [&](Key where, std::string what, std::string allowed, std::string advice) {
    ok = false;
    findings.push_back({Severity::error, std::move(where), std::move(what), std::move(allowed),
                        std::move(advice)});
  };
  constexpr const char* example = "thinned: {from: 70, to: 100, thickness: 1.8}";
  if (!wish.from)
    error(key + ".from", "where the thinned stretch begins is missing", example,
          how_to_take("thinned.from"));
  if (!wish.to)
    error(key + ".to", "where the thinned stretch ends is missing", example,
          how_to_take("thinned.to"));
  if (!wish.thickness)
    error(key + ".thickness", "how thick the thinned stretch stays is missing", example,
          how_to_take("thinned.thickness"));
  if (!board.thickness)
    error("shoe." + name + ".board.thickness", "the board's thickness is missing",
          "needed to thin the board", how_to_take("board.thickness"));
  if (!ok) return {};
  if (!(*wish.from < *wish.to))
    error(key + ".to",
          "the thinned stretch ends at " + short_figure(*wish.to) + ", before it begins at " +
              short_figure(*wish.from),
          "above " + short_figure(*wish.from), "Both count from the board's heel end.");
  if (board.loose_length() && *wish.to > *board.loose_length())
    error(key + ".to", "the thinned stretch ends off the board",
          "up to " + short_figure(*board.loose_length()), "Both count from the board's heel end.");
  if (!(*wish.thickness < *board.thickness))
    error(key + ".thickness",
          short_figure(*wish.thickness) + " is not thinner than the board (" +
              short_figure(*board.thickness) + ")",
          "below " + short_figure(*board.thickness), how_to_take("board.thickness"));
  if (!ok) return {};
  return SolvedThinning{*wish.from, *wish.to, *wish.thickness, *wish.thickness / *board.thickness};
}

std::optional<CutLayers> layers_left(const Board& board, const ShankWish& wish) {
  if (!wish.layers || !board.layers || *wish.layers >= *board.layers) return {};
  return CutLayers{*wish.layers, *board.layers};
}

std::optional<CutLayers> cut_layers(const Board& board, const ShankWish& wish,
                                    const std::string& name, Findings& findings) {
  if (!wish.layers) return {};
  const std::string cut = std::to_string(*wish.layers) +
                          (*wish.layers == 1 ? " layer is to be cut, " : " layers are to be cut, ");
  const auto refuse = [&](std::string what, std::string allowed, std::string advice) {
    findings.push_back({Severity::error, "alterations." + name + ".shank.layers", std::move(what),
                        std::move(allowed), std::move(advice)});
  };
  if (!board.layers)
    refuse(cut + "and the order does not say how many the board has",
           "board: {layers: N}, with the number counted for N",
           "Count the board's layers at its edge and write that number into board, under shoe. "
           "Without it the whole board would be cut.");
  else if (*wish.layers > *board.layers)
    refuse(cut + "the board has " + std::to_string(*board.layers),
           "1 to " + std::to_string(*board.layers),
           "Cut fewer of them, or count the board's layers again. " + how_to_take("board.layers"));
  return layers_left(board, wish);
}

} // namespace shankline
