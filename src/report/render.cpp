#include "report/render.hpp"

#include "base/rounding.hpp"

namespace gelwright {

std::string shown(const Cell& cell) {
  if (const double* number = std::get_if<double>(&cell.value)) return fixed(*number, cell.decimals);
  if (const bool* yes = std::get_if<bool>(&cell.value)) return *yes ? "yes" : "no";
  if (const std::string* text = std::get_if<std::string>(&cell.value)) return *text;
  return "-";
}

std::string render(const Report& report, Format format) {
  switch (format) {
    case Format::text:
      return render_text(report);
    case Format::markdown:
      return render_markdown(report);
    case Format::json:
      return render_json(report);
    case Format::csv:
      return render_csv(report);
  }
  return "";
}

}  // namespace gelwright
