#include "cli/recipe_options.hpp"

#include <fmt/format.h>

#include "cli/command.hpp"
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
      ->allow_extra_args(false);
}

void bind_recipe(CLI::App& command, RecipeOptions& options) {
  command.add_option("recipe", options.file, "Recipe file, - for standard input")->required();
  bind_knobs(command, options);
}

Recipe load_recipe(const RecipeOptions& options) {
  return with_knobs(load_recipe(options.file), options);
}

Recipe with_knobs(const Recipe& recipe, const RecipeOptions& options) {
  return stated(recipe, read_knob_settings(options.with, recipe));
}

}  // namespace gelwright::cli
