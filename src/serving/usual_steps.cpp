// The usual order of work, as steps.
#include <algorithm>

#include "gelwright/making.hpp"

namespace gelwright {

namespace {

/// The solids of some kinds, in the order of the recipe.
template <class Wanted>
std::vector<Addition> solids_where(const Recipe& recipe, Wanted wanted) {
  std::vector<Addition> found;
  for (std::size_t line = 0; line < recipe.solids.size(); ++line)
    if (wanted(recipe.ingredients[recipe.solids[line].ingredient]))
      found.push_back({Item::solid, line, 1});
  return found;
}

bool any_gum_in(const std::vector<Addition>& what, const Recipe& recipe) {
  return std::any_of(what.begin(), what.end(), [&](const Addition& each) {
    return each.item == Item::solid &&
           holds_gum(recipe.ingredients[recipe.solids[each.line].ingredient]);
  });
}

/// Heats once the last gum is in; where there is none, once the last solid is.
void add_heat(std::vector<Step>& steps, double to_c, const Recipe& recipe) {
  std::size_t after = steps.size();
  for (std::size_t i = 0; i < steps.size(); ++i)
    if (any_gum_in(steps[i].what, recipe)) after = i + 1;
  steps.insert(steps.begin() + static_cast<std::ptrdiff_t>(after),
               Step{.act = Act::heat, .to_c = to_c});
}

}  // namespace

bool holds_gum(const Ingredient& ingredient) {
  return !ingredient.undeclared.empty() ||
         std::any_of(ingredient.per_g.gum_g.begin(), ingredient.per_g.gum_g.end(),
                     [](double gum_g) { return gum_g > 0; });
}

bool waits_for_acid(const Ingredient& calcium_salt) {
  return calcium_salt.per_g.dissolved(Component::calcium) <= 0 &&
         calcium_salt.per_g.acid_only(Component::calcium) > 0;
}

std::vector<Step> usual_steps(const Recipe& recipe, const UsualWork& work) {
  std::vector<Step> steps;
  const auto add = [&steps](std::vector<Addition> what, How how) {
    if (!what.empty()) steps.push_back({.act = Act::add, .what = std::move(what), .how = how});
  };
  const auto gums = solids_where(recipe, [](const Ingredient& i) { return i.kind == Kind::gum; });
  const auto mixes = solids_where(recipe, [](const Ingredient& i) { return i.kind == Kind::mix; });
  const bool with_bulk = work.gum_goes_in == GumGoesIn::with_bulk;
  const auto bulk = solids_where(recipe, [&](const Ingredient& i) {
    return i.kind != Kind::salt && (with_bulk || i.kind != Kind::gum);
  });

  if (work.gum_goes_in == GumGoesIn::first) add(gums, work.gum);
  add(bulk, mixes.empty() ? How::stirred : work.mix);
  if (work.gum_goes_in == GumGoesIn::last) add(gums, work.gum);
  if (work.heated_to_c) add_heat(steps, *work.heated_to_c, recipe);
  add(solids_where(recipe, [](const Ingredient& i) { return i.kind == Kind::salt; }), How::stirred);
  if (recipe.calcium && work.calcium_before_acid) add({{Item::calcium, 0, 1}}, work.calcium);
  if (recipe.acid) add({{Item::acid, 0, 1}}, work.acid);
  if (recipe.calcium && !work.calcium_before_acid) add({{Item::calcium, 0, 1}}, work.calcium);
  if (work.rest_hours)
    steps.push_back({.act = Act::rest, .hours = *work.rest_hours, .at_c = work.rest_at_c});
  steps.push_back({.act = Act::fill});
  return steps;
}

}  // namespace gelwright
