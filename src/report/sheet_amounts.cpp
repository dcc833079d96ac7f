#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "report/sheet_parts.hpp"

namespace gelwright {

namespace {

Table amounts_table(const Inputs& inputs, const Evaluation& evaluation) {
  const Formula& formula = evaluation.formula;
  const double factor = evaluation.batch.factor;
  Table table{"amounts",
              {{"item", "", false},
               {"serving", "serving", true},
               {"batch", "batch", true},
               {"unit", "", false}},
              {},
              Shown::text_only};
  const auto add = [&](std::string item, double amount, int decimals, std::string unit,
                       double times) {
    table.rows.push_back(
        {std::move(item), Cell(amount, decimals), Cell(amount * times, decimals), std::move(unit)});
  };
  const auto add_mass = [&](std::string item, double mass_g) {
    table.rows.push_back({std::move(item), Cell(mass_g, mass_decimals(mass_g)),
                          Cell(mass_g * factor, mass_decimals(mass_g * factor)), "g"});
  };
  for (const InputLine& line : inputs.solids)
    add_mass(inputs.recipe->ingredients[line.ingredient].name, line.mass_g);
  add_mass("water", formula.water_g);
  if (inputs.acid)
    add_mass(inputs.recipe->ingredients[inputs.acid->line.ingredient].name, formula.acid_g);
  if (inputs.calcium)
    add_mass(inputs.recipe->ingredients[inputs.calcium->line.ingredient].name,
             formula.calcium_salt_g);
  add_mass("total", formula.total_g);
  add("volume", formula.total_g / evaluation.properties.density_g_per_ml, 0, "mL", factor);
  const Nutrition& label = evaluation.nutrition;
  add("carbohydrate", label.carbohydrate_g, 1, "g", factor);
  add("energy", label.energy_kj, 0, "kJ", factor);
  add("", label.energy_kcal, 0, "kcal", factor);
  if (label.sodium_at_least && label.sodium_mg <= 0)
    table.rows.push_back({"sodium", Cell("not stated"), Cell("not stated"), ""});
  else
    add(label.sodium_at_least ? "sodium, at least" : "sodium", label.sodium_mg, 0, "mg", factor);
  return table;
}

}  // namespace

Section detail::rounding_section(const Evaluation& exact, const Evaluation& rounded) {
  Section section{"rounded_water", "ROUNDED WATER", {}, {}, {}};
  Table table{"effect",
              {{"quantity", "", false},
               {"exact", "exact", true},
               {"rounded", "rounded", true},
               {"unit", "", false}},
              {}};
  const auto add = [&table](std::string quantity, double before, double after, int decimals,
                            std::string unit) {
    table.rows.push_back(
        {std::move(quantity), Cell(before, decimals), Cell(after, decimals), std::move(unit)});
  };
  add("water in the batch", exact.formula.water_g * exact.batch.factor,
      rounded.formula.water_g * rounded.batch.factor, 1, "g");
  add("water per g of solids", exact.formula.water_per_g_solids(),
      rounded.formula.water_per_g_solids(), 3, "g");
  add("soluble solids", exact.formula.soluble_solids_percent(),
      rounded.formula.soluble_solids_percent(), 1, "%");
  add("carbohydrate in 100 g", 100 * exact.nutrition.carbohydrate_g / exact.formula.total_g,
      100 * rounded.nutrition.carbohydrate_g / rounded.formula.total_g, 1, "g");
  add("pH, estimate", exact.water_phase.ph, rounded.water_phase.ph, 2, "");
  section.tables.push_back(std::move(table));
  return section;
}

Section detail::serving_section(const Inputs& inputs, const Evaluation& evaluation) {
  const Formula& formula = evaluation.formula;
  const Nutrition& label = evaluation.nutrition;
  Section section{"serving", "AMOUNTS (batch before losses)", {}, {}, {}};
  const auto exact = [&section](std::string key, double value, std::string unit) {
    section.figures.push_back(
        {std::move(key), "", Cell(value, 6), std::move(unit), "", "", Shown::json_only});
  };
  exact("solids_g", formula.solids_g, "g");
  exact("water_g", formula.water_g, "g");
  exact("acid_g", formula.acid_g, "g");
  exact("calcium_salt_g", formula.calcium_salt_g, "g");
  exact("total_g", formula.total_g, "g");
  exact("volume_ml", formula.total_g / evaluation.properties.density_g_per_ml, "mL");
  exact("carbohydrate_g", label.carbohydrate_g, "g");
  section.tables.push_back(amounts_table(inputs, evaluation));
  const auto figure = [&section](std::string key, std::string label_text, Cell cell,
                                 std::string unit, std::string why = "", std::string remark = "",
                                 Shown where = Shown::everywhere) {
    section.figures.push_back({std::move(key), std::move(label_text), std::move(cell),
                               std::move(unit), std::move(why), std::move(remark), where});
  };
  figure("sugars_g", "Sugars", Cell(label.sugars_g, 1), "g per serving");
  figure("fibre_g", "Fibre", Cell(label.fibre_g, 1), "g per serving");
  for (const auto& [key, name, amount_g] :
       {std::tuple{"polyols_g", "Polyols, beside the carbohydrate", label.polyols_g},
        std::tuple{"protein_g", "Protein", label.protein_g},
        std::tuple{"fat_g", "Fat", label.fat_g}})
    figure(key, name, Cell(amount_g, 1), "g per serving", "", "",
           amount_g > 0 ? Shown::everywhere : Shown::json_only);
  figure("energy_kj", "Energy", Cell(label.energy_kj, 0), "kJ", "", "", Shown::json_only);
  figure("energy_kcal", "Energy", Cell(label.energy_kcal, 0), "kcal", "", "", Shown::json_only);
  const bool no_sodium = label.sodium_at_least && label.sodium_mg <= 0;
  const std::string not_stated = no_sodium ? "not stated: a label gives no sodium" : "";
  const auto known = [no_sodium](double value, int decimals) {
    return no_sodium ? Cell() : Cell(value, decimals);
  };
  figure("sodium_mg", "Sodium", known(label.sodium_mg, 0), "mg", not_stated, "", Shown::json_only);
  figure("sodium_at_least", "", Cell(label.sodium_at_least), "", "", "", Shown::json_only);
  figure("salt_g", "Salt (2.5 x sodium)", known(label.salt_g, 2), "g per serving", not_stated,
         label.sodium_at_least ? "at least: a label gives no sodium" : "");
  if (label.caffeine_mg > 0)
    figure("caffeine_mg", "Caffeine, pre-dosed", Cell(label.caffeine_mg, 0), "mg per serving");
  else
    figure("caffeine_mg", "Caffeine", Cell(0.0, 0), "mg", "", "", Shown::json_only);
  figure("glucose_to_fructose", "Glucose to fructose", Cell(label.glucose_to_fructose, 2),
         "by mass", label.fructose_g > 0 ? "" : "no fructose in it",
         label.glucose_to_fructose == label.glucose_to_fructose_least
             ? ""
             : fmt::format("if the label's sugars are sucrose, {} if fructose",
                           fixed(label.glucose_to_fructose_least.value_or(0), 2)));
  figure("glucose_to_fructose_least", "", Cell(label.glucose_to_fructose_least, 2), "by mass",
         label.fructose_most_g > 0 ? "" : "no fructose in it", "", Shown::json_only);
  figure("fructose_g", "", Cell(label.fructose_g, 1), "g", "", "", Shown::json_only);
  figure("fructose_most_g", "", Cell(label.fructose_most_g, 1), "g", "", "", Shown::json_only);
  return section;
}

Section detail::batch_section(const Inputs& inputs, const Evaluation& evaluation) {
  const Batch& batch = evaluation.batch;
  const BatchSpec& spec = inputs.recipe->batch;
  Section section{"batch", "BATCH", {}, {}, {}};
  section.figures = {
      {"servings", "Servings", Cell(inputs.servings, 2), "", "", "", Shown::json_only},
      {"loss_percent", "Left on bowl and blade", Cell(spec.loss_percent, 1), "%"},
      {"total_g", "Batch", Cell(batch.total_g, 1), "g", "",
       fmt::format("of which {} g reach the {}", fixed(batch.yield_g, 1),
                   inputs.recipe->form == Form::pouch ? "pouches" : "bottles")},
      {"yield_g", "", Cell(batch.yield_g, 1), "g", "", "", Shown::json_only},
      {"volume_ml", "Volume", Cell(batch.volume_ml, 0), "mL", "",
       fmt::format("free of foam; with {:g} % headroom {} mL", spec.headroom_percent,
                   fixed(batch.vessel_needed_ml, 0))},
  };
  if (batch.fits_vessel)
    section.figures.push_back({"fits_vessel", "Fits the vessel", Cell(*batch.fits_vessel), "", "",
                               fmt::format("({:g} mL)", *spec.vessel_ml)});
  else
    section.figures.push_back(
        {"fits_vessel", "", Cell(), "", "no vessel_ml in the recipe", "", Shown::json_only});

  return section;
}

}  // namespace gelwright
