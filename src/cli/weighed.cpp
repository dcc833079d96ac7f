#include "cli/weighed.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "base/number.hpp"
#include "base/text.hpp"
#include "gelwright/error.hpp"
#include "gelwright/names.hpp"

namespace gelwright::cli {

namespace {

/// Everything of a recipe that can have been weighed wrong, by the names it goes by.
std::vector<std::pair<std::string, WeighedInstead>> weighable(const Recipe& recipe) {
  std::vector<std::pair<std::string, WeighedInstead>> all = {{"water", {}}};
  for (std::size_t i = 0; i < recipe.solids.size(); ++i)
    all.push_back({recipe.ingredients[recipe.solids[i].ingredient].name, {LineRole::solid, i, 0}});
  if (recipe.acid)
    for (const std::string& name :
         {recipe.ingredients[recipe.acid->ingredient].name, std::string("acid")})
      all.push_back({name, {LineRole::acid, 0, 0}});
  if (recipe.calcium)
    for (const std::string& name :
         {recipe.ingredients[recipe.calcium->ingredient].name, std::string("calcium salt")})
      all.push_back({name, {LineRole::calcium_salt, 0, 0}});
  return all;
}

/// "512 g", "512", "0.5 kg", "800 mg", in g.
std::optional<double> grams(std::string text) {
  double factor = 1;
  while (!text.empty() && text.back() == ' ') text.pop_back();
  for (const auto& [unit, size] : {std::pair{"kg", 1000.0}, {"mg", 1e-3}, {"g", 1.0}})
    if (text.ends_with(unit)) {
      text.resize(text.size() - std::string_view(unit).size());
      factor = size;
      break;
    }
  while (!text.empty() && text.back() == ' ') text.pop_back();
  const std::optional<double> number = detail::to_number(text);
  if (!number || *number < 0 || *number > 1e6) return std::nullopt;
  return *number * factor;
}

}  // namespace

std::vector<WeighedInstead> read_weighed(const std::vector<std::string>& texts,
                                         const Recipe& recipe) {
  const auto all = weighable(recipe);
  std::vector<std::string> names;
  for (const auto& each : all) names.push_back(each.first);
  std::vector<WeighedInstead> weighed;
  std::vector<Problem> problems;
  for (const std::string& text : texts) {
    const auto [name, value] = detail::name_and_value(text);
    const std::optional<double> mass_g = value ? grams(*value) : std::nullopt;
    const std::optional<std::size_t> found = which_of(names, name == "tap water" ? "water" : name);
    if (!mass_g)
      problems.push_back({"--weighed " + text, "no mass after =", "as in \"water=512 g\""});
    else if (!found)
      problems.push_back({"--weighed " + text, fmt::format("\"{}\" is not in this recipe", name),
                          fmt::format("it has {}", fmt::join(names, ", "))});
    else {
      WeighedInstead one = all[*found].second;
      one.batch_g = *mass_g;
      for (const WeighedInstead& other : weighed)
        if (other.role == one.role && other.solid == one.solid)
          problems.push_back({"--weighed " + text, "it was given before", "say it once"});
      weighed.push_back(one);
    }
  }
  if (!problems.empty()) throw InputError("", std::move(problems));
  return weighed;
}

}  // namespace gelwright::cli
