// The series of the pictures: what a curve and a map say is what one evaluation says.
#include <cmath>

#include "catch.hpp"
#include "gelwright/acid_curve.hpp"
#include "gelwright/knob.hpp"
#include "gelwright/resolve.hpp"
#include "gelwright/texture_map.hpp"
#include "recipes.hpp"

using namespace gelwright;
using namespace gelwright::test;

TEST_CASE("along an acid curve the pH falls, and each point is the recipe with that dose") {
  for (const std::string name : shipped_names) {
    const Recipe recipe = shipped(name);
    const Inputs inputs = resolve(recipe);
    const auto curve = acid_curve(inputs, {.points = 11});
    INFO(name);
    REQUIRE(curve.has_value() == inputs.acid.has_value());
    if (!curve) continue;
    REQUIRE(curve->points.size() == 11);
    CHECK(curve->points.front().acid_g == 0);
    CHECK(curve->points.back().acid_g >= 2 * curve->dose_g);
    for (std::size_t i = 0; i < curve->points.size(); ++i) {
      const AcidPoint& point = curve->points[i];
      CHECK(point.ph_low <= point.ph);
      CHECK(point.ph_high >= point.ph);
      // More of an acid never raises the pH (mass action).
      if (i > 0) CHECK(point.ph < curve->points[i - 1].ph);
    }
    Inputs dosed = inputs;
    turn(dosed, {Knob::acid_g}, curve->points[3].acid_g);
    dosed.reading_offset_ph = 0;
    const Evaluation evaluation = evaluate(dosed);
    CHECK(std::abs(evaluation.water_phase.ph - curve->points[3].ph) < 1e-9);
    if (evaluation.gel.made && evaluation.gel.any_gum()) {
      REQUIRE(curve->points[3].textures);
      CHECK(gel::likeliest(*curve->points[3].textures) == evaluation.gel.likeliest());
    }
  }
}

TEST_CASE("a curve goes as far as asked, and a recipe without an acid has none") {
  const Recipe recipe = shipped("tarn-thick-pouch.json");
  const auto curve = acid_curve(resolve(recipe), {.points = 3, .reach_g = 5, .textures = false});
  REQUIRE(curve);
  CHECK(curve->points.back().acid_g == 5);
  CHECK_FALSE(curve->points.front().textures);
}

TEST_CASE("a cell of a map is the recipe with both knobs there, on one thread as on many") {
  const Recipe recipe = shipped("tarn-thick-pouch.json");
  const Inputs inputs = resolve(recipe);
  const MapOptions small{.columns = 6, .rows = 5, .threads = 1};
  const MapOrReason found = texture_map(inputs, MapOf::water_and_acid, small);
  REQUIRE(found.map);
  const TextureMap& map = *found.map;
  CHECK(map.x.here > map.x.low);
  CHECK(map.x.here < map.x.high);
  Inputs there = inputs;
  turn(there, map.x.knob, map.x.low + (map.x.high - map.x.low) * 4.5 / 6);
  turn(there, map.y.knob, map.y.low + (map.y.high - map.y.low) * 1.5 / 5);
  const Evaluation evaluation = evaluate(there);
  const MapCell& cell = map.cells[1 * map.columns + 4];
  REQUIRE(cell.texture);
  CHECK(*cell.texture == evaluation.gel.likeliest());
  CHECK(std::abs(cell.chance - evaluation.gel.chance(*cell.texture)) < 1e-12);
  const MapOrReason again =
      texture_map(inputs, MapOf::water_and_acid, {.columns = 6, .rows = 5, .threads = 3});
  for (std::size_t i = 0; i < map.cells.size(); ++i)
    CHECK(again.map->cells[i].chance == map.cells[i].chance);
}

TEST_CASE("where a recipe lacks what a map turns, it says what") {
  const Recipe mix = shipped("tarn-thick-pouch.json");
  const MapOrReason gum = texture_map(resolve(mix), MapOf::calcium_and_gum);
  CHECK_FALSE(gum.map);
  CHECK(gum.reason.find("no gum of its own") != std::string::npos);
  const Recipe own = shipped("gellan-xanthan-pouch.json");
  CHECK(texture_map(resolve(own), MapOf::calcium_and_gum, {.columns = 3, .rows = 3}).map);
}
