#include "cli/command.hpp"
#include "gelwright/error.hpp"
#include "gelwright/fit_report.hpp"
#include "gelwright/read.hpp"
#include "gelwright/recipe_edit.hpp"

namespace gelwright::cli {

namespace {

struct FitCommand {
  std::string recipe;
  std::string bench;
  std::string method = "meter";
  FitOptions options;
};

Outcome run_fit(const FitCommand& command, const OutputOptions& output) {
  if (command.recipe == "-" && command.bench == "-")
    throw InputError("", {{"-", "standard input cannot be both recipe and readings",
                           "name a file for one of them"}});
  const std::string text = read_file(command.recipe);
  const std::string document = document_name(command.recipe);
  const Recipe recipe = read_recipe(text, document);
  const Bench bench = read_bench(read_file(command.bench), document_name(command.bench));
  FitOptions options = command.options;
  options.method = command.method == "strips" ? PhMethod::strips : PhMethod::meter;
  if (options.target_ph && !recipe.acid)
    throw InputError(
        document, {{"--to-ph", "the recipe has no acid to dose", "name the acid in the recipe"}});
  const BenchFit fit = fit_bench(recipe, bench, options);
  const bool out_of_reach = fit.dose && !fit.dose->dosed.reached;
  Outcome outcome{rendered(fit_report(recipe, bench, fit), output),
                  out_of_reach ? answer_is_no : fine};
  if (output.write) outcome.recipe = calibrated_document(text, document, fit);
  return outcome;
}

}  // namespace

void add_fit(Registry registry) {
  auto options = std::make_shared<FitCommand>();
  CLI::App* command = registry.app.add_subcommand(
      "fit", "Bench readings back in: the mix's real buffer, the next dose, the forecast judged");
  command->add_option("recipe", options->recipe, "Recipe file, - for standard input")->required();
  command
      ->add_option("bench", options->bench,
                   "Readings typed into the CSV of `gelwright ladder`, - for standard input")
      ->required();
  command
      ->add_option("--to-ph", options->options.target_ph,
                   "Acid dose for this pH, in place of the recipe's own target")
      ->check(number_between(0.5, 12.0));
  command->add_option("--ph-method", options->method, "How pH was read")
      ->check(CLI::IsMember({"meter", "strips"}))
      ->capture_default_str();
  command
      ->add_option("--ph-sd", options->options.ph_sd,
                   "Standard uncertainty of one reading, pH; else by the method")
      ->check(number_between(0.001, 2.0));
  command->add_option("--ingredient", options->options.ingredient,
                      "Whose buffer to find, where the recipe has more than one mix");
  command
      ->add_option("--stock-percent", options->options.stock_percent,
                   "Strength of the acid stock the sheet was planned with, as in `ladder`")
      ->check(number_between(0.0, 60.0));
  bind_output(*command, registry.output);
  bind_write(*command, registry.output, "Write the recipe with the buffer in it");
  command->callback([options, registry] {
    registry.run = [options, &output = registry.output] { return run_fit(*options, output); };
  });
}

}  // namespace gelwright::cli
