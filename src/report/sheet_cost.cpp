#include <fmt/format.h>

#include <cmath>

#include "report/sheet_parts.hpp"

namespace gelwright {

Section detail::cost_section(const Inputs& inputs, const Evaluation& evaluation) {
  const Recipe& recipe = *inputs.recipe;
  Section section{"cost", "COST", {}, {}, {}};
  const bool priced = evaluation.cost.has_value();
  const bool complete = priced && evaluation.cost->complete();
  std::string why = "the recipe has no prices";
  if (priced && !complete) {
    why = "no price for";
    for (const std::size_t ingredient : evaluation.cost->unpriced)
      why += fmt::format("{} {}", ingredient == evaluation.cost->unpriced.front() ? "" : ",",
                         recipe.ingredients[ingredient].name);
  }
  const Cost cost = evaluation.cost.value_or(Cost{});
  const auto money = [&](double amount, int decimals) {
    return complete ? Cell(amount, decimals) : Cell();
  };
  section.figures = {
      {"currency", "", priced ? Cell(recipe.currency) : Cell(), "", why, "", Shown::json_only},
      {"batch", "Batch, what is used", money(cost.batch, 2), recipe.currency, why},
      {"per_serving", "Per serving", money(cost.per_serving, 2), recipe.currency, why},
      {"per_g_carbohydrate", "Per g of carbohydrate", money(cost.per_g_carbohydrate, 4),
       recipe.currency, why},
      {"per_60_g_carbohydrate", "Per 60 g of carbohydrate", money(60 * cost.per_g_carbohydrate, 2),
       recipe.currency, why},
      {"buy", "To buy, whole packs", money(cost.buy, 2), recipe.currency, why},
  };
  if (!complete)
    for (Figure& figure : section.figures)
      if (figure.key != "batch") figure.shown = Shown::json_only;
  if (recipe.compare_with) {
    section.figures.push_back(
        {"compare.name", "", Cell(recipe.compare_with->name), "", "", "", Shown::json_only});
    section.figures.push_back({"compare.per_g_carbohydrate", "",
                               Cell(cost.alternative_per_g_carbohydrate, 4), recipe.currency, why,
                               "", Shown::json_only});
    section.figures.push_back({"compare.per_60_g_carbohydrate", recipe.compare_with->name,
                               Cell(60 * cost.alternative_per_g_carbohydrate.value_or(0), 2),
                               recipe.currency, "", "per 60 g of carbohydrate"});
    section.figures.push_back(
        {"compare.ratio", "This batch over that", Cell(cost.ratio, 2), "", why});
  }
  Table to_buy{"to_buy",
               {{"ingredient", "to buy", false},
                {"used_g", "used g", true},
                {"used_cost", "used cost", true},
                {"packs", "packs", true},
                {"buy_cost", "pack cost", true}},
               {}};
  for (const CostLine& line : cost.lines)
    to_buy.rows.push_back({recipe.ingredients[line.ingredient].name,
                           Cell(line.used_g, mass_decimals(line.used_g)), Cell(line.used_cost, 2),
                           Cell(line.packs_to_buy, 0), Cell(line.buy_cost, 2)});
  section.tables.push_back(std::move(to_buy));
  return section;
}

}  // namespace gelwright
