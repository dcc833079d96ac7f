#include "cli/command.hpp"
#include "cli/recipe_options.hpp"
#include "gelwright/recipe_edit.hpp"

namespace gelwright::cli {

void add_flatten(Registry registry) {
  auto options = std::make_shared<RecipeOptions>();
  CLI::App* command = registry.app.add_subcommand(
      "flatten", "One recipe with what it takes from its kitchen in it, to share");
  bind_recipe_alone(*command, *options);
  bind_file(*command, registry.output);
  command->callback([options, registry] {
    registry.run = [options] {
      const RecipeTexts texts = read_texts(*options);
      return Outcome{flattened_recipe(texts.text, texts.document, texts.kitchen), fine};
    };
  });
}

}  // namespace gelwright::cli
