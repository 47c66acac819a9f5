#include "export/json/finding_json.hpp"

#include "export/json/solution_json.hpp"
#include "export/lettering/code_point.hpp"

#include <nlohmann/json.hpp>
#include <stdexcept>

namespace shankline {
namespace {

using Json = nlohmann::ordered_json;

Json text_or_null(const std::string& text) {
  return text.empty() ? Json(nullptr) : Json(text);
}

Json place_or_null(int place) {
  return place > 0 ? Json(place) : Json(nullptr);
}

Json finding_json(const PlacedFinding& finding) {
  return {{"severity", finding.severity == Severity::error ? "error" : "caution"},
          {"file", text_or_null(finding.file)},
          {"key", text_or_null(finding.key)},
          {"line", place_or_null(finding.line)},
          {"column", place_or_null(finding.column)},
          {"what", finding.what},
          {"allowed", text_or_null(finding.allowed)},
          {"do", text_or_null(finding.advice)}};
}

/// File names and what a message quotes may hold anything, and JSON is read on terminals, too.
std::string harmless(const Json& json, int indent) {
  return with_controls_escaped(json.dump(indent, ' ', false, Json::error_handler_t::replace));
}

} // namespace

std::string finding_line(const PlacedFinding& finding) {
  return harmless(finding_json(finding), -1);
}

std::string with_account(std::string document, const OrderAccount& account) {
  const std::string head = std::string("{\n  \"format\": \"") + solution_format + "\",\n";
  if (!document.starts_with(head)) throw std::logic_error("this is not a document of a solution");
  Json json{{"file", account.file},
            {"digest", text_or_null(account.digest)},
            {"written", account.written},
            {"findings", Json::array()}};
  for (const PlacedFinding& finding : account.findings)
    json["findings"].push_back(finding_json(finding));
  // The numbers were made once, also for the archive: they are not taken apart again.
  std::string members = harmless(json, 2);
  members = members.substr(2, members.size() - 4) + ",\n"; // without "{\n" and "\n}"
  document.insert(head.size(), members);
  return document;
}

std::string refused_json(const OrderNames& names) {
  return harmless({{"format", solution_format},
                   {"dancer", text_or_null(names.dancer)},
                   {"pair", text_or_null(names.pair)},
                   {"date", text_or_null(names.date)},
                   {"pose", nullptr},
                   {"feet", nullptr}},
                  2) +
         "\n";
}

} // namespace shankline
