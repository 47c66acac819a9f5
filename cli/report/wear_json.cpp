#include "cli/report/wear_json.hpp"

#include "cli/report/learned_json.hpp"
#include "export/json/json_figure.hpp"
#include "export/lettering/code_point.hpp"

#include <cmath>
#include <nlohmann/json.hpp>

namespace shankline {
namespace {

using Json = nlohmann::ordered_json;

Json text_or_null(const std::string& text) {
  return text.empty() ? Json(nullptr) : Json(text);
}

std::string wear_document(const Json& json) {
  return with_controls_escaped(json.dump(2, ' ', false, Json::error_handler_t::replace)) + "\n";
}

Json left_json(const HoursLeft& left) {
  return {{"least", json_figure(left.least)},
          {"middle", json_figure(left.middle)},
          {"most", json_figure(left.most)}};
}

Json life_json(const HouseLife& life) {
  return {{"learned", life.fitted},
          {"ended_pairs", life.ended},
          {"median_hours", json_figure(life.house.quantile(0.5))},
          {"log_scale", json_figure(life.house.log_scale_hours)},
          {"log_scale_se", json_figure(life.house.log_scale_se)},
          {"log_shape", json_figure(life.house.log_shape)}};
}

Json pair_json(const BookPair& pair, const HouseLife& life, double drying_hours,
               const std::string& today) {
  const PairWear& wear = pair.wear;
  const std::string dry = dry_from(wear, drying_hours);
  return {{"entry", pair.cut.id},
          {"dancer", pair.cut.dancer},
          {"pair", text_or_null(pair.cut.pair)},
          {"state", state_name(wear.state())},
          {"kept_for", text_or_null(wear.kept_for)},
          {"hours", json_figure(wear.hours())},
          {"left_hours", json_figure(wear.left_hours)},
          {"right_hours", json_figure(wear.right_hours)},
          {"wears", wear.wears},
          {"first_worn", text_or_null(wear.first_worn)},
          {"last_worn", text_or_null(wear.last_worn)},
          {"worn_wet", wear.last_wet},
          {"dry_from", text_or_null(dry)},
          {"dry", dry.empty() || dry <= today},
          {"done", wear.done},
          {"stopped", text_or_null(wear.stopped)},
          {"hours_left", left_json(hours_left(life, pair))},
          {"basis", life.basis_words(pair.cut.dancer)}};
}

Json day_json(const RotationDancer& dancer, std::size_t i) {
  const PlannedDay& planned = dancer.plan[i];
  Json row{{"day", day_of_number(planned.day.day)},
           {"hours", json_figure(planned.day.hours)},
           {"stage", planned.day.on_stage}};
  row["entry"] = nullptr;
  if (planned.pair) row["entry"] = dancer.pairs[*planned.pair].cut.id;
  row["dry"] = planned.pair ? Json(planned.dry) : Json(nullptr);
  row["chance_of_too_few"] = json_figure(dancer.chances[i]);
  row["chance_se"] = json_figure(chance_error(dancer.chances[i], dancer.runs));
  return row;
}

} // namespace

std::string pairs_json(const std::vector<BookPair>& pairs, const HouseLife& life,
                       double drying_hours, const std::string& today) {
  Json rows = Json::array();
  for (const BookPair& pair : pairs)
    rows.push_back(pair_json(pair, life, drying_hours, today));
  return wear_document({{"format", "shankline-archive-pairs/1"},
                        {"day", today},
                        {"drying_hours", json_figure(drying_hours)},
                        {"house", life_json(life)},
                        {"pairs", std::move(rows)}});
}

std::string overview_json(const CompanyOverview& overview) {
  Json rows = Json::array();
  for (const OverviewRow& row : overview.rows) {
    Json json{{"what", to_do_name(row.what)},
              {"dancer", row.dancer},
              {"entry", row.entry},
              {"day", text_or_null(row.day)},
              {"words", row.words}};
    if (row.hours) json["hours"] = json_figure(*row.hours);
    if (row.left) json["hours_left"] = left_json(*row.left);
    rows.push_back(std::move(json));
  }
  return wear_document({{"format", "shankline-archive-overview/1"},
                        {"day", overview.day},
                        {"dancers", overview.dancers},
                        {"pairs", overview.pairs},
                        {"unread", overview.unread},
                        {"house", life_json(overview.life)},
                        {"lines", Json::parse(track_json(overview.learned.track.all))},
                        {"rows", std::move(rows)}});
}

std::string rotation_json(const RotationJob& job) {
  Json dancers = Json::array();
  for (const RotationDancer& dancer : job.dancers) {
    Json row{{"dancer", dancer.dancer}, {"basis", dancer.basis}};
    row["pairs"] = Json::array();
    for (const BookPair& pair : dancer.pairs)
      row["pairs"].push_back(pair_json(pair, job.life, job.drying_hours, job.today));
    row["days"] = Json::array();
    for (std::size_t i = 0; i < dancer.plan.size(); ++i)
      row["days"].push_back(day_json(dancer, i));
    row["order"] = nullptr;
    if (const auto& advice = dancer.advice)
      row["order"] = {{"too_few_from", day_of_number(advice->too_few_from)},
                      {"order_by", day_of_number(advice->order_by)},
                      {"there_on", day_of_number(advice->there_on)},
                      {"pairs", advice->pairs},
                      {"too_late", advice->too_late},
                      {"worst_before", json_figure(advice->worst_before)},
                      {"enough", advice->enough}};
    dancers.push_back(std::move(row));
  }
  Json json{{"format", "shankline-rotation/1"},
            {"day", job.today},
            {"drying_hours", json_figure(job.drying_hours)},
            {"wanted_pairs", wanted_pairs},
            {"limit", json_figure(chance_limit)},
            {"runs", job.runs}};
  json["lead_days"] = job.lead_days ? Json(*job.lead_days) : Json(nullptr);
  json["house"] = life_json(job.life);
  json["dancers"] = std::move(dancers);
  return wear_document(json);
}

} // namespace shankline
