#include <fmt/format.h>

#include <algorithm>
#include <numeric>

#include "base/text.hpp"
#include "report/render.hpp"

namespace gelwright::detail {

namespace {

constexpr std::string_view gap = "  ";
constexpr std::string_view tick_box = "[ ] ";

std::string trimmed(std::string line) {
  line.erase(line.find_last_not_of(' ') + 1);
  return line;
}

void print_wrapped(std::string& out, std::size_t width, const std::string& text,
                   const std::string& first, const std::string& rest) {
  std::string prefix = first;
  for (const std::string& line : wrap(text, width - display_width(first))) {
    out += trimmed(prefix + line) + '\n';
    prefix = rest;
  }
}

void print_figures(std::string& out, std::size_t width, const std::vector<Figure>& figures) {
  std::size_t label_width = 0;
  for (const Figure& figure : figures)
    if (in_text(figure.shown)) label_width = std::max(label_width, display_width(figure.label));
  for (const Figure& figure : figures) {
    if (!in_text(figure.shown)) continue;
    std::string value;
    if (figure.cell.empty()) {
      value = figure.why_empty.empty() ? "-" : "not computed: " + figure.why_empty;
    } else {
      value = shown(figure.cell);
      if (!figure.unit.empty()) value += ' ' + figure.unit;
      if (!figure.remark.empty()) value += ' ' + figure.remark;
    }
    const std::string label = pad(figure.label, label_width) + "  ";
    print_wrapped(out, width, value, label, std::string(label_width + 2, ' '));
  }
}

std::size_t longest_word(const std::string& text) {
  std::size_t longest = 0;
  for (const std::string& word : wrap(text, 1)) longest = std::max(longest, display_width(word));
  return longest;
}

/// Widths that fit the page: the widest text column gives way and its cells wrap, never narrower
/// than its longest word.
std::vector<std::size_t> column_widths(const std::vector<std::vector<std::string>>& grid,
                                       const std::vector<const Column*>& columns,
                                       std::size_t room) {
  std::vector<std::size_t> widths(columns.size(), 0);
  std::vector<std::size_t> least(columns.size(), 0);
  for (const auto& row : grid)
    for (std::size_t c = 0; c < row.size(); ++c) {
      widths[c] = std::max(widths[c], display_width(row[c]));
      least[c] = std::max(least[c], longest_word(row[c]));
    }
  const auto total = [&] {
    return std::accumulate(widths.begin(), widths.end(), std::size_t{0}) +
           gap.size() * (widths.size() - 1);
  };
  while (total() > room) {
    std::size_t widest = columns.size();
    for (std::size_t c = 0; c < columns.size(); ++c)
      if (!columns[c]->numeric && widths[c] > least[c] &&
          (widest == columns.size() || widths[c] > widths[widest]))
        widest = c;
    if (widest == columns.size()) break;
    --widths[widest];
  }
  return widths;
}

/// The last column of a row with anything in it.
std::size_t last_filled(const std::vector<std::string>& row) {
  std::size_t last = row.size();
  while (last > 1 && row[last - 1].empty()) --last;
  return last - 1;
}

/// What is left of the page from a column on.
std::size_t room_from(std::size_t column, const std::vector<std::size_t>& widths,
                      std::size_t room) {
  std::size_t before = 0;
  for (std::size_t c = 0; c < column; ++c) before += widths[c] + gap.size();
  return std::max(widths[column], room > before ? room - before : 0);
}

/// A row as "first: second; label third; ...", for tables no page is wide enough for.
void print_paragraphs(std::string& out, std::size_t width, const Table& table) {
  for (const auto& row : table.rows) {
    std::string text;
    bool first = true;
    for (std::size_t c = 0; c < row.size(); ++c) {
      if (!in_text(table.columns[c].shown) || row[c].empty() || shown(row[c]).empty()) continue;
      if (text.empty())
        text = shown(row[c]) + ':';
      else
        text += fmt::format("{} {} {}", first ? "" : ";", table.columns[c].label, shown(row[c]));
      first = text.back() == ':';
    }
    print_wrapped(out, width, text, "- ", "  ");
  }
}

void print_table(std::string& out, std::size_t page_width, const Table& table) {
  if (table.wide) {
    print_paragraphs(out, page_width, table);
    return;
  }
  std::vector<const Column*> columns;
  std::vector<std::size_t> at;
  for (std::size_t c = 0; c < table.columns.size(); ++c)
    if (in_text(table.columns[c].shown)) {
      columns.push_back(&table.columns[c]);
      at.push_back(c);
    }
  std::vector<std::vector<std::string>> grid(1);
  for (const Column* column : columns) grid[0].push_back(column->label);
  for (const auto& row : table.rows) {
    grid.emplace_back();
    for (const std::size_t c : at) grid.back().push_back(row[c].empty() ? "" : shown(row[c]));
  }
  const std::size_t indent = table.tick_boxes ? tick_box.size() : 0;
  const std::vector<std::size_t> widths = column_widths(grid, columns, page_width - indent);
  for (std::size_t r = 0; r < grid.size(); ++r) {
    std::vector<std::vector<std::string>> wrapped;
    std::size_t height = 1;
    const std::size_t last = last_filled(grid[r]);
    for (std::size_t c = 0; c < columns.size(); ++c) {
      // The last text of a row may run on under the empty columns beside it.
      wrapped.push_back(wrap(grid[r][c], c == last && !columns[c]->numeric
                                             ? room_from(c, widths, page_width - indent)
                                             : widths[c]));
      height = std::max(height, wrapped.back().size());
    }
    for (std::size_t line = 0; line < height; ++line) {
      std::string text =
          indent == 0 ? ""
                      : (r > 0 && line == 0 ? std::string(tick_box) : std::string(indent, ' '));
      for (std::size_t c = 0; c < columns.size(); ++c) {
        if (c > 0) text += gap;
        const std::string cell = line < wrapped[c].size() ? wrapped[c][line] : "";
        text += pad(cell, widths[c], columns[c]->numeric);
      }
      out += trimmed(text) + '\n';
    }
    if (r == 0) {
      const std::size_t width = indent +
                                std::accumulate(widths.begin(), widths.end(), std::size_t{0}) +
                                gap.size() * (widths.size() - 1);
      out += std::string(std::min(width, page_width), '-') + '\n';
    }
  }
}

void print_lines(std::string& out, std::size_t width, const Lines& lines) {
  for (std::size_t i = 0; i < lines.items.size(); ++i) {
    std::string first;
    if (lines.style == Lines::Style::bullets) first = "- ";
    if (lines.style == Lines::Style::steps) first = fmt::format("{:>2}. ", i + 1);
    print_wrapped(out, width, lines.items[i], first, std::string(first.size(), ' '));
  }
}

/// Narrower than this no table can be read.
constexpr std::size_t narrowest = 40;

}  // namespace

std::string render_text(const Report& report, const Page& page) {
  const std::size_t page_width = std::max(page.width, narrowest);
  std::string out;
  if (!report.title.empty()) {
    print_wrapped(out, page_width, report.title, "", "");
    out += std::string(std::min(page_width, display_width(report.title)), '=') + '\n';
  }
  for (const Section& section : report.sections) {
    std::string body;
    print_figures(body, page_width, section.figures);
    for (const Table& table : section.tables) {
      if (!in_text(table.shown) || table.rows.empty()) continue;
      if (!body.empty()) body += '\n';
      print_table(body, page_width, table);
    }
    for (const Lines& lines : section.lines)
      if (in_text(lines.shown)) print_lines(body, page_width, lines);
    if (body.empty()) continue;
    if (!out.empty()) out += '\n';
    if (!section.title.empty()) out += section.title + '\n';
    out += body;
  }
  return page.utf8 ? with_signs(std::move(out)) : out;
}

}  // namespace gelwright::detail
