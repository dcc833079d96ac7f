#include "base/text.hpp"
#include "report/render.hpp"

namespace gelwright {

std::string render_csv(const Report& report) {
  std::string out;
  for (const Section& section : report.sections)
    for (const Table& table : section.tables) {
      if (table.key != report.csv_table) continue;
      bool first = true;
      for (const Column& column : table.columns) {
        if (!in_json(column.shown)) continue;
        out += (first ? "" : ",") + csv_cell(column.key);
        first = false;
      }
      out += '\n';
      for (const auto& row : table.rows) {
        first = true;
        for (std::size_t c = 0; c < row.size(); ++c) {
          if (!in_json(table.columns[c].shown)) continue;
          out += (first ? "" : ",") + (row[c].empty() ? std::string() : csv_cell(shown(row[c])));
          first = false;
        }
        out += '\n';
      }
    }
  return out;
}

}  // namespace gelwright
