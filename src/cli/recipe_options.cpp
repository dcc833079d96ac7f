#include "cli/recipe_options.hpp"

#include <fmt/format.h>

#include "cli/command.hpp"
#include "cli/kitchen_file.hpp"
#include "gelwright/error.hpp"
#include "gelwright/knob.hpp"

namespace gelwright::cli {

std::string knob_names() {
  std::string names;
  for (const KnobInfo& knob : knobs())
    names += fmt::format("{}{}{}", names.empty() ? "" : ", ", knob.name,
                         knob.needs == KnobNeeds::solid ? ":INGREDIENT" : "");
  return names;
}

void bind_knobs(CLI::App& command, RecipeOptions& options) {
  command
      .add_option("--with", options.with,
                  fmt::format("KNOB=VALUE, as if the recipe said so; may be given again; knobs: {}",
                              knob_names()))
      ->type_name("KNOB=VALUE")
      ->allow_extra_args(false);
}

void bind_recipe_alone(CLI::App& command, RecipeOptions& options) {
  command.add_option("recipe", options.file, "Recipe file, - for standard input")
      ->type_name("RECIPE")
      ->required();
  bind_kitchen(command, options.kitchen);
}

void bind_recipe(CLI::App& command, RecipeOptions& options) {
  bind_recipe_alone(command, options);
  bind_knobs(command, options);
}

RecipeTexts read_texts(const RecipeOptions& options) {
  RecipeTexts texts{read_file(options.file), document_name(options.file), std::nullopt};
  try {
    texts.kitchen = kitchen_of(options.file, texts.text, options.kitchen);
  } catch (const InputError& error) {
    throw with_faults_of_recipe(error, texts.text, texts.document);
  }
  return texts;
}

Recipe read_recipe(const RecipeTexts& texts) {
  return gelwright::read_recipe(texts.text, texts.document, texts.kitchen);
}

Recipe load_recipe(const RecipeOptions& options) {
  return with_knobs(read_recipe(read_texts(options)), options);
}

Recipe with_knobs(const Recipe& recipe, const RecipeOptions& options) {
  return stated(recipe, read_knob_settings(options.with, recipe));
}

}  // namespace gelwright::cli
