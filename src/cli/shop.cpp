#include <fmt/format.h>

#include <list>

#include "base/number.hpp"
#include "cli/command.hpp"
#include "cli/kitchen_file.hpp"
#include "cli/recipe_options.hpp"
#include "gelwright/error.hpp"
#include "gelwright/resolve.hpp"
#include "gelwright/shop_report.hpp"

namespace gelwright::cli {

namespace {

/// "thick.json=20": a recipe and how many servings of it.
struct Wanted {
  std::string file;
  std::optional<double> servings;
};

Wanted wanted(const std::string& text) {
  const std::size_t equals = text.rfind('=');
  if (equals == std::string::npos) return {text, std::nullopt};
  const std::optional<double> servings = detail::to_number(text.substr(equals + 1));
  if (!servings || *servings != static_cast<double>(static_cast<long>(*servings)) ||
      *servings < 1 || *servings > 1e5)
    throw InputError("", {{text, "after = stands a whole number of servings, 1 to 100000",
                           fmt::format("as in {}=20", text.substr(0, equals))}});
  return {text.substr(0, equals), servings};
}

struct ShopOptions {
  std::vector<std::string> asked;      ///< "thick.json=20"
  std::optional<std::string> kitchen;  ///< of all of them
};

Outcome run_shop(const ShopOptions& options, const OutputOptions& output) {
  std::list<Recipe> recipes;  // inputs point at their recipe, so it may not move
  std::vector<Inputs> batches;
  for (const std::string& text : options.asked) {
    const Wanted one = wanted(text);
    recipes.push_back(load_recipe({.file = one.file, .kitchen = options.kitchen, .with = {}}));
    batches.push_back(resolve(recipes.back()));
    if (one.servings) batches.back().servings = *one.servings;
  }
  return {rendered(shop_report(shopping_list(batches)), output), fine};
}

}  // namespace

void add_shop(Registry registry) {
  auto options = std::make_shared<ShopOptions>();
  CLI::App* command = registry.app.add_subcommand(
      "shop", "One shopping list for several batches: whole packs, cost, what is left");
  command->add_option("recipes", options->asked, "RECIPE or RECIPE=SERVINGS, one or more")
      ->type_name("RECIPE[=SERVINGS]")
      ->required();
  bind_kitchen(*command, options->kitchen);
  bind_output(*command, registry.output);
  command->callback([options, registry] {
    registry.run = [options, &output = registry.output] { return run_shop(*options, output); };
  });
}

}  // namespace gelwright::cli
