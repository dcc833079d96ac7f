#include "base/text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cstddef>
#include <numeric>
#include <utility>

namespace gelwright {

namespace {

/// Edits that turn one text into the other (Levenshtein), case ignored.
std::size_t edit_distance(std::string_view a, std::string_view b) {
  const auto lower = [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c + 32) : c; };
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

}  // namespace

std::vector<std::string> similar_names(std::string_view name,
                                       std::span<const std::string> candidates) {
  std::vector<std::pair<std::size_t, std::string>> close;
  for (const std::string& candidate : candidates) {
    const bool contained = name.size() >= 4 && candidate.find(name) != std::string::npos;
    const std::size_t distance = contained ? 0 : edit_distance(name, candidate);
    if (distance <= 1 + name.size() / 4) close.emplace_back(distance, candidate);
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

}  // namespace gelwright
