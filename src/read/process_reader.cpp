// The process of recipe-1, turned into the steps it stands for.
#include <fmt/format.h>

#include <algorithm>

#include "gelwright/making.hpp"
#include "read/readers.hpp"

namespace gelwright::detail {

namespace {

/// Whether the gum is weighed by itself or comes in a mix.
struct GumIn {
  bool itself = false;
  bool mix = false;
};

GumIn gum_in(const Recipe& recipe) {
  GumIn found;
  for (const RecipeLine& line : recipe.solids) {
    const Ingredient& each = recipe.ingredients[line.ingredient];
    if (!holds_gum(each)) continue;
    (each.kind == Kind::mix ? found.mix : found.itself) = true;
  }
  return found;
}

void read_gum(ObjectReader& process, const GumIn& gum, UsualWork& work) {
  const auto dispersed = process.word_or<Dispersal>("gum_dispersed", gum.itself);
  const bool first = process.boolean_or("gum_before_sugar", gum.itself);
  if (gum.mix && !gum.itself && !process.has("gum_dispersed"))
    process.assume("gum_dispersed", "how the gum meets the water", "already in a bought mix", {});
  if (gum.mix)
    process.assume("", "how a bought mix goes in", std::string(in_words(work.mix)),
                   "recipe-1 has no key for it");
  switch (dispersed) {
    case Dispersal::with_sugar:
      work.gum = How::preblended;
      break;
    case Dispersal::dry:
      work.gum = How::dry;
      break;
    case Dispersal::in_mix:
      work.gum_goes_in = GumGoesIn::with_bulk;
      return;
  }
  work.gum_goes_in = first ? GumGoesIn::first : GumGoesIn::last;
}

void read_rest(ObjectReader& process, const Recipe& recipe, UsualWork& work) {
  if (process.has("rest_hours")) {
    work.rest_hours = process.number("rest_hours");
  } else if (work.rest_hours) {
    const bool lactone =
        std::any_of(recipe.ingredients.begin(), recipe.ingredients.end(),
                    [](const Ingredient& each) { return each.per_g.lactone_mol > 0; });
    process.assume("rest_hours",
                   lactone ? "time the lactone has to turn to acid"
                           : "time between mixing and filling or eating",
                   fmt::format("{:g} h", *work.rest_hours), {});
  }
}

void take_calcium(std::optional<CalciumDelivery> when, UsualWork& work) {
  if (!when) return;
  work.calcium = when == CalciumDelivery::fast ? How::poured : How::slow;
  work.calcium_before_acid = when == CalciumDelivery::insoluble_until_acid;
}

}  // namespace

void read_process(ObjectReader& document, std::optional<CalciumDelivery> when, Recipe& recipe) {
  document.object_or_empty("process", [&](ObjectReader& process) {
    UsualWork work = usual_work(recipe);
    work.mix = How::stirred;
    read_gum(process, gum_in(recipe), work);
    work.heated_to_c = process.number("heated_to_c");
    work.acid = process.word_or<How>("acid_added", recipe.acid.has_value());
    read_rest(process, recipe, work);
    take_calcium(when, work);
    recipe.steps = usual_steps(recipe, work);
    const auto ph = process.number("measured_ph");
    const auto with = process.word_or<PhMethod>("measured_with");
    if (ph) recipe.measured = {*ph, with};
  });
  assume_eaten_at(document, recipe);
}

}  // namespace gelwright::detail
