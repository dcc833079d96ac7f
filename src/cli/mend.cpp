#include "gelwright/mend.hpp"

#include <fmt/format.h>

#include "cli/command.hpp"
#include "cli/recipe_options.hpp"
#include "cli/weighed.hpp"
#include "gelwright/aim.hpp"
#include "gelwright/error.hpp"
#include "gelwright/mend_report.hpp"
#include "gelwright/resolve.hpp"

namespace gelwright::cli {

namespace {

struct MendOptions {
  RecipeOptions recipe;
  std::vector<std::string> weighed;  ///< "water=512 g"
  double ph = 0;                     ///< 0: not read
  std::string texture;               ///< "thick"; empty: not looked at
};

Outcome run_mend(const MendOptions& options, const OutputOptions& output) {
  const Recipe recipe = load_recipe(options.recipe);
  const Inputs planned = as_weighed(resolve(recipe));
  SeenOfBatch seen;
  if (options.ph > 0) seen.ph = options.ph;
  if (!options.texture.empty()) {
    seen.texture = texture_called(options.texture);
    if (!seen.texture)
      throw InputError("", {{"--texture", fmt::format("no texture \"{}\"", options.texture),
                             fmt::format("choose one of {}", textures_in_words())}});
  }
  const Mend found = mend(planned, read_weighed(options.weighed, recipe), seen);
  if (!found.why_not.empty()) return {rendered(mend_report(found, {}, {}), output), answer_is_no};
  const Evaluation evaluation = evaluate(found.mended);
  return {rendered(mend_report(found, evaluation,
                               advise(found.mended, evaluation, {.edges = false, .notes = false})),
                   output),
          fine};
}

}  // namespace

void add_mend(Registry registry) {
  auto options = std::make_shared<MendOptions>();
  CLI::App* command = registry.app.add_subcommand(
      "mend", "Something else is in the bowl: what to add to come back to the recipe");
  bind_recipe(*command, options->recipe);
  command
      ->add_option("--weighed", options->weighed,
                   "What is really in the whole batch, as in \"water=512 g\"; may be repeated")
      ->type_name("THING=MASS")
      ->take_all();
  command->add_option("--ph", options->ph, "pH read in the bowl as it is now")
      ->type_name("PH")
      ->check(number_between(1, 12));
  command
      ->add_option("--texture", options->texture,
                   "What it is like after its rest, if it did not set: thick, pours, flowing")
      ->type_name("TEXTURE");
  bind_output(*command, registry.output);
  command->callback([options, registry] {
    if (options->weighed.empty() && options->ph <= 0 && options->texture.empty())
      throw CLI::ValidationError(
          "mend", "say what was weighed (--weighed), read (--ph) or seen (--texture)");
    registry.run = [options, &output = registry.output] { return run_mend(*options, output); };
  });
}

}  // namespace gelwright::cli
