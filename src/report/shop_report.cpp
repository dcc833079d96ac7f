// The shopping list on paper.
#include "gelwright/shop_report.hpp"

#include <fmt/format.h>

#include "report/sheet_parts.hpp"

namespace gelwright {

Report shop_report(const ShoppingList& list) {
  Report report{"gelwright/shop-1", "Shopping list", {}, "list"};
  Section section{"list", "", {}, {}, {}};
  Table table{"list",
              {{"ingredient", "what", false},
               {"needed_g", "needed g", true},
               {"pack_g", "pack g", true},
               {"packs", "packs", true},
               {"cost", "cost", true},
               {"left_g", "left g", true}},
              {},
              Shown::everywhere,
              true};
  for (const ShopLine& line : list.lines) {
    const bool priced = line.pack_g.has_value();
    table.rows.push_back({line.ingredient, Cell(line.needed_g, mass_decimals(line.needed_g)),
                          Cell(line.pack_g, 0),
                          Cell(priced ? std::optional(line.packs) : std::nullopt, 0),
                          Cell(priced ? std::optional(line.cost) : std::nullopt, 2),
                          Cell(priced ? std::optional(line.left_g) : std::nullopt, 0)});
  }
  section.tables.push_back(std::move(table));
  report.sections.push_back(std::move(section));
  Section sum{"sum", "", {}, {}, {}};
  sum.figures = {
      {"currency", "", Cell(list.currency), "", "", "", Shown::json_only},
      {"cost", list.unpriced.empty() ? "In all" : "At least", Cell(list.cost, 2), list.currency}};
  sum.figures.push_back({"low_mineral_water_g", "", Cell(list.low_mineral_water_g, 1), "g", "", "",
                         Shown::json_only});
  if (list.low_mineral_water_g > 0)
    sum.lines.push_back(
        {"water",
         {fmt::format("Have {} g of low-mineral water for the solutions, and 10 g for each pH "
                      "reading.",
                      fixed(list.low_mineral_water_g, 0))},
         Lines::Style::paragraph,
         Shown::text_only});
  std::string without;
  for (const std::string& name : list.unpriced) without += (without.empty() ? "" : ", ") + name;
  if (!without.empty())
    sum.lines.push_back({"notes",
                         {fmt::format("Without a pack and a price: {}.", without)},
                         Lines::Style::paragraph,
                         Shown::text_only});
  report.sections.push_back(std::move(sum));
  return report;
}

}  // namespace gelwright
