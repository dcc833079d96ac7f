#include <fmt/format.h>

#include "base/number.hpp"
#include "base/text.hpp"
#include "cli/command.hpp"
#include "cli/kitchen_file.hpp"
#include "gelwright/advise.hpp"
#include "gelwright/aim.hpp"
#include "gelwright/error.hpp"
#include "gelwright/goal_report.hpp"
#include "gelwright/resolve.hpp"
#include "gelwright/sheet.hpp"

namespace gelwright::cli {

namespace {

/// What the command line says of the goal; what it does not say stands in the document.
struct FormulateOptions {
  std::string file;
  std::optional<std::string> kitchen;
  std::optional<std::string> form, texture, tap, name;
  std::vector<std::string> sugars, have;
  std::optional<double> carbohydrate_g, serving_g, soluble_solids_percent;
  std::optional<double> ph_at_least, ph_at_most, sodium_at_least, sodium_at_most;
  std::optional<double> caffeine_mg, tablet_mg, price_at_most, rest_hours, servings;
  std::uint64_t seed = 1;
  std::size_t take = 1;
};

/// "fructose=0.8": a name and its part, 1 where none is said.
GoalSugar sugar_of(const std::string& text, std::vector<Problem>& problems) {
  const auto [name, value] = detail::name_and_value(text);
  if (!value) return {name, 1};
  const std::optional<double> part = detail::to_number(*value);
  if (!part || !(*part > 0 && *part <= 1000))
    problems.push_back({"--sugar", fmt::format("\"{}\": the part is no number above 0", text),
                        "write it as in fructose=0.8"});
  return {name, part.value_or(1)};
}

template <class To, class From>
void take_over(To& to, const From& from) {
  if (from) to = *from;
}

/// A name as a JSON text.
std::string quoted(const std::string& name) {
  std::string text = "\"";
  for (const char each : name) {
    if (each == '"' || each == '\\') text += '\\';
    text += each;
  }
  return text + '"';
}

/// `text` is what the goal file holds, if there is one.
Goal goal_of(const FormulateOptions& options, const std::string& text) {
  Goal goal;
  std::vector<Problem> problems;
  if (!options.file.empty()) {
    goal = read_goal(text, document_name(options.file));
  } else if (!options.carbohydrate_g) {
    problems.push_back({"--carbohydrate-g", "how much carbohydrate a serving has is not said",
                        "say it, or name a goal file"});
  }
  if (options.form) goal.form = *options.form == "drink" ? Form::drink : Form::pouch;
  take_over(goal.name, options.name);
  take_over(goal.carbohydrate_g, options.carbohydrate_g);
  if (options.serving_g) {
    goal.serving_g = options.serving_g;
    goal.soluble_solids_percent.reset();
  }
  if (options.soluble_solids_percent) {
    goal.soluble_solids_percent = options.soluble_solids_percent;
    if (!options.serving_g) goal.serving_g.reset();
  }
  take_over(goal.ph.at_least, options.ph_at_least);
  take_over(goal.ph.at_most, options.ph_at_most);
  take_over(goal.sodium_mg.at_least, options.sodium_at_least);
  take_over(goal.sodium_mg.at_most, options.sodium_at_most);
  take_over(goal.caffeine_mg, options.caffeine_mg);
  take_over(goal.tablet_mg, options.tablet_mg);
  take_over(goal.price_at_most, options.price_at_most);
  take_over(goal.rest_hours, options.rest_hours);
  take_over(goal.servings, options.servings);
  if (options.tap) goal.tap = quoted(*options.tap);
  if (!options.have.empty()) goal.have = options.have;
  if (!options.sugars.empty()) goal.sugars.clear();
  for (const std::string& each : options.sugars) goal.sugars.push_back(sugar_of(each, problems));
  if (options.texture) {
    goal.texture = texture_called(*options.texture);
    if (!goal.texture)
      problems.push_back({"--texture", fmt::format("\"{}\" is no texture", *options.texture),
                          "name one of " + textures_in_words()});
  }
  if (!problems.empty()) throw InputError("", std::move(problems));
  return goal;
}

/// The card of a recipe that was found.
std::string card_of(const std::string& text, const OutputOptions& output) {
  const Recipe recipe = read_recipe(text, output.write.value_or("found"));
  const Inputs inputs = as_measured(resolve(recipe));
  const Evaluation evaluation = evaluate(inputs);
  return rendered(seen(sheet_report(inputs, evaluation,
                                    advise(inputs, evaluation, {.edges = false, .notes = false})),
                       {}),
                  output);
}

Outcome run_formulate(const FormulateOptions& options, const OutputOptions& output) {
  const std::string text = options.file.empty() ? "{}" : read_file(options.file);
  const Goal goal = goal_of(options, text);
  const std::optional<KitchenDocument> kitchen = kitchen_of(options.file, text, options.kitchen);
  const GoalFound found = recipes_for(goal, kitchen, options.seed);
  if (options.take > found.answers.size())
    throw InputError("", {{"--take", fmt::format("there are only {}", found.answers.size()),
                           "leave it out for the best of them"}});
  const GoalAnswer& taken = found.answers[options.take - 1];
  const bool kept = taken.good();
  Outcome outcome{rendered(goal_report(goal, found, options.take - 1), output),
                  kept && taken.likeliest ? fine : answer_is_no};
  // What breaks a limit is shown, so that it can be seen how near it comes, and not written.
  if (!kept) return outcome;
  if (output.write) outcome.recipe = taken.text;
  if (for_the_eye(format_of(output))) outcome.document += "\n" + card_of(taken.text, output);
  return outcome;
}

void bind_goal(CLI::App& command, FormulateOptions& options) {
  command
      .add_option("goal", options.file,
                  "Goal file (docs/goal.md), - for standard input; options stand in for its keys")
      ->type_name("GOAL.json");
  bind_kitchen(command, options.kitchen);
  command.add_option("--form", options.form, "pouch (sets) or drink (pours)")
      ->type_name("FORM")
      ->check(CLI::IsMember({"pouch", "drink"}));
  command.add_option("--carbohydrate-g", options.carbohydrate_g, "In one serving")
      ->type_name("GRAMS")
      ->check(number_between(1, 500));
  command.add_option("--serving-g", options.serving_g, "Mass of one serving, water included")
      ->type_name("GRAMS")
      ->check(number_between(2, 3000));
  command
      .add_option("--soluble-solids-percent", options.soluble_solids_percent,
                  "In place of the mass; with neither the water is searched too")
      ->type_name("PERCENT")
      ->check(number_between(1, 78));
  command
      .add_option("--sugar", options.sugars,
                  "What feeds and its part of the carbohydrate, as in fructose=0.8; may be given "
                  "again")
      ->type_name("SUGAR=PART")
      ->allow_extra_args(false);
  command.add_option("--texture", options.texture, "As \"soft set\"")->type_name("TEXTURE");
  command.add_option("--ph-at-least", options.ph_at_least, "Of the serving")
      ->type_name("PH")
      ->check(number_between(0.5, 12));
  command.add_option("--ph-at-most", options.ph_at_most, "Likewise")
      ->type_name("PH")
      ->check(number_between(0.5, 12));
  command.add_option("--sodium-mg-at-least", options.sodium_at_least, "In one serving")
      ->type_name("MG")
      ->check(number_between(0, 10000));
  command.add_option("--sodium-mg-at-most", options.sodium_at_most, "Likewise")
      ->type_name("MG")
      ->check(number_between(0, 10000));
  command.add_option("--caffeine-mg", options.caffeine_mg, "With one serving, as tablets")
      ->type_name("MG")
      ->check(number_between(0, 1000));
  command.add_option("--tablet-mg", options.tablet_mg, "Caffeine in one tablet")
      ->type_name("MG")
      ->check(number_between(1, 1000));
  command
      .add_option("--price-at-most", options.price_at_most,
                  "Of one serving, by the kitchen's prices")
      ->type_name("PRICE")
      ->check(number_between(0, 1e6));
  command.add_option("--rest-hours", options.rest_hours, "Until it is eaten")
      ->type_name("HOURS")
      ->check(number_between(0, 240));
  command.add_option("--servings", options.servings, "In one batch")
      ->type_name("N")
      ->check(number_between(1, 1000));
  command
      .add_option("--have", options.have,
                  "A gum, acid or salt there is; may be given again; else what the kitchen "
                  "describes or prices")
      ->type_name("NAME")
      ->allow_extra_args(false);
  command.add_option("--tap", options.tap, "Which of the kitchen's waters")->type_name("WATER");
  command.add_option("--name", options.name, "Of the recipe")->type_name("NAME");
}

}  // namespace

void add_formulate(Registry registry) {
  auto options = std::make_shared<FormulateOptions>();
  CLI::App* command = registry.app.add_subcommand(
      "formulate", "From what is wanted to recipes: water, gum, acid and salt together");
  bind_goal(*command, *options);
  command->add_option("--seed", options->seed, "Of the search; the same gives the same recipes")
      ->type_name("SEED")
      ->capture_default_str();
  command->add_option("--take", options->take, "Which of the recipes found, from 1")
      ->type_name("N")
      ->check(CLI::Range(std::size_t{1}, std::size_t{3}))
      ->capture_default_str();
  bind_format(*command, registry.output);
  command
      ->add_option("-o", registry.output.write,
                   "Write the recipe to FILE; what breaks a limit is not written")
      ->type_name("FILE");
  command->add_flag("--force", registry.output.force, "FILE may be replaced");
  command->callback([options, registry] {
    registry.run = [options, &output = registry.output] { return run_formulate(*options, output); };
  });
}

}  // namespace gelwright::cli
