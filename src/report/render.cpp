#include "report/render.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace gelwright {

std::string fixed(double number, int decimals) {
  // A half that binary arithmetic has pushed down by a few units in the last place is still a half.
  const double scale = std::pow(10.0, decimals);
  const double nudged = std::round(std::abs(number) * scale * (1 + 1e-12)) / scale;
  if (!std::isfinite(nudged)) return "-";
  return fmt::format("{}{:.{}f}", number < 0 && nudged > 0 ? "-" : "", nudged, decimals);
}

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
