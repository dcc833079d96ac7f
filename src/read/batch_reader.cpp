// How the batch is made: limits, process, scales and servings, and what is taken beside it.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "read/readers.hpp"

namespace gelwright {

namespace {

constexpr Choice<Dispersal> dispersals[] = {
    {"with_sugar", Dispersal::with_sugar},
    {"dry", Dispersal::dry},
    {"in_mix", Dispersal::in_mix},
};
constexpr Choice<AcidDelivery> acid_deliveries[] = {
    {"poured", AcidDelivery::poured},
    {"under_blade", AcidDelivery::under_blade},
    {"slow", AcidDelivery::slow},
};
constexpr Choice<PhMethod> ph_methods[] = {{"meter", PhMethod::meter},
                                           {"strips", PhMethod::strips}};
constexpr Bounds ph_bounds{0, 14, false};
constexpr Bounds readability_bounds{1e-6, 1000, false};
constexpr Bounds pieces_bounds{0, 100, true};
constexpr Bounds milligram_bounds{0, 1e5, false};

Limit read_limit(ObjectReader& limits, std::string_view key, Bounds bounds) {
  Limit limit;
  limits.object(key, [&](ObjectReader& sides) {
    limit.at_least = sides.number("at_least", bounds);
    limit.at_most = sides.number("at_most", bounds);
    if (limit.at_least && limit.at_most && *limit.at_least > *limit.at_most)
      sides.refuse("at_least", "larger than \"at_most\"", "swap the two");
    if (!sides.has("at_least") && !sides.has("at_most"))
      sides.refuse("", "a limit needs a side", "add \"at_least\" or \"at_most\"");
  });
  return limit;
}

void read_scale(ObjectReader& scale, BatchSpec& batch) {
  Scale read;
  read.name = scale.required_text("name").value_or("");
  const auto readability = scale.required_number("readability_g", readability_bounds);
  const auto capacity = scale.required_number("capacity_g", mass_bounds);
  read.readability_g = readability.value_or(1);
  read.capacity_g = capacity.value_or(mass_bounds.at_most);
  read.repeatability_g = scale.number("repeatability_g", {0, readability_bounds.at_most, false});
  if (readability && capacity && *capacity <= *readability)
    scale.refuse("capacity_g", "not larger than the readability",
                 "capacity is the most it can weigh, readability its smallest step");
  if (std::any_of(batch.scales.begin(), batch.scales.end(),
                  [&](const Scale& each) { return each.name == read.name && !read.name.empty(); }))
    scale.refuse("name", fmt::format("two scales are called \"{}\"", read.name),
                 "give each its own name");
  batch.scales.push_back(std::move(read));
}

}  // namespace

void read_limits(ObjectReader& document, Limits& limits) {
  document.object("limits", [&](ObjectReader& sides) {
    limits.calcium_mg_per_l = read_limit(sides, "calcium_mg_per_l", {0, 2000, false});
    limits.ph = read_limit(sides, "ph", ph_bounds);
  });
}

void read_process(ObjectReader& document, Process& process) {
  document.object("process", [&](ObjectReader& steps) {
    if (const auto how = steps.choice<Dispersal>("gum_dispersed", dispersals))
      process.gum_dispersed = *how;
    process.gum_before_sugar = steps.boolean("gum_before_sugar").value_or(true);
    process.heated_to_c = steps.number("heated_to_c", {0, 130, false});
    if (const auto how = steps.choice<AcidDelivery>("acid_added", acid_deliveries))
      process.acid_added = *how;
    process.rest_hours = steps.number("rest_hours", {0, 240, false}).value_or(0);
    process.measured_ph = steps.number("measured_ph", ph_bounds);
    if (const auto how = steps.choice<PhMethod>("measured_with", ph_methods))
      process.measured_with = *how;
  });
}

void read_batch(ObjectReader& document, BatchSpec& batch) {
  document.object("batch", [&](ObjectReader& body) {
    batch.servings = body.number("servings", {1, 100000, false}).value_or(1);
    if (batch.servings != std::floor(batch.servings))
      body.refuse("servings", fmt::format("{:g} is not a whole number of servings", batch.servings),
                  "give a whole number; a sheet can be sized by its mass instead");
    batch.loss_percent = body.number("loss_percent", {0, 90, false}).value_or(0);
    batch.bowl_g = body.number("bowl_g", {0, mass_bounds.at_most, false}).value_or(0);
    batch.headroom_percent = body.number("headroom_percent", {0, 90, false}).value_or(20);
    batch.vessel_ml = body.number("vessel_ml", {0, 1e9, true});
    batch.dose_tolerance_percent = body.number("dose_tolerance_percent", {0, 50, true}).value_or(5);
    batch.round_water_to_g = body.number("round_water_to_g", mass_bounds);
    body.objects("scales", [&](ObjectReader& scale, std::size_t) { read_scale(scale, batch); });
    double most_g = 0;
    bool carried = batch.scales.empty() || batch.bowl_g <= 0;
    for (const Scale& scale : batch.scales) {
      most_g = std::max(most_g, scale.capacity_g);
      carried = carried || batch.bowl_g + scale.readability_g <= scale.capacity_g;
    }
    if (!carried)
      body.refuse("bowl_g",
                  fmt::format("no scale can carry the bowl: the largest takes {:g} g", most_g),
                  "check the bowl and \"capacity_g\"");
  });
}

void read_pre_dosed(ObjectReader& document, Recipe& recipe) {
  document.objects("pre_dosed", [&](ObjectReader& piece, std::size_t) {
    PreDosed read;
    read.name = piece.required_text("name").value_or("");
    read.per_serving = piece.required_number("per_serving", pieces_bounds).value_or(0);
    read.caffeine_mg = piece.number("caffeine_mg", milligram_bounds).value_or(0);
    read.sodium_mg = piece.number("sodium_mg", milligram_bounds).value_or(0);
    recipe.pre_dosed.push_back(std::move(read));
  });
}

}  // namespace gelwright
