#include <fmt/format.h>

#include "cli/command.hpp"
#include "cli/notebook_file.hpp"
#include "cli/recipe_options.hpp"
#include "gelwright/error.hpp"
#include "gelwright/fit_report.hpp"
#include "gelwright/log_report.hpp"
#include "gelwright/read.hpp"
#include "gelwright/recipe_edit.hpp"

namespace gelwright::cli {

namespace {

struct FitCommand {
  RecipeOptions recipe;
  std::string bench;
  bool from_log = false;
  std::string notebook = usual_notebook;
  std::string method = "meter";
  std::optional<std::string> texture;
  FitOptions options;
};

/// The cups the notebook holds of this recipe as it is now, and how many others it holds.
Bench logged(const FitCommand& command, const RecipeTexts& texts, const Recipe& recipe,
             std::vector<Section>& said) {
  const Inputs planned = resolve(recipe);
  NotebookBench found = bench_of(read_notebook_file(command.notebook), recipe.name,
                                 content_hash(texts.text, texts.document, texts.kitchen), planned);
  if (found.bench.cups.empty())
    throw InputError(
        command.notebook,
        {{recipe.name,
          fmt::format(
              "no entry of the recipe as it is now has a reading; {} of it before a change, "
              "{} without a reading",
              found.changed, found.unreadable),
          "note pH, syringe, cup or spoon with `gelwright log add`"}});
  said.push_back(logged_section(found));
  return std::move(found.bench);
}

Outcome run_fit(const FitCommand& command, const OutputOptions& output) {
  if (command.bench == "-" && (command.recipe.file == "-" || command.recipe.kitchen == "-"))
    throw InputError("", {{"-", "standard input cannot be readings and recipe or kitchen as well",
                           "name a file for one of them"}});
  const RecipeTexts texts = read_texts(command.recipe);
  const Recipe recipe = read_recipe(texts);
  if (output.write_kitchen && !texts.kitchen)
    throw InputError(texts.document, {{"--write-kitchen", "the recipe has no kitchen to write to",
                                       "name one in the recipe, or with --kitchen FILE"}});
  std::vector<Section> said;
  const Bench bench = command.from_log
                          ? logged(command, texts, recipe, said)
                          : read_bench(read_file(command.bench), document_name(command.bench));
  FitOptions options = command.options;
  options.method = command.method == "strips" ? PhMethod::strips : PhMethod::meter;
  if (options.target_ph && !recipe.acid)
    throw InputError(texts.document, {{"--to-ph", "the recipe has no acid to dose",
                                       "name the acid in the recipe"}});
  if (command.texture) {
    options.target_texture = texture_called(*command.texture);
    if (!options.target_texture)
      throw InputError("", {{"--to-texture", "\"" + *command.texture + "\" is no texture",
                             "name one of " + textures_in_words()}});
  }
  const BenchFit fit = fit_bench(recipe, bench, options);
  const bool out_of_reach = fit.dose && !fit.dose->dosed.reached;
  Report report = fit_report(recipe, bench, fit);
  report.sections.insert(report.sections.begin(), said.begin(), said.end());
  if (shows_pictures(format_of(output))) add_fit_pictures(report, recipe, bench, fit);
  Outcome outcome{rendered(report, output), out_of_reach ? answer_is_no : fine};
  // With both the kitchen gets what was found of its mix, and the recipe the dose.
  if (output.write && output.write_kitchen)
    outcome.recipe = dosed_recipe(texts.text, recipe, fit);
  else if (output.write)
    outcome.recipe = calibrated_recipe(texts.text, recipe, fit);
  if (output.write_kitchen) outcome.kitchen = calibrated_kitchen(*texts.kitchen, recipe, fit);
  return outcome;
}

}  // namespace

void add_fit(Registry registry) {
  auto options = std::make_shared<FitCommand>();
  CLI::App* command = registry.app.add_subcommand(
      "fit", "Bench readings back in: the mix's real buffer, what its cups taught, the next dose");
  bind_recipe_alone(*command, options->recipe);
  command
      ->add_option("bench", options->bench,
                   "Readings typed into the CSV of `gelwright ladder`, - for standard input")
      ->type_name("BENCH.csv");
  command->add_flag("--from-log", options->from_log,
                    "Learn from the notebook's entries of this recipe, in place of a bench file");
  command->add_option("--notebook", options->notebook, "The notebook")
      ->type_name("FILE")
      ->capture_default_str();
  command
      ->add_option("--to-ph", options->options.target_ph,
                   "Acid dose for this pH, in place of the recipe's own target")
      ->type_name("PH")
      ->check(number_between(0.5, 12.0));
  command->add_option("--ph-method", options->method, "How pH was read")
      ->type_name("HOW")
      ->check(CLI::IsMember({"meter", "strips"}))
      ->capture_default_str();
  command
      ->add_option("--ph-sd", options->options.ph_sd,
                   "Standard uncertainty of one reading, pH; else by the method")
      ->type_name("PH")
      ->check(number_between(0.001, 2.0));
  command
      ->add_option("--ingredient", options->options.ingredient,
                   "Whose buffer to find, where the recipe has more than one mix")
      ->type_name("NAME");
  command
      ->add_option("--stock-percent", options->options.stock_percent,
                   "Strength of the acid stock the sheet was planned with, as in `ladder`")
      ->type_name("PERCENT")
      ->check(number_between(0.0, 60.0));
  command
      ->add_option("--to-texture", options->texture,
                   "Acid dose for the best chance of this texture, as \"soft set\"")
      ->type_name("TEXTURE");
  command
      ->add_option("--read-on", options->options.read_on,
                   "The day of the readings, kept with what they taught: 2026-11-25")
      ->type_name("DATE");
  bind_output(*command, registry.output);
  bind_write(*command, registry.output,
             "Write the recipe with what was found in it: buffer, lesson, dose");
  command
      ->add_option(
          "--write-kitchen", registry.output.write_kitchen,
          "Write the kitchen with the buffer and the lesson in it to FILE; with --force that "
          "may be the kitchen itself")
      ->type_name("FILE");
  command->callback([options, registry] {
    if (options->from_log == !options->bench.empty())
      throw CLI::ValidationError("fit", "name the readings, or say --from-log");
    registry.run = [options, &output = registry.output] { return run_fit(*options, output); };
  });
}

}  // namespace gelwright::cli
