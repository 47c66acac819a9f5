#include "cli/order_file/order_writer.hpp"

#include "cli/order_file/order_reader.hpp"
#include "cli/order_file/order_words.hpp"
#include "cli/text/quantity.hpp"
#include "cli/text/word_list.hpp"
#include "cli/yaml/order_document.hpp"
#include "cli/yaml/yaml_text.hpp"
#include "geometry/numerics/degree.hpp"
#include "geometry/order/reading_guide.hpp"

#include <algorithm>
#include <cmath>
#include <optional>
#include <string_view>
#include <utility>
#include <variant>

namespace shankline {
namespace {

constexpr std::size_t comment_column = 52;

/// One key as it will stand in the file. Either `value` stands on the key's line, in flow style, or
/// `inner` keys follow, one per line. `guide` is the key's row of the reading guide, if any; the
/// comment beside the key comes from it.
struct Line {
  std::string key;
  std::string value;
  std::string guide{};
  std::vector<Line> inner{};

  bool operator==(const Line&) const = default;
};
using Lines = std::vector<Line>;

std::string plain(double value) {
  constexpr double decimals = 1e6;
  const double rounded = std::round(value * decimals) / decimals;
  return number_text(rounded == 0 ? 0.0 : rounded);
}

std::string percent(double fraction) {
  return plain(fraction * 100) + " %";
}

std::string degrees(double radians) {
  return plain(radians / degree) + " deg";
}

using Write = std::string (*)(double);

std::string in_brackets(const std::vector<std::string>& parts) {
  return "[" + joined(parts, ", ") + "]";
}

std::string list(const std::vector<double>& values, Write write) {
  std::vector<std::string> parts;
  for (const double value : values)
    parts.push_back(write(value));
  return parts.size() == 1 ? parts.front() : in_brackets(parts);
}

std::string reading_text(const Reading& reading, std::string_view guide_key) {
  const ReadingGuide& guide = *reading_guide(guide_key);
  const Write write = guide.quantity == Quantity::angle ? degrees : plain;
  std::string values = list(reading.values, write);
  if (reading.finding == usual_finding(guide)) return values;
  return "{value: " + values + ", within: " + write(reading.finding) + "}";
}

/// Collects the keys of one map.
class Map {
public:
  void add(std::string key, std::string value, std::string guide = {}) {
    lines_.push_back({std::move(key), std::move(value), std::move(guide), {}});
  }
  /// Adds an inner map with one key per line. The guide's rows are found by `key` and the inner
  /// key.
  void nest(const std::string& key, Map inner) {
    for (Line& line : inner.lines_)
      line.guide = key + "." + line.key;
    lines_.push_back({key, {}, {}, std::move(inner.lines_)});
  }
  void reading(const std::string& key, const std::optional<Reading>& reading,
               const std::string& guide) {
    if (reading) add(key, reading_text(*reading, guide), guide);
  }
  void figure(const std::string& key, const std::optional<double>& value,
              const std::string& guide = {}, Write write = plain) {
    if (value) add(key, write(*value), guide);
  }
  void figure_unless(const std::string& key, double value, double usual, Write write = plain,
                     const std::string& guide = {}) {
    if (value != usual) add(key, write(value), guide);
  }

