// The commands that show what the program knows: ingredients, sources, explain.
#include "gelwright/reference.hpp"

#include <fmt/format.h>

#include "base/text.hpp"
#include "cli/command.hpp"
#include "cli/kitchen_file.hpp"
#include "cli/recipe_options.hpp"
#include "gelwright/error.hpp"
#include "gelwright/resolve.hpp"

namespace gelwright::cli {

namespace {

struct ExplainOptions {
  std::string flag;
  RecipeOptions recipe;
};

struct SourcesOptions {
  bool gel = false;
  bool numbers = false;
};

Outcome run_explain(const ExplainOptions& options, const OutputOptions& output) {
  const std::vector<FlagInfo> catalogue = flag_catalogue();
  const FlagInfo* info = nullptr;
  std::vector<std::string> names;
  for (const FlagInfo& each : catalogue) {
    names.emplace_back(each.name);
    if (each.name == options.flag) info = &each;
  }
  if (info == nullptr) {
    const std::vector<std::string> close = similar_names(options.flag, names);
    throw InputError("", {{options.flag, "no flag of this name",
                           close.empty() ? "`gelwright explain` lists them all"
                                         : fmt::format("did you mean \"{}\"?", close.front())}});
  }
  if (options.recipe.file.empty()) return {rendered(explain_report(*info), output), fine};
  const Recipe recipe = load_recipe(options.recipe);
  const Inputs inputs = as_measured(as_weighed(resolve(recipe)));
  const Evaluation evaluation = evaluate(inputs);
  return {rendered(explain_report(*info, inputs, evaluation,
                                  advise(inputs, evaluation, {.edges = false})),
                   output),
          fine};
}

}  // namespace

void add_ingredients(Registry registry) {
  CLI::App* command = registry.app.add_subcommand(
      "ingredients", "What a recipe can use, and what 1 g of it delivers");
  bind_output(*command, registry.output);
  command->callback([registry] {
    registry.run = [&output = registry.output] {
      return Outcome{rendered(ingredients_report(), output), fine};
    };
  });
}

void add_sources(Registry registry) {
  auto options = std::make_shared<SourcesOptions>();
  CLI::App* command = registry.app.add_subcommand("sources", "Where every number comes from");
  command->add_flag("--numbers", options->numbers, "Every literature number, table by table");
  command->add_flag("--gel", options->gel, "Every parameter of the gel model");
  bind_output(*command, registry.output);
  command->callback([options, registry] {
    registry.run = [options, &output = registry.output] {
      const Report report = options->gel       ? gel_report()
                            : options->numbers ? numbers_report()
                                               : sources_report();
      return Outcome{rendered(report, output), fine};
    };
  });
}

void add_words(Registry registry) {
  CLI::App* command =
      registry.app.add_subcommand("words", "What the words on the sheet mean, and how to tell");
  bind_output(*command, registry.output);
  command->callback([registry] {
    registry.run = [&output = registry.output] {
      return Outcome{rendered(words_report(), output), fine};
    };
  });
}

void add_explain(Registry registry) {
  auto options = std::make_shared<ExplainOptions>();
  CLI::App* command =
      registry.app.add_subcommand("explain", "The rule, numbers and source behind a flag");
  command->add_option("flag", options->flag, "Name of the flag; without it, a list of all")
      ->type_name("FLAG");
  command->add_option("recipe", options->recipe.file, "Recipe to show the arithmetic of")
      ->type_name("RECIPE");
  bind_kitchen(*command, options->recipe.kitchen);
  bind_knobs(*command, options->recipe);
  bind_output(*command, registry.output);
  command->callback([options, registry] {
    registry.run = [options, &output = registry.output] {
      if (options->recipe.file.empty() && !options->recipe.with.empty())
        throw InputError(
            "", {{"knobs", "there is no recipe to turn", "name the recipe after the flag"}});
      if (options->recipe.file.empty() && options->recipe.kitchen)
        throw InputError("", {{"--kitchen", "there is no recipe to take from it",
                               "name the recipe after the flag"}});
      if (options->flag.empty()) return Outcome{rendered(flags_report(), output), fine};
      return run_explain(*options, output);
    };
  });
}

}  // namespace gelwright::cli
