// From a texture that is wanted to an amount.
#include "catch.hpp"
#include "gelwright/aim.hpp"
#include "gelwright/aim_report.hpp"
#include "recipes.hpp"

using namespace gelwright;
using gelwright::test::near;
using gelwright::test::recipe_with;

namespace {

/// Acid released slowly into alginate: liquid while it is not sour, then a gel (Draget et al.
/// 1990).
std::string slow_acid(const std::string& more) {
  return R"("solids": [{"ingredient": "sucrose", "mass_g": 20},
      {"ingredient": "sodium alginate", "mass_g": 1}], "water": {"mass_g": 80},
      "tap": "demineralised water", "process": {"acid_added": "slow"},
      "acid": {"ingredient": "citric acid anhydrous", "mass_g": 0.05})" +
         more;
}

}  // namespace

TEST_CASE("the amount found gives the wanted texture the chance that is claimed") {
  const Recipe recipe = recipe_with(slow_acid(""));
  const Inputs inputs = inputs_of(recipe);
  for (const gel::Texture wanted : {gel::Texture::thick, gel::Texture::soft, gel::Texture::firm}) {
    const AimFound found = aim_at(inputs, {wanted, {Knob::acid_g}});
    INFO(gel::to_text(wanted) << ": " << found.amount << " g, " << found.chance);
    REQUIRE(found.possible);
    const Evaluation there = evaluate(aimed(inputs, found));
    CHECK_THAT(there.gel.chance(wanted), near(found.chance, 1e-9));
    CHECK_THAT(there.water_phase.ph, near(found.ph, 1e-9));
    CHECK(found.chance >= found.chance_before - 0.011);
    // Nowhere on a finer net is it clearly likelier.
    for (double acid_g = 0; acid_g <= 1; acid_g += 0.013) {
      Inputs other = aimed(inputs, found);
      other.acid->line.mass_g = acid_g;
      CHECK(evaluate(other).gel.chance(wanted) <= found.chance + 0.02);
    }
  }
  CHECK(aim_at(inputs, {gel::Texture::soft, {Knob::acid_g}}).amount >
        aim_at(inputs, {gel::Texture::thick, {Knob::acid_g}}).amount);
}

TEST_CASE("pH limits are kept, and said where they keep it from a better chance") {
  const Recipe recipe = recipe_with(slow_acid(R"(, "limits": {"ph": {"at_least": 3.9}})"));
  const AimFound found = aim_at(inputs_of(recipe), {gel::Texture::firm, {Knob::acid_g}});
  REQUIRE(found.possible);
  CHECK(found.ph >= 3.9);
  CHECK(found.ph_limit_binds);
  CHECK_FALSE(found.likeliest);
  CHECK(reason_of(found, recipe).find("the pH limits keep it") != std::string::npos);

  const Recipe strict =
      recipe_with(slow_acid(R"(, "limits": {"ph": {"at_least": 8.9, "at_most": 9}})"));
  const AimFound none = aim_at(inputs_of(strict), {gel::Texture::firm, {Knob::acid_g}});
  CHECK_FALSE(none.possible);
  CHECK(reason_of(none, strict) ==
        "no amount of acid_g keeps the pH limits within what can be forecast");
  CHECK_NOTHROW(render(aim_report(inputs_of(strict), none), Format::json));
}

TEST_CASE("gum and water can be turned for a texture; a tap water or what is not there cannot") {
  const Recipe recipe = recipe_with(slow_acid(""));
  const Inputs inputs = inputs_of(recipe);
  const AimFound gum = aim_at(inputs, {gel::Texture::pours, {Knob::mass_g, 1}});
  CHECK(gum.amount < 1);
  const AimFound water = aim_at(inputs, {gel::Texture::pours, {Knob::water_g}});
  CHECK(water.amount > 80);
  CHECK(test::refusal_of([&] {
          aim_at(inputs, {gel::Texture::pours, {Knob::calcium_salt_g}});
        }).find("the recipe has no") != std::string::npos);
  CHECK(test::refusal_of([&] {
          aim_at(inputs, {gel::Texture::pours, {Knob::low_mineral_share}});
        }).find("is not dosed") != std::string::npos);
}

TEST_CASE("textures are called by their own words") {
  CHECK(texture_called("smooth flowing gel") == gel::Texture::flowing);
  CHECK(texture_called("Soft set") == gel::Texture::soft);
  CHECK(texture_called("firm") == gel::Texture::firm);
  CHECK_FALSE(texture_called("wobbly"));
  CHECK_FALSE(texture_called(""));
}