  bool empty() const { return lines_.empty(); }
  Lines lines() && { return std::move(lines_); }
  /// Returns the map on one line: {a: 1, b: 2}
  std::string flow() const {
    std::vector<std::string> parts;
    for (const Line& line : lines_)
      parts.push_back(line.key + ": " + line.value);
    return "{" + joined(parts, ", ") + "}";
  }

private:
  Lines lines_;
};

std::string arch_break_text(const ArchBreak& arch_break) {
  if (arch_break.centre) return reading_text(*arch_break.centre, "arch_break");
  Map map;
  map.reading("medial", arch_break.medial, "arch_break.medial");
  map.reading("lateral", arch_break.lateral, "arch_break.lateral");
  map.figure("across", arch_break.across);
  return map.flow();
}

bool has_break(const ArchBreak& arch_break) {
  return arch_break.centre || arch_break.medial || arch_break.lateral;
}

Lines foot_lines(const FootOrder& order) {
  const Foot& foot = order.foot;
  Map map;
  for (const ReadingGuide& row : reading_guides()) {
    const std::string key(row.key);
    if (row.in_foot && !row.in_foot.is_of_arch_break()) map.reading(key, row.in_foot.of(foot), key);
    if (key == "arch_break" && has_break(foot.arch_break))
      map.add(key, arch_break_text(foot.arch_break), key);
  }
  if (foot.roll.raise != 0)
    map.add("roll", "{side: " + word_for(foot.roll.side, roll_sides) +
                        ", raise: " + plain(foot.roll.raise) + "}");
  else if (foot.roll.side != RollSide::none)
    map.add("roll", word_for(foot.roll.side, roll_sides));
  return std::move(map).lines();
}

std::string width_text(const BoardWidth& width) {
  // The sum of two halves can exceed the limits of a whole width, so it is then written as halves.
  const ReadingGuide& whole = *reading_guide("board.widths.width");
  const double both = width.medial + width.lateral;
  if (width.medial == width.lateral && both >= whole.least && both <= whole.most)
    return "[" + plain(width.station) + ", " + plain(both) + "]";
  return "[" + plain(width.station) + ", " + plain(width.medial) + ", " + plain(width.lateral) +
         "]";
}

Map board_map(const Board& board) {
  Map map;
  map.add("state", word_for(board.state, board_states));
  if (board.material != BoardMaterial::fibreboard)
    map.add("material", word_for(board.material, board_materials));
  map.reading("length", board.length, "board.length");
  map.reading("inset", board.inset, "board.inset");
  map.figure("thickness", board.thickness);
  if (board.layers) map.add("layers", std::to_string(*board.layers));
  map.figure("edge_thickness", board.edge_thickness);
  map.figure("sole_length", board.sole_length);
  std::vector<std::string> widths;
  for (const BoardWidth& width : board.widths)
    widths.push_back(width_text(width));
  if (!widths.empty()) map.add("widths", in_brackets(widths));
  return map;
}

void add_heights(Map& map, const std::vector<SideHeight>& heights) {
  std::vector<std::string> rows;
  for (const SideHeight& height : heights)
    rows.push_back("[" + plain(height.station) + ", " + plain(height.height) + "]");
  if (!rows.empty()) map.add("heights", in_brackets(rows));
}

/// Adds the keys that the shared sides and a single side have in common.
template <class T> void add_side(Map& map, const T& side) {
  map.figure("low", side.low);
  map.figure("low_at", side.low_at);
  map.figure("wing", side.wing);
  map.figure("wing_at", side.wing_at);
  add_heights(map, side.heights);
}

Map sides_map(const StockSides& sides) {
  Map map;
  map.figure("back", sides.back);
  add_side(map, sides);
  const auto own = [&](const char* key, const std::optional<StockHeights>& side) {
    if (!side) return;
    Map inner;
    add_side(inner, *side);
    map.add(key, inner.flow());
  };
  own("medial", sides.medial);
  own("lateral", sides.lateral);
  map.figure("lean", sides.lean_rad, {}, degrees);
  map.figure("width_across", sides.width_across);
  map.figure("casing", sides.casing);
  map.figure("throat", sides.throat);
  return map;
}

struct StiffnessWords {
  std::string operator()(std::monostate) const { return {}; }
  std::string operator()(Grade grade) const { return word_for(grade, grades); }
  std::string operator()(const BendingStiffness& bending) const {
    Map map;
    map.figure("board", bending.board);
    map.figure("sole", bending.sole);
    return map.flow();
  }
  std::string operator()(const Droop& droop) const {
    return "{droop: " + plain(droop.droop) + ", weight: " + plain(droop.weight_grams) +
           " g, free: " + plain(droop.free_length) + "}";
  }
};

struct PullWords {
  std::string operator()(std::monostate) const { return {}; }
  std::string operator()(const Travel& travel) const {
    return "{travel: " + plain(travel.travel) + "}";
  }
  std::string operator()(const PullForce& force) const { return plain(force.per_length); }
};

Lines shoe_lines(const FootOrder& order) {
  const Shoe& shoe = order.shoe;
  Map map;
  map.nest("board", board_map(shoe.board));
  if (shoe.sides) map.nest("sides", sides_map(*shoe.sides));
  if (shoe.platform)
    map.add("platform", "{width: " + plain(shoe.platform->width) +
                            ", depth: " + plain(shoe.platform->depth) + "}");
  if (const std::string words = std::visit(StiffnessWords{}, shoe.stiffness); !words.empty())
    map.add("stiffness", words);
  if (const std::string words = std::visit(PullWords{}, shoe.pull); !words.empty())
    map.add("pull", words);
  if (shoe.clamp != Shoe{}.clamp) map.add("clamp", word_for(shoe.clamp, clamps));
  if (!shoe.style.empty()) map.add("style", yaml_scalar(shoe.style));
  if (!shoe.stock.empty()) {
    Map rows;
    for (const StockRow& row : shoe.stock)
      rows.add(yaml_scalar(row.name), yaml_scalar(row.words));
    map.nest("stock", std::move(rows));
  }
  return std::move(map).lines();
}

struct RuleWords {
  Map& map;

