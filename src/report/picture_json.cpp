#include "report/picture_json.hpp"

#include <nlohmann/json.hpp>

#include "base/rounding.hpp"

namespace gelwright::detail {

namespace {

using Json = nlohmann::ordered_json;

/// More than a drawing can show, and no noise of binary arithmetic.
constexpr int figures = 6;

double number(double value) {
  return to_figures(value, figures);
}

Json numbers(const std::vector<double>& values) {
  Json all = Json::array();
  for (const double value : values) all.push_back(number(value));
  return all;
}

Json json_of(const Axis& axis) {
  return {{"label", axis.label},
          {"unit", axis.unit},
          {"low", number(axis.low)},
          {"high", number(axis.high)}};
}

std::string kind_name(PictureKind kind, const std::vector<std::string>& kinds) {
  return kind == no_kind ? "not foretold" : kinds[kind];
}

/// A side that is not asked for is left out.
Json json_of(const Window& window) {
  Json json = {{"key", window.key}, {"label", window.label}};
  if (window.low) json["low"] = number(*window.low);
  if (window.high) json["high"] = number(*window.high);
  return json;
}

Json json_of(const Regions& regions) {
  Json likeliest = Json::array();
  Json chance = Json::array();
  for (std::size_t r = 0; r < regions.rows; ++r) {
    Json names = Json::array();
    Json chances = Json::array();
    for (std::size_t c = 0; c < regions.columns; ++c) {
      const std::size_t at = r * regions.columns + c;
      names.push_back(kind_name(regions.kind[at], regions.kinds));
      chances.push_back(rounded(regions.chance[at], 3));
    }
    likeliest.push_back(std::move(names));
    chance.push_back(std::move(chances));
  }
  return {{"key", regions.key},
          {"label", regions.label},
          {"likeliest", std::move(likeliest)},
          {"chance", std::move(chance)}};
}

Json json_of(const Strip& strip) {
  Json pieces = Json::array();
  for (const Strip::Piece& each : strip.pieces)
    pieces.push_back({{"from", number(each.from)},
                      {"to", number(each.to)},
                      {"likeliest", kind_name(each.kind, strip.kinds)},
                      {"chance", rounded(each.chance, 3)}});
  return {{"key", strip.key}, {"label", strip.label}, {"pieces", std::move(pieces)}};
}

Json json_of(const Bars& bars) {
  Json rows = Json::array();
  for (const Bars::Row& each : bars.rows)
    rows.push_back({{"label", each.label}, {"value", number(each.value)}, {"words", each.words}});
  return rows;
}

/// A bar or a limit that is not there is left out.
Json json_of(const Lanes& lanes) {
  Json rows = Json::array();
  for (const Lanes::Row& each : lanes.rows) {
    Json row = {{"label", each.label}, {"words", each.words}, {"at", numbers(each.at)}};
    if (each.from) row["from"] = number(*each.from);
    if (each.to) row["to"] = number(*each.to);
    if (each.limit) row["limit"] = number(*each.limit);
    rows.push_back(std::move(row));
  }
  return {{"key", lanes.key},
          {"marker_label", lanes.marker_label},
          {"bar_label", lanes.bar_label},
          {"limit_label", lanes.limit_label},
          {"rows", std::move(rows)}};
}

}  // namespace

Json json_of(const Picture& picture) {
  Json json = {{"title", picture.title}, {"sentence", picture.sentence}};
  if (picture.bars) {
    json["bars"] = json_of(*picture.bars);
    return json;
  }
  json["x"] = json_of(picture.x);
  if (picture.lanes) {
    json["lanes"] = json_of(*picture.lanes);
    return json;
  }
  json["y"] = json_of(picture.y);
  if (picture.regions) json["regions"] = json_of(*picture.regions);
  for (const Window& each : picture.windows) json["windows"].push_back(json_of(each));
  for (const Band& each : picture.bands)
    json["bands"].push_back({{"key", each.key},
                             {"label", each.label},
                             {"x", numbers(each.x)},
                             {"low", numbers(each.low)},
                             {"high", numbers(each.high)}});
  for (const Curve& each : picture.curves)
    json["curves"].push_back(
        {{"key", each.key}, {"label", each.label}, {"x", numbers(each.x)}, {"y", numbers(each.y)}});
  for (const Points& each : picture.points)
    json["points"].push_back({{"key", each.key},
                              {"label", each.label},
                              {"x", numbers(each.x)},
                              {"y", numbers(each.y)},
                              {"names", each.names},
                              {"x_half", numbers(each.x_half)}});
  if (picture.strip) json["strip"] = json_of(*picture.strip);
  return json;
}

}  // namespace gelwright::detail
