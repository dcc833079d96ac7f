#include "read/csv_reader.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "base/text.hpp"

namespace gelwright::detail {

namespace {

constexpr std::string_view utf8_mark = "\xEF\xBB\xBF";

/// The separator of the first line, quotes left aside.
char separator_of(std::string_view text) {
  text.remove_prefix(std::min(text.find_first_not_of("\r\n"), text.size()));
  const std::string_view first = text.substr(0, text.find_first_of("\r\n"));
  bool quoted = false;
  std::string seen;
  for (const char c : first) {
    if (c == '"') quoted = !quoted;
    if (!quoted) seen += c;
  }
  const auto commas = std::count(seen.begin(), seen.end(), ',');
  const auto semicolons = std::count(seen.begin(), seen.end(), ';');
  if (commas + semicolons == 0 && seen.find('\t') != std::string::npos) return '\t';
  return semicolons > commas ? ';' : ',';
}

/// Length of the UTF-8 character at the start of `text`, or 0 where there is none. Control
/// characters but the tab count as none: they could move the cursor of the terminal a report is
/// shown on.
std::size_t character_length(std::string_view text) {
  const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(text[i]); };
  const unsigned first = byte(0);
  if (first < 0x80) return (first >= 0x20 && first != 0x7F) || first == '\t' ? 1 : 0;
  const std::size_t length = first >= 0xF0 ? 4 : first >= 0xE0 ? 3 : 2;
  if (first < 0xC2 || first > 0xF4 || text.size() < length) return 0;
  for (std::size_t i = 1; i < length; ++i)
    if ((byte(i) & 0xC0U) != 0x80U) return 0;
  const bool c1 = first == 0xC2 && byte(1) < 0xA0;
  return c1 ? 0 : length;
}

/// The first byte of the line that is no text, or npos.
std::size_t unreadable(std::string_view line) {
  for (std::size_t i = 0; i < line.size();) {
    const std::size_t length = character_length(line.substr(i));
    if (length == 0) return i;
    i += length;
  }
  return std::string_view::npos;
}

/// One line, without its ending.
std::vector<std::string> cells_of(std::string_view line, char separator, std::size_t number,
                                  std::vector<Problem>& problems) {
  const auto refuse = [&](std::size_t column, std::string what, std::string remedy) {
    problems.push_back(
        {fmt::format("line {}, column {}", number, column), std::move(what), std::move(remedy)});
  };
  std::vector<std::string> cells;
  std::size_t at = 0;
  while (true) {
    const std::size_t start = line.find_first_not_of(separator == '\t' ? " " : " \t", at);
    if (start == std::string_view::npos || line[start] != '"') {
      const std::size_t end = std::min(line.find(separator, at), line.size());
      cells.emplace_back(trimmed(line.substr(at, end - at)));
      at = end;
    } else {
      std::string cell;
      std::size_t i = start + 1;
      bool closed = false;
      for (; i < line.size() && !closed; ++i) {
        if (line[i] != '"')
          cell += line[i];
        else if (i + 1 < line.size() && line[i + 1] == '"')
          cell += line[i++];
        else
          closed = true;
      }
      if (!closed)
        refuse(cells.size() + 1, "a double quote is opened and not closed on this line",
               "close it, or take it out");
      const std::size_t end = std::min(line.find(separator, i), line.size());
      if (!trimmed(line.substr(std::min(i, end), end - std::min(i, end))).empty())
        refuse(cells.size() + 1, "there is text after the closing quote",
               "put the whole cell in quotes, or none of it");
      cells.emplace_back(trimmed(cell));
      at = end;
    }
    if (at >= line.size()) break;
    ++at;  // the separator; one at the very end leaves an empty last cell
  }
  return cells;
}

}  // namespace

bool CsvRow::blank() const {
  return std::all_of(cells.begin(), cells.end(), [](const auto& cell) { return cell.empty(); });
}

CsvText split_csv(std::string_view text, std::vector<Problem>& problems) {
  CsvText csv;
  if (text.substr(0, utf8_mark.size()) == utf8_mark) text.remove_prefix(utf8_mark.size());
  if (text.find('\0') != std::string_view::npos || text.substr(0, 2) == "\xFF\xFE" ||
      text.substr(0, 2) == "\xFE\xFF") {
    csv.readable = false;
    problems.push_back({"", "this is not plain text (UTF-16, or not a CSV file at all)",
                        "save the sheet as \"CSV UTF-8\""});
    return csv;
  }
  csv.separator = separator_of(text);
  std::size_t number = 0;
  while (!text.empty()) {
    ++number;
    const std::size_t end = std::min(text.find_first_of("\r\n"), text.size());
    if (const std::size_t at = unreadable(text.substr(0, end)); at != std::string_view::npos) {
      csv.readable = false;
      problems.push_back({fmt::format("line {}", number),
                          fmt::format("byte {} is not text in UTF-8", at + 1),
                          "save the sheet as \"CSV UTF-8\""});
    }
    CsvRow row{number, cells_of(text.substr(0, end), csv.separator, number, problems)};
    if (!row.blank()) csv.rows.push_back(std::move(row));
    const bool two = text.substr(end, 2) == "\r\n";
    text.remove_prefix(std::min(text.size(), end + (two ? 2 : 1)));
  }
  return csv;
}

}  // namespace gelwright::detail
