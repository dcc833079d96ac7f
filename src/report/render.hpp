// One renderer for each format. Private.
#pragma once

#include <nlohmann/json_fwd.hpp>

#include "gelwright/report.hpp"

namespace gelwright::detail {

std::string render_text(const Report& report);
std::string render_markdown(const Report& report);
std::string render_json(const Report& report);
std::string render_csv(const Report& report);

/// The report as the JSON document that `render_json` writes out.
nlohmann::ordered_json json_document(const Report& report);

/// The cell as shown on paper; empty cells are "-".
std::string shown(const Cell& cell);

inline bool in_text(Shown where) {
  return where != Shown::json_only;
}
inline bool in_json(Shown where) {
  return where != Shown::text_only;
}

}  // namespace gelwright::detail
