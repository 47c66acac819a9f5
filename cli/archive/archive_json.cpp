#include "cli/archive/archive_json.hpp"

#include "cli/archive/archive_chain.hpp"
#include "export/lettering/code_point.hpp"
#include "geometry/order/figure.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <nlohmann/json.hpp>

namespace shankline {
namespace {

using Json = nlohmann::ordered_json;

std::string one_line(const Json& json) {
  return json.dump(-1, ' ', false, Json::error_handler_t::replace);
}

/// JSON for the user, with control characters escaped: entries of an earlier version may hold some.
std::string document(const Json& json) {
  return with_controls_escaped(json.dump(2, ' ', false, Json::error_handler_t::replace)) + "\n";
}

/// Returns null for text that this program never wrote: text that does not parse, or nesting so
/// deep that walking it could exhaust the stack.
Json parsed(std::string_view text) {
  constexpr int deepest = 64;
  bool too_deep = false;
  const auto limit = [&too_deep](int depth, Json::parse_event_t, Json&) {
    too_deep = too_deep || depth > deepest;
    return !too_deep;
  };
  Json json = Json::parse(text.begin(), text.end(), limit, false);
  return too_deep || json.is_discarded() ? Json(nullptr) : json;
}

template <class Value> void put(Json& json, const char* key, const std::optional<Value>& value) {
  if (value) json[key] = *value;
}
void put(Json& json, const char* key, const std::string& value) {
  if (!value.empty()) json[key] = value;
}
void put(Json& json, const char* key, const std::vector<std::string>& values) {
  if (!values.empty()) json[key] = values;
}
void put(Json& json, const char* key, bool value) {
  if (value) json[key] = true;
}

void take(const Json& json, const char* key, std::optional<double>& into) {
  if (const auto at = json.find(key); at != json.end() && at->is_number()) into = at->get<double>();
}
void take(const Json& json, const char* key, std::optional<int>& into) {
  const auto at = json.find(key);
  if (at == json.end() || !at->is_number_integer()) return;
  const auto value = at->get<double>();
  if (std::abs(value) <= std::numeric_limits<int>::max()) into = static_cast<int>(value);
}
void take(const Json& json, const char* key, std::string& into) {
  if (const auto at = json.find(key); at != json.end() && at->is_string())
    into = at->get<std::string>();
}
void take(const Json& json, const char* key, bool& into) {
  if (const auto at = json.find(key); at != json.end() && at->is_boolean()) into = at->get<bool>();
}

void take(const Json& json, const char* key, std::vector<std::string>& into) {
  const auto at = json.find(key);
  if (at == json.end() || !at->is_array()) return;
  for (const Json& one : *at)
    if (one.is_string()) into.push_back(one.get<std::string>());
}

Json or_null(const std::string& text) {
  return text.empty() ? Json(nullptr) : Json(text);
}

Json words_of(const std::string& text, std::string_view between) {
  Json words = Json::array();
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t end = std::min(text.find(between, at), text.size());
    words.push_back(text.substr(at, end - at));
    at = end + between.size();
  }
  return words;
}

Json head_json(const EntryHead& head) {
  Json json{{"id", head.id}, {"kind", kind_name(head.kind)}, {"saved", or_null(head.saved)}};
  if (has_dancer(head.kind)) json["dancer"] = head.dancer;
  if (head.kind == EntryKind::cut) {
    json["pair"] = or_null(head.pair);
    json["date"] = or_null(head.date);
    json["alterations"] = words_of(head.alterations, ", ");
    json["summary"] = or_null(head.summary);
  }
  if (head.kind == EntryKind::note) {
    json["about"] = head.about;
    json["outcome"] = parsed(head.outcome);
    if (head.withheld) json["withheld"] = true;
  }
  if (head.kind == EntryKind::forgetting) json["erased"] = words_of(head.about, " ");
  json["program"] = or_null(head.program);
  json["digest"] = head.digest;
  json["older_rule"] = follows_older_rule(head);
  json["before"] = head.before;
  json["hash"] = chain_hash(head.before, head.digest);
  return json;
}

Json heads_json(const std::vector<EntryHead>& heads) {
  Json rows = Json::array();
  for (const EntryHead& head : heads)
    rows.push_back(head_json(head));
  return rows;
}

Json number_or_null(EntryId id) {
  return id > 0 ? Json(id) : Json(nullptr);
}

/// Adds all values with their keys; an element of a list has its place in the list as its key.
void flatten(const Json& json, const std::string& key,
             std::vector<std::pair<std::string, Json>>& to) {
  const auto below = [&](const std::string& word) { return key.empty() ? word : key + "." + word; };
  if (json.is_object()) {
    for (const auto& [word, value] : json.items())
      if (word != "templates" && word != "proofs" && word != "format")
        flatten(value, below(word), to);
  } else if (json.is_array()) {
    for (std::size_t i = 0; i < json.size(); ++i)
      flatten(json[i], below(std::to_string(i + 1)), to);
  } else {
    to.emplace_back(key, json);
  }
}

std::string shown(const Json& value) {
  if (value.is_null()) return "none";
  if (value.is_string()) return value.get<std::string>();
  if (!value.is_number_float()) return one_line(value);
  return short_figure(value.get<double>(), shown_decimals);
}

} // namespace

