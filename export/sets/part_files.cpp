#include "export/sets/part_files.hpp"

#include "export/formats/dxf_writer.hpp"
#include "export/formats/svg_writer.hpp"
#include "export/page/sheet_page.hpp"
#include "export/templates/board_sheet.hpp"
#include "export/templates/liner_sheet.hpp"
#include "export/templates/side_lines.hpp"
#include "export/wording/foot_words.hpp"
#include "export/wording/work_words.hpp"
#include "geometry/order/figure.hpp"

#include <algorithm>
#include <array>
#include <utility>

namespace shankline {
namespace {

/// The labels that a part's own lines do not carry.
struct KnownPart {
  std::string_view part;
  std::string_view title;
  std::string_view at_origin;
  std::string_view way_up;
};

constexpr std::array known_parts{
    KnownPart{"board", "Board", "HEEL END", "foot side up, heel end down"},
    KnownPart{"side_medial", "Side, big-toe side", "BACK SEAM", "outside face up"},
    KnownPart{"side_lateral", "Side, little-toe side", "BACK SEAM", "outside face up"},
};

/// Returns null for a liner or a darning wrap: all their notes are on the part itself.
const KnownPart* known_part(const std::string& part) {
  const auto known = std::find_if(known_parts.begin(), known_parts.end(),
                                  [&](const KnownPart& row) { return row.part == part; });
  return known == known_parts.end() ? nullptr : &*known;
}

std::string with(std::string words, char from, char to) {
  std::replace(words.begin(), words.end(), from, to);
  return words;
}

std::vector<Stroke> whole_board(const FootSolution& foot) {
  std::vector<Stroke> lines =
      board_lines(foot, foot.outline.length().value_or(std::max(
                            foot.outline.last_station(), foot.thinned ? foot.thinned->to : 0)));
  // A plotter or a laser would follow every line of a shade.
  std::erase_if(lines, [](const Stroke& line) { return is_shade(line.kind); });
  if (!foot.trim) return lines; // a board that is only thinned stays in one piece
  const auto piece = [&](LineKind kind, const std::optional<Piece>& known) {
    if (known) lines.push_back({kind, known->outline, true});
  };
  // A board can be cut again, never put back: the pieces are those of the first cut.
  piece(LineKind::removed_piece, foot.pieces_to_cut.removed);
  std::optional<Piece> kept = foot.pieces_to_cut.kept;
  if (!kept && foot.outline.closed() && foot.trim->first_cut) {
    const CutLine& first = *foot.trim->first_cut;
    // The removed piece was divided by this line too.
    if (auto pieces = cut_pieces(foot.whole, {first.medial_end, first.lateral_end}))
      kept = std::move(pieces->kept);
  }
  piece(LineKind::kept_piece, kept);
  return lines;
}

/// The lines of the whole part. The template's own lines may be only those of one page.
std::vector<Stroke> whole_lines(const Template& part, const Order& order,
                                const Solution& solution) {
  const bool left = part.foot == FootSide::left;
  const auto& foot = left ? solution.left : solution.right;
  const auto& foot_order = left ? order.left : order.right;
  if (!foot || !foot_order) return part.lines;
  if (part.part == "board") return whole_board(*foot);
  if (part.part == "side_medial" && foot->sides)
    return side_lines(foot->sides->medial, *foot_order);
  if (part.part == "side_lateral" && foot->sides)
    return side_lines(foot->sides->lateral, *foot_order);
  if (part.part == "liner" && foot->liner) return liner_lines(*foot->liner);
  return part.lines;
}

std::string title_of(const Template& part) {
  const KnownPart* const known = known_part(part.part);
  const std::string name = known ? std::string(known->title) : with(part.part, '_', ' ');
  return name + ", " + foot_name(part.foot) + " foot";
}

PartWords words_for(const Template& part, const Order& order, const Solution& solution,
                    const std::string& digest) {
  PartWords words;
  words.beside = {foot_letter(part.foot) + ": " + title_of(part)};
  // Use commas, not dots: characters beyond ASCII are hard to read in a DXF.
  if (std::string whose = order_line(order, ", "); !whose.empty())
    words.beside.push_back(std::move(whose));
  words.beside.push_back("order " + digest);
  const KnownPart* const known = known_part(part.part);
  if (!known) return words;
  words.at_origin = known->at_origin;
  words.beside.emplace_back(known->way_up);
  // A board's outline alone does not show which face is up: name the edge on the right or left.
  if (part.part == "board") {
    words.beside.push_back(part.placement.across.x > 0 ? "big-toe side on the right"
                                                       : "big-toe side on the left");
    const auto& foot = solution.foot(part.foot);
    if (foot && foot->layers)
      words.beside.push_back("cut " + of_layers(*foot->layers) + " layers, from the foot side");
  }
  return words;
}

/// Removes everything but the closed line to cut along. Returns false if there is no such line.
bool keep_piece_to_cut(PartDrawing& drawing, bool is_board) {
  drawing.labels.clear();
  drawing.names.clear();
  std::erase_if(drawing.lines, [](const Stroke& line) { return !line.closed; });
  // The board exists already, so its edge is not cut: only its pieces are.
  using Kinds = std::vector<LineKind>;
  for (const LineKind kind : is_board ? Kinds{LineKind::kept_piece, LineKind::removed_piece}
                                      : Kinds{LineKind::final_cut, LineKind::edge}) {
    const auto is_kind = [kind](const Stroke& line) { return line.kind == kind; };
    if (std::none_of(drawing.lines.begin(), drawing.lines.end(), is_kind)) continue;
    std::erase_if(drawing.lines, [&](const Stroke& line) { return !is_kind(line); });
    return true;
  }
  return false;
}

/// States the drawing's size, so that whoever opens the file can check its scale.
std::string size_words(const std::vector<Stroke>& lines, const Placement& place) {
  const Box box = bounds(lines, place);
  return "the lines measure " + figure(box.right - box.left) + " x " +
         figure(box.top - box.bottom) + " mm";
}

} // namespace

PartFiles part_files(const SheetSet& sheets, const Order& order, const Solution& solution,
                     const std::string& digest, const PartFormats& formats) {
  if (!formats.svg && !formats.dxf) return {};
  const Typeface typeface;
  PartFiles parts;
  std::vector<PartFile>& files = parts.files;
  std::vector<std::string> done; // a part over several pages has several templates
  for (const Template& sheet : sheets.templates) {
    const std::string name = "-" + with(sheet.part, '_', '-') + "-" + foot_name(sheet.foot);
    if (std::find(done.begin(), done.end(), name) != done.end()) continue;
    done.push_back(name);
    Template part = sheet;
    part.lines = whole_lines(sheet, order, solution);
    PartWords words = words_for(part, order, solution, digest);
    words.beside.push_back(size_words(part.lines, part.placement));
    PartDrawing drawing = part_drawing(part, words, typeface);
    if (formats.cut_only && !keep_piece_to_cut(drawing, part.part == "board")) {
      parts.left_out.push_back(title_of(part));
      continue;
    }
    const std::string title = title_of(part) + ", order " + digest;
    if (formats.svg) files.push_back({name + ".svg", svg_bytes(drawing, title)});
    if (formats.dxf) files.push_back({name + ".dxf", dxf_bytes(drawing, title)});
  }
  return parts;
}

} // namespace shankline
