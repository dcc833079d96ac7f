// The page: one HTML file that needs nothing beside it, and no script.
#include <fmt/format.h>

#include <algorithm>
#include <string_view>

#include "base/markup.hpp"
#include "picture/look.hpp"
#include "report/page_style.hpp"
#include "report/render.hpp"

namespace gelwright::detail {

namespace {

std::string value_of(const Figure& figure) {
  if (figure.cell.empty())
    return figure.why_empty.empty() ? "-" : "not computed: " + figure.why_empty;
  std::string value = shown(figure.cell);
  for (const std::string* behind : {&figure.unit, &figure.remark})
    if (!behind->empty()) value += ' ' + *behind;
  return with_signs(value);
}

/// How a word of warning is set, so that it is found without colour too.
std::string class_of(std::string_view word) {
  if (word == "STOP" || word == "stop") return "stop";
  return word == "CARE" || word == "care" ? "level" : "";
}

void print_figures(Markup& page, const Section& section) {
  const auto& figures = section.figures;
  if (std::none_of(figures.begin(), figures.end(),
                   [](const Figure& figure) { return on_page(figure.shown); }))
    return;
  page.open("table", {{"class", "figures"}}).open("tbody").line();
  for (const Figure& figure : figures) {
    if (!on_page(figure.shown)) continue;
    page.open("tr");
    const std::string level = class_of(figure.label);
    if (level.empty())
      page.leaf("th", with_signs(figure.label), {{"scope", "row"}});
    else
      page.leaf("th", figure.label, {{"scope", "row"}, {"class", level}});
    page.open("td");
    if (section.cut_out && figure.cell.empty())
      page.leaf("span", "\u00a0", {{"class", "blank"}}).text(figure.remark);
    else
      page.text(value_of(figure));
    page.close().close().line();
  }
  page.close().close().line();
}

/// Where a column has no label on paper, its key says to a listener what stands in it.
std::string name_of(const Column& column) {
  if (!column.label.empty()) return with_signs(column.label);
  std::string name = column.key;
  std::replace(name.begin(), name.end(), '_', ' ');
  return name;
}

std::string classes_of(const Column& column, std::string_view text) {
  std::string classes = column.numeric ? "number" : "words";
  if (column.large) classes += " large";
  if (column.to_fill_in) classes = "write";
  const std::string level = class_of(text);
  return level.empty() ? classes : classes + ' ' + level;
}

void print_head(Markup& page, const Table& table) {
  page.open("thead").open("tr");
  if (table.tick_boxes)
    page.open("th", {{"scope", "col"}, {"class", "tick"}})
        .leaf("span", "done", {{"class", "hidden"}})
        .close();
  for (const Column& column : table.columns) {
    if (!on_page(column.shown)) continue;
    page.open("th", {{"scope", "col"}, {"class", classes_of(column, "")}});
    if (column.label.empty())
      page.leaf("span", name_of(column), {{"class", "hidden"}});
    else
      page.text(name_of(column));
    page.close();
  }
  page.close().close().line();
}

/// The columns of a table that the page shows.
std::vector<std::size_t> columns_of(const Table& table) {
  std::vector<std::size_t> columns;
  for (std::size_t c = 0; c < table.columns.size(); ++c)
    if (on_page(table.columns[c].shown)) columns.push_back(c);
  return columns;
}

/// The cell that heads a row, and the box to tick before it. Gives the words it heads it with.
std::string print_row_head(Markup& page, const Table& table, const Column& column,
                           const Cell& cell) {
  const std::string text = cell.empty() ? "" : with_signs(shown(cell));
  std::string classes = classes_of(column, text);
  const std::string name = table.tick_boxes ? name_of(column) + ' ' + text : text;
  if (table.tick_boxes)
    page.open("td", {{"class", "tick"}})
        .empty("input", {{"type", "checkbox"}, {"aria-label", name + " done"}})
        .close();
  else
    classes += " lead";
  page.leaf("th", text, {{"scope", "row"}, {"class", classes}});
  return name;
}

void print_cell(Markup& page, const Column& column, const Cell& cell, const std::string& row_name,
                std::size_t span) {
  const std::string text = cell.empty() ? "" : with_signs(shown(cell));
  const std::string classes = classes_of(column, text);
  if (span > 1)
    page.open("td", {{"class", classes}, {"colspan", std::to_string(span)}});
  else if (text.empty() || column.label.empty())
    page.open("td", {{"class", classes}});
  else
    page.open("td", {{"class", classes}, {"data-label", name_of(column)}});
  if (column.to_fill_in && !text.empty())
    page.empty("input", {{"type", "text"},
                         {"inputmode", "decimal"},
                         {"aria-label", fmt::format("{}, {}", name_of(column), row_name)}});
  else
    page.text(text);
  page.close();
}

void print_row(Markup& page, const Table& table, const std::vector<std::size_t>& columns,
               const std::vector<Cell>& row) {
  page.open("tr");
  const std::string name =
      print_row_head(page, table, table.columns[columns.front()], row[columns.front()]);
  // The last words of a row may run on under the empty columns beside them.
  std::size_t last = columns.size() - 1;
  while (last > 1 && row[columns[last]].empty()) --last;
  if (table.columns[columns[last]].numeric) last = columns.size() - 1;
  for (std::size_t i = 1; i <= last; ++i)
    print_cell(page, table.columns[columns[i]], row[columns[i]], name,
               i == last ? columns.size() - last : 1);
  page.close().line();
}

void print_table(Markup& page, const Table& table) {
  page.open("table", {{"class", table.tick_boxes ? "rows steps" : "rows"}}).line();
  print_head(page, table);
  page.open("tbody").line();
  const std::vector<std::size_t> columns = columns_of(table);
  for (const auto& row : table.rows) print_row(page, table, columns, row);
  page.close().close().line();
}

void print_lines(Markup& page, const Lines& lines) {
  if (lines.items.empty()) return;
  if (lines.style == Lines::Style::paragraph) {
    for (const std::string& item : lines.items) page.leaf("p", with_signs(item)).line();
    return;
  }
  page.open(lines.style == Lines::Style::steps ? "ol" : "ul").line();
  for (const std::string& item : lines.items) page.leaf("li", with_signs(item)).line();
  page.close().line();
}

bool shows_anything(const Section& section) {
  const auto any = [](const auto& parts, const auto& filled) {
    return std::any_of(parts.begin(), parts.end(),
                       [&](const auto& part) { return on_page(part.shown) && filled(part); });
  };
  return any(section.figures, [](const Figure&) { return true; }) ||
         any(section.tables, [](const Table& table) { return !table.rows.empty(); }) ||
         any(section.lines, [](const Lines& lines) { return !lines.items.empty(); }) ||
         !section.pictures.empty();
}

void print_section(Markup& page, const Section& section, std::size_t number) {
  if (!shows_anything(section)) return;
  const std::string id = fmt::format("part-{}", number);
  const std::string classes = (section.cut_out ? "cut " : "part ") + section.key;
  if (section.title.empty())
    page.open("div", {{"class", classes}}).line();
  else
    page.open("section", {{"class", classes}, {"aria-labelledby", id}})
        .line()
        .leaf("h2", with_signs(section.title), {{"id", id}})
        .line();
  print_figures(page, section);
  for (const Picture& picture : section.pictures)
    page.open("figure").line().raw(draw(picture, false)).line().close().line();
  for (const Table& table : section.tables)
    if (on_page(table.shown) && !table.rows.empty()) print_table(page, table);
  for (const Lines& lines : section.lines)
    if (on_page(lines.shown)) print_lines(page, lines);
  page.close().line();
}

void print_head(Markup& page, const std::string& title, bool pictures) {
  page.raw("<!DOCTYPE html>\n").open("html", {{"lang", "en"}}).line().open("head").line();
  page.empty("meta", {{"charset", "utf-8"}}).line();
  // Nothing may be fetched and nothing may run, whatever a recipe says.
  page.empty("meta", {{"http-equiv", "Content-Security-Policy"},
                      {"content", "default-src 'none'; style-src 'unsafe-inline'"}})
      .line();
  page.empty("meta", {{"name", "viewport"}, {"content", "width=device-width, initial-scale=1"}})
      .line();
  page.open("title").plain(title).close().line();
  page.open("style").raw(page_style).raw(pictures ? picture_style : "").close().line();
  page.close().line();
}

}  // namespace

std::string render_html(const Report& report, const Page&) {
  Markup page;
  const std::string title = report.title.empty() ? "gelwright" : with_signs(report.title);
  print_head(page, title, first_picture(report) != nullptr);
  page.open("body").open("main").line().leaf("h1", title).line();
  // The first screen is the card, on a side of its own; what is asked for besides follows it.
  const auto& sections = report.sections;
  const auto full = [](const Section& section) { return section.in_full_only; };
  const bool has_card = !std::all_of(sections.begin(), sections.end(), full);
  const bool has_more = std::any_of(sections.begin(), sections.end(), full);
  if (has_card) {
    page.open("div", {{"class", "card"}}).line();
    for (std::size_t i = 0; i < sections.size(); ++i)
      if (!full(sections[i])) print_section(page, sections[i], i + 1);
    page.close().line();
  }
  if (has_more) {
    page.open("div", {{"class", has_card ? "more" : "all"}}).line();
    for (std::size_t i = 0; i < sections.size(); ++i)
      if (full(sections[i])) print_section(page, sections[i], i + 1);
    page.close().line();
  }
  page.close().close().line().close().line();
  return page.str();
}

}  // namespace gelwright::detail
