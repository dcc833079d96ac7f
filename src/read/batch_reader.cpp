// Limits, scales and servings, and what is taken beside it.
#include <fmt/format.h>

#include <algorithm>

#include "read/readers.hpp"

namespace gelwright::detail {

namespace {

Limit read_limit(ObjectReader& limits, std::string_view key) {
  Limit limit;
  limits.object(key, [&](ObjectReader& sides) {
    limit.at_least = sides.number("at_least");
    limit.at_most = sides.number("at_most");
    if (limit.at_least && limit.at_most && *limit.at_least > *limit.at_most)
      sides.refuse("at_least", "larger than \"at_most\"", "swap the two");
  });
  return limit;
}

/// What to do about a name of a scale or vessel that the kitchen does not have.
std::string mend_name(const std::string& name, const KitchenNames& kitchen,
                      const std::vector<std::string>& known, std::string otherwise) {
  if (!kitchen.there) return "name the \"kitchen\" that has it, or " + otherwise;
  const std::string remedy = did_you_mean(name, known);
  return remedy.empty() ? "add it to the kitchen, or " + otherwise : remedy;
}

/// The scales of a batch; one that is only named is not in the kitchen.
void read_scales(ObjectReader& batch, std::vector<Scale>& scales, const KitchenNames& kitchen) {
  batch.additions(
      "scales",
      [&](const std::string& name, std::size_t i) {
        const std::string place = fmt::format("{}/{}", batch.at("scales"), i);
        const bool twice = std::any_of(scales.begin(), scales.end(),
                                       [&](const Scale& each) { return each.name == name; });
        if (twice)
          batch.refuse_at(place, fmt::format("the scale \"{}\" is named twice", name), "keep one");
        else
          batch.refuse_at(place, fmt::format("scale \"{}\" is not known", name),
                          mend_name(name, kitchen, kitchen.scales, "describe it here"));
      },
      [&](ObjectReader& scale, std::size_t) { read_scale(scale, scales); });
}

}  // namespace

void read_scale(ObjectReader& scale, std::vector<Scale>& scales) {
  Scale read;
  read.name = scale.text("name").value_or("");
  const auto readability = scale.number("readability_g");
  const auto capacity = scale.number("capacity_g");
  read.readability_g = readability.value_or(1);
  read.capacity_g = capacity.value_or(mass_bounds.at_most);
  read.repeatability_g = scale.number("repeatability_g");
  if (readability && capacity && *capacity <= *readability)
    scale.refuse("capacity_g", "not larger than the readability",
                 "capacity is the most it can weigh, readability its smallest step");
  if (std::any_of(scales.begin(), scales.end(),
                  [&](const Scale& each) { return each.name == read.name && !read.name.empty(); }))
    scale.refuse("name", fmt::format("two scales are called \"{}\"", read.name),
                 "give each its own name");
  scales.push_back(std::move(read));
}

void read_limits(ObjectReader& document, Limits& limits) {
  document.object("limits", [&](ObjectReader& sides) {
    limits.calcium_mg_per_l = read_limit(sides, "calcium_mg_per_l");
    limits.ph = read_limit(sides, "ph");
  });
}

void read_batch(ObjectReader& document, BatchSpec& batch, const KitchenNames& kitchen) {
  document.object_or_empty("batch", [&](ObjectReader& body) {
    batch.servings = body.number_or("servings");
    batch.loss_percent = body.number_or("loss_percent");
    batch.bowl_g = body.number_or("bowl_g");
    batch.headroom_percent = body.number_or("headroom_percent");
    batch.vessel_ml = body.number("vessel_ml");
    batch.dose_tolerance_percent = body.number_or("dose_tolerance_percent");
    batch.round_water_to_g = body.number("round_water_to_g");
    read_scales(body, batch.scales, kitchen);
    if (const std::optional<std::string> vessel = body.text("vessel"))
      body.refuse(
          "vessel", fmt::format("vessel \"{}\" is not known", *vessel),
          mend_name(*vessel, kitchen, kitchen.vessels, "give \"vessel_ml\" and \"bowl_g\""));
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
    read.name = piece.text("name").value_or("");
    read.per_serving = piece.number("per_serving").value_or(0);
    read.caffeine_mg = piece.number_or("caffeine_mg");
    read.sodium_mg = piece.number_or("sodium_mg");
    recipe.pre_dosed.push_back(std::move(read));
  });
}

}  // namespace gelwright::detail
