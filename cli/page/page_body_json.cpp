#include "cli/page/page_body_json.hpp"

#include "cli/text/characters.hpp"
#include "cli/yaml/order_document.hpp"
#include "cli/yaml/yaml_text.hpp"

#include <algorithm>
#include <map>
#include <nlohmann/json.hpp>
#include <stdexcept>
#include <utility>

namespace shankline {
namespace {

using Json = nlohmann::ordered_json;

constexpr int deepest_form = 8; // an order nests to 4

struct WrongBody : std::runtime_error {
  using std::runtime_error::runtime_error;
};

bool is_map_or_list(const Json& value) {
  return value.is_object() || value.is_array();
}

/// Whether a typed figure reads back as it is: "61", "9 3/8 in", "12 %", "2026-03-14".
bool is_plain_figure(std::string_view text) {
  return !text.empty() && is_digit(text.front()) && text.back() != ' ' &&
         std::all_of(text.begin(), text.end(), [](char c) {
           return is_digit(c) || is_letter(c) || c == '.' || c == '-' || c == '/' || c == ' ' ||
                  c == '%';
         });
}

/// Without the space around it: a form's box often ends with some.
std::string_view trimmed(std::string_view text) {
  while (!text.empty() && text.front() == ' ')
    text.remove_prefix(1);
  while (!text.empty() && text.back() == ' ')
    text.remove_suffix(1);
  return text;
}

/// The form without its empty boxes. An object stays when it is empty: `feet.left: {}` is a foot
/// of which nothing is read yet. Throws WrongBody.
Json without_empty(const Json& value, int depth) {
  if (depth > deepest_form) throw WrongBody("the document is nested too deeply");
  if (value.is_string()) {
    const std::string_view text = trimmed(value.get_ref<const std::string&>());
    return text.empty() ? Json(nullptr) : Json(text);
  }
  if (!is_map_or_list(value)) return value;
  Json kept = value.is_object() ? Json::object() : Json::array();
  for (const auto& [key, member] : value.items()) {
    Json one = without_empty(member, depth + 1);
    if (one.is_null()) continue;
    if (value.is_object())
      kept[key] = std::move(one);
    else
      kept.push_back(std::move(one));
  }
  return kept.empty() && kept.is_array() ? Json(nullptr) : kept;
}

std::string scalar(const Json& value) {
  if (!value.is_string()) return value.dump();
  const std::string& text = value.get_ref<const std::string&>();
  return is_plain_figure(text) ? text : yaml_scalar(text);
}

/// A text of many lines stands in a block, or in quotation marks that need their own line.
bool has_lines(const Json& value) {
  return value.is_string() && value.get_ref<const std::string&>().find('\n') != std::string::npos;
}

/// On one line: [a, b] and {key: value}. A comma would end a text that stands there without marks.
std::string in_flow(const Json& value) {
  if (!is_map_or_list(value)) {
    const std::string text = scalar(value);
    return text.front() != '"' && text.find(',') != std::string::npos ? "\"" + text + "\"" : text;
  }
  std::string inside;
  for (const auto& [key, member] : value.items())
    inside += (inside.empty() ? "" : ", ") +
              (value.is_object() ? yaml_scalar(key) + ": " : std::string()) + in_flow(member);
  return value.is_object() ? "{" + inside + "}" : "[" + inside + "]";
}

bool has_inner_map(const Json& map) {
  return std::any_of(map.begin(), map.end(), [](const Json& member) { return member.is_object(); });
}

/// Sections stand on lines of their own, what is small on one line, as a person would write it.
void write_block(const Json& map, const std::string& indent, std::string& text) {
  constexpr std::size_t widest = 90;
  for (const auto& [key, value] : map.items()) {
    const std::string begin = indent + yaml_scalar(key) + ":";
    if (indent.empty() && has_lines(value)) {
      text += begin + yaml_text(value.get_ref<const std::string&>());
      continue;
    }
    const bool is_section = value.is_object() && (indent.empty() || has_inner_map(value));
    const std::string flow = is_section ? std::string() : in_flow(value);
    if (is_section || (value.is_object() && flow.size() > widest)) {
      text += begin + "\n";
      write_block(value, indent + "  ", text);
    } else {
      text += begin + " " + (is_map_or_list(value) ? flow : scalar(value)) + "\n";
    }
  }
}

std::string order_of_form(const Json& document) {
  if (!document.is_object()) throw WrongBody("the document is no object");
  const Json form = without_empty(document, 0);
  std::string text;
  if (form.is_object()) write_block(form, "", text);
  return text;
}

std::string text_of(const Json& body, const char* key) {
  const auto found = body.find(key);
  if (found == body.end() || found->is_null()) return {};
  if (!found->is_string()) throw WrongBody(std::string(key) + " is not a text");
  return found->get<std::string>();
}

bool truth_of(const Json& body, const char* key) {
  const auto found = body.find(key);
  if (found == body.end() || found->is_null()) return false;
  if (!found->is_boolean()) throw WrongBody(std::string(key) + " is neither true nor false");
  return found->get<bool>();
}

EntryId entry_of(const Json& body, const char* key) {
  const auto found = body.find(key);
  if (found == body.end() || found->is_null()) return 0;
  if (!found->is_number_unsigned()) throw WrongBody(std::string(key) + " is not an entry's number");
  const auto number = found->get<std::uint64_t>();
  if (number > 9007199254740991U) throw WrongBody(std::string(key) + " is not an entry's number");
  return static_cast<EntryId>(number);
}

PageBody body_of(const Json& json) {
  if (!json.is_object()) throw WrongBody("the body is no object");
  PageBody body;
  const bool has_form = json.contains("document");
  if (has_form && json.contains("text")) throw WrongBody("give the document or the text, not both");
  if (has_form) body.order = order_of_form(json.at("document"));
  if (json.contains("text")) body.order = text_of(json, "text");
  body.name = text_of(json, "name");
  body.with = text_of(json, "with");
  body.action = text_of(json, "do");
  body.dancer = text_of(json, "dancer");
  body.paper = text_of(json, "paper");
  body.units = text_of(json, "units");
  body.format = text_of(json, "format");
  body.foot = text_of(json, "foot");
  body.cut = text_of(json, "cut");
  body.back = text_of(json, "back");
  body.seen = text_of(json, "seen");
  body.by = text_of(json, "by");
  body.id = entry_of(json, "id");
  body.before = entry_of(json, "before");
  body.maker = truth_of(json, "maker");
  body.card = truth_of(json, "card");
  body.care = truth_of(json, "care");
  body.cut_only = truth_of(json, "cut_only");
  body.past_final = truth_of(json, "past_final");
  body.worn = truth_of(json, "worn");
  body.save = truth_of(json, "save");
  return body;
}

Json form_of(const Node& node) {
  switch (node.kind) {
  case NodeKind::nothing:
    return nullptr;
  case NodeKind::scalar:
    return node.text;
  case NodeKind::list: {
    Json list = Json::array();
    for (const Node& item : node.items)
      list.push_back(form_of(item));
    return list;
  }
  case NodeKind::map: {
    Json map = Json::object();
    for (const Member& member : node.members)
      map[member.key] = form_of(member.value);
    return map;
  }
  }
  return nullptr;
}

/// Returns the values for both feet, replaced by the values of `foot` where it has its own.
Json with_both(const Json& both, const Json& foot) {
  if (!both.is_object()) return foot;
  Json whole = both;
  for (const auto& [key, value] : foot.items()) {
    const auto there = whole.find(key);
    if (there != whole.end() && there->is_object() && value.is_object())
      *there = with_both(*there, value);
    else
      whole[key] = value;
  }
  return whole;
}

/// Shoe and alterations keep what holds for both sides in the section itself.
void take_both_in(Json& form, const char* section) {
  const auto found = form.find(section);
  if (found == form.end() || !found->is_object() || !found->contains("both")) return;
  const Json both = found->at("both");
  found->erase("both");
  *found = with_both(both, *found);
}

void spread_both(Json& form) {
  take_both_in(form, "shoe");
  take_both_in(form, "alterations");
  const auto feet = form.find("feet");
  if (feet == form.end() || !feet->is_object() || !feet->contains("both")) return;
  const Json both = feet->at("both");
  Json spread = Json::object();
  for (const char* side : {"left", "right"}) {
    const auto foot = feet->find(side);
    const bool is_there = foot != feet->end() && foot->is_object();
    spread[side] = is_there ? with_both(both, *foot) : both;
  }
  *feet = std::move(spread);
}

} // namespace

std::variant<PageBody, std::string> read_page_body(std::string_view json) {
  const Json body = Json::parse(json, nullptr, false);
  if (body.is_discarded()) return "the body is no JSON";
  try {
    return body_of(body);
  } catch (const WrongBody& wrong) {
    return wrong.what();
  }
}

std::string page_document(std::string_view order_text, const std::string& name,
                          std::vector<Message>& messages) {
  OrderDocument document = parse_order_document(order_text, name);
  messages.insert(messages.end(), document.messages.begin(), document.messages.end());
  if (!document.root) return {};
  Json form = form_of(*document.root);
  spread_both(form);
  return form.dump(-1, ' ', false, Json::error_handler_t::replace);
}

bool has_comments(std::string_view order_text) {
  char quote = '\0';
  char before = '\n';
  for (const char c : order_text) {
    if (quote != '\0') {
      if (c == quote || c == '\n') quote = '\0';
    } else if ((c == '"' || c == '\'') && !is_letter(before)) {
      quote = c;
    } else if (c == '#' && (before == ' ' || before == '\n' || before == '\t')) {
      return true;
    }
    before = c;
  }
  return false;
}

void JsonAnswer::add(std::string_view key, std::string_view json) {
  members_ += (members_.empty() ? "" : ",") + json_text(key) + ":";
  members_ += json;
}

void JsonAnswer::add_text(std::string_view key, std::string_view text) {
  add(key, json_text(text));
}

std::string json_text(std::string_view text) {
  return Json(text).dump(-1, ' ', false, Json::error_handler_t::replace);
}

std::string json_list(const std::vector<std::string>& values) {
  std::string list;
  for (const std::string& value : values)
    list += (list.empty() ? "" : ",") + value;
  return "[" + list + "]";
}

} // namespace shankline
