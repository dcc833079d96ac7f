#include "gelwright/compare.hpp"

#include <fmt/format.h>

#include <list>

#include "cli/command.hpp"
#include "cli/kitchen_file.hpp"
#include "cli/recipe_options.hpp"
#include "gelwright/compare_report.hpp"
#include "gelwright/error.hpp"
#include "gelwright/resolve.hpp"

namespace gelwright::cli {

namespace {

struct CompareOptions {
  std::vector<std::string> recipes;
  std::vector<std::string> with;       ///< "acid_g=0.5,water_g=40"
  std::vector<std::string> bought;     ///< "oat bar,piece_g=45,..."
  std::optional<std::string> kitchen;  ///< of all of them
};

/// "acid_g=0.5,water_g=40", taken apart at its commas.
std::vector<std::string> settings_of(const std::string& text) {
  std::vector<std::string> settings;
  for (std::size_t from = 0; from <= text.size();) {
    const std::size_t to = std::min(text.find(',', from), text.size());
    settings.push_back(text.substr(from, to - from));
    from = to + 1;
  }
  return settings;
}

/// What is compared, kept where it does not move: sides point at it.
class Sides {
 public:
  void add(std::string name, Recipe recipe) {
    recipes_.push_back(std::move(recipe));
    inputs_.push_back(as_measured(resolve(recipes_.back())));
    evaluations_.push_back(evaluate(inputs_.back()));
    CompareSide side;
    side.name = std::move(name);
    side.inputs = &inputs_.back();
    side.evaluation = &evaluations_.back();
    sides_.push_back(std::move(side));
  }

  void add(const Bought& bought) {
    CompareSide side;
    side.name = bought.ingredient.name + ", bought";
    side.bought = bought.ingredient;
    side.piece_g = bought.piece_g;
    side.sugars_stated = bought.sugars_stated;
    const double carbohydrate_g = bought.ingredient.per_g.carbohydrate_g * bought.piece_g;
    if (bought.price && carbohydrate_g > 0) {
      side.cost_per_60_g = 60 * *bought.price / carbohydrate_g;
      side.currency = bought.currency;
    }
    sides_.push_back(std::move(side));
  }

  const std::vector<CompareSide>& all() const { return sides_; }

 private:
  std::list<Recipe> recipes_;
  std::list<Inputs> inputs_;
  std::list<Evaluation> evaluations_;
  std::vector<CompareSide> sides_;
};

Outcome run_compare(const CompareOptions& options, const OutputOptions& output) {
  Sides sides;
  std::optional<KitchenDocument> kitchen;
  std::optional<Recipe> first;
  for (const std::string& file : options.recipes) {
    const RecipeTexts texts = read_texts({.file = file, .kitchen = options.kitchen, .with = {}});
    if (!kitchen) kitchen = texts.kitchen;
    const Recipe recipe = read_recipe(texts);
    if (!first) first = recipe;
    sides.add(fmt::format("{} ({})", recipe.name, texts.document), recipe);
  }
  for (const std::string& text : options.with)
    sides.add(fmt::format("A with {}", text),
              with_knobs(*first, {.file = {}, .kitchen = {}, .with = settings_of(text)}));
  for (const std::string& text : options.bought) sides.add(read_bought(text, kitchen, "--bought"));
  return {rendered(compare_report(compare(sides.all())), output), fine};
}

}  // namespace

void add_compare(Registry registry) {
  auto options = std::make_shared<CompareOptions>();
  CLI::App* command = registry.app.add_subcommand(
      "compare", "Recipes, variants of one, bought things side by side: what differs, and why");
  command->add_option("recipes", options->recipes, "Recipe files, one or more")
      ->type_name("RECIPE")
      ->required();
  command
      ->add_option("--with", options->with,
                   fmt::format("One more side: the first recipe with KNOB=VALUE, or several, "
                               "\"acid_g=0.5,water_g=40\"; may be given again; knobs: {}",
                               knob_names()))
      ->type_name("KNOB=VALUE")
      ->allow_extra_args(false);
  command
      ->add_option(
          "--bought", options->bought,
          "One more side, something bought: \"NAME\" of the kitchen's mixes, or its label, "
          "\"NAME,piece_g=45,carbohydrate_g=30\"; may be given again")
      ->type_name("BOUGHT")
      ->allow_extra_args(false);
  bind_kitchen(*command, options->kitchen);
  bind_output(*command, registry.output);
  command->callback([options, registry] {
    constexpr std::size_t most = 6;  // as many as stand side by side on a screen
    const std::size_t count =
        options->recipes.size() + options->with.size() + options->bought.size();
    if (count < 2)
      throw CLI::ValidationError("compare", "name one more recipe, or a variant with --with");
    if (count > most)
      throw CLI::ValidationError("compare", fmt::format("at most {} fit side by side", most));
    registry.run = [options, &output = registry.output] { return run_compare(*options, output); };
  });
}

}  // namespace gelwright::cli
