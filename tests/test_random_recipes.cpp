// Ten thousand recipes nobody would write: whatever is valid evaluates.
#include <cmath>
#include <string>

#include "catch.hpp"
#include "gelwright/evaluate.hpp"
#include "random_recipe.hpp"
#include "recipes.hpp"
#include "statistics/random.hpp"

using namespace gelwright;

namespace {

/// Numbers of one recipe, the same on every platform.
struct Drawn {
  std::uint64_t recipe;
  std::uint64_t next = 0;

  double between(double low, double high) {
    return detail::rectangular({20261125, next++, recipe}, low, high);
  }
};

}  // namespace

TEST_CASE("ten thousand random valid recipes are read and evaluate") {
  constexpr std::uint64_t recipes = 10000;
  std::size_t foretold = 0;
  for (std::uint64_t i = 0; i < recipes; ++i) {
    Drawn drawn{i};
    const std::string text = test::random_recipe(drawn, i);
    INFO(text);
    const Recipe recipe = read_recipe(text, "random.json");
    const Inputs inputs = inputs_of(recipe);
    // Chances in full for some, the centre for all: the doubt costs fifty times as much.
    const bool in_full = i % 50 == 0;
    EvaluateParts parts;
    parts.gel.detail = in_full ? GelDetail::chances : GelDetail::centre;
    const Evaluation evaluation = evaluate(inputs, parts);
    REQUIRE(std::isfinite(evaluation.water_phase.ph));
    if (!evaluation.gel.made) continue;
    ++foretold;
    double sum = 0;
    for (const double each : evaluation.gel.all.chances.chance) sum += each;
    REQUIRE_THAT(sum, test::near(1, 1e-9));
  }
  // Outside the model's range nothing is foretold; that is the exception.
  CHECK(foretold > recipes * 8 / 10);
}
