// What is taken of the steps where a recipe does not say, and how that is printed.
#include <fmt/format.h>

#include <algorithm>

#include "gelwright/making.hpp"
#include "read/readers.hpp"

namespace gelwright::detail {

namespace {

/// The usual order in words: "gum, then sugars, then acid".
std::string order_of(const Recipe& recipe) {
  std::string order;
  for (const Step& step : recipe.steps) {
    if (step.act != Act::add) continue;
    if (!order.empty()) order += ", then ";
    for (std::size_t i = 0; i < step.what.size(); ++i) {
      if (i > 0) order += " and ";
      const Addition& each = step.what[i];
      order += each.item == Item::acid ? "the acid"
               : each.item == Item::calcium
                   ? "the calcium salt"
                   : recipe.ingredients[recipe.solids[each.line].ingredient].name;
    }
  }
  return order;
}

}  // namespace

std::string_view in_words(How how) {
  switch (how) {
    case How::stirred:
      return "stirred in by hand";
    case How::shaken:
      return "shaken in a closed bottle";
    case How::under_blade:
      return "under the running blade, acid in a thin stream";
    case How::preblended:
      return "blended dry with 5 to 10 times its mass of sugar";
    case How::dry:
      return "strewn dry onto the liquid";
    case How::poured:
      return "poured in at once";
    case How::slow:
      return "slowly, drop by drop";
    case How::still:
      return "left alone";
  }
  return {};
}

void assume_eaten_at(ObjectReader& document, const Recipe& recipe) {
  if (!std::any_of(recipe.ingredients.begin(), recipe.ingredients.end(), holds_gum)) return;
  const EatenRange range = eaten_range();
  document.assume("eaten_at_c", "how warm it is where it is eaten",
                  fmt::format("{:g} degC", range.usual_c), {},
                  fmt::format("{:g} to {:g} degC", range.hill_c, range.pocket_c));
}

void take_usual_steps(ObjectReader& document, Recipe& recipe) {
  const UsualWork work = usual_work(recipe);
  recipe.steps = usual_steps(recipe, work);
  const auto assume = [&](std::string what, std::string value) {
    document.assume("process", std::move(what), std::move(value), {});
  };
  bool gum = false;
  for (const RecipeLine& line : recipe.solids) {
    const Ingredient& each = recipe.ingredients[line.ingredient];
    if (!holds_gum(each)) continue;
    gum = true;
    assume(fmt::format("how {} goes in", each.name),
           std::string(in_words(each.kind == Kind::mix ? work.mix : work.gum)));
  }
  if (gum && recipe.solids.size() > 1) assume("the order of work", order_of(recipe));
  if (recipe.acid) assume("how the acid goes in", std::string(in_words(work.acid)));
  if (recipe.calcium && !work.calcium_before_acid)
    assume("how the calcium salt goes in", std::string(in_words(work.calcium)));
  if (work.rest_hours)
    assume("how long it rests before it is eaten",
           fmt::format("{:g} h at {:g} degC", *work.rest_hours, work.rest_at_c));
}

}  // namespace gelwright::detail
