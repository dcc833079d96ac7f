#include <cmath>

#include "report/render.hpp"

namespace gelwright {

namespace {

/// RFC 4180: quote what holds a comma, a quote or a line end.
std::string field(const std::string& text) {
  if (text.find_first_of(",\"\r\n") == std::string::npos) return text;
  std::string quoted = "\"";
  for (const char c : text) {
    if (c == '"') quoted += '"';
    quoted += c;
  }
  return quoted + '"';
}

}  // namespace

std::string render_csv(const Report& report) {
  std::string out;
  for (const Section& section : report.sections)
    for (const Table& table : section.tables) {
      if (table.key != report.csv_table) continue;
      bool first = true;
      for (const Column& column : table.columns) {
        if (!in_json(column.shown)) continue;
        out += (first ? "" : ",") + field(column.key);
        first = false;
      }
      out += '\n';
      for (const auto& row : table.rows) {
        first = true;
        for (std::size_t c = 0; c < row.size(); ++c) {
          if (!in_json(table.columns[c].shown)) continue;
          out += (first ? "" : ",") + (row[c].empty() ? std::string() : field(shown(row[c])));
          first = false;
        }
        out += '\n';
      }
    }
  return out;
}

}  // namespace gelwright
