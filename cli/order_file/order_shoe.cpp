#include "cli/order_file/order_shoe.hpp"

#include "cli/order_file/order_values.hpp"
#include "cli/order_file/order_words.hpp"
#include "cli/text/quantity.hpp"
#include "geometry/order/reading_guide.hpp"

#include <optional>

namespace shankline {
namespace {

void read_layers(Scribe& scribe, const Entry& entry, Board& board) {
  if (const auto layers = read_whole(scribe, entry)) board.layers = *layers;
}

constexpr std::size_t most_stations = 50;

/// A list of rows, each a list itself: what a row is, what the list looks like, and an example.
struct RowForm {
  std::string_view row;
  std::string_view form;
  std::string_view example;
};

// Reads every row by `read_row`, which says itself what is wrong with one.
template <class Row>
void read_rows(Scribe& scribe, const Entry& entry, const RowForm& rows,
               std::optional<Row> (*read_row)(Scribe&, const Entry&), std::vector<Row>& into) {
  const auto& items = entry.value->items;
  into.clear();
  if (items.empty() || items.size() > most_stations)
    scribe.error(entry, {.what = "1 to " + std::to_string(most_stations) +
                                 " distances from the heel, each in brackets, are wanted here",
                         .allowed = std::string(rows.form),
                         .advice = "write them from the heel end: " + std::string(rows.example)});
  else
    for (const Node& item : items)
      if (const auto row = read_row(scribe, entry.item(item))) into.push_back(*row);
}

// Whether a row has as many figures as it should.
bool expect_figures(Scribe& scribe, const Entry& entry, std::size_t least, std::size_t most,
                    const RowForm& rows) {
  const std::size_t count = entry.value->items.size();
  if (count >= least && count <= most) return true;
  scribe.error(entry, {.what = std::string(rows.row) + " is wanted here, and " +
                               std::string(kind_in_words(entry.value->kind)) + " was read",
                       .allowed = std::string(rows.form),
                       .advice = "write each in brackets: " + std::string(rows.example)});
  return false;
}

constexpr RowForm widths_form{
    "a distance from the heel end with its width",
    "[[distance from the heel end, width], …], or [[distance, big-toe half, little-toe half], …]",
    "[[22, 45], [96, 33], [164, 56]]"};

// One station: the width, or the two halves from the centre line.
std::optional<BoardWidth> read_width(Scribe& scribe, const Entry& entry) {
  if (!expect_figures(scribe, entry, 2, 3, widths_form)) return std::nullopt;
  const auto& items = entry.value->items;
  const auto number = [&](std::size_t i, std::string_view guide_key) {
    return read_number(scribe, entry.item(items[i]), guide_key);
  };
  const auto station = number(0, "board.widths.station");
  const bool halves = items.size() == 3;
  const auto first = number(1, halves ? "board.widths.half" : "board.widths.width");
  const auto second = halves ? number(2, "board.widths.half") : first;
  if (!station || !first || !second) return std::nullopt;
  return halves ? BoardWidth{*station, *first, *second}
                : BoardWidth{*station, *first / 2, *first / 2};
}

void read_widths(Scribe& scribe, const Entry& entry, Board& board) {
  read_rows(scribe, entry, widths_form, read_width, board.widths);
}

constexpr Field<Board> board_fields[] = {
    {"state", word<&Board::state, board_states>},
    {"material", word<&Board::material, board_materials>},
    {"length", reading<&Board::length>},
    {"inset", reading<&Board::inset>},
    {"thickness", figure<&Board::thickness>},
    {"layers", read_layers},
    {"edge_thickness", figure<&Board::edge_thickness>},
    {"sole_length", figure<&Board::sole_length>},
    {"widths", read_widths},
};

constexpr RowForm heights_form{"a distance from the heel with its height",
                               "[[distance from the heel, height], …]", "[[80, 44], [130, 43]]"};

std::optional<SideHeight> read_height(Scribe& scribe, const Entry& entry) {
  if (!expect_figures(scribe, entry, 2, 2, heights_form)) return std::nullopt;
  const auto& items = entry.value->items;
  const auto station = read_number(scribe, entry.item(items[0]), "sides.heights.station");
  const auto height = read_number(scribe, entry.item(items[1]), "sides.heights.height");
  if (!station || !height) return std::nullopt;
  return SideHeight{*station, *height};
}

template <class T> void read_heights(Scribe& scribe, const Entry& entry, T& sides) {
  read_rows(scribe, entry, heights_form, read_height, sides.heights);
}

// One side's own figure has the limits of the one for both: "sides.medial.low" those of
// "sides.low".
template <auto member> void side_figure(Scribe& scribe, const Entry& entry, StockHeights& side) {
  const std::string both = "sides." + entry.inside.substr(entry.inside.rfind('.') + 1);
  if (const auto read = read_number(scribe, entry, both)) side.*member = *read;
}

constexpr Field<StockHeights> side_fields[] = {
    {"low", side_figure<&StockHeights::low>},   {"low_at", side_figure<&StockHeights::low_at>},
    {"wing", side_figure<&StockHeights::wing>}, {"wing_at", side_figure<&StockHeights::wing_at>},
    {"heights", read_heights<StockHeights>},
};

constexpr Field<StockSides> sides_fields[] = {
    {"back", figure<&StockSides::back>},
    {"low", figure<&StockSides::low>},
    {"low_at", figure<&StockSides::low_at>},
    {"wing", figure<&StockSides::wing>},
    {"wing_at", figure<&StockSides::wing_at>},
    {"heights", read_heights<StockSides>},
    {"medial", structure<&StockSides::medial, side_fields>},
    {"lateral", structure<&StockSides::lateral, side_fields>},
    {"lean", figure<&StockSides::lean_rad>},
    {"width_across", figure<&StockSides::width_across>},
    {"casing", figure<&StockSides::casing>},
    {"throat", figure<&StockSides::throat>},
};

constexpr Field<Platform> platform_fields[] = {
    {"width", figure<&Platform::width>},
    {"depth", figure<&Platform::depth>},
};

// Every figure that stiffness may be given by; which of them are there tells how.
struct StiffnessFigures {
  std::optional<double> board, sole, droop, weight, free;
};

constexpr Field<StiffnessFigures> stiffness_fields[] = {
    {"board", figure<&StiffnessFigures::board>}, {"sole", figure<&StiffnessFigures::sole>},
    {"droop", figure<&StiffnessFigures::droop>}, {"weight", figure<&StiffnessFigures::weight>},
    {"free", figure<&StiffnessFigures::free>},
};

constexpr std::string_view stiffness_figures =
    "; or {board: …, sole: …}; or {droop: …, weight: …, free: …}";

void read_stiffness(Scribe& scribe, const Entry& entry, Shoe& shoe) {
  scribe.forget_inside(entry);
  shoe.stiffness = {};
  if (entry.value->kind != NodeKind::map) {
    if (const auto grade = read_word(scribe, entry, grades, stiffness_figures))
      shoe.stiffness = *grade;
    return;
  }
  StiffnessFigures given;
  read_fields(scribe, entry, stiffness_fields, given);
  const auto has = [&](std::string_view key) { return has_key(*entry.value, key); };
  const int hung = int{has("droop")} + int{has("weight")} + int{has("free")};
  const bool bending = has("board") || has("sole");
  if (hung == 3 && !bending) {
    if (given.droop && given.weight && given.free)
      shoe.stiffness = Droop{*given.droop, *given.weight, *given.free};
  } else if (hung == 0 && has("board")) {
    if (given.board) shoe.stiffness = BendingStiffness{*given.board, given.sole};
  } else {
    scribe.error(entry, {.what = "these keys do not tell the stiffness together",
                         .allowed = "one of the grades by hand" + std::string(stiffness_figures),
                         .advice = "give board, or all three of droop, weight and free"});
  }
}

constexpr Field<Travel> travel_fields[] = {{"travel", figure<&Travel::travel>}};

// The travel of the sole, or the force itself in N/mm.
void read_pull(Scribe& scribe, const Entry& entry, Shoe& shoe) {
  scribe.forget_inside(entry);
  shoe.pull = {};
  if (entry.value->kind != NodeKind::map) {
    if (const auto force = read_number(scribe, entry)) shoe.pull = PullForce{*force};
    return;
  }
  Travel travel;
  read_fields(scribe, entry, travel_fields, travel);
  if (has_key(*entry.value, "travel"))
    shoe.pull = travel;
  else
    scribe.error(
        entry, {.what = "the travel is missing",
                .allowed = "{travel: 4}, or a number in N/mm",
                .advice = "write how far a helper can push the sole up to the arch with a thumb"});
}

constexpr Field<Shoe> fields[] = {
    {"board", structure<&Shoe::board, board_fields>},
    {"sides", structure<&Shoe::sides, sides_fields>},
    {"platform", structure<&Shoe::platform, platform_fields>},
    {"stiffness", read_stiffness},
    {"pull", read_pull},
    {"clamp", word<&Shoe::clamp, clamps>},
};

struct NeededKey {
  std::string_view with; ///< the key that makes it needed; "" for always
  std::string_view key;
  std::string_view allowed; ///< "" for the limits of the key's figure
  std::string_view advice;
};

constexpr NeededKey needed_keys[] = {
    {"", "board.state", "loose, in_shoe",
     "say whether the board was taken out (loose) or stays in the shoe (in_shoe)"},
    {"platform", "platform.width", "", "measure across the flat tip, edge to edge"},
    {"platform", "platform.depth", "", "measure through the flat tip"},
};

} // namespace

std::span<const Field<Shoe>> shoe_fields() {
  return fields;
}

void require_shoe_keys(Scribe scribe, const KeyPlaces& places) {
  for (const NeededKey& needed : needed_keys)
    if (places.has(needed.with) && !places.has(needed.key))
      scribe.error(places.nearest(needed.key),
                   {.what = "is missing",
                    .allowed = needed.allowed.empty() ? range_text(*reading_guide(needed.key))
                                                      : std::string(needed.allowed),
                    .advice = std::string(needed.advice)});
}

} // namespace shankline
