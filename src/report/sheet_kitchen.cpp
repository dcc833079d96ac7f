// What a recipe left to its kitchen.
#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <string_view>

#include "report/sheet_parts.hpp"

namespace gelwright {

namespace {

struct PartWords {
  KitchenPart part;
  std::string_view one;
  std::string_view several;
};

/// In the order they are said in.
constexpr PartWords parts[] = {
    {KitchenPart::ingredient, "ingredient", "ingredients"},
    {KitchenPart::water, "water", "waters"},
    {KitchenPart::vessel, "vessel", "vessels"},
    {KitchenPart::scale, "scale", "scales"},
    {KitchenPart::currency, "currency", "currencies"},
    {KitchenPart::price, "price", "prices"},
    {KitchenPart::compare_with, "comparison", "comparisons"},
    {KitchenPart::avoid, "to avoid", "to avoid"},
};

std::string_view word_of(KitchenPart part) {
  return std::find_if(std::begin(parts), std::end(parts),
                      [part](const PartWords& each) { return each.part == part; })
      ->one;
}

/// "ingredient: fell mix", "scales: kitchen, pocket".
std::vector<std::string> in_words(const KitchenUse& use) {
  std::vector<std::string> lines;
  for (const PartWords& words : parts) {
    std::vector<std::string> names;
    for (const FromKitchen& each : use.gives)
      if (each.part == words.part && (names.empty() || names.back() != each.name))
        names.push_back(each.name);
    if (!names.empty())
      lines.push_back(fmt::format("{}: {}", names.size() == 1 ? words.one : words.several,
                                  fmt::join(names, ", ")));
  }
  return lines;
}

}  // namespace

Section detail::kitchen_section(const KitchenUse& use) {
  Table gives{"gives",
              {{"what", "", false},
               {"name", "", false},
               {"where", "", false},
               {"kitchen_where", "", false}},
              {},
              Shown::json_only};
  for (const FromKitchen& each : use.gives)
    gives.rows.push_back({word_of(each.part), each.name, each.where, each.kitchen_where});
  Lines lines{"in_words", in_words(use), Lines::Style::bullets, Shown::text_only};
  if (use.gives.empty()) lines.items.emplace_back("nothing: the recipe says it all");
  return {"kitchen",
          fmt::format("FROM THE KITCHEN, {}; the rest stands in the recipe", use.document),
          {{"document", "", use.document, {}, {}, {}, Shown::json_only}},
          {std::move(gives)},
          {std::move(lines)}};
}

}  // namespace gelwright