std::string outcome_json(const Outcome& outcome) {
  Json json = Json::object();
  put(json, "foot", outcome.foot);
  put(json, "seen", outcome.seen);
  put(json, "cut_off", outcome.cut_off);
  put(json, "copied_U", outcome.copied_U);
  put(json, "worn", outcome.worn);
  put(json, "by", outcome.by);
  put(json, "gap", outcome.gap);
  put(json, "break", outcome.break_at);
  put(json, "comfort", outcome.comfort);
  put(json, "hours", outcome.hours);
  put(json, "days", outcome.days);
  put(json, "further", outcome.further);
  put(json, "where", outcome.where);
  put(json, "wet", outcome.wet);
  put(json, "done", outcome.done);
  put(json, "ended", outcome.ended);
  put(json, "mark", outcome.mark);
  put(json, "kept_for", outcome.kept_for);
  put(json, "words", outcome.words);
  put(json, "withdraws", outcome.withdraws);
  return one_line(json);
}

Outcome outcome_of(const EntryHead& note) {
  Outcome outcome;
  const Json json = parsed(note.outcome);
  if (!json.is_object()) return outcome;
  take(json, "foot", outcome.foot);
  take(json, "seen", outcome.seen);
  take(json, "cut_off", outcome.cut_off);
  take(json, "copied_U", outcome.copied_U);
  take(json, "worn", outcome.worn);
  take(json, "by", outcome.by);
  take(json, "gap", outcome.gap);
  take(json, "break", outcome.break_at);
  take(json, "comfort", outcome.comfort);
  take(json, "hours", outcome.hours);
  take(json, "days", outcome.days);
  take(json, "further", outcome.further);
  take(json, "where", outcome.where);
  take(json, "wet", outcome.wet);
  take(json, "done", outcome.done);
  take(json, "ended", outcome.ended);
  take(json, "mark", outcome.mark);
  take(json, "kept_for", outcome.kept_for);
  take(json, "words", outcome.words);
  take(json, "withdraws", outcome.withdraws);
  return outcome;
}

SavedCut saved_cut(std::string_view solution) {
  SavedCut cut;
  const Json json = parsed(solution);
  const auto below = [](const Json& at, const char* key) {
    return at.is_object() && at.contains(key) ? at[key] : Json(nullptr);
  };
  const Json feet = below(json, "feet");
  for (const FootSide side : {FootSide::left, FootSide::right}) {
    const Json foot = below(feet, foot_name(side).c_str());
    if (!foot.is_object()) continue;
    SavedFoot& saved = (side == FootSide::left ? cut.left : cut.right).emplace();
    const Json board = below(below(foot, "trim"), "board");
    std::optional<double> witness;
    std::optional<double> final_cut;
    std::optional<double> right_U;
    if (board.is_object()) {
      take(board, "witness", witness);
      take(board, "U_right", right_U);
      if (const Json line = below(board, "final"); line.is_object())
        take(line, "centre", final_cut);
      if (witness && final_cut) saved.board = SavedBoard{*witness, *final_cut, right_U};
    }
    if (const Json contact = below(below(foot, "contact"), "cut"); contact.is_object()) {
      take(contact, "gap", saved.gap);
      take(contact, "break", saved.break_at);
    }
  }
  return cut;
}

