#include "gelwright/sheet.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

#include "cli/command.hpp"
#include "cli/kitchen_file.hpp"
#include "cli/notebook_file.hpp"
#include "cli/recipe_options.hpp"
#include "gelwright/error.hpp"
#include "gelwright/log_report.hpp"
#include "gelwright/read.hpp"
#include "gelwright/resolve.hpp"
#include "gelwright/sheet_pictures.hpp"
#include "gelwright/sizing.hpp"

namespace gelwright::cli {

namespace {

struct SheetOptions {
  RecipeOptions recipe;
  double servings = 0;        ///< whole; 0 = as in the recipe
  double batch_mass_g = 0;    ///< of the batch as filled; 0 = not asked
  double carbohydrate_g = 0;  ///< in the batch as filled; 0 = not asked
  double round_water_to_g = 0;
  std::optional<std::string> notebook;  ///< absent: that of the current folder, if there is one
  std::optional<std::string> cups;  ///< readings to draw as points
  View view;
};

bool named(const View& view, std::string_view part) {
  return std::find(view.parts.begin(), view.parts.end(), part) != view.parts.end();
}

/// Those that are asked for by name; all on a page with everything; one where nothing but a
/// picture can be printed.
std::vector<SheetPicture> wanted_pictures(const View& view, Format format) {
  std::vector<SheetPicture> wanted;
  for (const SheetPictureInfo& each : sheet_pictures())
    if (named(view, each.key) || (view.all && format == Format::html)) wanted.push_back(each.which);
  if (wanted.empty() && format == Format::svg) wanted.push_back(SheetPicture::acid_curve);
  return wanted;
}

/// Adds the pictures asked for. Throws InputError where the cups cannot be read, or where there is
/// only a picture to print and the recipe has none such.
void add_pictures(Report& report, const SheetOptions& options, Format format, const Inputs& inputs,
                  const Evaluation& evaluation, const Advice& advice) {
  std::optional<Bench> cups;
  if (options.cups) cups = read_bench(read_file(*options.cups), document_name(*options.cups));
  for (const SheetPicture which : wanted_pictures(options.view, format)) {
    Section section = picture_section(which, inputs, evaluation, advice, cups ? &*cups : nullptr);
    if (format == Format::svg && section.pictures.empty())
      throw InputError(inputs.recipe->document, {{"", section.lines.front().items.front(), ""}});
    section.in_full_only = format != Format::svg;
    report.sections.push_back(std::move(section));
  }
}

/// The sheet with the parts a person asked for. Throws InputError for a part it does not have.
std::string viewed(Report report, const View& view, const OutputOptions& output) {
  std::vector<std::string> there = parts_of(report);
  for (const SheetPictureInfo& each : sheet_pictures())
    if (std::find(there.begin(), there.end(), each.key) == there.end())
      there.emplace_back(each.key);
  std::vector<Problem> problems;
  for (const std::string& part : view.parts)
    if (std::find(there.begin(), there.end(), part) == there.end())
      problems.push_back({"--show", fmt::format("no part \"{}\" on this sheet", part),
                          fmt::format("it has {}", fmt::join(there, ", "))});
  if (!problems.empty()) throw InputError("", std::move(problems));
  return rendered(for_the_eye(format_of(output)) ? seen(std::move(report), view) : report, output);
}

std::optional<BatchSize> size_of(const SheetOptions& options) {
  if (options.servings > 0) return BatchSize{SizeBy::servings, options.servings};
  if (options.batch_mass_g > 0) return BatchSize{SizeBy::mass_g, options.batch_mass_g};
  if (options.carbohydrate_g > 0) return BatchSize{SizeBy::carbohydrate_g, options.carbohydrate_g};
  return std::nullopt;
}

/// The first screen shows no edges, and of notes only how many there are.
AdviseParts parts_for(const View& view, Format format) {
  const bool all = view.all || !for_the_eye(format);
  const bool maps = named(view, "texture_map") || named(view, "gum_map");
  return {.edges = all || maps || named(view, "edges"), .notes = all || named(view, "flags")};
}

/// Nor does it say of a pouch what becomes of it in the stomach.
EvaluateParts looked_at(Form form, const View& view, Format format) {
  const bool first_screen = for_the_eye(format) && !view.all && view.parts.empty();
  return {.gel = {.stomach = form == Form::drink || !first_screen}};
}

/// Puts what came of it last time behind the first screen, where a notebook tells of it.
Report with_last_time(Report report, const SheetOptions& options, const RecipeTexts& texts,
                      const Recipe& recipe) {
  const std::string file = options.notebook.value_or(usual_notebook);
  const std::optional<std::string> notebook = notebook_text(file);
  if (!notebook && options.notebook) read_notebook_file(file);  // says that it is not there
  if (!notebook) return report;
  const std::optional<NotebookEntry> last = last_entry(*notebook, recipe.name);
  if (!last) return report;
  report.sections.insert(
      report.sections.begin() + 1,
      last_time_section(*last, content_hash(texts.text, texts.document, texts.kitchen)));
  return report;
}

Outcome run_sheet(const SheetOptions& options, const OutputOptions& output) {
  const AdviseParts parts = parts_for(options.view, format_of(output));
  const RecipeTexts texts = read_texts(options.recipe);
  Recipe recipe = with_knobs(read_recipe(texts), options.recipe);
  if (options.round_water_to_g > 0) recipe.batch.round_water_to_g = options.round_water_to_g;
  Inputs inputs = resolve(recipe);
  if (const auto size = size_of(options)) inputs.servings = servings_for(*size, inputs);
  inputs = as_measured(as_weighed(std::move(inputs)));
  const EvaluateParts looked = looked_at(recipe.form, options.view, format_of(output));
  const Evaluation exact = evaluate(inputs, looked);
  const auto printed = [&](const Inputs& made, const Evaluation& evaluation,
                           const Evaluation* unrounded) -> Outcome {
    const Advice advice = advise(made, evaluation, parts);
    Report report =
        with_last_time(sheet_report(made, evaluation, advice, unrounded), options, texts, recipe);
    add_pictures(report, options, format_of(output), made, evaluation, advice);
    return {viewed(std::move(report), options.view, output), fine};
  };
  if (!recipe.batch.round_water_to_g) return printed(inputs, exact, nullptr);
  const Inputs rounded = with_rounded_water(inputs, *recipe.batch.round_water_to_g);
  return printed(rounded, evaluate(rounded, looked), &exact);
}

struct CheckOptions {
  std::vector<std::string> files;  ///< "-" for standard input
  RecipeOptions recipe;            ///< its file is each of them in turn
  View view;
};

/// Every recipe, or the problems of all of them.
std::vector<Recipe> load_recipes(CheckOptions options) {
  std::vector<Recipe> recipes;
  std::vector<InputError> errors;
  for (const std::string& file : options.files) {
    options.recipe.file = file;
    try {
      recipes.push_back(load_recipe(options.recipe));
    } catch (const InputError& error) {
      errors.push_back(error);
    }
  }
  if (errors.size() == 1) throw errors.front();
  std::vector<Problem> problems;
  for (const InputError& error : errors)
    for (const Problem& each : error.problems())
      problems.push_back({each.where, each.what, each.remedy,
                          each.document.empty() ? error.document() : each.document});
  if (!problems.empty()) throw InputError("", std::move(problems));
  return recipes;
}

Outcome run_check(const CheckOptions& options, const OutputOptions& output) {
  bool stop = false;
  const Format format = format_of(output);
  const bool notes = options.view.all || !for_the_eye(format);
  std::vector<CheckedRecipe> checked;
  for (const Recipe& recipe : load_recipes(options)) {
    const Inputs inputs = as_measured(as_weighed(resolve(recipe)));
    const Evaluation evaluation = evaluate(inputs);
    for (const Flag& flag : evaluation.flags) stop = stop || flag.level == Level::stop;
    checked.push_back({recipe.document,
                       check_report(inputs, evaluation,
                                    advise(inputs, evaluation, {.edges = false, .notes = notes}))});
  }
  const Report report = checked.size() == 1 ? checked.front().report : checks_report(checked);
  return {rendered(for_the_eye(format) ? seen(report, options.view) : report, output),
          stop ? answer_is_no : fine};
}

}  // namespace

void add_sheet(Registry registry) {
  auto options = std::make_shared<SheetOptions>();
  CLI::App* command = registry.app.add_subcommand("sheet", "Batch sheet: weigh-out, outlook, cost");
  bind_recipe(*command, options->recipe);
  CLI::Option* servings =
      command
          ->add_option("--servings", options->servings, "Whole servings, in place of the recipe's")
          ->type_name("N")
          ->check(number_between(1.0, 1e5));
  CLI::Option* mass = command
                          ->add_option("--batch-mass-g", options->batch_mass_g,
                                       "Size the batch by its filled mass, g")
                          ->type_name("GRAMS")
                          ->check(number_between(1e-3, 1e8))
                          ->excludes(servings);
  command
      ->add_option("--carbohydrate-g", options->carbohydrate_g,
                   "Size the batch by its carbohydrate, g")
      ->type_name("GRAMS")
      ->check(number_between(1e-3, 1e8))
      ->excludes(servings)
      ->excludes(mass);
  command
      ->add_option("--round-water-to-g", options->round_water_to_g,
                   "Round the batch's water to a multiple of this, g, and show what that does")
      ->type_name("GRAMS")
      ->check(number_between(0.01, 1e5));
  command
      ->add_option("--notebook", options->notebook,
                   fmt::format("Notebook that tells how it was last time; else {} of the current "
                               "folder, if it is there",
                               usual_notebook))
      ->type_name("FILE");
  CLI::Option* all =
      command->add_flag("--all", options->view.all, "Everything, not only the first screen");
  command
      ->add_option("--show", options->view.parts,
                   "Only these parts: expect, watch, procedure, edges, cost, acid_curve, ...")
      ->type_name("PART,...")
      ->excludes(all)
      ->delimiter(',');
  command
      ->add_option("--cups", options->cups,
                   "Readings of your cups (see `ladder`), drawn as points in the pictures")
      ->type_name("BENCH.csv");
  bind_output(*command, registry.output);
  command->callback([options, registry] {
    registry.run = [options, &output = registry.output] { return run_sheet(*options, output); };
  });
}

void add_check(Registry registry) {
  auto options = std::make_shared<CheckOptions>();
  CLI::App* command =
      registry.app.add_subcommand("check", "Flags only; exit 1 if one of them says stop");
  command->add_option("recipe", options->files, "Recipe files, - for standard input")
      ->type_name("RECIPE")
      ->required();
  bind_kitchen(*command, options->recipe.kitchen);
  bind_knobs(*command, options->recipe);
  command->add_flag("--all", options->view.all, "The notes too, and the names of all flags");
  bind_output(*command, registry.output);
  command->callback([options, registry] {
    registry.run = [options, &output = registry.output] { return run_check(*options, output); };
  });
}

}  // namespace gelwright::cli
