#include "cli/order_alterations.hpp"

#include "cli/order_values.hpp"

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

constexpr Word<double> presets[] = {{"short", 0.75}, {"edge", 1}, {"tucked", 1.15}};

void read_reach(Scribe& scribe, const Entry& entry, ShankWish& shank) {
  if (is_word(entry)) {
    if (const auto reach = read_word(scribe, entry, presets, ", or a number from 0.5 to 1.5"))
      set_rule(scribe, entry, shank, ReachRule{*reach, entry.value->text});
  } else if (const auto reach = read_number(scribe, entry)) {
    set_rule(scribe, entry, shank, ReachRule{*reach, {}});
  }
}

void read_keep(Scribe& scribe, const Entry& entry, ShankWish& shank) {
  if (const auto keep = read_number(scribe, entry)) set_rule(scribe, entry, shank, KeepRule{*keep});
}

void read_mark(Scribe& scribe, const Entry& entry, ShankWish& shank) {
  if (const auto mark = read_figure(scribe, entry)) set_rule(scribe, entry, shank, MarkRule{*mark});
}

void read_bevel(Scribe& scribe, const Entry& entry, ShankWish& shank) {
  if (entry.value->text == "none")
    shank.bevel = 0;
  else
    figure<&ShankWish::bevel>(scribe, entry, shank);
}

constexpr Word<BoardEnd> board_ends[] = {{"straight", BoardEnd::straight},
                                         {"rounded", BoardEnd::rounded}};
constexpr Word<bool> acceptances[] = {{"outside_window", true}};

// One word or a list of them.
void read_accept(Scribe& scribe, const Entry& entry, ShankWish& shank) {
  const auto accept = word<&ShankWish::accept_outside_window, acceptances, ShankWish>;
  if (entry.value->kind != NodeKind::list) return accept(scribe, entry, shank);
  shank.accept_outside_window = false;
  for (const Node& item : entry.value->items)
    accept(scribe, entry.item(item), shank);
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
    {"accept", read_accept},
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

constexpr Word<SideEdge> side_edges[] = {
    {"bound", SideEdge::bound}, {"turned", SideEdge::turned}, {"folded", SideEdge::folded}};
constexpr Word<Drawstring> drawstrings[] = {{"cotton", Drawstring::cotton},
                                            {"elastic", Drawstring::elastic}};

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

constexpr Word<bool> liners[] = {{"full", true}, {"none", false}};

void read_passes(Scribe& scribe, const Entry& entry, DarningWish& darning) {
  if (const auto passes = read_whole(scribe, entry)) darning.passes = *passes;
}

constexpr Field<DarningWish> darning_fields[] = {{"passes", read_passes}};

constexpr Field<RibbonWish> ribbon_fields[] = {
    {"ring", flag<&RibbonWish::ring>},
    {"stretch", figure<&RibbonWish::stretch>},
};

constexpr Field<Alterations> fields[] = {
    {"shank", read_shank},
    {"sides", structure<&Alterations::sides, side_fields>},
    {"liner", word<&Alterations::full_liner, liners>},
    {"darning", structure<&Alterations::darning, darning_fields>},
    {"ribbons", structure<&Alterations::ribbons, ribbon_fields>},
};

} // namespace

std::span<const Field<Alterations>> alteration_fields() {
  return fields;
}

} // namespace shankline