std::string options_json(const Paper& paper, Units units, const PrinterDrawing* printer) {
  Json drawn_for = nullptr;
  if (printer)
    drawn_for = {{"name", printer->name},
                 {"x_scale", printer->correction.x_scale},
                 {"y_scale", printer->correction.y_scale},
                 {"skew", printer->correction.skew}};
  return one_line({{"paper", written(paper)},
                   {"width", paper.width},
                   {"height", paper.height},
                   {"units", units == Units::inch ? "in" : "mm"},
                   {"printer", std::move(drawn_for)},
                   {"learnt", nullptr}}) +
         "\n";
}

std::string options_words(const std::string& options) {
  std::string text;
  const Json json = parsed(options);
  if (!json.is_object()) return text;
  for (const auto& [key, value] : json.items())
    if (!value.is_null())
      text += (text.empty() ? "" : ", ") + key + " " +
              shown(value.is_object() ? value.value("name", Json(nullptr)) : value);
  return text;
}

std::vector<SolutionDifference> solution_differences(std::string_view first,
                                                     std::string_view second) {
  using Row = std::pair<std::string, Json>;
  std::vector<Row> a;
  std::vector<Row> b;
  flatten(parsed(first), "", a);
  flatten(parsed(second), "", b);
  const std::map<std::string, Json> in_a(a.begin(), a.end());
  const std::map<std::string, Json> in_b(b.begin(), b.end());
  std::vector<SolutionDifference> differences;
  const auto compare = [&](const std::string& key, const Json& x, const Json& y) {
    if (x == y) return;
    SolutionDifference row{key, shown(x), shown(y), std::nullopt};
    if (x.is_number() && y.is_number()) {
      if (row.first == row.second) return;
      row.difference = shown_difference(y.get<double>(), x.get<double>(), shown_decimals);
    }
    differences.push_back(std::move(row));
  };
  for (const auto& [key, value] : a) {
    const auto other = in_b.find(key);
    compare(key, value, other == in_b.end() ? Json(nullptr) : other->second);
  }
  for (const auto& [key, value] : b)
    if (!in_a.contains(key)) compare(key, Json(nullptr), value);
  return differences;
}

std::string list_json(const std::vector<EntryHead>& heads, EntryId older) {
  return document({{"format", "shankline-archive-list/1"},
                   {"entries", heads_json(heads)},
                   {"older", number_or_null(older)}});
}

std::string history_json(const std::string& dancer, const std::vector<CutAndNotes>& cuts,
                         std::int64_t older) {
  Json rows = Json::array();
  for (const CutAndNotes& row : cuts) {
    Json json = head_json(row.cut);
    json["notes"] = heads_json(row.notes);
    rows.push_back(std::move(json));
  }
  return document({{"format", "shankline-archive-history/1"},
                   {"dancer", dancer},
                   {"cuts", std::move(rows)},
                   {"older", number_or_null(older)}});
}

std::string entry_json(const EntryHead& head, const EntryBody* body,
                       const std::vector<EntryHead>& notes) {
  Json json{{"format", "shankline-archive-entry/1"}};
  json.update(head_json(head));
  if (body) {
    json["sheets"] = body->sheets;
    json["options"] = parsed(body->options);
    json["order"] = body->order;
    json["solution"] = parsed(body->solution);
    json["notes"] = heads_json(notes);
  }
  return document(json);
}

std::string differences_json(const EntryHead& first, const EntryHead& second,
                             const std::vector<SolutionDifference>& differences) {
  Json rows = Json::array();
  for (const SolutionDifference& row : differences)
    rows.push_back({{"key", row.key},
                    {"first", row.first},
                    {"second", row.second},
                    {"difference", row.difference ? Json(*row.difference) : Json(nullptr)}});
  return document({{"format", "shankline-archive-differences/1"},
                   {"first", first.id},
                   {"second", second.id},
                   {"differences", std::move(rows)}});
}

std::string audit_json(const Audit& audit) {
  Json faults = Json::array();
  for (const AuditFault& fault : audit.faults)
    faults.push_back({{"entry", number_or_null(fault.id)}, {"what", fault.what}});
  Json json{{"format", "shankline-archive-audit/1"},
            {"clean", audit.clean()},
            {"entries", audit.end.id},
            {"cuts", audit.cuts},
            {"notes", audit.notes},
            {"forgotten", audit.forgotten},
            {"end", audit.end.hash},
            {"erasing", audit.erasing},
            {"faults", std::move(faults)}};
  if (audit.withheld > 0) json["withheld"] = audit.withheld;
  return document(json);
}

} // namespace shankline
