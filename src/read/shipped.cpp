#include "gelwright/shipped.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

#include "gelwright/error.hpp"
#include "gelwright/recipe_edit.hpp"
#include "read/shipped_texts.hpp"

namespace gelwright {

namespace {

constexpr std::string_view kitchen_file = "kitchen.json";
constexpr std::string_view ending = ".json";

std::string_view text_of(std::string_view file) {
  for (const detail::ShippedText& each : detail::shipped_texts())
    if (each.file == file) return each.text;
  return "";
}

/// The line that names a schema by where it lies beside the shipped file.
std::string without_schema(std::string text) {
  const std::size_t key = text.find("\"$schema\"");
  if (key == std::string::npos) return text;
  const std::size_t from = text.rfind('\n', key);
  const std::size_t to = text.find('\n', key);
  return text.erase(from, to - from);
}

}  // namespace

std::vector<std::string> shipped_recipe_names() {
  std::vector<std::string> names;
  for (const detail::ShippedText& each : detail::shipped_texts())
    if (each.file != kitchen_file)
      names.emplace_back(each.file.substr(0, each.file.size() - ending.size()));
  std::sort(names.begin(), names.end());
  return names;
}

std::string shipped_recipe(std::string_view name) {
  const std::vector<std::string> names = shipped_recipe_names();
  if (std::find(names.begin(), names.end(), name) == names.end())
    throw InputError("", {{"shipped recipe", fmt::format("there is none named \"{}\"", name),
                           fmt::format("choose one of {}", fmt::join(names, ", "))}});
  const std::string file = std::string(name) + std::string(ending);
  std::string text = without_schema(flattened_recipe(
      text_of(file), file,
      KitchenDocument{std::string(text_of(kitchen_file)), std::string(kitchen_file)}));
  if (!text.ends_with('\n')) text += '\n';
  return text;
}

}  // namespace gelwright
