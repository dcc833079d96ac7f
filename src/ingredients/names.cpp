#include "gelwright/names.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "base/text.hpp"
#include "gelwright/ingredient.hpp"
#include "ingredients/name_table.hpp"

namespace gelwright {

namespace {

bool is_digit(char c) {
  return c >= '0' && c <= '9';
}

/// "  Baking-Soda " and "baking soda" are one word; so are "E330", "E-330" and "e 330".
std::string compared(std::string_view word) {
  std::string text;
  for (char c : word) {
    c = lower(c);
    if (c == '-' || c == '_' || c == '\t') c = ' ';
    if (c == ' ' && (text.empty() || text.back() == ' ')) continue;
    text += c;
  }
  if (!text.empty() && text.back() == ' ') text.pop_back();
  if (text.size() > 1 && text[0] == 'e' && is_digit(text[1])) text.insert(1, 1, ' ');
  return text;
}

std::vector<std::string> parted(std::string_view list) {
  std::vector<std::string> parts;
  while (!list.empty()) {
    const std::size_t bar = std::min(list.find('|'), list.size());
    parts.emplace_back(list.substr(0, bar));
    list.remove_prefix(std::min(bar + 1, list.size()));
  }
  return parts;
}

/// Everyday words by the form they are compared in.
const std::map<std::string, const NameRow*, std::less<>>& everyday() {
  static const auto words = [] {
    std::map<std::string, const NameRow*, std::less<>> made;
    for (const NameRow& row : name_rows)
      for (const std::string& word : parted(row.words)) made.emplace(word, &row);
    return made;
  }();
  return words;
}

/// Built-in names by the form they are compared in.
const std::map<std::string, std::string, std::less<>>& built_in() {
  static const auto names = [] {
    std::map<std::string, std::string, std::less<>> made;
    for (const Ingredient& each : builtin_ingredients())
      made.emplace(compared(each.name), each.name);
    return made;
  }();
  return names;
}

/// A name the table makes for any number: "maltodextrin de18", "Maltodextrin 18", "glucose syrup
/// 38".
std::optional<Ingredient> by_dextrose_equivalent(const std::string& word) {
  for (const std::string_view stem : {"maltodextrin", "glucose syrup"}) {
    if (word.rfind(stem, 0) != 0) continue;
    std::string_view rest = std::string_view(word).substr(stem.size());
    if (rest.rfind(" de", 0) == 0) rest.remove_prefix(3);
    if (rest.rfind(' ', 0) == 0) rest.remove_prefix(1);
    if (auto found = find_ingredient(fmt::format("{} DE {}", stem, rest))) return found;
  }
  return std::nullopt;
}

}  // namespace

Resolved resolve_name(std::string_view word, bool with_similar) {
  Resolved found;
  if (const auto known = find_ingredient(word)) {
    found.kind = NameKind::exact;
    found.ingredient = known->name;
    return found;
  }
  const std::string text = compared(word);
  if (const auto name = built_in().find(text); name != built_in().end()) {
    found.kind = NameKind::exact;
    found.ingredient = name->second;
    return found;
  }
  if (const auto made = by_dextrose_equivalent(text)) {
    found.kind = NameKind::exact;
    found.ingredient = made->name;
    return found;
  }
  if (const auto row = everyday().find(text); row != everyday().end()) {
    const std::vector<std::string> meant = parted(row->second->meant);
    if (meant.size() == 1) {
      found.kind = NameKind::exact;
      found.ingredient = meant.front();
      found.understood = fmt::format("\"{}\" {}.", text, row->second->say);
      const std::string_view say = row->second->say;
      if (const std::size_t more = say.find("; "); more != std::string_view::npos)
        found.remark = say.substr(more + 2);
    } else {
      found.kind = meant.empty() ? NameKind::elsewhere : NameKind::ambiguous;
      found.candidates = meant;
      found.how_to_tell = row->second->say;
    }
    return found;
  }
  if (!with_similar) return found;
  std::vector<std::string> names;
  for (const Ingredient& each : builtin_ingredients()) names.push_back(each.name);
  for (const auto& [each, row] : everyday()) names.push_back(each);
  found.similar = similar_names(text, names);
  return found;
}

std::string usual_name(const std::string& word) {
  const Resolved meant = resolve_name(word, false);
  return meant.kind == NameKind::exact ? meant.ingredient : word;
}

std::optional<std::size_t> which_of(const std::vector<std::string>& names,
                                    const std::string& word) {
  const auto found = std::find(names.begin(), names.end(), word);
  if (found != names.end()) return static_cast<std::size_t>(found - names.begin());
  const Resolved meant = resolve_name(word, false);
  std::optional<std::size_t> only;
  for (std::size_t i = 0; i < names.size(); ++i) {
    const bool stands_for =
        names[i] == meant.ingredient ||
        std::count(meant.candidates.begin(), meant.candidates.end(), names[i]) > 0;
    if (!stands_for) continue;
    if (only) return std::nullopt;
    only = i;
  }
  return only;
}

std::vector<std::string> everyday_words() {
  std::vector<std::string> words;
  for (const auto& [word, row] : everyday()) words.push_back(word);
  return words;
}

}  // namespace gelwright
