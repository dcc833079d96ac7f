#include "report/render.hpp"

#include "base/harmless.hpp"
#include "base/rounding.hpp"

namespace gelwright {

namespace detail {

std::string shown(const Cell& cell) {
  if (const double* number = std::get_if<double>(&cell.value)) return fixed(*number, cell.decimals);
  if (const bool* yes = std::get_if<bool>(&cell.value)) return *yes ? "yes" : "no";
  if (const std::string* text = std::get_if<std::string>(&cell.value)) return *text;
  return "-";
}

std::string with_signs(std::string text) {
  const auto replace = [&text](std::string_view ascii, std::string_view sign) {
    for (std::size_t at = text.find(ascii); at != std::string::npos; at = text.find(ascii, at))
      text.replace(at, ascii.size(), sign);
  };
  replace("degC", "\u00b0C");
  replace("+- ", "\u00b1 ");
  return text;
}

namespace {

void make_visible(Cell& cell) {
  if (std::string* text = std::get_if<std::string>(&cell.value)) *text = visible(*text);
}

void make_visible(Picture& picture) {
  const auto mend = [](std::string& text) { text = visible(text); };
  for (std::string* text : {&picture.title, &picture.sentence, &picture.x.label, &picture.y.label})
    mend(*text);
  for (Window& each : picture.windows) mend(each.label);
  for (Band& each : picture.bands) mend(each.label);
  for (Curve& each : picture.curves) mend(each.label);
  for (Points& each : picture.points) {
    mend(each.label);
    for (std::string& name : each.names) mend(name);
  }
  if (picture.bars)
    for (Bars::Row& row : picture.bars->rows) {
      mend(row.label);
      mend(row.words);
    }
}

/// The report with every text harmless to a terminal, before anything is measured and laid out.
Report made_visible(Report report) {
  const auto mend = [](std::string& text) { text = visible(text); };
  mend(report.title);
  for (Section& section : report.sections) {
    mend(section.title);
    for (Figure& figure : section.figures) {
      for (std::string* text : {&figure.label, &figure.unit, &figure.why_empty, &figure.remark})
        mend(*text);
      make_visible(figure.cell);
    }
    for (Table& table : section.tables) {
      for (Column& column : table.columns) mend(column.label);
      for (auto& row : table.rows)
        for (Cell& cell : row) make_visible(cell);
    }
    for (Lines& lines : section.lines)
      for (std::string& item : lines.items) mend(item);
    for (Picture& picture : section.pictures) make_visible(picture);
  }
  return report;
}

}  // namespace

}  // namespace detail

std::vector<std::string_view> format_names() {
  std::vector<std::string_view> names;
  for (const detail::Renderer& each : detail::renderers) names.push_back(each.name);
  return names;
}

std::optional<Format> format_named(std::string_view name) {
  for (const detail::Renderer& each : detail::renderers)
    if (each.name == name) return each.format;
  return std::nullopt;
}

bool for_the_eye(Format format) {
  for (const detail::Renderer& each : detail::renderers)
    if (each.format == format) return each.for_the_eye;
  return false;
}

bool shows_pictures(Format format) {
  for (const detail::Renderer& each : detail::renderers)
    if (each.format == format) return each.pictures;
  return false;
}

std::string render(const Report& report, Format format, const Page& page) {
  for (const detail::Renderer& each : detail::renderers)
    if (each.format == format)
      return each.render(each.for_the_eye ? detail::made_visible(report) : report, page);
  return "";
}

}  // namespace gelwright
