#include "gelwright/usual.hpp"

#include <fmt/format.h>

#include "base/dust.hpp"
#include "base/number.hpp"
#include "base/rounding.hpp"

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

double common(std::string_view form, std::string_view what) {
  for (const Datum& row : data)
    if (row.key == fmt::format("common.{}.{}", form, what)) return row.value;
  throw NoSuchDatum{};
}

/// What the flag for slips would find is found here too, for it need not stand on the first screen.
class Beside {
 public:
  explicit Beside(std::string_view form) : form_(form) {}

  void under(double amount, std::string_view what, std::string_view less, std::string range) {
    if (is_under(amount, common(form_, what))) add(less, std::move(range));
  }
  void over(double amount, std::string_view what, std::string_view more, std::string range) {
    if (is_over(amount, common(form_, what))) add(more, std::move(range));
  }
  std::string number(std::string_view what) const {
    return fmt::format("{:g}", common(form_, what));
  }

  std::vector<std::string> found;

 private:
  void add(std::string_view what, std::string range) {
    found.push_back(fmt::format("{} for a {} ({} is common)", what, form_, range));
  }
  std::string_view form_;
};

}  // namespace

std::vector<std::string> beside_usual(const Serving& serving, const Inputs& inputs) {
  const Recipe& recipe = *inputs.recipe;
  const Formula& formula = serving.formula;
  const bool pouch = recipe.form == Form::pouch;
  Beside beside(pouch ? "pouch" : "drink");
  const auto per_100_g = [&formula](double mass_g) {
    return 100 * mass_g / formula.chemistry_water_g;
  };
  const auto band = [&beside](std::string_view least, std::string_view most,
                              std::string_view unit) {
    return fmt::format("{} to {} {}", beside.number(least), beside.number(most), unit);
  };

  const std::string serving_g = band("serving-least", "serving-most", "g");
  beside.under(formula.total_g, "serving-least", "a small serving", serving_g);
  beside.over(formula.total_g, "serving-most", "a big serving", serving_g);

  if (formula.solids_g > 0 && formula.delivered.water_g < formula.water_g) {
    const std::string water = band("water-least", "water-most", "g for each g of solids");
    beside.under(formula.water_per_g_solids(), "water-least", "little water", water);
    beside.over(formula.water_per_g_solids(), "water-most", "much water", water);
  }

  if (formula.acid_g > 0) {
    const std::string unit = "g in 100 g of water";
    const std::string acid = pouch ? band("acid-least", "acid-most", unit)
                                   : fmt::format("up to {} {}", beside.number("acid-most"), unit);
    // With a calcium salt a pouch may set without being sour.
    if (pouch && !inputs.calcium)
      beside.under(per_100_g(formula.acid_g), "acid-least", "little acid", acid);
    beside.over(per_100_g(formula.acid_g), "acid-most", "much acid", acid);
  }

  double gum_g = 0;
  for (const InputLine& line : inputs.solids)
    if (recipe.ingredients[line.ingredient].kind == Kind::gum) gum_g += line.mass_g;
  if (gum_g > 0) {
    const std::string unit = "g in 100 g of water";
    const std::string gum = pouch ? band("gum-least", "gum-most", unit)
                                  : fmt::format("up to {} {}", beside.number("gum-most"), unit);
    if (pouch) beside.under(per_100_g(gum_g), "gum-least", "little gum", gum);
    beside.over(per_100_g(gum_g), "gum-most", "much gum", gum);
  }

  const Limit& calcium = recipe.limits.calcium_mg_per_l;
  if (!pouch && calcium.at_least && !calcium.at_most)
    beside.found.push_back(
        "a lower limit on the calcium of a drink's water, where an upper one is usual: read the "
        "packet "
        "again");
  return beside.found;
}

std::span<const Datum> usual_data() {
  return data;
}

}  // namespace gelwright
