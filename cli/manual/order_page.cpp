// shankline-order(5): the order file, key by key. What is measured or wished in figures is said by
// the reading guide; the keys that hold words are said here.
#include "cli/manual/man_writer.hpp"
#include "cli/manual/manual.hpp"
#include "export/wording/sentence.hpp"
#include "geometry/order/figure.hpp"
#include "geometry/order/reading_guide.hpp"

#include <span>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

namespace shankline {
namespace {

struct OrderKey {
  std::string_view key;
  std::string_view guide; ///< row of the reading guide, "" for none
  const char* words;      ///< said before what the guide says
};

constexpr OrderKey top_keys[] = {
    {"format", "", "shankline-order/1, as the first line. Has to be there."},
    {"dancer", "", "The dancer's code, such as M-07. Has to be there."},
    {"pair", "", "Which pair it is, in words of your own."},
    {"date", "",
     "Day of the order, such as 2026-03-14 or 14 March 2026; in figures alone only "
     "year-month-day."},
    {"note", "", "Anything else; it may run over several lines, and stands on the maker's page."},
    {"quantity", "quantity", ""},
    {"due", "", "The day by which the maker is to deliver, not before date."},
    {"deliver_to", "", "Where to: a code or a place, not a person's name."},
    {"pose", "",
     "How the foot was measured along the sole: pointed (the usual, bare and pointed) or in_shoe."},
    {"estimates", "", "Whose feet stand in for what was not measured: women or men."},
    {"read_by", "",
     "The code of the one person who took every reading, such as R2. Leave it out if there were "
     "two."},
    {"decided_by", "",
     "The code of the adult who decides for a growing foot: a teacher, fitter or parent."},
    {"growing", "", "true or false. Left out, a foot shorter than 215 counts as growing."},
    {"feet", "", "The readings of the feet. Has to be there."},
    {"shoe", "", "What was measured on the shoe. Has to be there."},
    {"alterations", "", "What is to be done. Has to be there."},
    {"tolerances", "", "What the made pair is held to."},
};

constexpr OrderKey part_keys[] = {
    {"both", "", "What holds for both feet; the same as writing it in the section itself."},
    {"left", "", "What holds for the left foot; takes the place of what both says."},
    {"right", "", "The same for the right foot."},
};

constexpr OrderKey reading_keys[] = {
    {"value", "", "The figure, or a list of repeats."},
    {"within", "", "The half-width that the true figure surely lies in."},
};

/// The readings of the guide, and what else a foot has.
std::vector<OrderKey> foot_keys() {
  std::vector<OrderKey> keys;
  for (const ReadingGuide& row : reading_guides()) {
    const bool apart = row.key == "arch_break";
    const bool of_break = row.key.starts_with("arch_break.");
    if (row.in_foot || of_break)
      keys.push_back({row.key, row.key,
                      apart ? "One reading, or the edges apart: medial, lateral and across." : ""});
  }
  keys.push_back(
      {"roll", "", "Where the foot rolls on pointe: in, out or none; or side and raise apart."});
  keys.push_back({"roll.side", "", "in, out or none."});
  keys.push_back({"roll.raise", "roll.raise", ""});
  return keys;
}

constexpr OrderKey board_keys[] = {
    {"board", "", "The shank board, as keys of its own."},
    {"board.state", "", "loose (taken out) or in_shoe. Has to be there."},
    {"board.material", "", "fibreboard, leather or plastic; moulded plastic is not cut."},
    {"board.length", "board.length", ""},
    {"board.inset", "board.inset", ""},
    {"board.thickness", "board.thickness", ""},
    {"board.layers", "board.layers", ""},
    {"board.edge_thickness", "board.edge_thickness", ""},
    {"board.sole_length", "board.sole_length", ""},
    {"board.widths", "board.widths.width",
     "A list of [distance from the board's heel end, width], or of [distance, big-toe half, "
     "little-toe half]. A board in the shoe: near its heel end, and where the cut will be, about "
     "60 "
     "from its heel end."},
};

constexpr OrderKey shoe_sides_keys[] = {
    {"sides", "", "The stock sides of the shoe, as keys of their own."},
    {"sides.back", "sides.back", ""},
    {"sides.low", "sides.low", ""},
    {"sides.low_at", "sides.low_at", ""},
    {"sides.wing", "sides.wing", ""},
    {"sides.wing_at", "sides.wing_at", ""},
    {"sides.heights", "sides.heights.height",
     "A list of [distance from the back of the heel, height]."},
    {"sides.medial", "",
     "The big-toe side where it differs: low, low_at, wing, wing_at and heights."},
    {"sides.lateral", "", "The little-toe side, likewise."},
    {"sides.lean", "sides.lean", ""},
    {"sides.width_across", "sides.width_across", ""},
    {"sides.casing", "sides.casing", ""},
    {"sides.throat", "sides.throat", ""},
};

constexpr OrderKey shoe_keys[] = {
    {"platform", "", "The flat tip, as keys of its own."},
    {"platform.width", "platform.width", ""},
    {"platform.depth", "platform.depth", ""},
    {"stiffness", "",
     "A grade by hand: one thumb, two thumbs, over the knee, hardly over the knee; or board and "
     "sole; or droop, weight and free."},
    {"stiffness.board", "stiffness.board", ""},
    {"stiffness.sole", "stiffness.sole", ""},
    {"stiffness.droop", "stiffness.droop", ""},
    {"stiffness.weight", "stiffness.weight", ""},
    {"stiffness.free", "stiffness.free", ""},
    {"pull", "pull", "A number, or travel."},
    {"pull.travel", "pull.travel", ""},
    {"clamp", "", "Where the box holds the board: wing or ball."},
    {"style", "",
     "A word of your own for the style of shoe, such as S4. What a dancer's pairs teach holds for "
     "the same style first of all."},
    {"stock", "",
     "What a maker is told about the stock shoe: up to 40 rows of your own, such as size: five and "
     "a half wide. They are printed on the maker's page as they stand, and never interpreted."},
};

constexpr OrderKey shank_keys[] = {
    {"shank", "", "The cut of the board. One of reach, keep and mark says where."},
    {"shank.reach", "shank.reach",
     "short, edge or tucked, or a number; or learned, which cut, check and chart look up in the "
     "archive; or the learned line itself, under left or right, with the keys below."},
    {"shank.reach.learned", "shank.reach.learned", ""},
    {"shank.reach.U", "shank.reach.U", ""},
    {"shank.reach.pairs", "shank.reach.pairs", ""},
    {"shank.reach.until", "", "The last day on record of these pairs, such as 2026-08-14."},
    {"shank.reach.model", "shank.reach.model", ""},
    {"shank.reach.worn_good", "shank.reach.worn_good", "0 where it is left out."},
    {"shank.reach.too_far", "shank.reach.too_far", "Left out where no end was cut too far."},
    {"shank.keep", "shank.keep", ""},
    {"shank.mark", "shank.mark", ""},
    {"shank.bevel", "shank.bevel", "A length, or none."},
    {"shank.end", "", "straight or rounded."},
    {"shank.corner", "shank.corner", ""},
    {"shank.tuck_max", "shank.tuck_max", ""},
    {"shank.bearing_min", "shank.bearing_min", ""},
    {"shank.layers", "shank.layers", ""},
    {"shank.hold_back", "shank.hold_back", ""},
    {"shank.accept", "",
     "A fitter's word, or a list of them: outside_window cuts where the window would refuse it, "
     "in_stop_band cuts inside the stop band. Neither cuts ahead of the arch break."},
};

constexpr OrderKey lowered_sides_keys[] = {
    {"sides", "", "How far the sides are lowered."},
    {"sides.medial", "sides.medial", ""},
    {"sides.lateral", "sides.lateral", ""},
    {"sides.back", "sides.back_depth", ""},
    {"sides.edge", "", "How the new edge is made: bound, turned or folded."},
    {"sides.turn", "sides.turn", ""},
    {"sides.keep", "sides.keep", ""},
    {"sides.slope", "sides.slope", ""},
    {"sides.run_out", "sides.run_out", ""},
    {"sides.deepest_at", "sides.deepest_at", ""},
    {"sides.deepest_length", "sides.deepest_length", ""},
    {"sides.drawstring", "", "cotton or elastic."},
    {"sides.stretch", "sides.stretch", ""},
};

constexpr OrderKey other_board_keys[] = {
    {"thinned", "", "The board thinned over a stretch instead of cut."},
    {"thinned.from", "thinned.from", ""},
    {"thinned.to", "thinned.to", ""},
    {"thinned.thickness", "thinned.thickness", ""},
    {"filler", "", "true or false: soft filler for the emptied heel seat."},
    {"liner", "", "full or none; or the figures of a full one."},
    {"liner.clearance", "liner.clearance", ""},
    {"liner.length", "liner.length", ""},
};

constexpr OrderKey sewing_keys[] = {
    {"darning", "", "The darning of the platform, as keys of its own."},
    {"darning.passes", "darning.passes", ""},
    {"darning.height", "darning.height", ""},
    {"darning.raise", "darning.raise", ""},
    {"darning.pitch", "darning.pitch", ""},
    {"darning.face", "", "true or false: the platform's face is darned as well."},
    {"darning.allowance", "darning.allowance", ""},
    {"darning.yarn", "darning.yarn", "A count, such as 50 tex or Nm 20."},
    {"ribbons", "", "The ribbons, as keys of their own."},
    {"ribbons.ring", "", "true for a ring of stretch ribbon, false for tied ones."},
    {"ribbons.stretch", "ribbons.stretch", ""},
    {"ribbons.width", "ribbons.width", ""},
    {"ribbons.wraps", "ribbons.wraps", ""},
    {"ribbons.pitch", "ribbons.pitch", ""},
    {"ribbons.overlap", "ribbons.overlap", ""},
    {"ribbons.rise", "ribbons.rise", ""},
    {"ribbons.tie", "ribbons.tie", ""},
    {"ribbons.sewn_at", "ribbons.sewn_at", ""},
    {"elastics", "", "Elastics over the instep or vamp, as keys of their own."},
    {"elastics.stretch", "elastics.stretch", ""},
    {"elastics.width", "elastics.width", ""},
    {"elastics.over", "elastics.over", ""},
    {"elastics.sewn_at", "elastics.sewn_at", ""},
    {"elastics.heel_loop", "", "true or false: a loop at the back seam as well."},
    {"elastics.overlap", "elastics.overlap", ""},
    {"tuck", "", "A tuck at the back seam."},
    {"tuck.depth", "tuck.depth", ""},
    {"tuck.down", "tuck.down", ""},
};

constexpr OrderKey tolerance_keys[] = {
    {"cut", "tolerances.cut", ""},
    {"other", "tolerances.other", "bench or knife, or one figure."},
};

struct KeySection {
  const char* title;
  const char* words;
  std::span<const OrderKey> keys;
};

std::vector<KeySection> sections(std::span<const OrderKey> foot_keys) {
  return {
      {"TOP OF THE FILE", "Keys of the whole order.", top_keys},
      {"BOTH FEET AND EITHER", "feet, shoe and alterations may each be divided.", part_keys},
      {"READINGS",
       "A reading is a number, a list of repeats such as [238, 238.5, 238], or says its own doubt:",
       reading_keys},
      {"FEET", "Keys under feet. Stations are measured from the back of the heel.", foot_keys},
      {"SHOE: THE BOARD", "Keys under shoe.", board_keys},
      {"SHOE: THE SIDES", "Keys under shoe.", shoe_sides_keys},
      {"SHOE: THE REST", "Keys under shoe.", shoe_keys},
      {"ALTERATIONS: THE SHANK", "Keys under alterations.", shank_keys},
      {"ALTERATIONS: THE SIDES", "Keys under alterations.", lowered_sides_keys},
      {"ALTERATIONS: THE REST OF THE BOARD", "Keys under alterations.", other_board_keys},
      {"ALTERATIONS: SEWING", "Keys under alterations.", sewing_keys},
      {"TOLERANCES", "Keys under tolerances.", tolerance_keys},
  };
}

const char* unit_words(Quantity quantity) {
  switch (quantity) {
  case Quantity::length:
    return " mm";
  case Quantity::angle:
    return " degrees";
  case Quantity::percent:
    return " %";
  case Quantity::mass:
    return " g";
  case Quantity::number:
    break;
  }
  return "";
}

std::string plain(double value) {
  return short_figure(value, 3);
}

std::string guided(const ReadingGuide& guide) {
  const std::string unit = unit_words(guide.quantity);
  std::string text = capital(guide.name);
  text += ". " + std::string(guide.how) + " From " + plain(guide.least) + " to " +
          plain(guide.most) + unit + ".";
  if (guide.finding > 0) text += " Found to within " + plain(guide.finding) + unit + ".";
  return text;
}

std::string meaning(const OrderKey& key) {
  std::string text = key.words;
  if (key.guide.empty()) return man_escaped(text);
  const ReadingGuide* guide = reading_guide(key.guide);
  if (!guide) throw std::logic_error("a key of the order without its row of the reading guide");
  return man_escaped(text + (text.empty() ? "" : " ") + guided(*guide));
}

constexpr const char* example = "format: shankline-order/1\n"
                                "dancer: M-07\n"
                                "pair: touring, spring, second pair\n"
                                "date: 2026-03-14\n"
                                "feet:\n"
                                "  both:\n"
                                "    length: [238, 238.5, 238]\n"
                                "    ball_length: 172\n"
                                "    heel_front: 61\n"
                                "    arch_break: {medial: 97, lateral: 93}\n"
                                "    fold: 6\n"
                                "  right:\n"
                                "    heel_front: 62\n"
                                "shoe:\n"
                                "  board: {state: loose, length: 220, inset: 5,\n"
                                "          widths: [[22, 45], [96, 33], [164, 56]]}\n"
                                "alterations:\n"
                                "  shank: {reach: edge, bevel: 12}\n";

} // namespace

std::vector<KeyInWords> order_keys_in_words() {
  std::vector<KeyInWords> keys;
  const std::vector<OrderKey> of_feet = foot_keys();
  for (const KeySection& section : sections(of_feet))
    for (const OrderKey& key : section.keys)
      if (key.guide.empty()) keys.push_back({key.key, key.words});
  return keys;
}

std::string order_page(const Manual& manual) {
  ManWriter page("SHANKLINE-ORDER", 5, manual.released, manual.program + " " + manual.version,
                 "Shoe bench");
  page.section("NAME");
  page.paragraph("shankline\\-order \\- the order file of a pair");
  page.section("DESCRIPTION");
  page.paragraph(
      "An order is a YAML file: one dancer, one pair of feet, what was measured and what is to be "
      "done. A bare number is millimetres; 9 3/8 in, 24.1 cm, 12 %, 10 deg and 100 g are read as "
      "well. A key with a dot is a key inside another: board.length is length under board.");
  page.section("EXAMPLE");
  page.listing(example);
  const std::vector<OrderKey> of_feet = foot_keys();
  for (const KeySection& section : sections(of_feet)) {
    page.section("\"" + std::string(section.title) + "\"");
    page.paragraph(man_escaped(section.words));
    for (const OrderKey& key : section.keys)
      page.item(man_bold(std::string(key.key)), meaning(key));
  }
  page.section("SEE ALSO");
  page.paragraph(man_bold("shankline") + "(1)");
  return std::move(page).text();
}

} // namespace shankline
