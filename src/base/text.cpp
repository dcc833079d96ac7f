#include "base/text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cstddef>
#include <iterator>
#include <numeric>
#include <utility>

#include "base/number.hpp"
#include "base/utf8.hpp"
#include "base/width_table.hpp"

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

template <std::size_t N>
bool lies_in(const CodeRange (&ranges)[N], char32_t code) {
  const CodeRange* after =
      std::upper_bound(std::begin(ranges), std::end(ranges), code,
                       [](char32_t value, const CodeRange& range) { return value < range.from; });
  return after != std::begin(ranges) && code <= std::prev(after)->to;
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

std::size_t character_width(char32_t code) {
  if (lies_in(no_column, code)) return 0;
  return lies_in(two_columns, code) ? 2 : 1;
}

std::size_t display_width(std::string_view text) {
  std::size_t width = 0;
  while (!text.empty()) {
    if (text.front() >= ' ' && text.front() <= '~') {
      ++width;
      text.remove_prefix(1);
      continue;
    }
    const Character next = first_character(text);
    width += next.valid ? character_width(next.code) : 1;
    text.remove_prefix(next.bytes);
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
  std::size_t used = 0;
  while (!text.empty()) {
    const std::size_t end = std::min(text.find(' '), text.size());
    const std::string_view word = text.substr(0, end);
    text.remove_prefix(std::min(end + 1, text.size()));
    const std::size_t needed = display_width(word);
    std::string& line = lines.back();
    if (!line.empty() && used + 1 + needed > width) {
      lines.emplace_back(word);
      used = needed;
    } else {
      used += (line.empty() ? 0 : 1) + needed;
      line += (line.empty() ? "" : " ") + std::string(word);
    }
  }
  return lines;
}

std::string_view trimmed(std::string_view text) {
  constexpr std::string_view blank = " \t\r";
  const std::size_t first = text.find_first_not_of(blank);
  if (first == std::string_view::npos) return {};
  return text.substr(first, text.find_last_not_of(blank) - first + 1);
}

NameAndValue name_and_value(std::string_view text) {
  const std::size_t equals = text.rfind('=');
  if (equals == std::string_view::npos) return {std::string(trimmed(text)), std::nullopt};
  return {std::string(trimmed(text.substr(0, equals))),
          std::string(trimmed(text.substr(equals + 1)))};
}

}  // namespace gelwright::detail
