#include <fmt/format.h>

#include "report/render.hpp"

namespace gelwright {

namespace {

/// Text that must not be read as Markdown.
std::string escaped(const std::string& text) {
  std::string out;
  for (const char c : text) {
    if (c == '|' || c == '*' || c == '_' || c == '`' || c == '<' || c == '[' || c == '\\')
      out += '\\';
    out += c;
  }
  return out;
}

void print_figures(std::string& out, const std::vector<Figure>& figures) {
  bool any = false;
  for (const Figure& figure : figures) {
    if (!in_text(figure.shown)) continue;
    if (!any) out += "| | |\n|---|---|\n";
    any = true;
    std::string value = figure.cell.empty() && !figure.why_empty.empty()
                            ? "not computed: " + escaped(figure.why_empty)
                            : escaped(shown(figure.cell));
    if (!figure.cell.empty() && !figure.unit.empty()) value += ' ' + escaped(figure.unit);
    if (!figure.cell.empty() && !figure.remark.empty()) value += ' ' + escaped(figure.remark);
    out += fmt::format("| {} | {} |\n", escaped(figure.label), value);
  }
  if (any) out += '\n';
}

void print_table(std::string& out, const Table& table) {
  std::string rule = table.tick_boxes ? "|---|" : "|";
  out += table.tick_boxes ? "| |" : "|";
  for (const Column& column : table.columns) {
    if (!in_text(column.shown)) continue;
    out += fmt::format(" {} |", escaped(column.label));
    rule += column.numeric ? "---:|" : "---|";
  }
  out += '\n' + rule + '\n';
  for (const auto& row : table.rows) {
    out += table.tick_boxes ? "| ☐ |" : "|";
    for (std::size_t c = 0; c < row.size(); ++c)
      if (in_text(table.columns[c].shown))
        out += fmt::format(" {} |", row[c].empty() ? "" : escaped(shown(row[c])));
    out += '\n';
  }
  out += '\n';
}

void print_lines(std::string& out, const Lines& lines) {
  for (std::size_t i = 0; i < lines.items.size(); ++i) {
    if (lines.style == Lines::Style::bullets) out += "- ";
    if (lines.style == Lines::Style::steps) out += fmt::format("{}. ", i + 1);
    out += escaped(lines.items[i]) + '\n';
    if (lines.style == Lines::Style::paragraph) out += '\n';
  }
  if (!lines.items.empty() && lines.style != Lines::Style::paragraph) out += '\n';
}

}  // namespace

std::string render_markdown(const Report& report) {
  std::string out;
  if (!report.title.empty()) out += "# " + escaped(report.title) + "\n\n";
  for (const Section& section : report.sections) {
    std::string body;
    print_figures(body, section.figures);
    for (const Table& table : section.tables)
      if (in_text(table.shown) && !table.rows.empty()) print_table(body, table);
    for (const Lines& lines : section.lines)
      if (in_text(lines.shown)) print_lines(body, lines);
    if (body.empty()) continue;
    if (!section.title.empty()) out += "## " + escaped(section.title) + "\n\n";
    out += body;
  }
  while (out.size() > 1 && out[out.size() - 2] == '\n') out.pop_back();
  return out;
}

}  // namespace gelwright
