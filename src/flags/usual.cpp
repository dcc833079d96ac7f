#include "gelwright/usual.hpp"

#include <fmt/format.h>

#include "base/dust.hpp"

namespace gelwright {

namespace {

using namespace detail;

/// What most thick pouches and bottles are like, a pinch of acid or a share of water off by half
/// lying outside.
constexpr Datum data[] = {
    {"common.pouch.serving-least", 30, "g", 0, "all of a pouch", "judgement", Standing::judgement},
    {"common.pouch.serving-most", 160, "g", 0, "all of a pouch", "judgement", Standing::judgement},
    {"common.pouch.water-least", 0.3, "g/g", 0, "water for each g of solids", "judgement",
     Standing::judgement},
    {"common.pouch.water-most", 1.2, "g/g", 0, "water for each g of solids", "judgement",
     Standing::judgement},
    {"common.pouch.acid-least", 0.5, "g per 100 g water", 0, "where acid is what sets it",
     "judgement", Standing::judgement},
    {"common.pouch.acid-most", 1.8, "g per 100 g water", 0, "food acid", "judgement",
     Standing::judgement},
    {"common.pouch.gum-least", 0.3, "g per 100 g water", 0, "gum weighed by itself", "judgement",
     Standing::judgement},
    {"common.pouch.gum-most", 3, "g per 100 g water", 0, "gum weighed by itself", "judgement",
     Standing::judgement},
    {"common.drink.serving-least", 200, "g", 0, "all of a bottle", "judgement",
     Standing::judgement},
    {"common.drink.serving-most", 900, "g", 0, "all of a bottle", "judgement", Standing::judgement},
    {"common.drink.water-least", 4, "g/g", 0, "water for each g of solids", "judgement",
     Standing::judgement},
    {"common.drink.water-most", 25, "g/g", 0, "water for each g of solids", "judgement",
     Standing::judgement},
    {"common.drink.acid-most", 0.6, "g per 100 g water", 0, "food acid", "judgement",
     Standing::judgement},
    {"common.drink.gum-most", 0.8, "g per 100 g water", 0, "gum weighed by itself", "judgement",
     Standing::judgement},
};

struct Range {
  double least;  ///< 0 where nothing is too little
  double most;
};

struct Common {
  std::string_view form;
  Range serving_g, water_per_g_solids, acid_per_100_g, gum_per_100_g;
};
constexpr Common pouches{
    "pouch",
    {value_of(data, "common.pouch.serving-least"), value_of(data, "common.pouch.serving-most")},
    {value_of(data, "common.pouch.water-least"), value_of(data, "common.pouch.water-most")},
    {value_of(data, "common.pouch.acid-least"), value_of(data, "common.pouch.acid-most")},
    {value_of(data, "common.pouch.gum-least"), value_of(data, "common.pouch.gum-most")}};
constexpr Common drinks{
    "drink",
    {value_of(data, "common.drink.serving-least"), value_of(data, "common.drink.serving-most")},
    {value_of(data, "common.drink.water-least"), value_of(data, "common.drink.water-most")},
    {0, value_of(data, "common.drink.acid-most")},
    {0, value_of(data, "common.drink.gum-most")}};

/// What the flag for slips would find is found here too, for it need not stand on the first screen.
std::vector<std::string> against(const Common& common, const Serving& serving,
                                 const Inputs& inputs) {
  const Formula& formula = serving.formula;
  std::vector<std::string> found;
  const auto compare = [&](double amount, Range range, std::string_view less, std::string_view more,
                           std::string_view unit) {
    const bool under = is_under(amount, range.least);
    if (!under && !is_over(amount, range.most)) return;
    found.push_back(fmt::format(
        "{} for a {} ({} {:g} {} is common)", under ? less : more, common.form,
        range.least > 0 ? fmt::format("{:g} to", range.least) : "up to", range.most, unit));
  };
  constexpr std::string_view per_100_g = "g in 100 g of water";
  compare(formula.total_g, common.serving_g, "a small serving", "a big serving", "g");
  // Of a syrup much of the water is in the solids already.
  if (formula.solids_g > 0 && formula.delivered.water_g < formula.water_g)
    compare(formula.water_per_g_solids(), common.water_per_g_solids, "little water", "much water",
            "g for each g of solids");
  if (formula.acid_g > 0) {
    Range acid = common.acid_per_100_g;
    if (inputs.calcium) acid.least = 0;  // with a calcium salt it may set without being sour
    compare(100 * formula.acid_g / formula.chemistry_water_g, acid, "little acid", "much acid",
            per_100_g);
  }
  double gum_g = 0;
  for (const InputLine& line : inputs.solids)
    if (inputs.recipe->ingredients[line.ingredient].kind == Kind::gum) gum_g += line.mass_g;
  if (gum_g > 0)
    compare(100 * gum_g / formula.chemistry_water_g, common.gum_per_100_g, "little gum", "much gum",
            per_100_g);
  return found;
}

}  // namespace

std::vector<std::string> beside_usual(const Serving& serving, const Inputs& inputs) {
  const bool pouch = inputs.recipe->form == Form::pouch;
  std::vector<std::string> found = against(pouch ? pouches : drinks, serving, inputs);
  const Limit& calcium = inputs.recipe->limits.calcium_mg_per_l;
  if (!pouch && calcium.at_least && !calcium.at_most)
    found.emplace_back(
        "a lower limit on the calcium of a drink's water, where an upper one is usual: read the "
        "packet again");
  return found;
}

std::span<const Datum> usual_data() {
  return data;
}

}  // namespace gelwright
