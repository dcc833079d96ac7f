// From a formula and its solved water to what the gel model must know.
#include "gelwright/gel_state.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

#include "gelwright/elements.hpp"
#include "gelwright/error.hpp"
#include "gelwright/gel_forecast.hpp"
#include "gelwright/gums.hpp"
#include "serving/liquid_met.hpp"
#include "serving/ph_error.hpp"

namespace gelwright {

namespace {

constexpr Datum data[] = {
    {"gel.mix.guluronate", 0.60, "1", 0.10,
     "F_G of the alginate in a bought mix, sold to gel with acid", "judgement",
     Standing::judgement},
    {"gel.stated-guluronate-sd", 0.03, "1", 0, "F_G where the pack states it", "judgement",
     Standing::judgement},
    {"gel.second-named-below", 0.7, "1", 0, "chance of the likeliest texture", "judgement",
     Standing::judgement},
    {"gel.ph-flat-from", 9, "pH", 0,
     "every acid group of a gum is bare: above it no route changes with the pH", "judgement",
     Standing::judgement},
    {"gel.ph-foretold-to", 11, "pH", 0, "beyond it alkali breaks the chains", "judgement",
     Standing::judgement},
    {"gel.least-maltodextrin-de", 3, "1", 1,
     "cyclic dextrin is as thin as this, though it has next to no chain ends", "judgement",
     Standing::judgement},
};

/// 95 % of a normal distribution lies within this many standard deviations.
constexpr double sds_in_half_width = 1.96;

struct Guluronate {
  double share;
  double sd;
};

/// F_G of all alginate, weighted by its carboxylate.
Guluronate guluronate_of(const Inputs& inputs) {
  double carboxylate = 0;
  double guluronate = 0;
  double doubt = 0;
  for (const InputLine& line : inputs.solids) {
    const double here = line.mass_g * line.per_g.carboxylate(Gum::alginate);
    if (here <= 0) continue;
    double share = line.per_g.guluronate_mol / line.per_g.carboxylate(Gum::alginate);
    double sd = value_of(data, "gel.stated-guluronate-sd");
    const Ingredient& ingredient = inputs.recipe->ingredients[line.ingredient];
    if (!ingredient.gum_facts.guluronate_share) {
      if (ingredient.kind == Kind::mix) share = value_of(data, "gel.mix.guluronate");
      sd = gel::State{}.guluronate_sd;
    }
    carboxylate += here;
    guluronate += here * share;
    doubt += here * sd;
  }
  if (carboxylate <= 0) return {gel::State{}.guluronate, gel::State{}.guluronate_sd};
  return {guluronate / carboxylate, doubt / carboxylate};
}

double grams(const Composition& delivered, Saccharide which, double g_per_mol) {
  return delivered.saccharide_mol[index_of(which)] * g_per_mol;
}

/// The dextrose equivalent that all starch hydrolysate of the serving thickens like.
double maltodextrin_de(const Inputs& inputs) {
  constexpr std::size_t most_kinds = 8;
  std::array<double, most_kinds> de{};
  std::array<double, most_kinds> share{};
  std::size_t kinds = 0;
  for (const InputLine& line : inputs.solids) {
    const double chains_mol = line.per_g.saccharide_mol[index_of(Saccharide::oligomer)];
    if (chains_mol <= 0 || line.per_g.maltodextrin_g <= 0 || kinds == most_kinds) continue;
    constexpr double glucose_g_per_mol = molar_mass_g_per_mol("C6H12O6");
    de[kinds] = std::max(value_of(data, "gel.least-maltodextrin-de"),
                         100 * glucose_g_per_mol * chains_mol / line.per_g.maltodextrin_g);
    share[kinds++] = line.mass_g * line.per_g.maltodextrin_g;
  }
  return gel::mixed_dextrose_equivalent(de.data(), share.data(), kinds);
}

/// Shares of the soluble solids. Maltose and isomaltulose thicken as sucrose does.
gel::Sugars sugars_of(const Formula& formula, const Inputs& inputs) {
  gel::Sugars sugars;
  if (formula.soluble_solids_g <= 0) return sugars;
  const Composition& delivered = formula.delivered;
  constexpr double hexose = molar_mass_g_per_mol("C6H12O6");
  constexpr double disaccharide = molar_mass_g_per_mol("C12H22O11");
  const auto share = [&](double g) { return std::clamp(g / formula.soluble_solids_g, 0.0, 1.0); };
  sugars.sucrose = share(grams(delivered, Saccharide::sucrose, disaccharide) +
                         grams(delivered, Saccharide::disaccharide, disaccharide));
  sugars.glucose = share(grams(delivered, Saccharide::glucose, hexose));
  sugars.fructose = share(grams(delivered, Saccharide::fructose, hexose));
  sugars.polyol = share(delivered.polyol_g);
  sugars.maltodextrin = share(delivered.maltodextrin_g);
  if (sugars.maltodextrin > 0) sugars.maltodextrin_de = maltodextrin_de(inputs);
  return sugars;
}

/// The viscosity grade of the alginate, where every alginate in it has the same.
ViscosityGrade grade_of(const Inputs& inputs) {
  std::optional<ViscosityGrade> grade;
  for (const InputLine& line : inputs.solids) {
    if (line.mass_g * line.per_g.gum(Gum::alginate) <= 0) continue;
    const ViscosityGrade here =
        inputs.recipe->ingredients[line.ingredient].gum_facts.alginate_grade;
    if (grade && *grade != here) return ViscosityGrade::unknown;
    grade = here;
  }
  return grade.value_or(ViscosityGrade::unknown);
}

/// log10 doubt of the available calcium: what salts leave unsure, what the constants of citrate's
/// complexes do, and the share of it that a water report brings with a stated doubt.
double calcium_lg_sd(const Formula& formula, const WaterPhase& phase, const Inputs& inputs,
                     double total_mmol_per_kg) {
  const double usual =
      std::hypot(gel::State{}.ca_lg_sd, phase.free_calcium_decades / sds_in_half_width);
  const auto& tap = inputs.recipe->tap;
  if (!tap || total_mmol_per_kg <= 0) return usual;
  const auto relative = [](const std::optional<double>& sd, const std::optional<double>& value) {
    return sd && value && *value > 0 ? *sd / *value : 0.0;
  };
  const double doubt =
      std::max(relative(tap->sd.mg_per_l[Ion::calcium], tap->water.mg_per_l[Ion::calcium]),
               relative(tap->sd.hardness_mmol_per_l, tap->water.hardness_mmol_per_l));
  const double tap_mmol_per_kg =
      1000 * inputs.tap.mol_per_kg[Ion::calcium] * formula.tap_g / formula.chemistry_water_g;
  const double share = std::clamp(tap_mmol_per_kg / total_mmol_per_kg, 0.0, 1.0);
  return std::hypot(usual, share * doubt / std::log(10));
}

/// Chalk and washing soda make it alkaline: the gel model is asked at the last pH it was made for.
double for_the_model(double ph) {
  return ph > value_of(data, "gel.ph-foretold-to")
             ? ph
             : std::min(ph, value_of(data, "gel.ph-flat-from"));
}

bool dosed(const std::optional<InputDose>& dose) {
  return dose && dose->line.mass_g > 0;
}

/// After everything that makes it set.
bool goes_in_late(int place, const Inputs& inputs) {
  const bool after_acid = !dosed(inputs.acid) || place > inputs.making.acid_place;
  const bool after_calcium = !dosed(inputs.calcium) || place > inputs.making.calcium_place;
  return (dosed(inputs.acid) || dosed(inputs.calcium)) && after_acid && after_calcium;
}

/// A portion and when it goes in.
struct Placed {
  int place = 0;
  gel::Portion portion;
};

/// Every addition of gum, earliest first; of one place, as the recipe lists them.
void add_portions(gel::State& state, const Formula& formula, const Inputs& inputs) {
  std::array<Placed, gel::max_portions> placed;
  std::size_t count = 0;
  for (const GoesIn& how : inputs.making.solids) {
    const InputLine& line = inputs.solids[how.line];
    for (std::size_t g = 0; g < gum_count; ++g) {
      if (line.mass_g * line.per_g.gum_g[g] <= 0) continue;
      if (count == placed.size())
        throw InputError(inputs.recipe->document,
                         {{"/solids", "more additions of gum than the gel model follows",
                           "put gums of the same kind into one line"}});
      Placed next{how.place, {}};
      next.portion.gum = static_cast<Gum>(g);
      next.portion.g_per_100_g_water =
          100 * how.share * line.mass_g * line.per_g.gum_g[g] / formula.chemistry_water_g;
      next.portion.dispersed = how.dispersed;
      next.portion.hours = how.hours;
      next.portion.late = goes_in_late(how.place, inputs);
      std::size_t at = count++;
      for (; at > 0 && placed[at - 1].place > how.place; --at) placed[at] = placed[at - 1];
      placed[at] = next;
    }
  }
  LiquidMet met;
  for (std::size_t i = 0; i < count; ++i) {
    if (i == 0 || placed[i].place != placed[i - 1].place)
      met = liquid_met_at(placed[i].place, formula, inputs);
    gel::Portion& portion = placed[i].portion;
    portion.ca_met_mmol_per_kg = met.available_calcium_mmol_per_kg;
    portion.ph_met = for_the_model(met.ph);
    portion.solids_met_percent = met.solids_percent;
    portion.sequestered = met.calcium_held_share;
    gel::add(state, portion);
  }
}

gel::Acid acid_of(const Inputs& inputs) {
  if (!dosed(inputs.acid)) return gel::Acid::none;
  return inputs.acid->line.per_g.lactone_mol > 0 ? gel::Acid::slow : inputs.making.acid;
}

}  // namespace

gel::State gel_state_of(const Formula& formula, const WaterPhase& phase, const Inputs& inputs) {
  const Making& making = inputs.making;
  gel::State state;
  add_portions(state, formula, inputs);
  state.ca_mmol_per_kg = phase.available_calcium_mmol_per_kg;
  state.ca_total_mmol_per_kg =
      phase.total_calcium_mmol_per_kg + phase.undissolved_calcium_mmol_per_kg;
  state.ca_lg_sd = calcium_lg_sd(formula, phase, inputs, state.ca_total_mmol_per_kg);
  state.mg_mmol_per_kg = phase.free_magnesium_mmol_per_kg;
  state.na_mmol_per_kg = phase.total_sodium_mmol_per_kg;
  state.k_mmol_per_kg = phase.total_potassium_mmol_per_kg;
  state.ionic_mmol_per_kg = 1000 * phase.ionic_strength_mol_per_kg;
  state.ph = phase.ph + inputs.reading_offset_ph;
  const auto& reading = inputs.recipe->measured;
  constexpr double same_ph = 1e-6;
  const bool as_read = reading && std::abs(state.ph - reading->ph) < same_ph;
  state.ph_sd =
      (as_read ? reading_error_ph(reading->with) : phase.ph_uncertainty) / sds_in_half_width;
  state.ph = for_the_model(state.ph);
  state.solids_percent = formula.soluble_solids_percent();
  state.sugars = sugars_of(formula, inputs);
  state.eaten_c = making.eaten_c;
  state.heated_c = making.heated_c;
  state.hours = making.hours;
  state.acid = acid_of(inputs);
  state.cooled = making.cooled;
  if (dosed(inputs.calcium)) {
    state.calcium = making.calcium;
    if (making.calcium == gel::Calcium::fast)
      state.ca_added_mmol_per_kg = 1000 * inputs.calcium->line.mass_g *
                                   inputs.calcium->line.per_g.dissolved(Component::calcium) /
                                   (formula.chemistry_water_g / 1000);
  }
  const Guluronate guluronate = guluronate_of(inputs);
  state.grade = grade_of(inputs);
  state.guluronate = guluronate.share;
  state.guluronate_sd = guluronate.sd;
  if (const double hm = formula.delivered.gum(Gum::hm_pectin); hm > 0)
    state.esterification = 100 * formula.delivered.hm_pectin_esterified_g / hm;
  state.acid_demand_mmol = phase.acid_demand_mmol;
  return state;
}

bool names_two(const gel::Chances& chances) {
  return chances[gel::likeliest(chances)] < value_of(data, "gel.second-named-below");
}

std::string words_of(const gel::Chances& chances) {
  const auto word = [&chances](gel::Texture texture) {
    return fmt::format("{} {:.0f} %", gel::to_text(texture), 100 * chances[texture]);
  };
  const gel::Texture first = gel::likeliest(chances);
  return names_two(chances) ? fmt::format("{}, {}", word(first), word(gel::second(chances)))
                            : word(first);
}

std::span<const Datum> gel_serving_data() {
  return data;
}

}  // namespace gelwright
