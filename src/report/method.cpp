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
      steps.push_back(fmt::format(
          "Mix {} dry with 5 to 10 times its mass of sugar; into the running vortex, 1 to 3 min.",
          gums));
    else
      steps.push_back(fmt::format("{} into the running vortex, slowly, 1 to 3 min.", gums));
  }
  if (process.heated_to_c)
    steps.push_back(fmt::format(
        "Heat to {:.0f} degC until clear. Weigh the pot before and after: heating takes about 5 to "
        "15 % of the water; top up to the printed mass.",
        *process.heated_to_c));
  if (!gums.empty())
    steps.emplace_back("Rest 30 min, or overnight chilled: gum goes on hydrating.");
  if (!mixes.empty())
    steps.push_back(fmt::format(
        "Shake the pack of {} (part-used packs segregate); into the running blender, 1 to 3 min.",
        mixes));
  if (!bulk.empty()) steps.push_back(fmt::format("Blend in {}.", bulk));
  if (!salts.empty()) steps.push_back(fmt::format("Blend in {}.", salts));
  if (inputs.acid) {
    const std::string acid = name_of(inputs, *inputs.acid);
    switch (evaluation.setting.input.acid) {
      case AcidDelivery::slow:
        steps.push_back(
            fmt::format("Stir in {} and fill at once: it sets as it turns sour.", acid));
        break;
      case AcidDelivery::under_blade:
        steps.push_back(fmt::format(
            "{} last, as a 10 to 20 % solution in a thin stream under the blade.", acid));
        break;
      default:
        steps.push_back(fmt::format("{} last, slowly.", acid));
    }
  }
  if (inputs.calcium) {
    const std::string salt = name_of(inputs, *inputs.calcium);
    steps.push_back(evaluation.setting.input.calcium == CalciumDelivery::insoluble_until_acid
                        ? fmt::format("{} goes in as a fine slurry before the acid.", salt)
                        : fmt::format("{} last of all, weak solution, slowly.", salt));
  }
  if (process.rest_hours > 0)
    steps.push_back(fmt::format("Rest {:g} h chilled.", process.rest_hours));
  steps.emplace_back("Let foam rise or tap it out; fill by grams, not by mL.");
  steps.emplace_back(
      "Read the pH: 10 g of gel stirred into 10 g of low-mineral water, meter calibrated at 4 and "
      "7. "
      "Strips cannot be read in a thick gel.");
  steps.emplace_back("Label with name, date and allergens; chill to 5 degC or colder.");
  return steps;
}

}  // namespace gelwright
