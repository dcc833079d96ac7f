#include <fmt/format.h>

#include "cli/command.hpp"
#include "cli/recipe_options.hpp"
#include "gelwright/aim_report.hpp"
#include "gelwright/dose_report.hpp"
#include "gelwright/error.hpp"
#include "gelwright/recipe_edit.hpp"

namespace gelwright::cli {

namespace {

struct DoseOptions {
  RecipeOptions recipe;
  std::optional<double> ph;
  std::optional<double> ratio;
  std::optional<double> water_fraction;
  std::optional<double> soluble_solids;
  bool readable = false;
  std::optional<std::string> texture;
  std::string turn = "acid_g";
};

/// The wanted texture by name, or the recipe's own where none is named.
gel::Texture texture_of(const std::string& named, const Recipe& recipe) {
  if (named.empty() && recipe.target_texture) return *recipe.target_texture;
  const auto texture = texture_called(named);
  if (!texture)
    throw InputError("", {{"--to-texture",
                           named.empty() ? std::string("the recipe has no target_texture")
                                         : fmt::format("\"{}\" is no texture", named),
                           "name one of " + textures_in_words()}});
  return *texture;
}

Outcome run_aim(const DoseOptions& options, const OutputOptions& output, const RecipeTexts& texts,
                const Recipe& as_read) {
  Recipe recipe = with_knobs(as_read, options.recipe);
  const FoundKnob knob = find_knob(options.turn, recipe);
  if (!knob.knob) throw InputError("", {{"--turn " + options.turn, knob.what, knob.remedy}});
  const TextureAim aim{texture_of(*options.texture, recipe), *knob.knob};
  const Inputs inputs = resolve(recipe);
  const AimFound found = aim_at(inputs, aim);
  Outcome outcome{rendered(aim_report(inputs, found), output),
                  found.likeliest ? fine : answer_is_no};
  if (output.write && found.possible)
    outcome.recipe = with_amount(texts.text, texts.document, aim.turn, found.amount, texts.kitchen);
  return outcome;
}

void require_writable(const OutputOptions& output, const Recipe& recipe) {
  if (output.write && !recipe.turned.empty())
    throw InputError("", {{"knobs", "the recipe written would not hold what is turned here",
                           "put it into the recipe itself first, or write no recipe"}});
}

DoseQuestion question_of(const DoseOptions& options) {
  if (options.ph) return {Target::ph, *options.ph};
  if (options.ratio) return {Target::ratio, *options.ratio};
  if (options.water_fraction) return {Target::water_fraction, *options.water_fraction};
  if (options.soluble_solids) return {Target::soluble_solids, *options.soluble_solids};
  return {Target::readable, 0};
}

/// The recipe's targets other than the one in question; that one is being asked anew.
Inputs inputs_for(Recipe& recipe, Target target) {
  if (target == Target::ph && recipe.acid) recipe.acid->target_ph.reset();
  if (target == Target::ratio && recipe.calcium) recipe.calcium->target_ratio.reset();
  return resolve(recipe);
}

Outcome run_dose(const DoseOptions& options, const OutputOptions& output) {
  const RecipeTexts texts = read_texts(options.recipe);
  const Recipe as_read = read_recipe(texts);
  if (options.texture) {
    require_writable(output, with_knobs(as_read, options.recipe));
    return run_aim(options, output, texts, as_read);
  }
  const DoseQuestion question = question_of(options);
  for (const KnobSetting& each : read_knob_settings(options.recipe.with, as_read))
    if (dosed_by(question.target) == info_of(each.which.knob).turns)
      throw InputError("", {{fmt::format("knobs {}", name_of(each.which, as_read)),
                             "this is what is to be found", "turn another knob"}});
  Recipe recipe = with_knobs(as_read, options.recipe);
  require_writable(output, recipe);
  const Inputs inputs = inputs_for(recipe, question.target);
  const DoseAnswer found = answer(inputs, question);
  Outcome outcome{rendered(dose_report(found, question), output),
                  found.dosed.reached ? fine : answer_is_no};
  if (output.write && found.dosed.reached)
    outcome.recipe = with_answer(texts.text, texts.document, found, question, texts.kitchen);
  return outcome;
}

}  // namespace

void add_dose(Registry registry) {
  auto options = std::make_shared<DoseOptions>();
  CLI::App* command = registry.app.add_subcommand(
      "dose", "Find one unknown: acid, calcium salt, water or servings; exit 1 if out of reach");
  bind_recipe(*command, options->recipe);
  CLI::Option_group* target = command->add_option_group("target", "What to reach, one of");
  target->add_option("--to-ph", options->ph, "Acid for this pH of the water phase")
      ->type_name("PH")
      ->check(number_between(0.5, 12.0));
  target->add_option("--to-ratio", options->ratio, "Calcium salt for this R2 of the gum")
      ->type_name("R2")
      ->check(number_between(0.0, 10.0));
  target
      ->add_option("--to-water-fraction", options->water_fraction,
                   "Water for this fraction of the total, 0 to 1")
      ->type_name("SHARE")
      ->check(number_between(0.001, 0.999));
  target
      ->add_option("--to-soluble-solids", options->soluble_solids,
                   "Water for these soluble solids, %")
      ->type_name("PERCENT")
      ->check(number_between(0.1, 99.0));
  target->add_flag("--to-readable", options->readable,
                   "Smallest batch whose every line the scales can weigh");
  target
      ->add_option("--to-texture", options->texture,
                   "What is turned for the best chance of this texture, as \"soft set\"; without a "
                   "name the recipe's own target_texture")
      ->type_name("TEXTURE")
      ->expected(0, 1);
  target->require_option(1);
  command
      ->add_option("--turn", options->turn,
                   "What --to-texture turns: acid_g, calcium_salt_g, water_g, mass_g:GUM")
      ->type_name("KNOB")
      ->capture_default_str();
  bind_output(*command, registry.output);
  bind_write(*command, registry.output, "Write the recipe with the answer in it");
  command->callback([options, registry] {
    registry.run = [options, &output = registry.output] { return run_dose(*options, output); };
  });
}

}  // namespace gelwright::cli
