#include "gelwright/flag.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "base/text.hpp"
#include "flags/flag_thresholds.hpp"
#include "gelwright/elements.hpp"
#include "gelwright/serving.hpp"
#include "gelwright/water.hpp"

namespace gelwright {

namespace {

constexpr double calcium_mg_per_mmol = molar_mass_g_per_mol("Ca");

/// Everything a check looks at, and where it puts what it finds.
struct Findings {
  const Serving& serving;
  const Inputs& inputs;
  std::vector<Flag>& flags;

  const Recipe& recipe() const { return *inputs.recipe; }
  const WaterPhase& phase() const { return serving.water_phase; }
  const SetInput& set() const { return serving.setting.input; }
  bool drink() const { return recipe().form == Form::drink; }
  bool has(FlagId id) const {
    return std::any_of(flags.begin(), flags.end(),
                       [id](const Flag& flag) { return flag.id == id; });
  }
  void add(FlagId id, Level level, std::array<double, 4> numbers = {}, std::size_t subject = 0,
           const SetRule* rule = nullptr) {
    flags.push_back({id, level, numbers, subject, rule});
  }
  double gum_percent() const {
    const Composition& delivered = serving.formula.delivered;
    return 100 * std::accumulate(delivered.gum_g.begin(), delivered.gum_g.end(), 0.0) /
           serving.formula.chemistry_water_g;
  }
  bool mix_gum_undeclared() const {
    return std::any_of(inputs.solids.begin(), inputs.solids.end(), [&](const InputLine& line) {
      const Ingredient& ingredient = recipe().ingredients[line.ingredient];
      return ingredient.kind == Kind::mix && !ingredient.fully_declared;
    });
  }
  const Verdict* verdict(Route route) const {
    const Outlook& pouch = serving.setting.pouch;
    for (std::size_t i = 0; i < pouch.count; ++i)
      if (pouch.verdicts[i].route == route) return &pouch.verdicts[i];
    return nullptr;
  }
};

void check_water(Findings& f) {
  const Limit& limit = f.recipe().limits.calcium_mg_per_l;
  const bool limited = limit.at_least || limit.at_most;
  if (!f.recipe().tap) {
    f.add(FlagId::tap_unknown, Level::care);
    if (limited) f.add(FlagId::calcium_limit_unjudged, Level::care);
    return;
  }
  const Water& water = f.recipe().tap->water;
  const std::vector<WaterFinding> odd = plausibility(water);
  for (std::size_t i = 0; i < odd.size(); ++i)
    f.add(FlagId::tap_implausible, Level::care, {odd[i].measured, odd[i].limit}, i);

  const std::optional<CalciumMagnesium> hardness = calcium_and_magnesium(water, nullptr);
  if (!hardness) {
    if (limited) f.add(FlagId::calcium_limit_unjudged, Level::care);
    return;
  }
  const double calcium_mg_per_l = hardness->calcium_mmol_per_l * calcium_mg_per_mmol;
  const Level level = f.drink() ? Level::stop : Level::care;
  if (limit.at_least && calcium_mg_per_l < *limit.at_least)
    f.add(FlagId::calcium_below_limit, level, {calcium_mg_per_l, *limit.at_least});
  if (limit.at_most && calcium_mg_per_l > *limit.at_most)
    f.add(FlagId::calcium_above_limit, level, {calcium_mg_per_l, *limit.at_most});
}

/// 95 % half-width of the recipe's own reading.
double reading_error_ph(const Recipe& recipe) {
  return recipe.process.measured_with == PhMethod::strips ? thresholds::strips_read_to_ph
                                                          : thresholds::meter_reads_to_ph;
}

void check_ph_limits(Findings& f) {
  const Limit& limit = f.recipe().limits.ph;
  const double ph = f.recipe().process.measured_ph.value_or(f.phase().ph);
  const double uncertainty =
      f.recipe().process.measured_ph ? reading_error_ph(f.recipe()) : f.phase().ph_uncertainty;
  if (f.recipe().process.measured_ph) {
    const double allowed = std::hypot(uncertainty, f.phase().ph_uncertainty);
    if (std::abs(ph - f.phase().ph) > allowed)
      f.add(FlagId::ph_disagrees, Level::care, {ph, f.phase().ph, allowed});
  }
  if (limit.at_least && ph < *limit.at_least)
    f.add(FlagId::ph_below_limit, Level::care, {ph, *limit.at_least, uncertainty});
  if (limit.at_most && ph > *limit.at_most)
    f.add(FlagId::ph_above_limit, Level::care, {ph, *limit.at_most, uncertainty});
}

/// A prediction resting on judgement warns; one resting on published work stops.
Level by_grade(Grade grade) {
  return grade == Grade::c ? Level::care : Level::stop;
}

const SetRule* driver(const Outlook& outlook) {
  return outlook.count > 0 ? outlook.verdicts[outlook.firmest].rule : nullptr;
}

Grade grade_of(const Outlook& outlook) {
  return outlook.count > 0 ? outlook.verdicts[outlook.firmest].grade : Grade::a;
}

void check_form(Findings& f) {
  const Setting& setting = f.serving.setting;
  const bool unknown_gum = f.mix_gum_undeclared() && f.gum_percent() == 0;
  if (unknown_gum || setting.pouch_low) {
    const bool same = setting.pouch_low &&
                      setting.pouch_low->texture == setting.pouch_high->texture &&
                      setting.stomach_low->texture == setting.stomach_high->texture;
    f.add(FlagId::gum_share_unknown, same ? Level::note : Level::care);
  }
  if (unknown_gum) return;
  const Level level = f.mix_gum_undeclared() ? Level::care : by_grade(grade_of(setting.pouch));
  if (!f.drink()) {
    if (!keeps_shape(setting.pouch.texture))
      f.add(FlagId::will_not_set, level, {}, 0, driver(setting.pouch));
    return;
  }
  if (keeps_shape(setting.pouch.texture))
    f.add(FlagId::drink_sets_in_bottle, level, {}, 0, driver(setting.pouch));
  if (!keeps_shape(setting.stomach.texture))
    f.add(FlagId::drink_will_not_set_in_stomach, Level::care, {}, 0, driver(setting.stomach));
}

void check_calcium(Findings& f) {
  const WaterPhase& phase = f.phase();
  const bool binds_calcium = f.set().alginate_percent + f.set().lm_pectin_percent > 0;
  if (!binds_calcium) return;
  const double ratio = phase.calcium_ratio_r2;

  if (f.drink() && f.recipe().tap) {
    const HardWater verdict = hard_water(phase.tap_calcium_ratio_r2);
    if (verdict != HardWater::fine) {
      const Formula& formula = f.serving.formula;
      const double litres = formula.tap_g / 1000;
      const double tap_mol = litres * f.inputs.tap.calcium_mol_per_kg;
      const double carboxylate_mol =
          phase.carboxylate_mmol_per_kg * formula.chemistry_water_g / 1e6;
      const double other_mol = phase.tap_calcium_ratio_r2 * carboxylate_mol / 2 - tap_mol;
      const double allowed_mol =
          calcium_mol_at_r2(setting_constants().hard_water_care_r2, carboxylate_mol) - other_mol;
      const double clears_mg_per_l =
          litres > 0 ? std::max(0.0, allowed_mol) / litres * 1000 * calcium_mg_per_mmol : 0;
      f.add(FlagId::hard_water, verdict == HardWater::stop ? Level::stop : Level::care,
            {phase.tap_calcium_ratio_r2,
             f.inputs.tap.calcium_mol_per_kg * 1000 * calcium_mg_per_mmol, clears_mg_per_l});
    }
  }

  const bool wants_calcium =
      !f.drink() && (f.set().lm_pectin_percent > 0 || f.inputs.calcium.has_value());
  const bool alginate_route = f.set().alginate_percent > 0;
  if (wants_calcium && ratio < thresholds::calcium_too_low_r2)
    f.add(FlagId::calcium_too_low, Level::care,
          {ratio, thresholds::calcium_too_low_r2, phase.total_calcium_ratio_r2});
  const double most =
      alginate_route ? thresholds::alginate_too_high_r2 : thresholds::pectin_too_high_r2;
  if (ratio > most)
    f.add(FlagId::calcium_too_high, Level::care, {ratio, most}, 0,
          f.verdict(alginate_route ? Route::calcium_alginate : Route::calcium_pectin)
              ? f.verdict(alginate_route ? Route::calcium_alginate : Route::calcium_pectin)->rule
              : nullptr);
  if (f.set().calcium == CalciumDelivery::fast && ratio > thresholds::fast_calcium_r2)
    f.add(FlagId::calcium_shock, Level::care, {ratio, thresholds::fast_calcium_r2});
}

void check_defects(Findings& f) {
  const Outlook& pouch = f.serving.setting.pouch;
  for (const Route route : {Route::acid_alginate, Route::acid_alginate_pectin}) {
    const Verdict* verdict = f.verdict(route);
    if (verdict != nullptr && f.set().acid == AcidDelivery::poured &&
        (verdict->defects.has(Defect::lumps) || verdict->defects.has(Defect::gritty)) &&
        !f.has(FlagId::acid_shock))
      f.add(FlagId::acid_shock, Level::care, {f.set().ph}, 0, verdict->rule);
  }
  const auto rule_with = [&pouch](Defect defect) -> const SetRule* {
    for (std::size_t i = 0; i < pouch.count; ++i)
      if (pouch.verdicts[i].defects.has(defect)) return pouch.verdicts[i].rule;
    return nullptr;
  };
  const bool explained =
      f.has(FlagId::acid_shock) || f.has(FlagId::calcium_shock) || f.has(FlagId::calcium_too_high);
  if (pouch.defects.has(Defect::lumps) && !explained)
    f.add(FlagId::lumps, Level::care, {}, 0, rule_with(Defect::lumps));
  if (pouch.defects.has(Defect::weeps) && !f.has(FlagId::calcium_too_high))
    f.add(FlagId::weeps, Level::care, {}, 0, rule_with(Defect::weeps));
}

void check_process(Findings& f) {
  const SetInput& set = f.set();
  const Process& process = f.recipe().process;
  const double gum = f.gum_percent();
  if (gum <= 0) return;
  const bool in_mix = process.gum_dispersed == Dispersal::in_mix;
  const bool needs_heat = set.lm_pectin_percent > 0 || set.gellan_low_acyl_percent > 0 ||
                          (set.hm_pectin_percent > 0 && set.alginate_percent <= 0);
  if (needs_heat && !set.heated && !in_mix)
    f.add(FlagId::under_heated, Level::care,
          {process.heated_to_c.value_or(0), setting_constants().hot_enough_c});
  if (!process.gum_before_sugar && !in_mix &&
      set.soluble_solids_percent > thresholds::gum_after_sugar_percent)
    f.add(FlagId::gum_after_sugar, Level::care, {set.soluble_solids_percent});
  if (process.gum_dispersed == Dispersal::dry)
    f.add(FlagId::gum_clumps, Level::care, {gum});
  else if (!in_mix && gum > thresholds::gum_clumps_percent)
    f.add(FlagId::gum_clumps, Level::note, {gum});
  if (gum > thresholds::gum_most_percent ||
      set.soluble_solids_percent > thresholds::solids_most_percent)
    f.add(FlagId::too_little_water, Level::care, {gum, set.soluble_solids_percent});
  const bool cut_by_acid = set.alginate_percent + set.hm_pectin_percent + set.lm_pectin_percent > 0;
  if (cut_by_acid && set.ph < thresholds::thins_below_ph)
    f.add(FlagId::thins_in_storage, Level::note, {set.ph});
  if (const Verdict* jam = f.verdict(Route::sugar_acid_pectin);
      jam != nullptr && jam->texture != Texture::pours &&
      set.maltodextrin_share > thresholds::maltodextrin_share)
    f.add(FlagId::unproven_with_maltodextrin, Level::care, {100 * set.maltodextrin_share}, 0,
          jam->rule);
  if (f.drink() && f.phase().acid_demand_mmol > setting_constants().acid_demand_limit_mmol)
    f.add(FlagId::slow_in_stomach, Level::care,
          {f.phase().acid_demand_mmol, setting_constants().acid_demand_limit_mmol});
}

void check_model(Findings& f) {
  const WaterPhase& phase = f.phase();
  if (phase.buffer_unknown) f.add(FlagId::buffer_unknown, Level::care, {phase.ph_uncertainty});
  const double ionic = phase.ionic_strength_mol_per_kg;
  const double acid_mol_per_kg =
      f.inputs.acid ? f.inputs.acid->line.mass_g * f.inputs.acid->line.per_g.organic_acid_g /
                          thresholds::acid_g_per_mol / (f.serving.formula.chemistry_water_g / 1000)
                    : 0;
  if (ionic_strength_outside_range(ionic) || acid_mol_per_kg > thresholds::acid_most_mol_per_kg)
    f.add(FlagId::outside_model, Level::care, {ionic, acid_mol_per_kg});
  else if (ionic_strength_less_certain(ionic))
    f.add(FlagId::ionic_strength_high, Level::note, {ionic});
  const auto precipitate = [&f](FlagId id, const std::optional<double>& index) {
    if (index && *index > 0) f.add(id, Level::note, {*index});
  };
  precipitate(FlagId::citrate_may_precipitate, phase.saturation.tricalcium_citrate);
  precipitate(FlagId::carbonate_may_precipitate, phase.saturation.calcite);
  if (phase.undissolved_calcium_mmol_per_kg > 0)
    f.add(FlagId::calcium_undissolved, f.drink() ? Level::note : Level::care,
          {phase.undissolved_calcium_mmol_per_kg});
}

void check_weighing(Findings& f) {
  const Batch& batch = f.serving.batch;
  for (const UnweighableLine& line : batch.unweighable)
    f.add(FlagId::cannot_weigh,
          line.error_percent >= thresholds::hopeless_error_percent ? Level::stop : Level::care,
          {line.exact_g, line.error_percent, line.readability_needed_g, line.servings_needed},
          line.role == LineRole::water ? no_subject : line.ingredient);
  for (std::size_t i = 0; i < batch.stocks.size(); ++i)
    if (batch.stocks[i].chosen_by_plan)
      f.add(FlagId::dosed_from_stock, Level::note,
            {100 * batch.stocks[i].stock_fraction, batch.stocks[i].use_g, batch.stocks[i].make_g},
            batch.stocks[i].ingredient);
  if (batch.fits_vessel && !*batch.fits_vessel)
    f.add(FlagId::vessel_too_small, Level::care,
          {batch.vessel_needed_ml, *f.recipe().batch.vessel_ml});
}

/// How many hours the finished batch may be kept cold. A computed pH never earns the long time.
double keeping_hours(const Findings& f) {
  const Process& process = f.recipe().process;
  const double ph = process.measured_ph.value_or(f.phase().ph);
  if (process.measured_ph && ph <= thresholds::safe_with_strips_ph) return thresholds::keep_acid_h;
  return ph > thresholds::acidified_food_ph ? thresholds::keep_low_acid_h : thresholds::keep_h;
}

/// True if the ingredient is, holds or is stated to carry what `word` (lower case) names.
bool holds(const Ingredient& ingredient, const std::string& word) {
  const auto names = [&word](const std::string& text) {
    return lower(text).find(word) != std::string::npos;
  };
  return names(ingredient.name) ||
         std::any_of(ingredient.allergens.begin(), ingredient.allergens.end(), names) ||
         std::any_of(ingredient.parts.begin(), ingredient.parts.end(), names) ||
         (word == "fructose" && ingredient.per_g.fructose_g > 0);
}

void check_safety(Findings& f) {
  const Recipe& recipe = f.recipe();
  const Nutrition& nutrition = f.serving.nutrition;
  const double ph = recipe.process.measured_ph.value_or(f.phase().ph);
  f.add(FlagId::keep_cold, Level::note, {keeping_hours(f), f.serving.properties.water_activity});
  const bool strips_too_high = recipe.process.measured_ph &&
                               recipe.process.measured_with == PhMethod::strips &&
                               ph > thresholds::safe_with_strips_ph;
  if (!recipe.process.measured_ph || ph > thresholds::acidified_food_ph || strips_too_high)
    f.add(FlagId::acidity_not_proven,
          ph > thresholds::acidified_food_ph || strips_too_high ? Level::care : Level::note,
          {ph, strips_too_high ? 1.0 : 0.0});
  const Texture texture = f.serving.setting.pouch.texture;
  if (texture == Texture::firm || texture == Texture::hard) f.add(FlagId::choking, Level::care);
  if (ph < thresholds::erosive_below_ph) f.add(FlagId::teeth, Level::note, {ph});
  if (ph < thresholds::too_sour_below_ph) f.add(FlagId::too_sour, Level::care, {ph});
  if (nutrition.sodium_mg > thresholds::sodium_serving_mg)
    f.add(FlagId::sodium_load, Level::care, {nutrition.sodium_mg});
  if (nutrition.caffeine_mg > thresholds::caffeine_single_mg)
    f.add(FlagId::caffeine_single, Level::stop, {nutrition.caffeine_mg});
  if (nutrition.caffeine_mg * f.inputs.servings > thresholds::caffeine_day_mg)
    f.add(FlagId::caffeine_day, Level::care, {nutrition.caffeine_mg * f.inputs.servings});
  if (nutrition.fructose_g > thresholds::fructose_g && nutrition.fructose_g > nutrition.glucose_g)
    f.add(FlagId::fructose, Level::care, {nutrition.fructose_g, nutrition.glucose_g});
  if (nutrition.gum_g * f.inputs.servings > thresholds::gum_day_g)
    f.add(FlagId::gum_load, Level::note, {nutrition.gum_g * f.inputs.servings});
  if (recipe.avoid.empty()) return;
  for (std::size_t i = 0; i < recipe.ingredients.size(); ++i) {
    const Ingredient& ingredient = recipe.ingredients[i];
    if (std::any_of(recipe.avoid.begin(), recipe.avoid.end(),
                    [&](const std::string& word) { return holds(ingredient, lower(word)); }))
      f.add(FlagId::allergen, Level::stop, {}, i);
    else if (ingredient.source == "recipe" && ingredient.allergens.empty())
      f.add(FlagId::allergen_unstated, Level::note, {}, i);
  }
}

}  // namespace

std::vector<Flag> flags_of(const Serving& serving, const Inputs& inputs) {
  std::vector<Flag> flags;
  flags.reserve(16);
  Findings findings{serving, inputs, flags};
  check_water(findings);
  check_ph_limits(findings);
  if (serving.formula.tap_g < 0)
    findings.add(FlagId::stock_exceeds_water, Level::stop,
                 {serving.formula.water_g - serving.formula.tap_g, serving.formula.water_g});
  check_form(findings);
  check_calcium(findings);
  check_defects(findings);
  check_process(findings);
  check_model(findings);
  check_weighing(findings);
  check_safety(findings);
  std::stable_sort(flags.begin(), flags.end(),
                   [](const Flag& a, const Flag& b) { return a.id < b.id; });
  return flags;
}

std::string_view to_text(Level level) {
  switch (level) {
    case Level::note:
      return "note";
    case Level::care:
      return "care";
    case Level::stop:
      return "stop";
  }
  return "";
}

std::span<const Datum> flag_data() {
  return thresholds::rows;
}

}  // namespace gelwright
