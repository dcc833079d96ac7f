#include "result_schema.hpp"

#include <map>
#include <nlohmann/json.hpp>
#include <optional>
#include <set>
#include <string_view>

#include "report/render.hpp"

namespace gelwright::test {

namespace {

using Json = nlohmann::ordered_json;

/// What has been seen at one place of the documents.
struct Place {
  std::set<std::string> types;
  std::optional<std::string> description;  ///< empty where the reports do not agree
  bool number = false;                     ///< by its column, even where no number was seen
  bool named_by_recipe = false;
  std::size_t seen = 0;
  std::size_t objects = 0;
  std::vector<std::string> order;  ///< of `members`
  std::map<std::string, Place> members;
  std::vector<Place> items;  ///< none or one

  Place& member(const std::string& key) {
    if (members.count(key) == 0) order.push_back(key);
    return members[key];
  }
  Place& item() {
    if (items.empty()) items.emplace_back();
    return items.front();
  }
  void describe(const std::string& text) {
    if (!description) description = text;
    if (*description != text) description = "";
  }
};

void see(Place& place, const Json& value) {
  ++place.seen;
  place.types.insert(value.is_number() ? "number" : value.type_name());
  if (value.is_object()) {
    ++place.objects;
    for (const auto& [key, member] : value.items()) see(place.member(key), member);
  }
  if (value.is_array())
    for (const Json& each : value) see(place.item(), each);
}

std::string described(const std::string& label, const std::string& unit) {
  if (label.empty()) return unit;
  return unit.empty() ? label : label + ", " + unit;
}

/// The place a dotted key names.
Place& at(Place& place, std::string_view key) {
  const std::size_t dot = key.find('.');
  Place& member = place.member(std::string(key.substr(0, dot)));
  return dot == std::string_view::npos ? member : at(member, key.substr(dot + 1));
}

/// The place a table's dotted key names, or the section itself where the table is all it holds.
Place& place_of(Place& section, std::string_view key) {
  const std::string first(key.substr(0, key.find('.')));
  return section.members.count(first) > 0 ? at(section, key) : section;
}

void describe(Place& document, const Report& report) {
  for (const Section& section : report.sections) {
    if (section.key.empty() || document.members.count(section.key) == 0) continue;
    Place& body = document.member(section.key);
    body.describe(section.title);
    for (const Figure& figure : section.figures)
      if (detail::in_json(figure.shown)) {
        Place& place = at(body, figure.key);
        place.describe(described(figure.label, figure.unit));
        if (figure.cell.optional || !figure.why_empty.empty()) place.types.insert("null");
      }
    for (const Table& table : section.tables) {
      if (!detail::in_json(table.shown)) continue;
      Place& rows = place_of(body, table.key);
      for (std::size_t c = 0; c < table.columns.size(); ++c) {
        const Column& column = table.columns[c];
        if (!detail::in_json(column.shown)) continue;
        if (rows.item().members.count(column.key) == 0) continue;
        Place& place = rows.item().member(column.key);
        place.describe(column.label);
        place.number = place.number || column.numeric;
        for (const auto& row : table.rows)
          if (row[c].optional) place.types.insert("null");
        place.named_by_recipe = place.named_by_recipe || column.named_by_recipe;
      }
    }
  }
}

Json written(const Place& place) {
  Json schema = Json::object();
  if (place.description && !place.description->empty()) schema["description"] = *place.description;
  std::set<std::string> types = place.types;
  const bool only_null = types == std::set<std::string>{"null"};
  if (only_null && place.number) types.insert("number");
  // A value never seen says nothing of its type.
  if (!only_null || place.number) {
    if (types.size() == 1)
      schema["type"] = *types.begin();
    else
      schema["type"] = types;
  }
  if (types.count("array") > 0 && !place.items.empty())
    schema["items"] = written(place.items.front());
  if (types.count("object") > 0) {
    Json properties = Json::object();
    Json required = Json::array();
    Json additional = false;
    for (const std::string& key : place.order) {
      const Place& member = place.members.at(key);
      if (member.named_by_recipe) {
        additional = {{"type", {"number", "null"}}};
        continue;
      }
      properties[key] = written(member);
      if (member.seen == place.objects) required.push_back(key);
    }
    schema["properties"] = std::move(properties);
    if (!required.empty()) schema["required"] = std::move(required);
    schema["additionalProperties"] = std::move(additional);
  }
  return schema;
}

}  // namespace

std::string schema_of(const std::vector<Report>& reports) {
  Place document;
  for (const Report& report : reports) {
    Json json = detail::json_document(report);
    json["not_computed"] = Json::object();  // its keys are those of other places
    see(document, json);
    describe(document, report);
  }
  document.member("not_computed").describe("why a value is null, by its key");
  Json schema = {{"$schema", "https://json-schema.org/draft/2020-12/schema"},
                 {"title", reports.front().format}};
  schema.update(written(document));
  schema["properties"]["format"] = {{"const", reports.front().format}};
  schema["properties"]["not_computed"]["additionalProperties"] = {{"type", "string"}};
  return schema.dump(2) + '\n';
}

}  // namespace gelwright::test
