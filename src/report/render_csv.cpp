#include <nlohmann/json.hpp>

#include "base/harmless.hpp"
#include "base/text.hpp"
#include "report/render.hpp"

namespace gelwright::detail {

namespace {

const Table* find_table(const Report& report) {
  for (const Section& section : report.sections)
    for (const Table& table : section.tables)
      if (table.key == report.csv_table) return &table;
  return nullptr;
}

std::string print_table(const Table& table) {
  std::string out;
  const auto print_row = [&](const auto& text_of) {
    bool first = true;
    for (std::size_t c = 0; c < table.columns.size(); ++c) {
      if (!in_json(table.columns[c].shown)) continue;
      out += (first ? "" : ",") + csv_cell(visible(text_of(c)));
      first = false;
    }
    out += '\n';
  };
  print_row([&](std::size_t c) { return table.columns[c].key; });
  for (const auto& row : table.rows)
    print_row([&](std::size_t c) { return row[c].empty() ? std::string() : shown(row[c]); });
  return out;
}

/// Every value of the JSON document in a row of its own: where it stands, and what it is.
std::string print_values(const Report& report) {
  const nlohmann::ordered_json document = json_document(report);
  std::string out = "pointer,value\n";
  const auto print = [&out](const auto& self, const nlohmann::ordered_json& value,
                            const std::string& pointer) -> void {
    if (value.is_structured()) {
      for (const auto& [key, member] : value.items())
        self(self, member, pointer + '/' + escape_pointer(key));
      return;
    }
    std::string text;
    if (value.is_string())
      text = value.get<std::string>();
    else if (!value.is_null())
      text = value.dump();
    out += csv_cell(visible(pointer)) + ',' + csv_cell(visible(text)) + '\n';
  };
  print(print, document, "");
  return out;
}

}  // namespace

std::string render_csv(const Report& report, const Page&) {
  const Table* table = find_table(report);
  return table != nullptr ? print_table(*table) : print_values(report);
}

}  // namespace gelwright::detail
