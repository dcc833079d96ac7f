#include <fmt/format.h>

#include <algorithm>

#include "gelwright/sheet.hpp"

namespace gelwright {

namespace {

/// Names of the solids of some kinds, joined.
std::string names_of(const Inputs& inputs, std::initializer_list<Kind> kinds) {
  std::vector<std::string> names;
  for (const InputLine& line : inputs.solids) {
    const Ingredient& ingredient = inputs.recipe->ingredients[line.ingredient];
    if (std::find(kinds.begin(), kinds.end(), ingredient.kind) != kinds.end())
      names.push_back(ingredient.name);
  }
  std::string joined;
  for (std::size_t i = 0; i < names.size(); ++i)
    joined += (i == 0 ? "" : i + 1 == names.size() ? " and " : ", ") + names[i];
  return joined;
}

std::string name_of(const Inputs& inputs, const InputDose& dose) {
  return inputs.recipe->ingredients[dose.line.ingredient].name;
}

}  // namespace

std::vector<std::string> method_steps(const Inputs& inputs, const Evaluation& evaluation) {
  const Process& process = inputs.recipe->process;
  std::vector<std::string> steps;
  const std::string gums = names_of(inputs, {Kind::gum});
  const std::string bulk = names_of(inputs, {Kind::sugar, Kind::syrup});
  const std::string mixes = names_of(inputs, {Kind::mix});
  const std::string salts = names_of(inputs, {Kind::salt});

  steps.emplace_back("Wash hands, scald the blender, pouches or flask and nozzle, rinse, let dry.");
  steps.emplace_back("Water into the blender.");
  if (!gums.empty()) {
    if (process.gum_dispersed == Dispersal::with_sugar)
      steps.push_back(
          fmt::format("Mix {} dry with 5 to 10 times as much of the weighed sugar; into the "
                      "running vortex, 1 to 3 min.",
                      gums));
    else
      steps.push_back(fmt::format("{} into the running vortex, slowly, 1 to 3 min.", gums));
  }
  if (process.heated_to_c) {
    steps.push_back(fmt::format(
        "Heat to {:.0f} degC until clear. Weigh the pot before and after: heating takes about 5 to "
        "15 % of the water; top up to the mass before.",
        *process.heated_to_c));
    steps.emplace_back(
        "Stay hot for what follows: a heat-dissolved gum sets as it cools. Hot gel scalds; never "
        "close a lid on a hot blender.");
  } else if (!gums.empty())
    steps.emplace_back("Rest 30 min, or overnight chilled: gum goes on hydrating.");
  if (!mixes.empty())
    steps.push_back(fmt::format(
        "Shake the pack of {} (part-used packs segregate); into the running blender, 1 to 3 min.",
        mixes));
  if (!bulk.empty()) steps.push_back(fmt::format("Blend in {}.", bulk));
  if (!salts.empty()) steps.push_back(fmt::format("Blend in {}.", salts));
  const bool calcium_first =
      inputs.calcium && inputs.making.calcium_place < inputs.making.acid_place;
  if (calcium_first)
    steps.push_back(fmt::format("Stir in {} as a fine slurry in a little of the water.",
                                name_of(inputs, *inputs.calcium)));
  if (inputs.acid) {
    const std::string acid = name_of(inputs, *inputs.acid);
    switch (evaluation.gel.state.acid) {
      case gel::Acid::slow:
        steps.push_back(
            fmt::format("Stir in {} and fill at once: it sets as it turns sour.", acid));
        break;
      case gel::Acid::blade:
        steps.push_back(fmt::format(
            "{} last, dissolved in a little of the water, in a thin stream under the blade.",
            acid));
        break;
      default:
        steps.push_back(fmt::format("{} last, poured in.", acid));
    }
  }
  if (inputs.calcium && !calcium_first)
    steps.push_back(fmt::format("{} last of all, as a weak solution, slowly.",
                                name_of(inputs, *inputs.calcium)));
  for (const PreDosed& piece : inputs.recipe->pre_dosed)
    steps.push_back(fmt::format("With each serving, not in the batch: {:g} x {}.",
                                piece.per_serving, piece.name));
  if (process.rest_hours > 0)
    steps.push_back(fmt::format("Rest {:g} h chilled.", process.rest_hours));
  steps.emplace_back("Let foam rise or tap it out; fill by grams, not by mL.");
  steps.emplace_back(inputs.recipe->form == Form::pouch
                         ? "Read the pH: 10 g of gel stirred into 10 g of low-mineral water, meter "
                           "calibrated at 4 and 7. Strips cannot be read in a thick gel."
                         : "Read the pH: meter calibrated at 4 and 7, or strips up to pH 4.0.");
  steps.emplace_back("Label with name, date and allergens; chill to 5 degC or colder.");
  return steps;
}

}  // namespace gelwright
