#include "gelwright/making.hpp"

namespace gelwright {

namespace {

constexpr Datum data[] = {
    {"making.eaten-at", 15, "degC", 10, "between a warm pocket and a cold hill", "judgement",
     Standing::judgement},
    {"making.hill", 0, "degC", 5, "eaten on a cold hill", "judgement", Standing::judgement},
    {"making.pocket", 30, "degC", 3, "eaten out of a warm pocket", "judgement",
     Standing::judgement},
    {"making.room", 20, "degC", 5, "what is not heated", "judgement", Standing::judgement},
    {"making.rest", 12, "h", 0, "made in the evening, eaten in the morning", "common-practice",
     Standing::common_practice},
};

/// The usual order of work: gum in plain water, then sugars and mixes, salts, acid, calcium.
enum Place : int { gum_first, bulk, gum_last, salts, acid, calcium };

GoesIn goes_in(const Ingredient& ingredient, const Process& process) {
  const bool in_mix = process.gum_dispersed == Dispersal::in_mix;
  switch (ingredient.kind) {
    case Kind::mix:
      return {bulk, gel::Dispersed::mix};
    case Kind::gum:
      break;
    case Kind::salt:
      return {salts, {}};
    case Kind::sugar:
    case Kind::syrup:
    case Kind::acid:
    case Kind::calcium_salt:
      return {bulk, {}};
  }
  if (in_mix) return {bulk, gel::Dispersed::mix};
  const gel::Dispersed dispersed =
      process.gum_dispersed == Dispersal::dry ? gel::Dispersed::dry : gel::Dispersed::sugar;
  return {process.gum_before_sugar ? gum_first : gum_last, dispersed};
}

}  // namespace

Making making_of(const Recipe& recipe) {
  const Process& process = recipe.process;
  Making making;
  making.solids.reserve(recipe.solids.size());
  for (const RecipeLine& line : recipe.solids)
    making.solids.push_back(goes_in(recipe.ingredients[line.ingredient], process));
  making.acid_place = acid;
  making.acid = process.acid_added;
  making.calcium_place = calcium;
  if (recipe.calcium) {
    // A salt that waits for the acid goes in with the bulk of the solids.
    if (recipe.calcium->when == CalciumDelivery::insoluble_until_acid) making.calcium_place = salts;
    if (recipe.calcium->when == CalciumDelivery::fast) making.calcium = gel::Calcium::fast;
  }
  making.heated_c = process.heated_to_c.value_or(value_of(data, "making.room"));
  making.hours = process.rest_hours > 0 ? process.rest_hours : value_of(data, "making.rest");
  making.eaten_c = value_of(data, "making.eaten-at");
  return making;
}

EatenRange eaten_range() {
  return {value_of(data, "making.hill"), value_of(data, "making.pocket")};
}

std::span<const Datum> making_data() {
  return data;
}

}  // namespace gelwright
