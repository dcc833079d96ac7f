#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "report/sheet_parts.hpp"

namespace gelwright {

namespace {

std::string ingredient_name(const BatchLine& line, const Recipe& recipe) {
  return line.role == LineRole::water ? "water" : recipe.ingredients[line.ingredient].name;
}

/// "citric acid anhydrous, 10 % stock", "water, part 2 of 3".
std::string line_name(const BatchLine& line, const Recipe& recipe) {
  std::string name = ingredient_name(line, recipe);
  if (line.stock_fraction > 0) name += fmt::format(", {:g} % stock", 100 * line.stock_fraction);
  if (line.parts > 1) name += fmt::format(", part {} of {}", line.part, line.parts);
  return name;
}

std::string scale_name(const BatchLine& line, const BatchSpec& spec) {
  if (!line.scale) return "";
  std::string name = spec.scales[*line.scale].name;
  if (line.own_cup) name += ", own cup";
  if (line.new_bowl) name += ", new bowl";
  return name;
}

/// Decimals of a scale's display.
int display_decimals(const BatchLine& line, const BatchSpec& spec) {
  if (!line.scale) return mass_decimals(line.weigh_g);
  int decimals = 0;
  for (double step = spec.scales[*line.scale].readability_g; step < 0.9999 && decimals < 6;
       step *= 10)
    ++decimals;
  return decimals;
}

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
  add("sodium", label.sodium_mg, 0, "mg", factor);
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
  figure("energy_kj", "Energy", Cell(label.energy_kj, 0), "kJ", "", "", Shown::json_only);
  figure("energy_kcal", "Energy", Cell(label.energy_kcal, 0), "kcal", "", "", Shown::json_only);
  figure("sodium_mg", "Sodium", Cell(label.sodium_mg, 0), "mg", "", "", Shown::json_only);
  figure("salt_g", "Salt (2.5 x sodium)", Cell(label.salt_g, 2), "g per serving");
  if (label.caffeine_mg > 0)
    figure("caffeine_mg", "Caffeine, pre-dosed", Cell(label.caffeine_mg, 0), "mg per serving");
  else
    figure("caffeine_mg", "Caffeine", Cell(0.0, 0), "mg", "", "", Shown::json_only);
  figure("glucose_to_fructose", "Glucose to fructose", Cell(label.glucose_to_fructose, 2),
         "by mass", label.fructose_g > 0 ? "" : "no fructose in it");
  return section;
}

Section detail::batch_section(const Inputs& inputs, const Evaluation& evaluation) {
  const Batch& batch = evaluation.batch;
  const BatchSpec& spec = inputs.recipe->batch;
  Section section{"batch", "WEIGH OUT, in this order", {}, {}, {}};
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

  Table lines{"lines",
              {{"what", "what", false, Shown::text_only},
               {"ingredient", "", false, Shown::json_only},
               {"part", "", false, Shown::json_only},
               {"parts", "", false, Shown::json_only},
               {"exact_g", "exact g", true},
               {"weigh_g", "weigh g", true},
               {"running_total_g", "stop at g", true},
               {"where", "scale", false, Shown::text_only},
               {"scale", "", false, Shown::json_only},
               {"own_cup", "", false, Shown::json_only},
               {"new_bowl", "", false, Shown::json_only},
               {"error_percent", "+- %", true},
               {"stock_percent", "", false, Shown::json_only},
               {"clears", "", false, Shown::json_only}},
              {},
              Shown::everywhere,
              true};
  for (const BatchLine& line : batch.lines) {
    const int decimals = display_decimals(line, spec);
    const bool weighed = line.scale.has_value();
    lines.rows.push_back(
        {line_name(line, *inputs.recipe), ingredient_name(line, *inputs.recipe), Cell(line.part, 0),
         Cell(line.parts, 0), Cell(line.exact_g, mass_decimals(line.exact_g)),
         Cell(line.weigh_g, weighed ? decimals : mass_decimals(line.weigh_g)),
         Cell(line.running_total_g, weighed ? decimals : 1), scale_name(line, spec),
         weighed ? Cell(spec.scales[*line.scale].name) : Cell(), Cell(line.own_cup),
         Cell(line.new_bowl), weighed ? Cell(line.error_percent, 1) : Cell(),
         line.stock_fraction > 0 ? Cell(100 * line.stock_fraction, 1) : Cell(),
         weighed ? Cell(line.clears) : Cell()});
  }
  section.tables.push_back(std::move(lines));

  Lines notes{"notes", {}, Lines::Style::paragraph, Shown::text_only};
  if (spec.scales.empty())
    notes.items.push_back("No scales in the recipe: masses are exact, not rounded to a display.");
  else
    notes.items.push_back(
        "Tare the empty vessel once. Cups are poured in as they come; \"stop at\" on the big scale "
        "is the display after each line with them in it. +- is rounding and scale together, about "
        "95 %.");
  for (const StockPlan& stock : batch.stocks)
    notes.items.push_back(fmt::format(
        "Stock: {:g} % {} in low-mineral water, at least {} g of it ({} g in the stock).",
        100 * stock.stock_fraction, inputs.recipe->ingredients[stock.ingredient].name,
        fixed(stock.make_g, 0), fixed(stock.make_g * stock.stock_fraction, 1)));
  section.lines.push_back(std::move(notes));
  return section;
}

}  // namespace gelwright
