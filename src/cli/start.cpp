#include "gelwright/start.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>
#include <unistd.h>

#include <filesystem>
#include <iostream>

#include "base/number.hpp"
#include "base/text.hpp"
#include "cli/command.hpp"
#include "cli/questions.hpp"
#include "gelwright/advise.hpp"
#include "gelwright/error.hpp"
#include "gelwright/read.hpp"
#include "gelwright/resolve.hpp"
#include "gelwright/sheet.hpp"
#include "gelwright/shipped.hpp"

namespace gelwright::cli {

namespace {

struct StartOptions {
  std::string from;  ///< a shipped recipe
  std::string form = "pouch";
  std::string label;  ///< "carbohydrate_g=94,sodium_mg=350", for 100 g
  bool from_scratch = false;
  std::string ratio = "maltodextrin DE 18:fructose=1:0.8";
  double solids_g = 0;
  double total_g = 0;
  double servings = 4;
  double calcium_mg_per_l = -1;  ///< below 0: not known
  double alkalinity_mg_per_l = -1;
  bool only_kitchen_scale = false;
  std::string name = "First batch";
};

std::vector<std::string> split(const std::string& text, char at) {
  std::vector<std::string> parts;
  std::size_t from = 0;
  for (std::size_t to = text.find(at); to != std::string::npos; to = text.find(at, from)) {
    parts.push_back(text.substr(from, to - from));
    from = to + 1;
  }
  parts.push_back(text.substr(from));
  return parts;
}

/// "maltodextrin DE 18:fructose=1:0.8"; what is wrong, or nothing.
std::string read_ratio(const std::string& text, std::vector<SugarPart>& sugars) {
  const std::string as_in = "as in maltodextrin DE 18:fructose=1:0.8";
  const auto [left, right] = detail::name_and_value(text);
  if (!right) {
    sugars = {{text, 1}};
    return text.find(':') == std::string::npos ? "" : "the parts are missing, " + as_in;
  }
  const std::vector<std::string> names = split(left, ':');
  const std::vector<std::string> parts = split(*right, ':');
  if (names.size() != parts.size()) return "not as many parts as sugars, " + as_in;
  sugars.clear();
  for (std::size_t i = 0; i < names.size(); ++i) {
    const std::optional<double> part = detail::to_number(parts[i]);
    if (!part || *part <= 0 || *part > 1000) return "a part is no number above 0, " + as_in;
    sugars.push_back({names[i], *part});
  }
  return "";
}

/// "carbohydrate_g=94,sodium_mg=350"; what is wrong, or nothing.
std::string read_label(const std::string& text, MixLabel& label) {
  for (const std::string& entry : split(text, ',')) {
    const auto [key, value] = detail::name_and_value(entry);
    const double number = value ? detail::to_number(*value).value_or(-1) : -1;
    if (key == "carbohydrate_g" && number >= 0 && number <= 100)
      label.carbohydrate_g = number;
    else if (key == "sodium_mg" && number >= 0 && number <= 40000)
      label.sodium_mg = number;
    else
      return "write what 100 g hold, as in carbohydrate_g=94,sodium_mg=350";
  }
  return "";
}

void ask_for(StartAnswers& answers, std::istream& in, std::ostream& out) {
  bool pouch = true;
  bool mix = true;
  ask(in, out, "A pouch that sets, or a drink that pours? (pouch, drink)", "pouch",
      choice_into(pouch, "pouch", "drink"));
  answers.form = pouch ? Form::pouch : Form::drink;
  ask(in, out, "From a bought mix, or from scratch? (mix, scratch)", "scratch",
      choice_into(mix, "mix", "scratch"));
  if (mix) {
    answers.mix.emplace();
    ask(in, out, "Carbohydrate in 100 g of the mix, g", "94",
        number_into(answers.mix->carbohydrate_g, 0, 100, "g"));
    ask(in, out, "Sodium in 100 g of the mix, mg", "350",
        number_into(answers.mix->sodium_mg, 0, 40000, "mg"));
  } else {
    ask(in, out, "Which sugars, in which parts?", "maltodextrin DE 18:fructose=1:0.8",
        [&](const std::string& text) { return read_ratio(text, answers.sugars); });
  }
  ask(in, out, "Solids (mix or sugars) in one serving, g", pouch ? "40" : "60",
      number_into(answers.solids_g, 1, 500, "g"));
  ask(in, out, "One serving in all, water included, g", pouch ? "70" : "500",
      number_into(answers.total_g, 2, 3000, "g"));
  ask(in, out, "How many servings?", "4", number_into(answers.servings, 1, 200, ""));
  ask(in, out, "Calcium of your tap water, mg/L (Enter: not known)", "",
      number_if_known(answers.calcium_mg_per_l, 0, 1000, "mg/L"));
  ask(in, out, "Its alkalinity, mg/L CaCO3 (Enter: not known)", "",
      number_if_known(answers.alkalinity_mg_caco3_per_l, 0, 1500, "mg/L"));
  ask(in, out, "Have you a scale that shows 0.01 g? (yes, no)", "yes",
      choice_into(answers.pocket_scale, "yes", "no"));
}

StartAnswers answers_of(const StartOptions& options) {
  StartAnswers answers;
  std::vector<Problem> problems;
  answers.name = options.name;
  answers.form = options.form == "drink" ? Form::drink : Form::pouch;
  const bool pouch = answers.form == Form::pouch;
  if (!options.label.empty()) {
    answers.mix.emplace();
    if (const std::string wrong = read_label(options.label, *answers.mix); !wrong.empty())
      problems.push_back({"--mix-label", wrong, ""});
  } else if (const std::string wrong = read_ratio(options.ratio, answers.sugars); !wrong.empty()) {
    problems.push_back({"--ratio", wrong, ""});
  }
  if (!problems.empty()) throw InputError("", std::move(problems));
  answers.solids_g = options.solids_g > 0 ? options.solids_g : pouch ? 40 : 60;
  answers.total_g = options.total_g > 0 ? options.total_g : pouch ? 70 : 500;
  answers.servings = options.servings;
  if (options.calcium_mg_per_l >= 0) answers.calcium_mg_per_l = options.calcium_mg_per_l;
  if (options.alkalinity_mg_per_l >= 0)
    answers.alkalinity_mg_caco3_per_l = options.alkalinity_mg_per_l;
  answers.pocket_scale = !options.only_kitchen_scale;
  return answers;
}

/// Whether any option was given but where the recipe goes.
bool says_anything(const CLI::App& command) {
  for (const CLI::Option* option : command.get_options())
    if (option->count() > 0 && option->get_name() != "-o" && option->get_name() != "--force")
      return true;
  return false;
}

std::string card_of(const std::string& recipe_text, const std::string& document,
                    const OutputOptions& output) {
  const Recipe recipe = read_recipe(recipe_text, document);
  const Inputs inputs = as_measured(as_weighed(resolve(recipe)));
  const Evaluation evaluation = evaluate(inputs);
  const Advice advice = advise(inputs, evaluation, {.edges = false, .notes = false});
  return rendered(seen(sheet_report(inputs, evaluation, advice), {}), output);
}

/// What a person is told below the card of a started recipe.
std::string remarks_on(const StartedRecipe& started, const StartAnswers& answers) {
  std::string text;
  for (const std::string& each : started.understood) text += each + "\n";
  if (!started.doubt.empty())
    text += fmt::format("Not sure to {}, about {:.0f} chances in 10: {}.\n",
                        answers.form == Form::pouch ? "set" : "pour", 10 * started.chance,
                        started.doubt);
  return text.empty() ? text : "\n" + text;
}

/// The recipe is the product. Where it goes to a file, its card is printed; else the card is for
/// the person beside it.
Outcome delivered(const std::string& recipe_text, const std::string& remarks,
                  const OutputOptions& output) {
  const std::string card = card_of(recipe_text, output.write.value_or("start"), output) + remarks;
  Outcome outcome;
  if (output.write) {
    outcome.document = card;
    outcome.recipe = recipe_text;
    outcome.aside = fmt::format(
        "\nThe recipe, to look into and to change:\n{}\nIts card again:\n"
        "gelwright sheet {}\n",
        *output.write, *output.write);
  } else {
    outcome.document = recipe_text;
    outcome.aside = card;
  }
  return outcome;
}

Outcome run_start(const StartAnswers& answers, const OutputOptions& output) {
  const StartedRecipe started = start_recipe(answers);
  return delivered(started.text, remarks_on(started, answers), output);
}

/// "first-batch.json", or with a number where that is taken.
std::string free_file_name() {
  std::string name = "first-batch.json";
  for (int number = 2; std::filesystem::exists(name); ++number)
    name = fmt::format("first-batch-{}.json", number);
  return name;
}

Outcome run_start_asking(OutputOptions& output) {
  if (isatty(STDIN_FILENO) == 0)
    throw InputError("", {{"start", "there is nothing to go by",
                           "give options, as in --form pouch --from-scratch, or run it on a "
                           "terminal"}});
  StartAnswers answers;
  ask_for(answers, std::cin, std::cerr);
  std::cerr << '\n';
  if (!output.write) output.write = free_file_name();
  return run_start(answers, output);
}

}  // namespace

void add_start(Registry registry) {
  auto options = std::make_shared<StartOptions>();
  CLI::App* command = registry.app.add_subcommand(
      "start", "Writes a first recipe, from options or from answers on a terminal");
  command->add_option("--form", options->form, "pouch (must set) or drink (must pour)")
      ->type_name("FORM")
      ->check(CLI::IsMember({"pouch", "drink"}));
  CLI::Option* label = command
                           ->add_option("--mix-label", options->label,
                                        "A bought mix: what 100 g hold, as in "
                                        "carbohydrate_g=94,sodium_mg=350")
                           ->type_name("KEY=AMOUNT,...");
  command->add_flag("--from-scratch", options->from_scratch, "Sugars, gum and acid of your own")
      ->excludes(label);
  command
      ->add_option("--ratio", options->ratio, "Sugars by part: maltodextrin DE 18:fructose=1:0.8")
      ->type_name("SUGAR:SUGAR=N:N")
      ->excludes(label);
  command->add_option("--solids-g", options->solids_g, "Mix or sugars in one serving, g")
      ->type_name("GRAMS")
      ->check(number_between(1, 500));
  command->add_option("--total-g", options->total_g, "One serving in all, g")
      ->type_name("GRAMS")
      ->check(number_between(2, 3000));
  command->add_option("--servings", options->servings, "How many")
      ->type_name("N")
      ->check(number_between(1, 200));
  command->add_option("--calcium-mg-per-l", options->calcium_mg_per_l, "Of the tap water")
      ->type_name("MG_PER_L")
      ->check(number_between(0, 1000));
  command
      ->add_option("--alkalinity-mg-caco3-per-l", options->alkalinity_mg_per_l, "Of the tap water")
      ->type_name("MG_PER_L")
      ->check(number_between(0, 1500));
  command->add_flag("--only-kitchen-scale", options->only_kitchen_scale,
                    "There is no scale of 0.01 g");
  command->add_option("--name", options->name, "Of the recipe")->type_name("NAME");
  command
      ->add_option("-o", registry.output.write,
                   "Write the recipe to FILE and print its card; else the recipe is printed, and "
                   "its card to standard error")
      ->type_name("FILE");
  command->add_flag("--force", registry.output.force, "FILE may be replaced");
  CLI::Option* from =
      command
          ->add_option("--from", options->from,
                       "A recipe that comes with the program, as it stands: " +
                           fmt::format("{}", fmt::join(shipped_recipe_names(), ", ")))
          ->type_name("NAME");
  for (CLI::Option* option : command->get_options())
    if (option != from && option->get_name() != "-o" && option->get_name() != "--force" &&
        option != command->get_help_ptr())
      from->excludes(option);
  command->callback([options, command, registry] {
    const bool told = says_anything(*command);
    registry.run = [options, told, &output = registry.output] {
      if (!options->from.empty()) return delivered(shipped_recipe(options->from), "", output);
      return told ? run_start(answers_of(*options), output) : run_start_asking(output);
    };
  });
}

}  // namespace gelwright::cli
