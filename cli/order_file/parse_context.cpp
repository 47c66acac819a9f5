#include "cli/order_file/parse_context.hpp"

#include "cli/text/characters.hpp"
#include "cli/text/nearest_word.hpp"
#include "cli/text/word_list.hpp"

#include <utility>

namespace shankline {
namespace {

Place place_of(const Entry& entry) {
  return entry.value->kind == NodeKind::map ? entry.key_place : entry.value->place;
}

} // namespace

Entry Entry::member(const Member& member) const {
  return {&member.value, member.place, joined_key(written, member.key),
          joined_key(inside, member.key)};
}

Entry Entry::item(const Node& node) const {
  return {&node, node.place, written, inside};
}

void ParseContext::remember(const Entry& entry) {
  places_->remember(entry.inside, {place_of(entry), entry.written});
}

void ParseContext::forget_inside(const Entry& entry) {
  places_->forget(entry.inside);
  remember(entry);
}

void ParseContext::error(const Entry& entry, Advice why) {
  error(KeyPlace{entry.value->place, entry.written}, std::move(why));
}

void ParseContext::error(const KeyPlace& at, Advice why) {
  write(Severity::error, at, std::move(why));
}

void ParseContext::caution(const KeyPlace& at, Advice why) {
  write(Severity::caution, at, std::move(why));
}

void ParseContext::write(Severity severity, const KeyPlace& at, Advice why) {
  messages_->push_back(
      {severity, *file_, at.place.line, at.place.column, at.written, std::move(why)});
}

bool ParseContext::expect_map(const Entry& entry, std::span<const std::string_view> keys) {
  const Node& node = *entry.value;
  if (node.kind == NodeKind::map) return true;
  if (node.kind == NodeKind::scalar && lacks_space_after_colon(node.text))
    error(entry, {.what = "a space is missing after ':' in " + shown(node.text),
                  .allowed = joined(keys, ", "),
                  .advice = "write 'key: value'"});
  else
    error(entry, {.what = "keys are wanted here, and " + std::string(kind_in_words(node.kind)) +
                          " was read",
                  .allowed = joined(keys, ", "),
                  .advice = "write them one to a line as 'key: value', or in braces"});
  return false;
}

void ParseContext::unknown_key(const Entry& map, const Member& member,
                               std::span<const std::string_view> keys) {
  Advice why{shown(member.key) + " is not a key that belongs here", joined(keys, ", "), {}};
  if (lacks_space_after_colon(member.key)) {
    why.what = "a space is missing after ':' in " + shown(member.key);
    why.advice = "write 'key: value'";
  } else if (!member.key.empty() && is_digit(member.key.front())) {
    why.advice = "write decimals with a point (97.5); a comma parts two keys";
  } else {
    why.advice = did_you_mean(member.key, keys, "take it out, or choose an allowed key");
  }
  error(KeyPlace{member.place, joined_key(map.written, member.key)}, std::move(why));
}

bool ParseContext::expect_something(const Entry& entry) {
  if (entry.value->kind != NodeKind::nothing) return true;
  error(entry, {.what = "nothing is written after the key",
                .advice = "write its value, or delete the line"});
  return false;
}

std::string did_you_mean(std::string_view word, std::span<const std::string_view> known,
                         std::string otherwise) {
  const auto nearest = nearest_word(word, known);
  return nearest ? "did you mean '" + std::string(*nearest) + "'?" : std::move(otherwise);
}

std::string_view kind_in_words(NodeKind kind) {
  switch (kind) {
  case NodeKind::scalar:
    return "a text or number";
  case NodeKind::list:
    return "a list";
  case NodeKind::map:
    return "a set of keys";
  case NodeKind::nothing:
    break;
  }
  return "nothing";
}

} // namespace shankline
