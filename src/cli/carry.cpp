#include "gelwright/carry.hpp"

#include <fmt/format.h>

#include <list>

#include "cli/command.hpp"
#include "cli/counted_file.hpp"
#include "cli/kitchen_file.hpp"
#include "cli/recipe_options.hpp"
#include "gelwright/carry_report.hpp"
#include "gelwright/error.hpp"
#include "gelwright/resolve.hpp"

namespace gelwright::cli {

namespace {

struct CarryOptions {
  std::vector<std::string> recipes;    ///< "thick.json=3"
  std::vector<std::string> bought;     ///< "oat bar=2"
  std::optional<std::string> kitchen;  ///< of all of them
  CarryWish wish;
  std::string start;  ///< "2026-07-04T08:00"; empty: not said
};

std::optional<LocalTime> start_of(const CarryOptions& options) {
  if (options.start.empty()) return std::nullopt;
  const std::optional<LocalTime> start = read_local_time(options.start);
  if (!start)
    throw InputError("", {{"--start " + options.start, "this is not a date and time",
                           "year, month, day and time, as in 2026-07-04T08:00"}});
  return start;
}

Outcome run_carry(const CarryOptions& options, const OutputOptions& output) {
  const std::optional<LocalTime> start = start_of(options);
  std::list<Recipe> recipes;  // inputs point at their recipe, so it may not move
  std::vector<CarryItem> items;
  std::optional<KitchenDocument> kitchen;
  for (const std::string& text : options.recipes) {
    const CountedFile one = read_counted_file(text);
    const RecipeTexts texts =
        read_texts({.file = one.file, .kitchen = options.kitchen, .with = {}});
    if (!kitchen) kitchen = texts.kitchen;
    recipes.push_back(read_recipe(texts));
    const Inputs inputs = as_measured(resolve(recipes.back()));
    items.push_back(carry_item(inputs, evaluate(inputs)));
    if (one.count) items.back().pieces = static_cast<std::size_t>(*one.count);
  }
  if (!kitchen && options.kitchen) kitchen = kitchen_of("", "{}", options.kitchen);
  for (const std::string& text : options.bought) {
    const Bought bought = read_bought(text, kitchen, "--bought");
    items.push_back(carry_item(bought.ingredient, bought.piece_g, bought.sugars_stated));
    if (bought.pieces) items.back().pieces = static_cast<std::size_t>(*bought.pieces);
  }
  const CarryPlan plan = carry(std::move(items), options.wish);
  bool no = false;
  for (const CarryFinding& each : plan.findings) no = no || each.level == Level::stop;
  Report report = carry_report(plan, start);
  if (shows_pictures(format_of(output))) add_carry_picture(report, plan);
  return {rendered(report, output), no ? answer_is_no : fine};
}

}  // namespace

void add_carry(Registry registry) {
  auto options = std::make_shared<CarryOptions>();
  CLI::App* command = registry.app.add_subcommand(
      "carry", "A run: what to take when, with how much water, what to pack, when to make it");
  command
      ->add_option("recipes", options->recipes,
                   "RECIPE or RECIPE=PIECES; without a number as many as the run asks for")
      ->type_name("RECIPE[=PIECES]");
  command
      ->add_option("--bought", options->bought,
                   "Something bought: \"NAME=PIECES\" of the kitchen's mixes, or its label, "
                   "\"NAME,piece_g=45,carbohydrate_g=30,count=2\"; may be given again")
      ->type_name("BOUGHT")
      ->allow_extra_args(false);
  bind_kitchen(*command, options->kitchen);
  command->add_option("--hours", options->wish.hours, "How long the run lasts")
      ->type_name("HOURS")
      ->required();
  command
      ->add_option("--carbohydrate-g-per-hour", options->wish.carbohydrate_g_per_hour,
                   "Carbohydrate wanted in each hour, g")
      ->type_name("GRAMS")
      ->required();
  command
      ->add_option("--used-to-g-per-hour", options->wish.used_to_g_per_hour,
                   "What your stomach is used to, g in an hour: prints the steps up to it")
      ->type_name("GRAMS");
  command
      ->add_option("--sweat-l-per-hour", options->wish.sweat_l_per_hour,
                   "Your own sweat, L in an hour: what you lose on the scale, 1 kg is 1 L; the "
                   "plan never has you drink more")
      ->type_name("LITRES");
  command
      ->add_option("--strength-percent", options->wish.strength_percent,
                   "Carbohydrate in what goes down, water counted, % (8)")
      ->type_name("PERCENT");
  command
      ->add_option("--warm-before-hours", options->wish.warm_before_hours,
                   "Hours out of the fridge before the start (0)")
      ->type_name("HOURS");
  command
      ->add_option("--cold-hours", options->wish.cold_hours,
                   "Hours into the run that the pieces stay at 5 degC or colder (0)")
      ->type_name("HOURS");
  command
      ->add_option("--air-c", options->wish.air_c,
                   "How warm the day is, degC: what is carried keeps shorter on a hot one")
      ->type_name("DEGC")
      ->check(number_between(-40, 60));
  command
      ->add_option("--start", options->start,
                   "When the run begins, as in 2026-07-04T08:00: dates what has to be made")
      ->type_name("TIME");
  bind_output(*command, registry.output);
  command->callback([options, registry] {
    if (options->recipes.empty() && options->bought.empty())
      throw CLI::ValidationError("carry", "name a recipe, or something --bought");
    registry.run = [options, &output = registry.output] { return run_carry(*options, output); };
  });
}

}  // namespace gelwright::cli
