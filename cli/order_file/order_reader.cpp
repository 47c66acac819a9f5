#include "cli/order_file/order_reader.hpp"

#include "cli/order_file/bench_file.hpp"
#include "cli/order_file/order_alterations.hpp"
#include "cli/order_file/order_feet.hpp"
#include "cli/order_file/order_section.hpp"
#include "cli/order_file/order_shoe.hpp"
#include "cli/order_file/order_values.hpp"
#include "cli/order_file/order_words.hpp"
#include "cli/yaml/order_document.hpp"

#include <algorithm>
#include <utility>

namespace shankline {
namespace {

// Holds the order while its sections are not yet merged into the feet.
struct Draft {
  Order order;
  Section<Foot> feet;
  Section<Shoe> shoe;
  Section<Alterations> alterations;
};

void read_format(ParseContext& context, const Entry& entry, Draft&) {
  expect_format(context, entry, order_format, "an order");
}

void read_date(ParseContext& context, const Entry& entry, Draft& draft) {
  if (auto day = read_day(context, entry)) draft.order.date = *std::move(day);
}

// Lets a reader for Order fill the order inside the draft.
template <const ValueReader<Order>& reader>
constexpr ValueReader<Draft> of_order{[](ParseContext& context, const Entry& entry, Draft& draft) {
                                        reader(context, entry, draft.order);
                                      },
                                      reader.shape};

ValueShape format_shape(const std::string&) {
  return words_shape({std::string(order_format)});
}

constexpr std::size_t longest_date = 40;
ValueShape date_shape(const std::string&) {
  return text_shape(longest_date);
}

constexpr TextLimits note_limits{1000, true};

void read_due(ParseContext& context, const Entry& entry, Draft& draft) {
  if (auto day = read_day(context, entry)) draft.order.due = *std::move(day);
}

void read_quantity(ParseContext& context, const Entry& entry, Draft& draft) {
  if (const auto pairs = read_whole(context, entry)) draft.order.quantity = *pairs;
}

ValueShape quantity_shape(const std::string& inside) {
  return whole_shape(inside);
}

void read_growing(ParseContext& context, const Entry& entry, Draft& draft) {
  if (const auto growing = read_flag(context, entry)) draft.order.growing = *growing;
}

ValueShape growing_shape(const std::string&) {
  return flag_shape();
}

void read_other_tolerance(ParseContext& context, const Entry& entry, ToleranceWish& tolerances) {
  if (is_word(entry)) {
    if (const auto read = read_word(context, entry, tolerance_classes, ", or a figure in mm"))
      tolerances.other = *read;
  } else if (const auto read = read_number(context, entry)) {
    tolerances.other = *read;
  }
}

ValueShape other_tolerance_shape(const std::string& inside) {
  return either_shape({words_shape(names_of(tolerance_classes)), number_shape(inside)});
}

constexpr Field<ToleranceWish> tolerance_fields[] = {
    {"cut", figure_in<&ToleranceWish::cut>},
    {"other", {read_other_tolerance, other_tolerance_shape}},
};

template <auto member, auto fields>
void section(ParseContext& context, const Entry& entry, Draft& draft) {
  draft.*member = SectionReader(context, entry, fields()).read();
}

void read_feet(ParseContext& context, const Entry& entry, Draft& draft) {
  section<&Draft::feet, foot_fields>(context, entry, draft);
  if (entry.value->kind == NodeKind::map && entry.value->members.empty())
    context.error(entry, {.what = "there is no foot in the order",
                          .allowed = "left, right, both",
                          .advice = "write the readings under left and right"});
}

template <auto fields> ValueShape section_of(const std::string& inside) {
  return section_shape(inside, fields());
}

constexpr Field<Draft> order_fields[] = {
    {"format", {read_format, format_shape}},
    {"dancer", of_order<text_in<&Order::dancer, code_limits>>},
    {"pair", of_order<text_in<&Order::pair, line_limits>>},
    {"date", {read_date, date_shape}},
    {"note", of_order<text_in<&Order::note, note_limits>>},
    {"quantity", {read_quantity, quantity_shape}},
    {"due", {read_due, date_shape}},
    {"deliver_to", of_order<text_in<&Order::deliver_to, line_limits>>},
    {"pose", of_order<word_in<&Order::pose, poses>>},
    {"estimates", of_order<word_in<&Order::estimates_from, populations>>},
    {"read_by", of_order<text_in<&Order::read_by, code_limits>>},
    {"decided_by", of_order<text_in<&Order::decided_by, code_limits>>},
    {"growing", {read_growing, growing_shape}},
    {"feet", {read_feet, section_of<foot_fields>}},
    {"shoe", {section<&Draft::shoe, shoe_fields>, section_of<shoe_fields>}},
    {"alterations",
     {section<&Draft::alterations, alteration_fields>, section_of<alteration_fields>}},
    {"tolerances", of_order<structure_in<&Order::tolerances, tolerance_fields>>},
};

struct NeededKey {
  std::string_view key;
  std::string_view advice;
};

constexpr NeededKey needed_keys[] = {
    {"format", "write format: shankline-order/1 as the first line"},
    {"dancer", "write the dancer's code: dancer: M-07"},
    {"feet", "write the readings of the feet under feet:"},
    {"shoe", "write what was measured on the shoe under shoe:"},
    {"alterations", "write what is to be done under alterations:"},
};

void require_keys(ParseContext& context) {
  for (const NeededKey& needed : needed_keys)
    if (!context.places().has(needed.key))
      context.error(context.places().nearest(needed.key),
                    {.what = "is missing", .advice = std::string(needed.advice)});
}

// A due day before the order's date is a mistake in one of the two.
void require_days_in_order(ParseContext& context, const Order& order) {
  if (order.due.empty() || order.date.empty() || order.due >= order.date) return;
  context.error(context.places().nearest("due"),
                {.what = order.due + " lies before the order's date, " + order.date,
                 .allowed = "that day or a later one",
                 .advice = "mend due or date"});
}

// A part for a foot that is not in the order is probably a mistake, but it changes nothing.
void caution_of_absent(ParseContext context, const std::optional<KeyPlace>& part,
                       std::string_view foot) {
  if (part)
    context.caution(*part,
                    {.what = "feet gives no " + std::string(foot) + " foot; this part is not used",
                     .advice = "add the foot's readings under feet, or delete this part"});
}

// Readings in such a shoe are often marked on pointe. They count from the back seam then, which is
// a few mm behind the heel.
void caution_of_unsaid_pose(ParseContext& context, const ReadOrder& read) {
  if (read.places.has("pose")) return;
  for (const FootSide side : {FootSide::left, FootSide::right}) {
    const auto& foot = read.order.foot(side);
    if (!foot || foot->shoe.board.state != BoardState::in_shoe) continue;
    return context.caution(
        read.places.nearest(joined_key(joined_key("shoe", foot_name(side)), "board.state")),
        {.what = "the board stays in the shoe, and pose does not say where the readings count "
                 "from; they are taken as pointed, from the back of the heel",
         .advice = "write pose: in_shoe if they were marked through the satin, from the shoe's "
                   "back seam; if not, write pose: pointed"});
  }
}

// Returns the foot's part of each section; nullopt if the order does not have that foot.
void deal_out(const ParseContext& context, const Draft& draft, FootSide side, KeyPlaces& places,
              std::optional<FootOrder>& into) {
  const std::string name = foot_name(side);
  const auto& foot = draft.feet.of(side);
  const auto& shoe = draft.shoe.of(side);
  const auto& alterations = draft.alterations.of(side);
  if (!draft.feet.shared && !foot.own) {
    for (const auto& part : {shoe.own, alterations.own})
      caution_of_absent(context, part, name);
    return;
  }
  into = FootOrder{foot.value, shoe.value, alterations.value};
  places.take_in(joined_key("feet", name), foot.places);
  places.take_in(joined_key("shoe", name), shoe.places);
  places.take_in(joined_key("alterations", name), alterations.places);
  require_shoe_keys(context, shoe.places);
  caution_of_unused(context, alterations.value, alterations.places);
}

void fill(ReadOrder& into, const Node& root) {
  ParseContext context(into.file, into.messages, into.places);
  Draft draft;
  const Entry top{&root, root.place, "", ""};
  context.remember(top);
  read_fields(context, top, order_fields, draft);
  require_keys(context);
  require_days_in_order(context, draft.order);
  deal_out(context, draft, FootSide::left, into.places, draft.order.left);
  deal_out(context, draft, FootSide::right, into.places, draft.order.right);
  if (is_foreign(root, order_format)) keep_format_messages(into.messages);
  into.order = std::move(draft.order);
  caution_of_unsaid_pose(context, into);
}

} // namespace

Message ReadOrder::place(const Finding& finding) const {
  const KeyPlace at = places.nearest(finding.key.text());
  return {finding.severity, file, at.place.line, at.place.column, at.written, finding};
}

std::vector<Message> ReadOrder::place(const Findings& findings) const {
  std::vector<Message> placed;
  for (const Finding& finding : findings)
    placed.push_back(place(finding));
  // A shared key may be wrong for one foot only, or differently for each: name the foot.
  const std::vector<Message> plain = placed;
  for (std::size_t i = 0; i < placed.size(); ++i) {
    const std::optional<FootSide> foot = findings[i].key.foot();
    const bool said_of_both = std::count(plain.begin(), plain.end(), plain[i]) > 1;
    const bool one_foot_only = !order.left || !order.right;
    if (!foot || said_of_both || one_foot_only || Key(placed[i].key).foot()) continue;
    placed[i].what = foot_name(*foot) + " foot: " + placed[i].what;
  }
  return in_line_order(std::move(placed));
}

ValueShape order_shape() {
  ValueShape shape = shape_of(order_fields, {});
  for (const NeededKey& key : needed_keys)
    shape.needed.push_back({std::string(key.key)});
  return shape;
}

ReadOrder read_order(std::string_view text, std::string file_name) {
  ReadOrder read;
  read.file = std::move(file_name);
  OrderDocument document = parse_order_document(text, read.file);
  read.messages = std::move(document.messages);
  if (document.root) fill(read, *document.root);
  read.messages = in_line_order(std::move(read.messages));
  return read;
}

} // namespace shankline