  void operator()(const ReachRule& rule) const {
    map.add("reach", rule.preset.empty() ? plain(rule.reach) : rule.preset, "shank.reach");
  }
  void operator()(const LearnedRule& rule) const {
    if (!rule.line) return map.add("reach", "learned", "shank.reach");
    const LearnedLine& line = *rule.line;
    Map inner;
    inner.figure("learned", line.station);
    inner.figure("U", line.U);
    inner.add("pairs", std::to_string(line.pairs));
    inner.add("until", line.until);
    inner.add("model", std::to_string(line.model));
    if (line.worn_good > 0) inner.add("worn_good", std::to_string(line.worn_good));
    if (line.too_far) inner.figure("too_far", *line.too_far);
    map.add("reach", inner.flow(), "shank.reach");
  }
  void operator()(const KeepRule& rule) const { map.add("keep", percent(rule.keep), "shank.keep"); }
  void operator()(const MarkRule& rule) const { map.reading("mark", rule.mark, "shank.mark"); }
};

std::string shank_text(const ShankWish& shank) {
  const ShankWish usual;
  Map map;
  std::visit(RuleWords{map}, shank.rule);
  if (shank.bevel == 0)
    map.add("bevel", "none");
  else
    map.figure("bevel", shank.bevel);
  if (shank.end != usual.end) map.add("end", word_for(shank.end, board_ends));
  map.figure_unless("corner", shank.corner, usual.corner);
  map.figure_unless("tuck_max", shank.tuck_max, usual.tuck_max);
  map.figure_unless("bearing_min", shank.bearing_min, usual.bearing_min);
  if (shank.layers) map.add("layers", std::to_string(*shank.layers));
  map.figure("hold_back", shank.hold_back);
  if (shank.accept_outside_window && shank.accept_in_stop_band)
    map.add("accept", "[outside_window, in_stop_band]");
  else if (shank.accept_outside_window)
    map.add("accept", "outside_window");
  else if (shank.accept_in_stop_band)
    map.add("accept", "in_stop_band");
  return map.flow();
}

std::string side_wish_text(const SideWish& sides) {
  const SideWish usual;
  Map map;
  map.figure("medial", sides.medial);
  map.figure("lateral", sides.lateral);
  map.figure_unless("back", sides.back, usual.back);
  if (sides.edge != usual.edge) map.add("edge", word_for(sides.edge, side_edges));
  map.figure_unless("turn", sides.turn, usual.turn);
  map.figure_unless("keep", sides.keep, usual.keep);
  map.figure_unless("slope", sides.slope, usual.slope);
  map.figure_unless("run_out", sides.run_out, usual.run_out);
  map.figure("deepest_at", sides.deepest_at);
  map.figure_unless("deepest_length", sides.deepest_length, usual.deepest_length);
  if (sides.drawstring != usual.drawstring)
    map.add("drawstring", word_for(sides.drawstring, drawstrings));
  map.figure_unless("stretch", sides.stretch, usual.stretch, percent);
  return map.flow();
}

std::string liner_text(const LinerWish& liner) {
  if (liner == LinerWish{}) return "full";
  Map map;
  map.figure("clearance", liner.clearance);
  map.figure("length", liner.length);
  return map.flow();
}

// If every figure has its default, one is written nevertheless: an empty map would not ask for the
// work.

std::string darning_text(const DarningWish& darning) {
  const DarningWish usual;
  Map map;
  map.add("passes", std::to_string(darning.passes));
  map.figure_unless("height", darning.height, usual.height);
  map.figure("raise", darning.raise);
  map.figure_unless("pitch", darning.pitch, usual.pitch);
  if (darning.face) map.add("face", "true");
  map.figure_unless("allowance", darning.allowance, usual.allowance, percent);
  if (darning.tex) map.add("yarn", plain(*darning.tex) + " tex");
  return map.flow();
}

std::string ribbon_text(const RibbonWish& ribbons) {
  const RibbonWish usual;
  Map map;
  map.add("ring", ribbons.ring ? "true" : "false");
  map.figure_unless("stretch", ribbons.stretch, usual.stretch, percent);
  map.figure_unless("width", ribbons.width, usual.width);
  map.figure("wraps", ribbons.wraps);
  map.figure("pitch", ribbons.pitch);
  map.figure_unless("overlap", ribbons.overlap, usual.overlap);
  map.figure("rise", ribbons.rise);
  map.figure_unless("tie", ribbons.tie, usual.tie);
  map.figure("sewn_at", ribbons.sewn_at);
  return map.flow();
}

std::string elastic_text(const ElasticWish& elastics) {
  const ElasticWish usual;
  Map map;
  map.figure("stretch", elastics.stretch, {}, percent);
  map.figure_unless("width", elastics.width, usual.width);
  map.figure("over", elastics.over);
  map.figure("sewn_at", elastics.sewn_at);
  if (elastics.heel_loop) map.add("heel_loop", "true");
  map.figure_unless("overlap", elastics.overlap, usual.overlap);
  return map.flow();
}

std::string thin_text(const ThinWish& thinned) {
  Map map;
  map.figure("from", thinned.from);
  map.figure("to", thinned.to);
  map.figure("thickness", thinned.thickness);
  return map.flow();
}

std::string tuck_text(const TuckWish& tuck) {
  Map map;
  map.figure("depth", tuck.depth);
  map.figure("down", tuck.down);
  return map.flow();
}

Lines alteration_lines(const FootOrder& order) {
  const Alterations& wish = order.alterations;
  Map map;
  if (wish.shank) map.add("shank", shank_text(*wish.shank));
  if (wish.sides) map.add("sides", side_wish_text(*wish.sides));
  if (wish.thinned) map.add("thinned", thin_text(*wish.thinned));
  if (wish.filler) map.add("filler", "true");
  if (wish.liner) map.add("liner", liner_text(*wish.liner));
  if (wish.darning) map.add("darning", darning_text(*wish.darning));
  if (wish.ribbons) map.add("ribbons", ribbon_text(*wish.ribbons));
  if (wish.elastics) map.add("elastics", elastic_text(*wish.elastics));
  if (wish.tuck) map.add("tuck", tuck_text(*wish.tuck));
  return std::move(map).lines();
}

class FileText {
public:
  FileText(const Order& order, const OrderRemarks& remarks) : order_(order), remarks_(remarks) {}

