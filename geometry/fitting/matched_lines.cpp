#include "geometry/fitting/matched_lines.hpp"

#include <utility>

namespace shankline {
namespace {

void add_trim(MatchedLines& lines, FootSide side, const CopiedFoot& copied,
              const std::optional<FootSolution>& model) {
  if (!copied.trim) return;
  MatchedLine line{side, "cut_off", "board, cut off, centre", copied.trim->line, {}, {}, {}};
  if (model && model->trim) {
    const TrimDoubt& doubt = model->trim->doubt;
    line.model = model->trim->final_cut.centre;
    line.model_U = doubt.board.expanded();
    line.apart = difference(copied.trim->line, copied.trim->sources, doubt.board, doubt.sources);
    line.apart->value = copied.trim->line.value - *line.model;
  }
  lines.push_back(std::move(line));
}

void add_height(MatchedLines& lines, FootSide side, const char* key, const char* name,
                const std::optional<CopiedLine>& copied, std::optional<double> model) {
  if (copied) lines.push_back({side, key, name, copied->line, model, {}, {}});
}

void add_foot(MatchedLines& lines, FootSide side, const std::optional<CopiedFoot>& copied,
              const std::optional<FootSolution>& model) {
  if (!copied) return;
  add_trim(lines, side, *copied, model);
  const SolvedSides* sides = model && model->sides ? &*model->sides : nullptr;
  const auto low = [&](const SolvedSide SolvedSides::*which) {
    return sides ? std::optional((sides->*which).low) : std::nullopt;
  };
  add_height(lines, side, "medial", "side height, big toe", copied->medial,
             low(&SolvedSides::medial));
  add_height(lines, side, "lateral", "side height, little toe", copied->lateral,
             low(&SolvedSides::lateral));
  add_height(lines, side, "back", "back height", copied->back,
             sides ? std::optional(sides->medial.finished(0)) : std::nullopt);
}

} // namespace

MatchedLines matched_lines(const MatchedOrder& matched, const Solution& model) {
  MatchedLines lines;
  add_foot(lines, FootSide::left, matched.left, model.left);
  add_foot(lines, FootSide::right, matched.right, model.right);
  return lines;
}

} // namespace shankline
