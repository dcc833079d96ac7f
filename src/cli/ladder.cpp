#include <fmt/format.h>

#include <memory>

#include "cli/command.hpp"
#include "cli/recipe_options.hpp"
#include "gelwright/error.hpp"
#include "gelwright/ladder_report.hpp"
#include "gelwright/resolve.hpp"

namespace gelwright::cli {

namespace {

struct LadderCommand {
  RecipeOptions recipe;
  std::vector<std::string> vary;
  std::size_t teach = 0;  ///< cups; 0: not asked
  std::string turn = "acid_g";
  LadderOptions options;
  double stock_percent = -1;  ///< below 0: not asked
  unsigned threads = 0;       ///< 0 = all there are
};

Outcome run_ladder(const LadderCommand& command, const OutputOptions& output) {
  // The recipe has to outlive the planned series, which may be written only after we return.
  const auto recipe = std::make_shared<const Recipe>(load_recipe(command.recipe));
  const Inputs inputs = resolve(*recipe);
  LadderOptions options = command.options;
  if (command.stock_percent >= 0) options.stock_percent = command.stock_percent;
  if (command.vary.empty() == (command.teach == 0))
    throw InputError("", {{"ladder", "say which cups to make",
                           "--vary KNOB=FROM:TO:STEP for a series, or --teach 6 for the cups that "
                           "would tell most; not both"}});
  std::optional<Teaching> teaching;
  if (command.teach > 0) {
    const FoundKnob knob = find_knob(command.turn, *recipe);
    if (!knob.knob) throw InputError("", {{"--turn " + command.turn, knob.what, knob.remedy}});
    teaching = teach(inputs, *knob.knob, command.teach);
  }
  const Ladder ladder = plan_ladder(inputs,
                                    teaching ? std::vector<LadderAxis>{axis_of(*teaching, *recipe)}
                                             : read_ladder_axes(command.vary, inputs),
                                    options);
  if (format_of(output) != Format::csv)
    return {rendered(ladder_report(ladder, teaching ? &*teaching : nullptr), output), fine};
  Outcome outcome;
  outcome.stream = [recipe, ladder, threads = command.threads](const Sink& sink) {
    write_ladder_csv(ladder, threads, sink);
  };
  return outcome;
}

}  // namespace

void add_ladder(Registry registry) {
  auto options = std::make_shared<LadderCommand>();
  CLI::App* command = registry.app.add_subcommand(
      "ladder", "Bench series: small cups over one or two inputs, and what to expect of each");
  bind_recipe(*command, options->recipe);
  command
      ->add_option("--vary", options->vary,
                   fmt::format("KNOB=FROM:TO:STEP, per serving; knobs: {}", knob_names()))
      ->type_name("KNOB=FROM:TO:STEP")
      ->allow_extra_args(false);
  command
      ->add_option("--teach", options->teach,
                   "In place of --vary: the so many cups that would teach most, 4 to 6 as a rule")
      ->type_name("N")
      ->check(number_between(1, 100));
  command
      ->add_option("--turn", options->turn,
                   "What --teach varies: acid_g, calcium_salt_g, water_g, mass_g:GUM")
      ->type_name("KNOB")
      ->capture_default_str();
  command->add_option("--cup-g", options->options.cup_g, "Base in each cup, g")
      ->type_name("GRAMS")
      ->capture_default_str();
  command
      ->add_option("--stock-percent", options->stock_percent,
                   "Strength of the acid stock, g in 100 g; 0 = weigh the acid neat; else the "
                   "recipe's, else 10")
      ->type_name("PERCENT")
      ->check(number_between(0.0, 60.0));
  command->add_flag("--shuffle", options->options.shuffle, "Cups in random order");
  command->add_option("--seed", options->options.seed, "Of the random order")
      ->type_name("N")
      ->check(number_between(std::uint64_t{0}, std::uint64_t{1} << 53))
      ->capture_default_str();
  command->add_option("--threads", options->threads, "For large grids; 0 = all there are")
      ->type_name("N")
      ->check(number_between(0, 256));
  bind_output(*command, registry.output);
  command->callback([options, registry] {
    registry.run = [options, &output = registry.output] { return run_ladder(*options, output); };
  });
}

}  // namespace gelwright::cli
