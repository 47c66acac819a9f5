#include "cli/order_shoe.hpp"

#include "cli/order_values.hpp"
#include "cli/quantity.hpp"

#include <optional>

namespace shankline {
namespace {

constexpr Word<BoardState> board_states[] = {{"loose", BoardState::loose},
                                             {"in_shoe", BoardState::in_shoe}};
constexpr Word<BoardMaterial> board_materials[] = {{"fibreboard", BoardMaterial::fibreboard},
                                                   {"leather", BoardMaterial::leather},
                                                   {"plastic", BoardMaterial::plastic}};

void read_layers(Scribe& scribe, const Entry& entry, Board& board) {
  if (const auto layers = read_whole(scribe, entry)) board.layers = *layers;
}

constexpr std::size_t most_stations = 50;
constexpr std::string_view widths_form =
    "[[station, width], …], or [[station, big-toe half, little-toe half], …]";

// One station: the width, or the two halves from the centre line.
std::optional<BoardWidth> read_station(Scribe& scribe, const Entry& entry) {
  const auto& items = entry.value->items;
  if (items.size() != 2 && items.size() != 3) {
    scribe.error(entry, {.what = "a station with its width is wanted here, and " +
                                 std::string(kind_in_words(entry.value->kind)) + " was read",
                         .allowed = std::string(widths_form),
                         .advice = "write each station with its width in brackets: [96, 33]"});
    return std::nullopt;
  }
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
  const auto& stations = entry.value->items;
  board.widths.clear();
  if (stations.empty() || stations.size() > most_stations)
    scribe.error(entry,
                 {.what = "1 to 50 stations with their widths are wanted here",
                  .allowed = std::string(widths_form),
                  .advice = "write them from the heel end: [[22, 45], [96, 33], [164, 56]]"});
  else
    for (const Node& station : stations)
      if (const auto width = read_station(scribe, entry.item(station)))
        board.widths.push_back(*width);
}

constexpr Field<Board> board_fields[] = {
    {"state", word<&Board::state, board_states>},
    {"material", word<&Board::material, board_materials>},
    {"length", figure<&Board::length>},
    {"inset", reading<&Board::inset>},
    {"thickness", figure<&Board::thickness>},
    {"layers", read_layers},
    {"edge_thickness", figure<&Board::edge_thickness>},
    {"sole_length", figure<&Board::sole_length>},
    {"widths", read_widths},
};

constexpr Field<StockSides> sides_fields[] = {
    {"back", figure<&StockSides::back>},
    {"low", figure<&StockSides::low>},
    {"low_at", figure<&StockSides::low_at>},
    {"wing", figure<&StockSides::wing>},
    {"wing_at", figure<&StockSides::wing_at>},
    {"lean", figure<&StockSides::lean_rad>},
    {"width_across", figure<&StockSides::width_across>},
    {"casing", figure<&StockSides::casing>},
};

constexpr Field<Platform> platform_fields[] = {
    {"width", figure<&Platform::width>},
    {"depth", figure<&Platform::depth>},
};

constexpr Word<Grade> grades[] = {
    {"one thumb", Grade::one_thumb},
    {"bends under one thumb", Grade::one_thumb},
    {"two thumbs", Grade::two_thumbs},
    {"over the knee", Grade::over_the_knee},
    {"hardly over the knee", Grade::hardly_over_the_knee},
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
    scribe.error(entry, {.what = "the travel is missing",
                         .allowed = "{travel: 4}, or a number in N/mm",
                         .advice = "write how far a helper thumbs the sole up to the arch"});
}

constexpr Word<Clamp> clamps[] = {{"wing", Clamp::wing}, {"ball", Clamp::ball}};

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
  std::string_view allowed;
  std::string_view advice;
};

constexpr NeededKey needed_keys[] = {
    {"", "board.state", "loose, in_shoe",
     "say whether the board was taken out (loose) or stays in the shoe (in_shoe)"},
    {"platform", "platform.width", "15 to 90 mm", "measure across the flat tip, edge to edge"},
    {"platform", "platform.depth", "8 to 60 mm", "measure through the flat tip"},
};

} // namespace

std::span<const Field<Shoe>> shoe_fields() {
  return fields;
}

void require_shoe_keys(Scribe scribe, const KeyPlaces& places) {
  for (const NeededKey& needed : needed_keys)
    if (places.has(needed.with) && !places.has(needed.key))
      scribe.error(places.nearest(needed.key), {.what = "is missing",
                                                .allowed = std::string(needed.allowed),
                                                .advice = std::string(needed.advice)});
}

} // namespace shankline
