#include "cli/order_file/order_alterations.hpp"

#include "cli/order_file/bench_file.hpp"
#include "cli/order_file/order_values.hpp"
#include "cli/order_file/order_words.hpp"
#include "cli/text/quantity.hpp"
#include "cli/text/word_list.hpp"
#include "cli/yaml/order_document.hpp"
#include "geometry/board/trim_line.hpp"
#include "geometry/order/figure.hpp"
#include "geometry/order/reading_guide.hpp"
#include "geometry/order/yarn.hpp"

#include <algorithm>
#include <cstdint>
#include <utility>

namespace shankline {
namespace {

constexpr std::string_view rule_keys[] = {"shank.reach", "shank.keep", "shank.mark"};

// The rule of one foot replaces the shared rule, even if that rule is of another kind.
void set_rule(ParseContext& context, const Entry& entry, ShankWish& shank, TrimRule rule) {
  for (const std::string_view key : rule_keys)
    if (key != entry.inside) context.places().forget(key);
  shank.rule = std::move(rule);
}

constexpr Word<double> word_of(const ReachPreset& preset) {
  return {preset.name, preset.reach};
}
constexpr Word<double> presets[] = {word_of(short_reach), word_of(edge_reach),
                                    word_of(tucked_reach)};

ValueShape number_of_guide(const std::string& inside) {
  return number_shape(inside);
}

constexpr std::string_view learned_word = "learned";

void read_until(ParseContext& context, const Entry& entry, LearnedLine& line) {
  if (auto day = read_day(context, entry)) line.until = *std::move(day);
}

ValueShape until_shape(const std::string&) {
  constexpr std::size_t longest_date = 40;
  return text_shape(longest_date);
}

template <auto member>
constexpr ValueReader<LearnedLine> one_figure{
    [](ParseContext& context, const Entry& entry, LearnedLine& line) {
      if (const auto read = read_number(context, entry)) line.*member = *read;
    },
    number_of_guide};

// The first five keys are required.
constexpr Field<LearnedLine> learned_fields[] = {
    {"learned", one_figure<&LearnedLine::station>},
    {"U", one_figure<&LearnedLine::U>},
    {"pairs", whole_in<&LearnedLine::pairs>},
    {"until", {read_until, until_shape}},
    {"model", whole_in<&LearnedLine::model>},
    {"worn_good", whole_in<&LearnedLine::worn_good>},
    {"too_far", one_figure<&LearnedLine::too_far>},
};
constexpr auto needed_of_learned = std::span(learned_fields).first<5>();

constexpr std::string_view learned_example =
    "reach: {learned: 60.4, U: 4.5, pairs: 4, until: 2026-08-14, model: 1}";

// Reads the line that the archive predicted for this foot. The order holds the figures themselves,
// so that it can be solved without the archive.
void read_learned(ParseContext& context, const Entry& entry, ShankWish& shank) {
  LearnedLine line;
  read_fields(context, entry, learned_fields, line);
  std::vector<std::string> missing;
  for (const Field<LearnedLine>& field : needed_of_learned)
    if (!has_key(*entry.value, field.key)) missing.emplace_back(field.key);
  if (!missing.empty())
    context.error(entry, {.what = "of the learned line " + joined(missing, ", ") +
                                  (missing.size() == 1 ? " is missing" : " are missing"),
                          .allowed = std::string(learned_example),
                          .advice = "copy the whole line from what the archive says of this foot, "
                                    "or write reach: edge"});
  else if (line.pairs > 0 && line.worn_good > line.pairs)
    context.error(entry,
                  {.what = "more pairs ended good after wear (" + std::to_string(line.worn_good) +
                           ") than were learned from (" + std::to_string(line.pairs) + ")",
                   .allowed = "a worn_good up to pairs",
                   .advice = "copy both from what the archive says of this foot"});
  else if (line.too_far && line.station > *line.too_far - right_half_width + 1e-9)
    context.error(
        entry, {.what = "the learned line (" + short_figure(line.station) + ") lies less than " +
                        short_figure(right_half_width) + " behind an end that was cut too far (" +
                        short_figure(*line.too_far) + ")",
                .allowed = "a learned line up to " + short_figure(*line.too_far - right_half_width),
                .advice = "copy both from what the archive says of this foot, or write "
                          "reach: edge"});
  set_rule(context, entry, shank, LearnedRule{std::move(line)});
}

void read_reach(ParseContext& context, const Entry& entry, ShankWish& shank) {
  context.forget_inside(entry);
  if (entry.value->kind == NodeKind::map) {
    read_learned(context, entry, shank);
  } else if (entry.value->kind == NodeKind::scalar && entry.value->text == learned_word) {
    set_rule(context, entry, shank, LearnedRule{});
  } else if (is_word(entry)) {
    const std::string number = ", " + std::string(learned_word) + ", or a number from " +
                               range_text(*reading_guide("shank.reach"));
    if (const auto reach = read_word(context, entry, presets, number))
      set_rule(context, entry, shank, ReachRule{*reach, entry.value->text});
  } else if (const auto reach = read_number(context, entry)) {
    set_rule(context, entry, shank, ReachRule{*reach, {}});
  }
}

ValueShape reach_shape(const std::string& inside) {
  std::vector<std::string> words = names_of(presets);
  words.emplace_back(learned_word);
  ValueShape line = shape_of(learned_fields, inside);
  for (const Field<LearnedLine>& field : needed_of_learned)
    line.needed.push_back({std::string(field.key)});
  return either_shape({words_shape(std::move(words)), number_shape(inside), std::move(line)});
}

void read_keep(ParseContext& context, const Entry& entry, ShankWish& shank) {
  if (const auto keep = read_number(context, entry))
    set_rule(context, entry, shank, KeepRule{*keep});
}

void read_mark(ParseContext& context, const Entry& entry, ShankWish& shank) {
  if (auto mark = read_reading(context, entry))
    set_rule(context, entry, shank, MarkRule{*std::move(mark), {}});
}

ValueShape reading_of_guide(const std::string& inside) {
  return reading_shape(inside);
}

void read_bevel(ParseContext& context, const Entry& entry, ShankWish& shank) {
  if (entry.value->text == "none")
    shank.bevel = 0;
  else
    figure_in<&ShankWish::bevel>(context, entry, shank);
}

ValueShape bevel_shape(const std::string& inside) {
  return either_shape({words_shape({"none"}), repeats_shape(inside)});
}

constexpr Word<bool ShankWish::*> acceptances[] = {
    {"outside_window", &ShankWish::accept_outside_window},
    {"in_stop_band", &ShankWish::accept_in_stop_band}};

// Reads one word or a list of words. The list of one foot replaces the shared list.
void read_accept(ParseContext& context, const Entry& entry, ShankWish& shank) {
  shank.accept_outside_window = shank.accept_in_stop_band = false;
  const auto accept = [&](const Entry& word) {
    if (const auto accepted = read_word(context, word, acceptances)) shank.** accepted = true;
  };
  if (entry.value->kind != NodeKind::list) return accept(entry);
  for (const Node& item : entry.value->items)
    accept(entry.item(item));
}

ValueShape accept_shape(const std::string&) {
  const ValueShape word = words_shape(names_of(acceptances));
  return either_shape({word, list_shape(word, 0, SIZE_MAX)});
}

constexpr Field<ShankWish> shank_fields[] = {
    {"reach", {read_reach, reach_shape}},
    {"keep", {read_keep, number_of_guide}},
    {"mark", {read_mark, reading_of_guide}},
    {"bevel", {read_bevel, bevel_shape}},
    {"end", word_in<&ShankWish::end, board_ends>},
    {"corner", figure_in<&ShankWish::corner>},
    {"tuck_max", figure_in<&ShankWish::tuck_max>},
    {"bearing_min", figure_in<&ShankWish::bearing_min>},
    {"hold_back", figure_in<&ShankWish::hold_back>},
    {"accept", {read_accept, accept_shape}},
    {"layers", whole_in<&ShankWish::layers>},
};

bool is_rule(const Entry& shank, const Member& member) {
  const std::string key = shank.member(member).inside;
  return std::find(std::begin(rule_keys), std::end(rule_keys), key) != std::end(rule_keys);
}

void refuse_second_rule(ParseContext& context, const Entry& shank) {
  const Member* first = nullptr;
  for (const Member& member : shank.value->members) {
    if (!is_rule(shank, member)) continue;
    if (first && first->key != member.key)
      context.error(KeyPlace{member.place, joined_key(shank.written, member.key)},
                    {.what = "is a second rule for the cut, after " + first->key + " in line " +
                             std::to_string(first->place.line),
                     .allowed = "one of reach, keep, mark",
                     .advice = "keep the one that is meant and delete the other"});
    if (!first) first = &member;
  }
}

void read_shank(ParseContext& context, const Entry& entry, Alterations& alterations) {
  structure_in<&Alterations::shank, shank_fields>(context, entry, alterations);
  refuse_second_rule(context, entry);
}

ValueShape shank_shape(const std::string& inside) {
  return shape_of(shank_fields, inside);
}

// In the section `shoe` the same key is the height of the back; here it is a depth.
void read_back_depth(ParseContext& context, const Entry& entry, SideWish& sides) {
  if (const auto depth = read_number(context, entry, "sides.back_depth")) sides.back = *depth;
}

ValueShape back_depth_shape(const std::string&) {
  return number_shape("sides.back_depth");
}

constexpr Field<SideWish> side_fields[] = {
    {"medial", figure_in<&SideWish::medial>},
    {"lateral", figure_in<&SideWish::lateral>},
    {"back", {read_back_depth, back_depth_shape}},
    {"edge", word_in<&SideWish::edge, side_edges>},
    {"turn", figure_in<&SideWish::turn>},
    {"keep", figure_in<&SideWish::keep>},
    {"slope", figure_in<&SideWish::slope>},
    {"run_out", figure_in<&SideWish::run_out>},
    {"deepest_at", figure_in<&SideWish::deepest_at>},
    {"deepest_length", figure_in<&SideWish::deepest_length>},
    {"drawstring", word_in<&SideWish::drawstring, drawstrings>},
    {"stretch", figure_in<&SideWish::stretch>},
};

constexpr Field<ThinWish> thin_fields[] = {
    {"from", figure_in<&ThinWish::from>},
    {"to", figure_in<&ThinWish::to>},
    {"thickness", figure_in<&ThinWish::thickness>},
};

constexpr Word<bool> liners[] = {{"full", true}, {"none", false}};
constexpr Field<LinerWish> liner_fields[] = {
    {"clearance", figure_in<&LinerWish::clearance>},
    {"length", figure_in<&LinerWish::length>},
};

// Reads the word `full`, or the liner's figures.
void read_liner(ParseContext& context, const Entry& entry, Alterations& alterations) {
  if (entry.value->kind == NodeKind::map)
    return structure_in<&Alterations::liner, liner_fields>(context, entry, alterations);
  const auto full = read_word(context, entry, liners, "; or {clearance: …, length: …}");
  if (!full) return;
  context.forget_inside(entry);
  alterations.liner = *full ? std::optional(LinerWish{}) : std::nullopt;
}

ValueShape liner_shape(const std::string& inside) {
  return either_shape({words_shape(names_of(liners)), shape_of(liner_fields, inside)});
}

// Reads a yarn count with its system ("50 tex", "Nm 20"). The limits apply to the value in tex.
void read_yarn(ParseContext& context, const Entry& entry, DarningWish& darning) {
  if (!expect_scalar(context, entry, "a yarn count")) return;
  const ReadingGuide& guide = *reading_guide("darning.yarn");
  constexpr auto metric_number = tex_of_metric_number; // either is a thousand over the other
  const auto tex = parse_yarn(entry.value->text);
  if (tex && *tex >= guide.least && *tex <= guide.most) {
    darning.tex = tex;
    return;
  }
  context.error(entry, {.what = shown(entry.value->text) +
                                (tex ? " is not a yarn that darns" : " is not a yarn count"),
                        .allowed = number_text(guide.least) + " to " + number_text(guide.most) +
                                   " tex, or Nm " + number_text(metric_number(guide.most)) +
                                   " to Nm " + number_text(metric_number(guide.least)),
                        .advice = "copy it from the yarn's band, such as: 50 tex, Nm 20, Nm 34/2"});
}

constexpr std::size_t longest_yarn = 40;
ValueShape yarn_shape(const std::string&) {
  return text_shape(longest_yarn);
}

constexpr Field<DarningWish> darning_fields[] = {
    {"passes", whole_in<&DarningWish::passes>}, {"height", figure_in<&DarningWish::height>},
    {"raise", figure_in<&DarningWish::raise>},  {"pitch", figure_in<&DarningWish::pitch>},
    {"face", flag_in<&DarningWish::face>},      {"allowance", figure_in<&DarningWish::allowance>},
    {"yarn", {read_yarn, yarn_shape}},
};

constexpr Field<RibbonWish> ribbon_fields[] = {
    {"ring", flag_in<&RibbonWish::ring>},         {"stretch", figure_in<&RibbonWish::stretch>},
    {"width", figure_in<&RibbonWish::width>},     {"wraps", figure_in<&RibbonWish::wraps>},
    {"pitch", figure_in<&RibbonWish::pitch>},     {"overlap", figure_in<&RibbonWish::overlap>},
    {"rise", figure_in<&RibbonWish::rise>},       {"tie", figure_in<&RibbonWish::tie>},
    {"sewn_at", figure_in<&RibbonWish::sewn_at>},
};

constexpr Field<ElasticWish> elastic_fields[] = {
    {"stretch", figure_in<&ElasticWish::stretch>},   {"width", figure_in<&ElasticWish::width>},
    {"over", figure_in<&ElasticWish::over>},         {"sewn_at", figure_in<&ElasticWish::sewn_at>},
    {"heel_loop", flag_in<&ElasticWish::heel_loop>}, {"overlap", figure_in<&ElasticWish::overlap>},
};

constexpr Field<TuckWish> tuck_fields[] = {
    {"depth", figure_in<&TuckWish::depth>},
    {"down", figure_in<&TuckWish::down>},
};

constexpr Field<Alterations> alteration_rows[] = {
    {"shank", {read_shank, shank_shape}},
    {"sides", structure_in<&Alterations::sides, side_fields>},
    {"thinned", structure_in<&Alterations::thinned, thin_fields>},
    {"filler", flag_in<&Alterations::filler>},
    {"liner", {read_liner, liner_shape}},
    {"darning", structure_in<&Alterations::darning, darning_fields>},
    {"ribbons", structure_in<&Alterations::ribbons, ribbon_fields>},
    {"elastics", structure_in<&Alterations::elastics, elastic_fields>},
    {"tuck", structure_in<&Alterations::tuck, tuck_fields>},
};

} // namespace

std::span<const Field<Alterations>> alteration_fields() {
  return alteration_rows;
}

void caution_of_unused(ParseContext context, const Alterations& wish, const KeyPlaces& places) {
  constexpr std::string_view stretch = "sides.stretch";
  if (wish.sides && wish.sides->drawstring == Drawstring::cotton && places.has(stretch))
    context.caution(places.nearest(stretch),
                    {.what = "the drawstring is cotton, which does not stretch; this is not used",
                     .advice = "write drawstring: elastic, or take the stretch out"});
}

} // namespace shankline
