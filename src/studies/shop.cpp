#include "gelwright/shop.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "gelwright/batch.hpp"
#include "gelwright/error.hpp"

namespace gelwright {

namespace {

/// A need that exceeds whole packs by less than this share of a pack is binary noise.
constexpr double pack_noise = 1e-9;

class List {
 public:
  void take(const Inputs& inputs) {
    const Recipe& recipe = *inputs.recipe;
    if (!recipe.packs.empty()) agree_on_currency(recipe);
    const double factor = batch_factor(inputs);
    const auto add = [&](const InputLine& line) {
      if (line.mass_g <= 0) return;
      ShopLine& wanted = line_of(recipe.ingredients[line.ingredient].name);
      wanted.needed_g += line.mass_g * factor;
      for (const Pack& pack : recipe.packs)
        if (pack.ingredient == line.ingredient) agree_on_pack(wanted, pack, recipe);
    };
    for (const InputLine& line : inputs.solids) add(line);
    if (inputs.acid) add(inputs.acid->line);
    if (inputs.calcium) add(inputs.calcium->line);
    add_solutions(inputs);
  }

  ShoppingList finish() {
    if (!problems_.empty()) throw InputError("", std::move(problems_));
    for (std::size_t i = 0; i < list_.lines.size(); ++i) {
      ShopLine& line = list_.lines[i];
      if (!line.pack_g) {
        list_.unpriced.push_back(line.ingredient);
        continue;
      }
      line.packs = std::ceil(line.needed_g / *line.pack_g - pack_noise);
      line.cost = line.packs * prices_[i];
      line.left_g = std::max(0.0, line.packs * *line.pack_g - line.needed_g);
      list_.cost += line.cost;
    }
    return std::move(list_);
  }

 private:
  ShopLine& line_of(const std::string& name) {
    const auto found =
        std::find_if(list_.lines.begin(), list_.lines.end(),
                     [&name](const ShopLine& line) { return line.ingredient == name; });
    if (found != list_.lines.end()) return *found;
    list_.lines.push_back({.ingredient = name, .pack_g = {}});
    prices_.push_back(0);
    return list_.lines.back();
  }

  /// More of a solution is made than is used.
  void add_solutions(const Inputs& inputs) {
    // How dense the gel is decides no more than in how many rounds it is made.
    const Batch batch = plan_batch(formulate(inputs), inputs, 1);
    for (const StockPlan& stock : batch.stocks) {
      const double spare_g = (stock.make_g - stock.use_g) * stock.stock_fraction;
      line_of(inputs.recipe->ingredients[stock.ingredient].name).needed_g += batch.rounds * spare_g;
      list_.low_mineral_water_g += batch.rounds * stock.make_g * (1 - stock.stock_fraction);
    }
  }

  void agree_on_currency(const Recipe& recipe) {
    if (list_.currency.empty()) list_.currency = recipe.currency;
    if (list_.currency != recipe.currency)
      problems_.push_back(
          {recipe.document + ": /prices/currency",
           fmt::format("\"{}\" cannot be added to \"{}\"", recipe.currency, list_.currency),
           "price all recipes in one currency"});
  }

  void agree_on_pack(ShopLine& line, const Pack& pack, const Recipe& recipe) {
    double& price = prices_[static_cast<std::size_t>(&line - list_.lines.data())];
    if (!line.pack_g) {
      line.pack_g = pack.pack_g;
      price = pack.price;
    } else if (*line.pack_g != pack.pack_g || price != pack.price) {
      problems_.push_back(
          {recipe.document + ": /prices/packs",
           fmt::format("{} comes in packs of {:g} g for {:g} here, of {:g} g for {:g} before",
                       line.ingredient, pack.pack_g, pack.price, *line.pack_g, price),
           "give it one pack; a kitchen file that the recipes share does that"});
    }
  }

  ShoppingList list_;
  std::vector<double> prices_;  // of a pack, one for each line
  std::vector<Problem> problems_;
};

}  // namespace

ShoppingList shopping_list(std::span<const Inputs> batches) {
  List list;
  for (const Inputs& each : batches) list.take(each);
  return list.finish();
}

}  // namespace gelwright
