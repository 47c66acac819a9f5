#include "cli/order_file/order_alterations.hpp"

#include "cli/order_file/order_values.hpp"
#include "cli/order_file/order_words.hpp"
#include "cli/text/quantity.hpp"
#include "geometry/board/trim_line.hpp"
#include "geometry/order/reading_guide.hpp"
#include "geometry/order/yarn.hpp"

#include <algorithm>
#include <utility>

namespace shankline {
namespace {

constexpr std::string_view rule_keys[] = {"shank.reach", "shank.keep", "shank.mark"};

// The rule of one foot takes the place of the shared one, whichever kind that was.
void set_rule(Scribe& scribe, const Entry& entry, ShankWish& shank, TrimRule rule) {
  for (const std::string_view key : rule_keys)
    if (key != entry.inside) scribe.places().forget(key);
  shank.rule = std::move(rule);
}

constexpr Word<double> word_of(const ReachPreset& preset) {
  return {preset.name, preset.reach};
}
constexpr Word<double> presets[] = {word_of(short_reach), word_of(edge_reach),
                                    word_of(tucked_reach)};

void read_reach(Scribe& scribe, const Entry& entry, ShankWish& shank) {
  if (is_word(entry)) {
    const std::string number = ", or a number from " + range_text(*reading_guide("shank.reach"));
    if (const auto reach = read_word(scribe, entry, presets, number))
      set_rule(scribe, entry, shank, ReachRule{*reach, entry.value->text});
  } else if (const auto reach = read_number(scribe, entry)) {
    set_rule(scribe, entry, shank, ReachRule{*reach, {}});
  }
}

void read_keep(Scribe& scribe, const Entry& entry, ShankWish& shank) {
  if (const auto keep = read_number(scribe, entry)) set_rule(scribe, entry, shank, KeepRule{*keep});
}

void read_mark(Scribe& scribe, const Entry& entry, ShankWish& shank) {
  if (auto mark = read_reading(scribe, entry))
    set_rule(scribe, entry, shank, MarkRule{*std::move(mark), {}});
}

void read_bevel(Scribe& scribe, const Entry& entry, ShankWish& shank) {
  if (entry.value->text == "none")
    shank.bevel = 0;
  else
    figure<&ShankWish::bevel>(scribe, entry, shank);
}

constexpr Word<bool ShankWish::*> acceptances[] = {
    {"outside_window", &ShankWish::accept_outside_window},
    {"in_stop_band", &ShankWish::accept_in_stop_band}};

// One word or a list of them. What one foot accepts takes the place of what both accept.
void read_accept(Scribe& scribe, const Entry& entry, ShankWish& shank) {
  shank.accept_outside_window = shank.accept_in_stop_band = false;
  const auto accept = [&](const Entry& word) {
    if (const auto accepted = read_word(scribe, word, acceptances)) shank.** accepted = true;
  };
  if (entry.value->kind != NodeKind::list) return accept(entry);
  for (const Node& item : entry.value->items)
    accept(entry.item(item));
}

void read_cut_layers(Scribe& scribe, const Entry& entry, ShankWish& shank) {
  if (const auto layers = read_whole(scribe, entry)) shank.layers = *layers;
}

constexpr Field<ShankWish> shank_fields[] = {
    {"reach", read_reach},
    {"keep", read_keep},
    {"mark", read_mark},
    {"bevel", read_bevel},
    {"end", word<&ShankWish::end, board_ends>},
    {"corner", figure<&ShankWish::corner>},
    {"tuck_max", figure<&ShankWish::tuck_max>},
    {"bearing_min", figure<&ShankWish::bearing_min>},
    {"hold_back", figure<&ShankWish::hold_back>},
    {"accept", read_accept},
    {"layers", read_cut_layers},
};

bool is_rule(const Entry& shank, const Member& member) {
  const std::string key = shank.member(member).inside;
  return std::find(std::begin(rule_keys), std::end(rule_keys), key) != std::end(rule_keys);
}

void refuse_second_rule(Scribe& scribe, const Entry& shank) {
  const Member* first = nullptr;
  for (const Member& member : shank.value->members) {
    if (!is_rule(shank, member)) continue;
    if (first && first->key != member.key)
      scribe.error(KeyPlace{member.place, joined_key(shank.written, member.key)},
                   {.what = "is a second rule for the cut, after " + first->key + " in line " +
                            std::to_string(first->place.line),
                    .allowed = "one of reach, keep, mark",
                    .advice = "keep the one that is meant and delete the other"});
    if (!first) first = &member;
  }
}

void read_shank(Scribe& scribe, const Entry& entry, Alterations& alterations) {
  structure<&Alterations::shank, shank_fields>(scribe, entry, alterations);
  refuse_second_rule(scribe, entry);
}

// In the shoe's own section the same key is the height of the back.
void read_back_depth(Scribe& scribe, const Entry& entry, SideWish& sides) {
  if (const auto depth = read_number(scribe, entry, "sides.back_depth")) sides.back = *depth;
}

constexpr Field<SideWish> side_fields[] = {
    {"medial", figure<&SideWish::medial>},
    {"lateral", figure<&SideWish::lateral>},
    {"back", read_back_depth},
    {"edge", word<&SideWish::edge, side_edges>},
    {"turn", figure<&SideWish::turn>},
    {"keep", figure<&SideWish::keep>},
    {"slope", figure<&SideWish::slope>},
    {"run_out", figure<&SideWish::run_out>},
    {"deepest_at", figure<&SideWish::deepest_at>},
    {"deepest_length", figure<&SideWish::deepest_length>},
    {"drawstring", word<&SideWish::drawstring, drawstrings>},
    {"stretch", figure<&SideWish::stretch>},
};

constexpr Field<ThinWish> thin_fields[] = {
    {"from", figure<&ThinWish::from>},
    {"to", figure<&ThinWish::to>},
    {"thickness", figure<&ThinWish::thickness>},
};

constexpr Word<bool> liners[] = {{"full", true}, {"none", false}};
constexpr Field<LinerWish> liner_fields[] = {
    {"clearance", figure<&LinerWish::clearance>},
    {"length", figure<&LinerWish::length>},
};

// A full liner in one word, or with its figures.
void read_liner(Scribe& scribe, const Entry& entry, Alterations& alterations) {
  if (entry.value->kind == NodeKind::map)
    return structure<&Alterations::liner, liner_fields>(scribe, entry, alterations);
  const auto full = read_word(scribe, entry, liners, "; or {clearance: …, length: …}");
  if (!full) return;
  scribe.forget_inside(entry);
  alterations.liner = *full ? std::optional(LinerWish{}) : std::nullopt;
}

void read_passes(Scribe& scribe, const Entry& entry, DarningWish& darning) {
  if (const auto passes = read_whole(scribe, entry)) darning.passes = *passes;
}

// "50 tex", "Nm 20": a count says by which system, and its limits hold in tex.
void read_yarn(Scribe& scribe, const Entry& entry, DarningWish& darning) {
  if (!expect_scalar(scribe, entry, "a yarn count")) return;
  const ReadingGuide& guide = *reading_guide("darning.yarn");
  constexpr auto metric_number = tex_of_metric_number; // either is a thousand over the other
  const auto tex = parse_yarn(entry.value->text);
  if (tex && *tex >= guide.least && *tex <= guide.most) {
    darning.tex = tex;
    return;
  }
  scribe.error(entry, {.what = shown(entry.value->text) +
                               (tex ? " is no yarn that darns" : " is not a yarn count"),
                       .allowed = number_text(guide.least) + " to " + number_text(guide.most) +
                                  " tex, or Nm " + number_text(metric_number(guide.most)) +
                                  " to Nm " + number_text(metric_number(guide.least)),
                       .advice = "copy it from the yarn's band, such as: 50 tex, Nm 20, Nm 34/2"});
}

constexpr Field<DarningWish> darning_fields[] = {
    {"passes", read_passes},
    {"height", figure<&DarningWish::height>},
    {"raise", figure<&DarningWish::raise>},
    {"pitch", figure<&DarningWish::pitch>},
    {"face", flag<&DarningWish::face>},
    {"allowance", figure<&DarningWish::allowance>},
    {"yarn", read_yarn},
};

constexpr Field<RibbonWish> ribbon_fields[] = {
    {"ring", flag<&RibbonWish::ring>},         {"stretch", figure<&RibbonWish::stretch>},
    {"width", figure<&RibbonWish::width>},     {"wraps", figure<&RibbonWish::wraps>},
    {"pitch", figure<&RibbonWish::pitch>},     {"overlap", figure<&RibbonWish::overlap>},
    {"rise", figure<&RibbonWish::rise>},       {"tie", figure<&RibbonWish::tie>},
    {"sewn_at", figure<&RibbonWish::sewn_at>},
};

constexpr Field<ElasticWish> elastic_fields[] = {
    {"stretch", figure<&ElasticWish::stretch>},   {"width", figure<&ElasticWish::width>},
    {"over", figure<&ElasticWish::over>},         {"sewn_at", figure<&ElasticWish::sewn_at>},
    {"heel_loop", flag<&ElasticWish::heel_loop>}, {"overlap", figure<&ElasticWish::overlap>},
};

constexpr Field<TuckWish> tuck_fields[] = {
    {"depth", figure<&TuckWish::depth>},
    {"down", figure<&TuckWish::down>},
};

constexpr Field<Alterations> fields[] = {
    {"shank", read_shank},
    {"sides", structure<&Alterations::sides, side_fields>},
    {"thinned", structure<&Alterations::thinned, thin_fields>},
    {"filler", flag<&Alterations::filler>},
    {"liner", read_liner},
    {"darning", structure<&Alterations::darning, darning_fields>},
    {"ribbons", structure<&Alterations::ribbons, ribbon_fields>},
    {"elastics", structure<&Alterations::elastics, elastic_fields>},
    {"tuck", structure<&Alterations::tuck, tuck_fields>},
};

} // namespace

std::span<const Field<Alterations>> alteration_fields() {
  return fields;
}

void caution_of_unused(Scribe scribe, const Alterations& wish, const KeyPlaces& places) {
  constexpr std::string_view stretch = "sides.stretch";
  if (wish.sides && wish.sides->drawstring == Drawstring::cotton && places.has(stretch))
    scribe.caution(places.nearest(stretch),
                   {.what = "the drawstring is cotton, which does not stretch; this is not used",
                    .advice = "write drawstring: elastic, or take the stretch out"});
}

} // namespace shankline
