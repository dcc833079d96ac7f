#include <fmt/format.h>

#include <cmath>

#include "base/rounding.hpp"
#include "gelwright/water.hpp"
#include "report/sheet_parts.hpp"

namespace gelwright {

namespace {

constexpr std::string_view no_tap = "the recipe has no water report";

/// Stands out on paper the more it matters.
std::string_view level_word(Level level) {
  switch (level) {
    case Level::stop:
      return "STOP";
    case Level::care:
      return "CARE";
    case Level::note:
      return "note";
  }
  return "";
}

}  // namespace

Section detail::water_section(const Inputs& inputs, const Evaluation& evaluation) {
  const Formula& formula = evaluation.formula;
  Section section{"water", "WATER", {}, {}, {}};
  section.figures = {
      {"water_fraction_of_total", "Water in 100 g of the total",
       Cell(formula.water_fraction_of_total(), 6), "", "", "", Shown::json_only},
      {"water_per_g_solids", "", Cell(formula.water_per_g_solids(), 6), "", "", "",
       Shown::json_only},
      {"reading", "Water, both readings",
       Cell(fmt::format("{} g in 100 g of the total = {} g for each g of solids",
                        fixed(100 * formula.water_fraction_of_total(), 1),
                        fixed(formula.water_per_g_solids(), 2))),
       "", "", "", Shown::text_only},
  };
  const Recipe& recipe = *inputs.recipe;
  const std::string missing(no_tap);
  std::optional<double> calcium;
  std::optional<double> magnesium;
  std::optional<double> hardness;
  std::optional<double> alkalinity;
  if (recipe.tap) {
    if (const auto both = calcium_and_magnesium(recipe.tap->water, nullptr)) {
      calcium = both->calcium_mg_per_l();
      magnesium = both->magnesium_mg_per_l();
      hardness = hardness_in(HardnessUnit::mg_caco3_per_l, both->hardness_mmol_per_l());
    }
    alkalinity = recipe.tap->water.alkalinity_meq_per_l;
    if (alkalinity) alkalinity = alkalinity_in(AlkalinityUnit::mg_caco3_per_l, *alkalinity);
  }
  const std::string why = recipe.tap ? "not in the report" : missing;
  section.figures.push_back({"calcium_mg_per_l", "Calcium", Cell(calcium, 1), "mg/L", why});
  section.figures.push_back({"magnesium_mg_per_l", "Magnesium", Cell(magnesium, 1), "mg/L", why});
  section.figures.push_back(
      {"hardness_mg_caco3_per_l", "Hardness", Cell(hardness, 0), "mg/L CaCO3", why,
       hardness ? fmt::format("({})", to_text(hardness_class(hardness_mmol_per_l(
                                          *hardness, HardnessUnit::mg_caco3_per_l))))
                : ""});
  section.figures.push_back(
      {"alkalinity_mg_caco3_per_l", "Alkalinity", Cell(alkalinity, 0), "mg/L CaCO3", why});
  return section;
}

Section detail::chemistry_section(const Inputs& inputs, const Evaluation& evaluation) {
  const WaterPhase& phase = evaluation.water_phase;
  const Formula& formula = evaluation.formula;
  Section section{
      "chemistry", "WATER PHASE (per kg of all the water in it; estimates)", {}, {}, {}};
  auto& figures = section.figures;
  const PhBand& band = evaluation.ph_band;
  // What the pH is printed with, one decimal, does not show less.
  constexpr double shown_ph = 0.05;
  const bool wider = band.high - band.low > 2 * phase.ph_uncertainty + shown_ph;
  figures.push_back({"ph", "pH", Cell(phase.ph, 1), "", "",
                     fmt::format("+- {}, estimate; {}{}", fixed(phase.ph_uncertainty, 1),
                                 wider ? "the label's sodium counted as chloride; " : "",
                                 formula.soluble_solids_percent() > 20
                                     ? "sugar above 20 % is outside the checked range"
                                     : "measure if it matters")});
  figures.push_back(
      {"ph_uncertainty", "", Cell(phase.ph_uncertainty, 1), "", "", "", Shown::json_only});
  figures.push_back({"ph_low", "", Cell(band.low, 1), "", "", "", Shown::json_only});
  figures.push_back({"ph_high", "", Cell(band.high, 1), "", "", "", Shown::json_only});
  if (wider)
    figures.push_back({"ph_band", "pH, all it may be",
                       Cell(fmt::format("{} to {}", fixed(band.low, 1), fixed(band.high, 1))), "",
                       "", "over what the label leaves open; measure it once", Shown::text_only});
  figures.push_back({"ph_degassed", "pH in balance with air", Cell(phase.ph_degassed, 1), "",
                     fmt::format("differs by less than {:g}", degassing_shown_above_ph()), "",
                     phase.ph_degassed ? Shown::everywhere : Shown::json_only});
  if (inputs.recipe->measured)
    figures.push_back({"ph_measured", "pH as measured", Cell(inputs.recipe->measured->ph, 2), ""});
  figures.push_back({"ionic_strength_mol_per_kg", "Ionic strength",
                     estimate(phase.ionic_strength_mol_per_kg, 2), "mol/kg"});
  figures.push_back({"free_calcium_mmol_per_kg", "Free calcium",
                     estimate(phase.free_calcium_mmol_per_kg, 2), "mmol/kg", "",
                     fmt::format("+- {:.0f} %, of {} dissolved",
                                 100 * (std::pow(10.0, phase.free_calcium_decades) - 1),
                                 significant(phase.total_calcium_mmol_per_kg, 2))});
  figures.push_back({"free_calcium_percent", "",
                     Cell(100 * (std::pow(10.0, phase.free_calcium_decades) - 1), 0), "%", "", "",
                     Shown::json_only});
  const bool shares = phase.alkalinity_share.has_value();
  const std::string no_acid = inputs.acid ? "nothing gives off protons" : "no acid added";
  const auto share = [](const std::optional<double>& fraction) {
    return fraction ? std::optional<double>(100 * *fraction) : std::nullopt;
  };
  figures.push_back({"alkalinity_share_percent", "Protons taken by alkalinity",
                     Cell(share(phase.alkalinity_share), 0), "%", no_acid, "",
                     shares ? Shown::everywhere : Shown::json_only});
  figures.push_back({"gum_share_percent", "Protons taken by gum", Cell(share(phase.gum_share), 0),
                     "%", no_acid, "", shares ? Shown::everywhere : Shown::json_only});
  figures.push_back({"acid_demand_mmol", "Stomach acid to pH 3",
                     estimate(phase.acid_demand_mmol, 2), "mmol per serving"});

  Table ratios{"calcium_ratio",
               {{"gum", "calcium ratio", false},
                {"r2", "R2 available", true},
                {"r2_total", "R2 total", true},
                {"r_g", "R_G", true}},
               {}};
  for (std::size_t g = 0; g < gum_count; ++g) {
    const auto gum = static_cast<Gum>(g);
    if (formula.delivered.gum(gum) <= 0 || formula.delivered.carboxylate(gum) <= 0) continue;
    const bool gellan = gum == Gum::gellan_low_acyl;
    ratios.rows.push_back({to_text(gum),
                           Cell(gellan ? phase.gellan_ratio_r2 : phase.calcium_ratio_r2, 2),
                           Cell(phase.total_calcium_ratio_r2, 2),
                           gum == Gum::alginate ? Cell(phase.guluronate_ratio, 2) : Cell()});
  }
  section.tables.push_back(std::move(ratios));
  Table readings{"sodium_readings",
                 {{"salt", "sodium as", false},
                  {"weight", "chance", true},
                  {"ph", "pH", true},
                  {"ph_uncertainty", "+-", true}},
                 {}};
  for (const SodiumPh& each : band.readings)
    readings.rows.push_back({to_text(each.reading.salt), Cell(each.reading.weight, 2),
                             Cell(each.ph, 1), Cell(each.half_width, 1)});
  section.tables.push_back(std::move(readings));
  return section;
}

Section detail::properties_section(const Evaluation& evaluation) {
  const Properties& properties = evaluation.properties;
  Section section{"properties", "PROPERTIES", {}, {}, {}};
  section.figures = {
      {"soluble_solids_percent", "Soluble solids",
       Cell(evaluation.formula.soluble_solids_percent(), 1), "%"},
      {"density_g_per_ml", "Density, free of foam", Cell(properties.density_g_per_ml, 2), "g/mL"},
      {"water_activity", "Water activity", Cell(properties.water_activity, 2), "", "", "estimate"},
      {"osmolality_mosm_per_kg", "Osmolality", estimate(properties.osmolality_mosm_per_kg, 2),
       "mOsm/kg", "",
       fmt::format("{}estimate, +- 20 % with maltodextrin; a body fluid has 270 to 330",
                   evaluation.formula.delivered.unnamed_sugars_g > 0
                       ? fmt::format("if the label's sugars are sucrose, {} if fructose; ",
                                     significant(properties.osmolality_most_mosm_per_kg, 2))
                       : "")},
      {"osmolality_most_mosm_per_kg", "", estimate(properties.osmolality_most_mosm_per_kg, 2),
       "mOsm/kg", "", "", Shown::json_only},
  };
  return section;
}

std::string detail::change_words(const Change& change, const Inputs& inputs, const Batch& batch) {
  const std::string each = to_text(change, *inputs.recipe);
  if (info_of(change.knob).unit != "g" || batch.factor == 1) return each;
  Change whole = change;
  whole.amount *= batch.factor;
  return fmt::format("{} in the batch ({} g in each serving)", to_text(whole, *inputs.recipe),
                     significant(std::abs(change.amount), 2));
}

std::string detail::remedy_with_amount(std::size_t flag, const Inputs& inputs,
                                       const Evaluation& evaluation, const Advice& advice) {
  const std::string general = remedy_of(evaluation.flags[flag], evaluation, inputs);
  if (flag >= advice.clears.size() || !advice.clears[flag]) return general;
  const Remedy& remedy = *advice.clears[flag];
  if (remedy.same_as)
    return fmt::format("the same change clears it: {}",
                       change_words(remedy.change, inputs, evaluation.batch));
  std::string raises;
  for (const FlagId id : remedy.raises)
    raises += fmt::format("{}{}", raises.empty() ? ", but then look out for " : "; ", called(id));
  return fmt::format("{} clears it{}{}{}", change_words(remedy.change, inputs, evaluation.batch),
                     raises,
                     general.empty()  ? ""
                     : raises.empty() ? ", or "
                                      : ". Or ",
                     general);
}

std::string detail::remedy_in_short(std::size_t flag, const Inputs& inputs,
                                    const Evaluation& evaluation, const Advice& advice) {
  const std::string general = remedy_of(evaluation.flags[flag], evaluation, inputs);
  if (flag >= advice.clears.size() || !advice.clears[flag]) return general;
  const std::size_t found = advice.clears[flag]->same_as.value_or(flag);
  const Remedy& remedy = *advice.clears[found];
  Change whole = remedy.change;
  const bool grams = info_of(whole.knob).unit == "g";
  if (grams) whole.amount *= evaluation.batch.factor;
  std::string text =
      fmt::format("{}{} clears it", to_text(whole, *inputs.recipe), grams ? " in the batch" : "");
  for (std::size_t i = 0; i < remedy.raises.size(); ++i)
    text += fmt::format("{}{}", i == 0 ? ". Then look out for " : ". Also for ",
                        called(remedy.raises[i]));
  return general.empty() ? text : fmt::format("{}. Or {}", text, general);
}

Section detail::flags_section(const Inputs& inputs, const Evaluation& evaluation,
                              const Advice& advice) {
  Section section{"flags", "FLAGS", {}, {}, {}};
  Table table{"flags",
              {{"id", "", false},
               {"level", "", false},
               {"message", "", false},
               {"remedy", "", false},
               {"source", "", false},
               {"grade", "", false}},
              {},
              Shown::json_only};
  Lines lines{"text", {}, Lines::Style::bullets, Shown::text_only};
  for (const Level level : {Level::stop, Level::care, Level::note})
    for (std::size_t i = 0; i < evaluation.flags.size(); ++i) {
      const Flag& flag = evaluation.flags[i];
      if (flag.level != level) continue;
      const std::string message = message_of(flag, evaluation, inputs);
      const std::string remedy = remedy_with_amount(i, inputs, evaluation, advice);
      const std::string grade(1, static_cast<char>(flag.basis.grade));
      table.rows.push_back(
          {name_of(flag.id), to_text(level), message, remedy, flag.basis.source, grade});
      lines.items.push_back(fmt::format("{} {}{}{} [{}, {}]", level_word(level), message,
                                        remedy.empty() ? "" : " -> ", remedy, name_of(flag.id),
                                        grade));
    }
  if (lines.items.empty())
    lines.items.emplace_back("none");
  else
    lines.items.emplace_back(
        "In brackets: name for `gelwright explain`, and grade: A published, B transferred, C "
        "judgement.");
  section.tables.push_back(std::move(table));
  section.lines.push_back(std::move(lines));
  return section;
}

}  // namespace gelwright
