#include <cmath>
#include <nlohmann/json.hpp>
#include <string_view>

#include "base/harmless.hpp"
#include "base/rounding.hpp"
#include "report/picture_json.hpp"
#include "report/render.hpp"

namespace gelwright::detail {

namespace {

using Json = nlohmann::ordered_json;

/// JSON carries this many decimals more than paper, so that sums still add up for a script.
constexpr int more_decimals = 3;

Json value_of(const Cell& cell) {
  if (const double* number = std::get_if<double>(&cell.value)) {
    if (!std::isfinite(*number)) return nullptr;
    const double shown = rounded(*number, cell.decimals + more_decimals);
    if (cell.decimals == 0 && shown == std::round(shown) && std::abs(shown) < 1e15)
      return static_cast<std::int64_t>(shown);
    return shown;
  }
  if (const bool* yes = std::get_if<bool>(&cell.value)) return *yes;
  if (const std::string* text = std::get_if<std::string>(&cell.value)) return *text;
  return nullptr;
}

Json value_of(const Table& table) {
  Json rows = Json::array();
  for (const auto& row : table.rows) {
    Json object = Json::object();
    for (std::size_t c = 0; c < row.size(); ++c)
      if (in_json(table.columns[c].shown)) object[table.columns[c].key] = value_of(row[c]);
    rows.push_back(std::move(object));
  }
  return rows;
}

/// The member a dotted key names: "pouch.outlook" is `outlook` in the object `pouch`.
Json& member(Json& body, std::string_view key) {
  Json* at = &body;
  while (true) {
    const std::size_t dot = key.find('.');
    at = &(*at)[std::string(key.substr(0, dot))];
    if (dot == std::string_view::npos) return *at;
    key.remove_prefix(dot + 1);
  }
}

/// How many figures, tables and lists of lines a section has for JSON.
std::ptrdiff_t json_parts(const Section& section) {
  std::ptrdiff_t parts = 0;
  for (const auto& figure : section.figures) parts += in_json(figure.shown) ? 1 : 0;
  for (const auto& table : section.tables) parts += in_json(table.shown) ? 1 : 0;
  for (const auto& lines : section.lines) parts += in_json(lines.shown) ? 1 : 0;
  parts += std::ssize(section.pictures);
  return parts;
}

bool for_paper_only(const Section& section) {
  const bool any = !section.figures.empty() || !section.tables.empty() || !section.lines.empty();
  return any && json_parts(section) == 0;
}

}  // namespace

Json json_document(const Report& report) {
  Json document = Json::object();
  document["format"] = report.format;
  if (report.names_program) {
    document["program"] = "gelwright";
    document["version"] = std::string(program_version());
  }
  document["title"] = report.title;
  Json not_computed = Json::object();
  for (const Section& section : report.sections) {
    if (section.key.empty() || for_paper_only(section)) continue;
    Json body = document.contains(section.key) ? document[section.key] : Json::object();
    // One table or one list of lines that is all a section has to say stands in its place.
    const bool alone = json_parts(section) == 1;
    const auto place = [&](const std::string& key, Json value) {
      if (alone && key == section.key)
        body = std::move(value);
      else
        member(body, key) = std::move(value);
    };
    for (const Figure& figure : section.figures) {
      if (!in_json(figure.shown)) continue;
      member(body, figure.key) = value_of(figure.cell);
      if (figure.cell.empty() && !figure.why_empty.empty())
        not_computed[section.key + '.' + figure.key] = figure.why_empty;
    }
    for (const Table& table : section.tables)
      if (in_json(table.shown)) place(table.key, value_of(table));
    for (const Lines& lines : section.lines)
      if (in_json(lines.shown)) place(lines.key, lines.items);
    for (const Picture& picture : section.pictures) place(picture.key, json_of(picture));
    document[section.key] = std::move(body);
  }
  document["not_computed"] = std::move(not_computed);
  return document;
}

std::string render_json(const Report& report, const Page&) {
  // Text from a recipe is valid UTF-8 already; a file name may not be.
  return visible_document(
      json_document(report).dump(2, ' ', false, Json::error_handler_t::replace) + '\n');
}

}  // namespace gelwright::detail
