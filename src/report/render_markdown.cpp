#include <fmt/format.h>

#include <algorithm>
#include <string_view>

#include "report/render.hpp"

namespace gelwright::detail {

namespace {

/// Text that must not be read as Markdown, inside a line.
std::string escaped(const std::string& text) {
  constexpr std::string_view marks = "|*_`<[&\\";
  std::string out;
  for (const char c : text) {
    if (marks.find(c) != std::string_view::npos) out += '\\';
    out += c;
  }
  return out;
}

/// Text that begins a line: no heading, quotation, list, rule or block of code either.
std::string escaped_line(const std::string& text) {
  const std::size_t from = std::min(text.find_first_not_of(' '), text.size());
  std::string out = escaped(text.substr(from));
  constexpr std::string_view starts = "#>-+=~";
  const std::size_t after_digits = out.find_first_not_of("0123456789");
  if (!out.empty() && starts.find(out.front()) != std::string_view::npos)
    out.insert(0, 1, '\\');
  else if (after_digits > 0 && after_digits != std::string::npos &&
           (out[after_digits] == '.' || out[after_digits] == ')'))
    out.insert(after_digits, 1, '\\');
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
    out += escaped_line(lines.items[i]) + '\n';
    if (lines.style == Lines::Style::paragraph) out += '\n';
  }
  if (!lines.items.empty() && lines.style != Lines::Style::paragraph) out += '\n';
}

}  // namespace

std::string render_markdown(const Report& report, const Page&) {
  std::string out;
  if (!report.title.empty()) out += "# " + escaped_line(report.title) + "\n\n";
  for (const Section& section : report.sections) {
    std::string body;
    print_figures(body, section.figures);
    for (const Table& table : section.tables)
      if (in_text(table.shown) && !table.rows.empty()) print_table(body, table);
    for (const Lines& lines : section.lines)
      if (in_text(lines.shown)) print_lines(body, lines);
    if (body.empty()) continue;
    if (!section.title.empty()) out += "## " + escaped_line(section.title) + "\n\n";
    out += body;
  }
  while (out.size() > 1 && out[out.size() - 2] == '\n') out.pop_back();
  return out;
}

}  // namespace gelwright::detail
