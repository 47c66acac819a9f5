#include "cli/report/learned_json.hpp"

#include "cli/report/learned_words.hpp"
#include "export/json/json_figure.hpp"
#include "export/lettering/code_point.hpp"
#include "geometry/learning/learned_use.hpp"

#include <nlohmann/json.hpp>

namespace shankline {
namespace {

using Json = nlohmann::ordered_json;

Json learned_number(const std::optional<double>& value) {
  return value ? Json(json_figure(*value)) : Json(nullptr);
}
Json learned_day(const std::optional<Day>& value) {
  return value ? Json(day_text(*value)) : Json(nullptr);
}
Json learned_word(const std::string& text) {
  return text.empty() ? Json(nullptr) : Json(text);
}

Json learned(const LearnedFigure& figure) {
  return {{"value", learned_number(figure.mean)},
          {"U", learned_number(figure.U())},
          {"surely_not_zero", figure.surely_not_zero()}};
}

Json differences(const LearnedHouse& house) {
  Json rows = Json::array();
  for (const ReaderDifference& found : reader_differences(house))
    rows.push_back({{"reader", learned_word(found.reader)},
                    {"than", learned_word(found.than)},
                    {"farther_forward", learned(found.difference)}});
  return rows;
}

Json track(const TrackRecord& record) {
  Json json;
  json["month"] = nullptr;
  if (record.month) json["month"] = day_text(Day(*record.month / std::chrono::day(1))).substr(0, 7);
  json["shoes"] = record.shoes;
  json["ended_good"] = record.ended_good;
  json["tries_until_good"] = learned_number(record.tries_until_good);
  json["cut_too_far"] = record.cut_too_far;
  json["stopped"] = record.stopped;
  json["promised"] = record.promised;
  json["mean_off"] = learned_number(record.mean_off);
  json["sd_off"] = learned_number(record.sd_off);
  json["inside_U"] = record.inside_U;
  return json;
}

Json noted(const std::vector<NotedFigure>& figures) {
  Json rows = Json::array();
  for (const NotedFigure& figure : figures)
    rows.push_back({{"dancer", figure.dancer},
                    {"foot", foot_name(figure.foot)},
                    {"day", day_text(figure.day)},
                    {"noted", learned_number(figure.noted)},
                    {"predicted", learned_number(figure.predicted)}});
  return rows;
}

Json feet(const LearnedHouse& house) {
  Json rows = Json::array();
  for (const LearnedFoot& foot : house.feet) {
    const LearnedPlace& place = foot.place;
    rows.push_back({{"dancer", foot.dancer},
                    {"foot", foot_name(foot.side)},
                    {"style", learned_word(foot.style)},
                    {"place", learned_number(place.mean)},
                    {"U", learned_number(place.U)},
                    {"pairs", place.pairs},
                    {"first", learned_day(place.first)},
                    {"last", learned_day(place.last)},
                    {"good_after_wear", place.good_after_wear},
                    {"jump_probability", learned_number(place.jump_probability)},
                    {"earlier_jump_probability", learned_number(place.earlier_jump_probability)},
                    {"too_far", place.too_far ? learned_number(*place.too_far) : Json(nullptr)},
                    {"final", learned_number(learned_final(place))},
                    {"measure_again", foot.measure_again}});
  }
  return rows;
}

} // namespace

std::string track_json(const TrackRecord& record) {
  return track(record).dump();
}

std::string learned_json(const LearnedHouse& house) {
  Json json{{"format", "shankline-learned/1"},
            {"model", learning_model_version},
            {"shoes", house.shoes},
            {"answers", house.trials},
            {"first", learned_day(house.first)},
            {"last", learned_day(house.last)}};
  json["house"] = learned(house.fit.house);
  json["figures"] = {{"width", learned_number(house.fit.figures.width)},
                     {"noise", learned_number(house.fit.figures.noise)},
                     {"dancers", learned_number(house.fit.figures.dancers)},
                     {"drift", learned_number(house.fit.figures.drift)},
                     {"politeness", learned_number(house.fit.figures.politeness)}};
  json["readers"] = Json::array();
  for (const ReaderHabit& reader : house.fit.readers)
    json["readers"].push_back({{"reader", learned_word(reader.reader)},
                               {"habit", learned(reader.habit)},
                               {"readings", reader.sessions}});
  json["reader_differences"] = differences(house);
  json["styles"] = Json::array();
  for (const StyleShift& style : house.fit.styles)
    json["styles"].push_back({{"style", learned_word(style.style)},
                              {"shift", learned(style.shift)},
                              {"shoes", style.shoes}});
  json["feet"] = feet(house);
  json["track"] = {{"all", track(house.track.all)}, {"months", Json::array()}};
  for (const TrackRecord& month : house.track.months)
    json["track"]["months"].push_back(track(month));
  json["found"] = Json::array();
  for (const FoundPlace& found : house.found)
    json["found"].push_back({{"dancer", found.dancer},
                             {"foot", foot_name(found.side)},
                             {"pair", found.pair},
                             {"promised", learned_number(found.promised.place)},
                             {"U", learned_number(found.promised.U)},
                             {"found", learned_number(found.found)}});
  json["gaps"] = noted(house.history.gaps);
  json["breaks"] = noted(house.history.breaks);
  json["never_too_low"] = Json::array();
  for (const NeverTooLow& never : house.never_too_low)
    json["never_too_low"].push_back({{"dancer", never.dancer}, {"answers", never.trials}});
  const HouseHistory& history = house.history;
  json["left_out"] = {{"notes_without_foot", history.footless},
                      {"notes_without_end", history.endless},
                      {"notes_withdrawn", history.withdrawn},
                      {"orders_unread", history.unread},
                      {"faults", history.left_out.size()}};
  return with_controls_escaped(json.dump(2, ' ', false, Json::error_handler_t::replace)) + "\n";
}

} // namespace shankline
