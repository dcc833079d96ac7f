// One renderer for each format. Private.
#pragma once

#include <nlohmann/json_fwd.hpp>
#include <string>
#include <string_view>

#include "gelwright/report.hpp"

namespace gelwright::detail {

std::string render_text(const Report& report, const Page& page);
std::string render_markdown(const Report& report, const Page& page);
std::string render_html(const Report& report, const Page& page);
std::string render_svg(const Report& report, const Page& page);
std::string render_json(const Report& report, const Page& page);
std::string render_csv(const Report& report, const Page& page);

struct Renderer {
  Format format;
  std::string_view name;
  std::string (*render)(const Report&, const Page&);
  bool for_the_eye;  ///< may end on a terminal as it is
  bool pictures;
};

/// Every format there is: a new one is a value of `Format`, a row here, and a file of its own.
inline constexpr Renderer renderers[] = {
    {Format::text, "text", render_text, true, false},
    {Format::markdown, "markdown", render_markdown, true, false},
    {Format::html, "html", render_html, true, true},
    {Format::svg, "svg", render_svg, true, true},
    {Format::json, "json", render_json, false, true},
    {Format::csv, "csv", render_csv, false, false}};

/// The report as the JSON document that `render_json` writes out.
nlohmann::ordered_json json_document(const Report& report);

/// The cell as shown on paper; empty cells are "-".
std::string shown(const Cell& cell);

/// The text with the signs a page can show in place of their ASCII.
std::string with_signs(std::string text);

inline bool in_text(Shown where) {
  return where == Shown::everywhere || where == Shown::text_only;
}
inline bool in_json(Shown where) {
  return where == Shown::everywhere || where == Shown::json_only;
}
inline bool on_page(Shown where) {
  return where != Shown::json_only;
}

}  // namespace gelwright::detail
