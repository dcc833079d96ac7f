#include "base/text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cstddef>
#include <numeric>
#include <utility>

#include "base/number.hpp"

namespace gelwright::detail {

namespace {

/// Edits that turn one text into the other (Levenshtein), case ignored.
std::size_t edit_distance(std::string_view a, std::string_view b) {
  std::vector<std::size_t> row(b.size() + 1);
  std::iota(row.begin(), row.end(), std::size_t{0});
  for (std::size_t i = 1; i <= a.size(); ++i) {
    std::size_t diagonal = row[0];
    row[0] = i;
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const std::size_t substitute = diagonal + (lower(a[i - 1]) == lower(b[j - 1]) ? 0 : 1);
      diagonal = row[j];
      row[j] = std::min({row[j] + 1, row[j - 1] + 1, substitute});
    }
  }
  return row[b.size()];
}

struct CodePoints {
  char32_t first, last;
};

/// Marks that stand on the character before them, and characters that only steer the layout.
constexpr CodePoints no_width[] = {
    {0x0300, 0x036F}, {0x0483, 0x0489}, {0x0591, 0x05BD}, {0x0610, 0x061A},
    {0x064B, 0x065F}, {0x1AB0, 0x1AFF}, {0x1DC0, 0x1DFF}, {0x200B, 0x200F},
    {0x202A, 0x202E}, {0x2060, 0x2064}, {0x2066, 0x206F}, {0x20D0, 0x20FF},
    {0xFE00, 0xFE0F}, {0xFE20, 0xFE2F}, {0xFEFF, 0xFEFF}, {0xE0100, 0xE01EF},
};

/// Wide and fullwidth in Unicode Standard Annex 11, in whole blocks.
constexpr CodePoints two_columns[] = {
    {0x1100, 0x115F},   {0x231A, 0x231B},   {0x2329, 0x232A},   {0x23E9, 0x23EC},
    {0x2614, 0x2615},   {0x2648, 0x2653},   {0x26BD, 0x26BE},   {0x2E80, 0x303E},
    {0x3041, 0xA4CF},   {0xA960, 0xA97C},   {0xAC00, 0xD7A3},   {0xF900, 0xFAFF},
    {0xFE30, 0xFE6F},   {0xFF01, 0xFF60},   {0xFFE0, 0xFFE6},   {0x1F300, 0x1F320},
    {0x1F32D, 0x1F335}, {0x1F337, 0x1F37C}, {0x1F37E, 0x1F393}, {0x1F3A0, 0x1F3CA},
    {0x1F400, 0x1F43E}, {0x1F442, 0x1F4FC}, {0x1F5FB, 0x1F64F}, {0x1F680, 0x1F6C5},
    {0x1F90C, 0x1F93A}, {0x1F947, 0x1F9FF}, {0x20000, 0x3FFFD},
};

bool holds(std::span<const CodePoints> ranges, char32_t c) {
  return std::any_of(ranges.begin(), ranges.end(),
                     [c](const CodePoints& range) { return c >= range.first && c <= range.last; });
}

/// Takes the first character off a UTF-8 text; a byte that begins none counts as itself.
char32_t take_character(std::string_view& text) {
  const auto first = static_cast<unsigned char>(text.front());
  text.remove_prefix(1);
  if (first < 0xC0U || first >= 0xF8U) return first;
  char32_t c = first < 0xE0U ? first & 0x1FU : first < 0xF0U ? first & 0x0FU : first & 0x07U;
  while (!text.empty() && continues_character(text.front())) {
    c = (c << 6U) | (static_cast<unsigned char>(text.front()) & 0x3FU);
    text.remove_prefix(1);
  }
  return c;
}

}  // namespace

std::string lower(std::string_view text) {
  std::string made(text);
  std::transform(made.begin(), made.end(), made.begin(), [](char c) { return lower(c); });
  return made;
}

std::vector<std::string> similar_names(std::string_view name,
                                       std::span<const std::string> candidates) {
  // Nobody misspells a name this long by a letter or two, and comparing takes its length squared.
  constexpr std::size_t longest_compared = 64;
  std::vector<std::pair<std::size_t, std::string>> close;
  if (name.size() > longest_compared) return {};
  const std::size_t most_edits = 1 + name.size() / 4;
  for (const std::string& candidate : candidates) {
    const bool contained = name.size() >= 4 && candidate.find(name) != std::string::npos;
    // Each letter more or less is an edit at least.
    const bool too_long = candidate.size() > name.size() + most_edits;
    const bool too_short = candidate.size() + most_edits < name.size();
    if (!contained && (too_long || too_short)) continue;
    const std::size_t distance = contained ? 0 : edit_distance(name, candidate);
    if (distance <= most_edits) close.emplace_back(distance, candidate);
  }
  std::stable_sort(close.begin(), close.end(),
                   [](const auto& a, const auto& b) { return a.first < b.first; });
  std::vector<std::string> names;
  for (std::size_t i = 0; i < std::min<std::size_t>(3, close.size()); ++i)
    names.push_back(std::move(close[i].second));
  return names;
}

std::string escape_pointer(std::string_view token) {
  std::string escaped;
  for (const char c : token) {
    if (c == '~')
      escaped += "~0";
    else if (c == '/')
      escaped += "~1";
    else if (is_control(c))
      escaped += fmt::format("\\u{:04x}", static_cast<unsigned char>(c));
    else
      escaped += c;
  }
  return escaped;
}

std::string quoted_list(std::span<const std::string> names) {
  std::string list;
  for (std::size_t i = 0; i < names.size(); ++i) {
    if (i > 0) list += i + 1 == names.size() ? " or " : ", ";
    list += '"' + names[i] + '"';
  }
  return list;
}

std::string did_you_mean(std::string_view name, std::span<const std::string> candidates) {
  const std::vector<std::string> close = similar_names(name, candidates);
  return close.empty() ? std::string() : "did you mean " + quoted_list(close) + "?";
}

std::string csv_cell(std::string_view text) {
  constexpr std::string_view begins_formula = "=+-@\t\r";
  const bool harmful = !text.empty() &&
                       begins_formula.find(text.front()) != std::string_view::npos &&
                       !to_number(text);
  std::string cell = (harmful ? "'" : "") + std::string(text);
  if (cell.find_first_of(",\"\r\n") == std::string::npos) return cell;
  std::string quoted = "\"";
  for (const char c : cell) {
    if (c == '"') quoted += '"';
    quoted += c;
  }
  return quoted + '"';
}

std::size_t display_width(std::string_view text) {
  std::size_t width = 0;
  while (!text.empty()) {
    const char32_t c = take_character(text);
    if (c < no_width[0].first)
      ++width;
    else if (!holds(no_width, c))
      width += holds(two_columns, c) ? 2 : 1;
  }
  return width;
}

std::string pad(std::string_view text, std::size_t width, bool right) {
  const std::size_t have = display_width(text);
  const std::string fill(have < width ? width - have : 0, ' ');
  return right ? fill + std::string(text) : std::string(text) + fill;
}

std::vector<std::string> wrap(std::string_view text, std::size_t width) {
  std::vector<std::string> lines(1);
  while (!text.empty()) {
    const std::size_t end = std::min(text.find(' '), text.size());
    const std::string_view word = text.substr(0, end);
    text.remove_prefix(std::min(end + 1, text.size()));
    std::string& line = lines.back();
    if (!line.empty() && display_width(line) + 1 + display_width(word) > width)
      lines.emplace_back(word);
    else
      line += (line.empty() ? "" : " ") + std::string(word);
  }
  return lines;
}

}  // namespace gelwright::detail