  std::string text() && {
    remark(remarks_.head);
    top();
    section("feet", foot_lines);
    section("shoe", shoe_lines);
    section("alterations", alteration_lines);
    tolerances();
    remark(remarks_.foot);
    return std::move(text_);
  }

private:
  void remark(const std::vector<std::string>& lines) {
    for (const std::string& line : lines)
      text_ += "# " + line + '\n';
  }
  void key(const std::string& name, const std::string& value) {
    text_ += name + ": " + value + '\n';
  }

  void top() {
    key("format", std::string(order_format));
    key("dancer", yaml_scalar(order_.dancer));
    if (!order_.pair.empty()) key("pair", yaml_scalar(order_.pair));
    if (!order_.date.empty()) key("date", order_.date);
    if (!order_.note.empty()) key("note", yaml_scalar(order_.note));
    if (order_.quantity) key("quantity", std::to_string(*order_.quantity));
    if (!order_.due.empty()) key("due", order_.due);
    if (!order_.deliver_to.empty()) key("deliver_to", yaml_scalar(order_.deliver_to));
    key("pose", word_for(order_.pose, poses));
    if (order_.estimates_from != Order{}.estimates_from)
      key("estimates", word_for(order_.estimates_from, populations));
    if (!order_.read_by.empty()) key("read_by", yaml_scalar(order_.read_by));
    if (!order_.decided_by.empty()) key("decided_by", yaml_scalar(order_.decided_by));
    if (order_.growing) key("growing", *order_.growing ? "true" : "false");
  }

