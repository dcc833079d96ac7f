// What the program says of each recipe of standard input, one a line: "good", or the problems. With
// the argument "evaluate" the recipe is worked out too; with "kitchen" each line is a kitchen, read
// with a recipe that takes nothing from it.
#include <cmath>
#include <iostream>
#include <string>
#include <string_view>

#include "gelwright/error.hpp"
#include "gelwright/evaluate.hpp"
#include "gelwright/read.hpp"
#include "gelwright/resolve.hpp"

namespace {

constexpr std::string_view plain_recipe = R"({"format": "gelwright/recipe-2", "name": "plain",
  "form": "drink", "solids": [{"ingredient": "sucrose", "mass_g": 40}], "water": {"mass_g": 300},
  "batch": {"scales": []}})";

std::string verdict(const std::string& document, std::string_view asked) {
  if (asked == "kitchen") {
    gelwright::read_recipe(plain_recipe, "", gelwright::KitchenDocument{document, "kitchen"});
    return "good";
  }
  const gelwright::Recipe recipe = gelwright::read_recipe(document, "");
  if (asked != "evaluate") return "good";
  const gelwright::Evaluation made = gelwright::evaluate(gelwright::resolve(recipe));
  const bool sane = std::isfinite(made.water_phase.ph) && made.formula.total_g > 0 &&
                    std::isfinite(made.nutrition.energy_kj);
  return sane ? "good" : "not finite";
}

}  // namespace

int main(int argc, char** argv) {
  const std::string_view asked = argc > 1 ? argv[1] : "";
  for (std::string line; std::getline(std::cin, line);) {
    try {
      std::cout << verdict(line, asked) << '\n';
    } catch (const gelwright::InputError& error) {
      for (const gelwright::Problem& each : error.problems())
        std::cout << each.where << ": " << each.what << " | ";
      std::cout << '\n';
    } catch (const gelwright::NotConverged& error) {
      std::cout << "not converged\n";
    }
  }
}
