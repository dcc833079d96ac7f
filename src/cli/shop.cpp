#include <list>

#include "cli/command.hpp"
#include "cli/counted_file.hpp"
#include "cli/kitchen_file.hpp"
#include "cli/recipe_options.hpp"
#include "gelwright/evaluate.hpp"
#include "gelwright/resolve.hpp"
#include "gelwright/shop_report.hpp"

namespace gelwright::cli {

namespace {

struct ShopOptions {
  std::vector<std::string> asked;      ///< "thick.json=20"
  std::optional<std::string> kitchen;  ///< of all of them
};

Outcome run_shop(const ShopOptions& options, const OutputOptions& output) {
  std::list<Recipe> recipes;  // inputs point at their recipe, so it may not move
  std::vector<Inputs> batches;
  for (const std::string& text : options.asked) {
    const CountedFile one = read_counted_file(text);
    recipes.push_back(load_recipe({.file = one.file, .kitchen = options.kitchen, .with = {}}));
    batches.push_back(resolve(recipes.back()));
    if (one.count) batches.back().servings = *one.count;
    batches.back() = as_weighed(batches.back());
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