  void line(std::string words, const std::string& guide_key) {
    const ReadingGuide* guide = guide_key.empty() ? nullptr : reading_guide(guide_key);
    if (guide) {
      if (words.size() + 1 < comment_column)
        words.resize(comment_column, ' ');
      else
        words += "  ";
      words += "# " + std::string(guide->name);
    }
    text_ += words + '\n';
  }

  void block(const std::string& indent, const Lines& lines) {
    for (const Line& each : lines) {
      if (each.inner.empty()) {
        line(indent + each.key + ": " + (each.value.empty() ? "{}" : each.value), each.guide);
        continue;
      }
      text_ += indent + each.key + ":\n";
      block(indent + "  ", each.inner);
    }
  }

  void part(const std::string& name, const Lines& lines) {
    if (lines.empty()) {
      text_ += "  " + name + ": {}\n";
      return;
    }
    text_ += "  " + name + ":\n";
    block("    ", lines);
  }

  // Writes the values that both feet share directly in the section (in `feet`, under `both`), and
  // the rest under each foot.
  void section(const std::string& name, Lines (*lines_of)(const FootOrder&)) {
    const bool pair = order_.left && order_.right;
    Lines left = order_.left ? lines_of(*order_.left) : Lines{};
    Lines right = order_.right ? lines_of(*order_.right) : Lines{};
    const Lines shared = pair ? taken_out_of_both(left, right) : Lines{};
    text_ += name + ":";
    if (name == "feet") {
      text_ += '\n';
      if (!shared.empty()) part("both", shared);
      // A foot is written even if no reading of it is known.
      if (order_.left && (!left.empty() || shared.empty())) part("left", left);
      if (order_.right && (!right.empty() || shared.empty())) part("right", right);
      return;
    }
    if (!pair) {
      const Lines& only = order_.left ? left : right;
      text_ += only.empty() ? " {}\n" : "\n";
      block("  ", only);
      return;
    }
    text_ += shared.empty() && left.empty() && right.empty() ? " {}\n" : "\n";
    block("  ", shared);
    if (!left.empty()) part("left", left);
    if (!right.empty()) part("right", right);
  }

  static Lines taken_out_of_both(Lines& left, Lines& right) {
    Lines shared;
    for (const Line& line : left)
      if (std::find(right.begin(), right.end(), line) != right.end()) shared.push_back(line);
    const auto is_shared = [&](const Line& line) {
      return std::find(shared.begin(), shared.end(), line) != shared.end();
    };
    std::erase_if(left, is_shared);
    std::erase_if(right, is_shared);
    return shared;
  }

  void tolerances() {
    const ToleranceWish usual;
    const ToleranceWish& wish = order_.tolerances;
    if (wish == usual) return;
    Map map;
    map.figure("cut", wish.cut);
    if (const double* figure = std::get_if<double>(&wish.other))
      map.add("other", plain(*figure));
    else
      map.add("other", word_for(std::get<ToleranceClass>(wish.other), tolerance_classes));
    key("tolerances", map.flow());
  }

  const Order& order_;
  const OrderRemarks& remarks_;
  std::string text_;
};

} // namespace

std::string order_file_text(const Order& order, const OrderRemarks& remarks) {
  return FileText(order, remarks).text();
}

} // namespace shankline
