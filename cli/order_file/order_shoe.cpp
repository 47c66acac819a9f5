#include "cli/order_file/order_shoe.hpp"

#include "cli/order_file/bench_file.hpp"
#include "cli/order_file/order_values.hpp"
#include "cli/order_file/order_words.hpp"
#include "cli/text/quantity.hpp"
#include "geometry/order/reading_guide.hpp"

#include <algorithm>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace shankline {
namespace {

constexpr std::size_t most_stations = 50;

/// Words for errors in a list of rows, each a list itself: what one row is, the form of the list,
/// and an example.
struct RowForm {
  std::string_view row;
  std::string_view form;
  std::string_view example;
};

// Reads every row with `read_row`, which reports the errors of a row itself.
template <class Row>
void read_rows(ParseContext& context, const Entry& entry, const RowForm& rows,
               std::optional<Row> (*read_row)(ParseContext&, const Entry&),
               std::vector<Row>& into) {
  const auto& items = entry.value->items;
  into.clear();
  if (items.empty() || items.size() > most_stations)
    context.error(entry, {.what = "1 to " + std::to_string(most_stations) +
                                  " distances from the heel, each in brackets, are wanted here",
                          .allowed = std::string(rows.form),
                          .advice = "write them from the heel end: " + std::string(rows.example)});
  else
    for (const Node& item : items)
      if (const auto row = read_row(context, entry.item(item))) into.push_back(*row);
}

// Returns true if a row has the right number of figures; else reports an error.
bool expect_figures(ParseContext& context, const Entry& entry, std::size_t least, std::size_t most,
                    const RowForm& rows) {
  const std::size_t count = entry.value->items.size();
  if (count >= least && count <= most) return true;
  context.error(entry, {.what = std::string(rows.row) + " is wanted here, and " +
                                std::string(kind_in_words(entry.value->kind)) + " was read",
                        .allowed = std::string(rows.form),
                        .advice = "write each in brackets: " + std::string(rows.example)});
  return false;
}

constexpr RowForm widths_form{
    "a distance from the heel end with its width",
    "[[distance from the heel end, width], …], or [[distance, big-toe half, little-toe half], …]",
    "[[22, 45], [96, 33], [164, 56]]"};

// Reads one row of widths: the distance from the heel and the width, or the two halves from the
// centre line.
std::optional<BoardWidth> read_width(ParseContext& context, const Entry& entry) {
  if (!expect_figures(context, entry, 2, 3, widths_form)) return std::nullopt;
  const auto& items = entry.value->items;
  const auto number = [&](std::size_t i, std::string_view guide_key) {
    return read_number(context, entry.item(items[i]), guide_key);
  };
  const auto station = number(0, "board.widths.station");
  const bool halves = items.size() == 3;
  const auto first = number(1, halves ? "board.widths.half" : "board.widths.width");
  const auto second = halves ? number(2, "board.widths.half") : first;
  if (!station || !first || !second) return std::nullopt;
  return halves ? BoardWidth{*station, *first, *second}
                : BoardWidth{*station, *first / 2, *first / 2};
}

void read_widths(ParseContext& context, const Entry& entry, Board& board) {
  read_rows(context, entry, widths_form, read_width, board.widths);
}

ValueShape widths_shape(const std::string& inside) {
  const ValueShape station = number_shape(inside + ".station");
  const ValueShape half = number_shape(inside + ".half");
  return list_shape(either_shape({row_shape({station, number_shape(inside + ".width")}),
                                  row_shape({station, half, half})}),
                    1, most_stations);
}

constexpr Field<Board> board_fields[] = {
    {"state", word_in<&Board::state, board_states>},
    {"material", word_in<&Board::material, board_materials>},
    {"length", reading_in<&Board::length>},
    {"inset", reading_in<&Board::inset>},
    {"thickness", figure_in<&Board::thickness>},
    {"layers", whole_in<&Board::layers>},
    {"edge_thickness", figure_in<&Board::edge_thickness>},
    {"sole_length", figure_in<&Board::sole_length>},
    {"widths", {read_widths, widths_shape}},
};

constexpr RowForm heights_form{"a distance from the heel with its height",
                               "[[distance from the heel, height], …]", "[[80, 44], [130, 43]]"};

std::optional<SideHeight> read_height(ParseContext& context, const Entry& entry) {
  if (!expect_figures(context, entry, 2, 2, heights_form)) return std::nullopt;
  const auto& items = entry.value->items;
  const auto station = read_number(context, entry.item(items[0]), "sides.heights.station");
  const auto height = read_number(context, entry.item(items[1]), "sides.heights.height");
  if (!station || !height) return std::nullopt;
  return SideHeight{*station, *height};
}

template <class T> void read_heights(ParseContext& context, const Entry& entry, T& sides) {
  read_rows(context, entry, heights_form, read_height, sides.heights);
}

ValueShape heights_shape(const std::string&) {
  return list_shape(
      row_shape({number_shape("sides.heights.station"), number_shape("sides.heights.height")}), 1,
      most_stations);
}

// A figure of one side has the limits of the shared one: "sides.medial.low" those of "sides.low".
std::string of_both_sides(const std::string& inside) {
  return "sides." + inside.substr(inside.rfind('.') + 1);
}

template <auto member>
constexpr ValueReader<StockHeights> side_figure{
    [](ParseContext& context, const Entry& entry, StockHeights& side) {
      const auto read = read_number(context, entry, of_both_sides(entry.inside));
      if (read) side.*member = *read;
    },
    [](const std::string& inside) { return number_shape(of_both_sides(inside)); }};

constexpr Field<StockHeights> height_fields[] = {
    {"low", side_figure<&StockHeights::low>},
    {"low_at", side_figure<&StockHeights::low_at>},
    {"wing", side_figure<&StockHeights::wing>},
    {"wing_at", side_figure<&StockHeights::wing_at>},
    {"heights", {read_heights<StockHeights>, heights_shape}},
};

constexpr Field<StockSides> sides_fields[] = {
    {"back", figure_in<&StockSides::back>},
    {"low", figure_in<&StockSides::low>},
    {"low_at", figure_in<&StockSides::low_at>},
    {"wing", figure_in<&StockSides::wing>},
    {"wing_at", figure_in<&StockSides::wing_at>},
    {"heights", {read_heights<StockSides>, heights_shape}},
    {"medial", structure_in<&StockSides::medial, height_fields>},
    {"lateral", structure_in<&StockSides::lateral, height_fields>},
    {"lean", figure_in<&StockSides::lean_rad>},
    {"width_across", figure_in<&StockSides::width_across>},
    {"casing", figure_in<&StockSides::casing>},
    {"throat", figure_in<&StockSides::throat>},
};

constexpr Field<Platform> platform_fields[] = {
    {"width", figure_in<&Platform::width>},
    {"depth", figure_in<&Platform::depth>},
};

// All figures that can describe the stiffness. The set that is present tells how it was measured.
struct StiffnessFigures {
  std::optional<double> board, sole, droop, weight, free;
};

constexpr Field<StiffnessFigures> stiffness_fields[] = {
    {"board", figure_in<&StiffnessFigures::board>},
    {"sole", figure_in<&StiffnessFigures::sole>},
    {"droop", figure_in<&StiffnessFigures::droop>},
    {"weight", figure_in<&StiffnessFigures::weight>},
    {"free", figure_in<&StiffnessFigures::free>},
};

constexpr std::string_view stiffness_figures =
    "; or {board: …, sole: …}; or {droop: …, weight: …, free: …}";

void read_stiffness(ParseContext& context, const Entry& entry, Shoe& shoe) {
  context.forget_inside(entry);
  shoe.stiffness = {};
  if (entry.value->kind != NodeKind::map) {
    if (const auto grade = read_word(context, entry, grades, stiffness_figures))
      shoe.stiffness = *grade;
    return;
  }
  StiffnessFigures given;
  read_fields(context, entry, stiffness_fields, given);
  const auto has = [&](std::string_view key) { return has_key(*entry.value, key); };
  const int hung = int{has("droop")} + int{has("weight")} + int{has("free")};
  const bool bending = has("board") || has("sole");
  if (hung == 3 && !bending) {
    if (given.droop && given.weight && given.free)
      shoe.stiffness = Droop{*given.droop, *given.weight, *given.free};
  } else if (hung == 0 && has("board")) {
    if (given.board) shoe.stiffness = BendingStiffness{*given.board, given.sole};
  } else {
    context.error(entry, {.what = "these keys do not tell the stiffness together",
                          .allowed = "one of the grades by hand" + std::string(stiffness_figures),
                          .advice = "give board, or all three of droop, weight and free"});
  }
}

ValueShape stiffness_shape(const std::string& inside) {
  ValueShape bending = shape_of(std::span(stiffness_fields).first(2), inside);
  bending.needed = {{"board"}};
  ValueShape hung = shape_of(std::span(stiffness_fields).subspan(2), inside);
  hung.needed = {{"droop"}, {"weight"}, {"free"}};
  return either_shape({words_shape(names_of(grades)), std::move(bending), std::move(hung)});
}

constexpr Field<Travel> travel_fields[] = {{"travel", figure_in<&Travel::travel>}};

// Reads how far the sole can be pushed up (`travel`), or the force itself in N/mm.
void read_pull(ParseContext& context, const Entry& entry, Shoe& shoe) {
  context.forget_inside(entry);
  shoe.pull = {};
  if (entry.value->kind != NodeKind::map) {
    if (const auto force = read_number(context, entry)) shoe.pull = PullForce{*force};
    return;
  }
  Travel travel;
  read_fields(context, entry, travel_fields, travel);
  if (has_key(*entry.value, "travel"))
    shoe.pull = travel;
  else
    context.error(
        entry, {.what = "the travel is missing",
                .allowed = "{travel: 4}, or a number in N/mm",
                .advice = "write how far a helper can push the sole up to the arch with a thumb"});
}

ValueShape pull_shape(const std::string& inside) {
  ValueShape travel = shape_of(travel_fields, inside);
  travel.needed = {{"travel"}};
  return either_shape({number_shape(inside), std::move(travel)});
}

constexpr std::size_t most_stock_rows = 40;
constexpr TextLimits stock_name_limits{40, false};
constexpr TextLimits stock_words_limits{200, false};

// Reads rows in the user's own words. A foot's own row replaces the shared row, as with every other
// key.
void read_stock(ParseContext& context, const Entry& entry, Shoe& shoe) {
  const auto& rows = entry.value->members;
  if (entry.value->kind != NodeKind::map || rows.empty())
    return context.error(
        entry, {.what = "rows of your own are wanted here, and " +
                        (entry.value->kind == NodeKind::map
                             ? std::string("none")
                             : std::string(kind_in_words(entry.value->kind))) +
                        " was read",
                .allowed = "1 to " + std::to_string(most_stock_rows) + " rows 'name: words'",
                .advice = "write them one to a line, such as  size: five and a half wide"});
  for (const Member& row : rows) {
    const Entry words = entry.member(row);
    if (!is_allowed(row.key, stock_name_limits)) {
      context.error(KeyPlace{row.place, entry.written},
                    {.what = shown(row.key) + " is not a name of a row",
                     .allowed = "1 to " + std::to_string(stock_name_limits.characters) +
                                " characters on one line",
                     .advice = "take a shorter name, and say the rest behind the ':'"});
      continue;
    }
    if (!context.expect_something(words)) continue;
    auto read = read_text(context, words, stock_words_limits);
    if (!read) continue;
    const auto same = std::find_if(shoe.stock.begin(), shoe.stock.end(),
                                   [&](const StockRow& there) { return there.name == row.key; });
    if (same == shoe.stock.end())
      shoe.stock.push_back({row.key, *std::move(read)});
    else
      same->words = *std::move(read);
  }
  if (shoe.stock.size() > most_stock_rows)
    context.error(entry, {.what = std::to_string(shoe.stock.size()) + " rows were read",
                          .allowed = "1 to " + std::to_string(most_stock_rows) + " rows",
                          .advice = "put what belongs together into one row"});
}

ValueShape stock_shape(const std::string&) {
  return own_words_shape(stock_name_limits.characters, stock_words_limits.characters,
                         most_stock_rows);
}

constexpr Field<Shoe> shoe_rows[] = {
    {"board", structure_in<&Shoe::board, board_fields>},
    {"sides", structure_in<&Shoe::sides, sides_fields>},
    {"platform", structure_in<&Shoe::platform, platform_fields>},
    {"stiffness", {read_stiffness, stiffness_shape}},
    {"pull", {read_pull, pull_shape}},
    {"clamp", word_in<&Shoe::clamp, clamps>},
    {"style", text_in<&Shoe::style, code_limits>},
    {"stock", {read_stock, stock_shape}},
};

struct NeededWith {
  std::string_view with; ///< the key that makes it needed; "" for always
  std::string_view key;
  std::string_view allowed; ///< "" for the limits of the key's figure
  std::string_view advice;
};

constexpr NeededWith needed_with[] = {
    {"", "board.state", "loose, in_shoe",
     "say whether the board was taken out (loose) or stays in the shoe (in_shoe)"},
    {"platform", "platform.width", "", "measure across the flat tip, edge to edge"},
    {"platform", "platform.depth", "", "measure through the flat tip"},
};

} // namespace

std::span<const Field<Shoe>> shoe_fields() {
  return shoe_rows;
}

void require_shoe_keys(ParseContext context, const KeyPlaces& places) {
  for (const NeededWith& needed : needed_with)
    if (places.has(needed.with) && !places.has(needed.key))
      context.error(places.nearest(needed.key),
                    {.what = "is missing",
                     .allowed = needed.allowed.empty() ? range_text(*reading_guide(needed.key))
                                                       : std::string(needed.allowed),
                     .advice = std::string(needed.advice)});
}

} // namespace shankline
