#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>

#include "gelwright/data_tables.hpp"
#include "gelwright/gel_parameters.hpp"
#include "gelwright/ingredient.hpp"
#include "gelwright/reference.hpp"
#include "gelwright/water.hpp"
#include "report/sheet_parts.hpp"
#include "report/turned.hpp"

namespace gelwright {

namespace {

std::string one_letter(Grade grade) {
  return std::string(1, static_cast<char>(grade));
}

}  // namespace

Report ingredients_report() {
  Report report{
      "gelwright/ingredients-1", "Ingredients: what 1 g as weighed delivers", {}, "ingredients"};
  const std::vector<Column> amounts = {
      {"carbohydrate_g", "carb g", true},    {"water_g", "water g", true},
      {"sodium_mg", "Na mg", true},          {"potassium_mg", "K mg", true},
      {"calcium_mg", "Ca mg", true},         {"magnesium_mg", "Mg mg", true},
      {"carboxylate_mmol", "COO mmol", true}};
  Table all{"ingredients", {{"name", "ingredient"}, {"kind", "kind"}}, {}, Shown::json_only};
  all.columns.insert(all.columns.end(), amounts.begin(), amounts.end());
  all.columns.insert(all.columns.end(), {{"basis", ""}, {"source", ""}});
  // On paper each kind has its own table: so the names have room.
  std::vector<Section> by_kind;
  for (const auto& [kind, title] :
       {std::pair{Kind::sugar, "SUGARS AND POLYOLS"}, std::pair{Kind::syrup, "SYRUPS"},
        std::pair{Kind::gum, "GUMS"}, std::pair{Kind::acid, "FOOD ACIDS"},
        std::pair{Kind::salt, "SALTS"}, std::pair{Kind::calcium_salt, "CALCIUM SALTS"}}) {
    Table table{"kind", {{"name", "ingredient"}}, {}, Shown::text_only};
    table.columns.insert(table.columns.end(), amounts.begin(), amounts.end());
    for (const Ingredient& each : builtin_ingredients()) {
      if (each.kind != kind) continue;
      const Composition& per_g = each.per_g;
      const auto mg = [&per_g](Ion ion) {
        const Component as = info(ion).dissolved_as;
        return Cell(mg_per_l(ion, 1000 * (per_g.dissolved(as) + per_g.acid_only(as))), 1);
      };
      table.rows.push_back({each.name, Cell(per_g.carbohydrate_g, 3), Cell(per_g.water_g, 3),
                            mg(Ion::sodium), mg(Ion::potassium), mg(Ion::calcium),
                            mg(Ion::magnesium),
                            Cell(1000 * per_g.dissolved(Component::uronate), 2)});
      std::vector<Cell> row = table.rows.back();
      row.insert(row.begin() + 1, to_text(each.kind));
      row.insert(row.end(), {each.basis, each.source});
      all.rows.push_back(std::move(row));
    }
    by_kind.push_back({"", title, {}, {std::move(table)}, {}});
  }
  Lines notes{
      "notes",
      {"\"maltodextrin DE N\" is made for any N from 3 to 20, \"glucose syrup DE N\" from 20 to "
       "98.",
       "Everyday words and E numbers are understood where they mean one thing: sugar, table salt, "
       "baking soda, E 334. A word that means several is asked about.",
       "Polyols and glycerol are no carbohydrate here: they feed a run little and loosen the gut.",
       "A bought mix, syrup or juice is described in the recipe under \"define\".",
       "Hydrates and anhydrous forms differ by up to a third: read the pack.",
       "Caffeine is not here: pre-dosed products only, under \"pre_dosed\"."},
      Lines::Style::bullets,
      Shown::text_only};
  report.sections.push_back({"ingredients", "", {}, {std::move(all)}, {}});
  for (Section& each : by_kind) report.sections.push_back(std::move(each));
  report.sections.push_back({"", "", {}, {}, {std::move(notes)}});
  return report;
}

Report sources_report() {
  std::map<std::string_view, std::size_t> uses;
  for (const DataTable& table : data_tables())
    for (const Datum& row : table.rows) ++uses[row.source];
  for (const FlagInfo& info : flag_catalogue()) ++uses[info.source];
  for (const Ingredient& ingredient : builtin_ingredients()) ++uses[ingredient.source];
  Report report{"gelwright/sources-1", "Sources", {}, "sources"};
  Table table{"sources",
              {{"id", "id", false}, {"uses", "uses", true}, {"citation", "citation", false}},
              {}};
  for (const Source& source : sources())
    table.rows.push_back(
        {source.id, Cell(static_cast<double>(uses[source.id]), 0), source.citation});
  Lines notes{"notes",
              {"`gelwright sources --numbers` lists every number, `--gel` every "
               "parameter of the gel model."},
              Lines::Style::paragraph,
              Shown::text_only};
  report.sections.push_back({"sources", "", {}, {std::move(table)}, {std::move(notes)}});
  return report;
}

Report numbers_report() {
  Report report{"gelwright/numbers-1", "Literature numbers", {}, "numbers"};
  Table table{"numbers",
              {{"table", "table", false, Shown::json_only},
               {"key", "number", false},
               {"value", "value", true},
               {"unit", "in", false},
               {"uncertainty", "+-", true},
               {"conditions", "at", false},
               {"source", "by", false},
               {"standing", "", false}},
              {}};
  for (const DataTable& group : data_tables())
    for (const Datum& row : group.rows)
      table.rows.push_back({group.name, row.key, plain(row.value), row.unit == "1" ? "" : row.unit,
                            row.uncertainty > 0 ? Cell(plain(row.uncertainty)) : Cell(),
                            row.conditions, row.source, to_text(row.standing)});
  table.wide = true;
  report.sections.push_back({"numbers", "", {}, {std::move(table)}, {}});
  return report;
}

Report gel_report() {
  Report report{"gelwright/gel-1", "The gel model's parameters", {}, "parameters"};
  Table table{"parameters",
              {{"key", "parameter"},
               {"value", "value", true},
               {"sd", "sd", true},
               {"unit", "unit"},
               {"source", "source"},
               {"known", "known"},
               {"grade", "grade"},
               {"shift", "own cups move"},
               {"means", "rests on"}}};
  for (const gel::Parameter& row : gel::parameters())
    table.rows.push_back({row.key, plain(row.value), plain(row.sd), row.unit, row.source,
                          gel::to_text(row.known), one_letter(row.grade), gel::to_text(row.shift),
                          row.means});
  table.wide = true;
  Lines notes{"notes",
              {"Values are log10 where the unit says so; sd is the standard uncertainty every "
               "forecast carries. docs/model.md writes the equations out.",
               "Known: abstract read, quoted elsewhere, from memory, judgement. Grade: A published "
               "and applicable, B transferred, C judgement.",
               "Own cups move: what test cups of one mix put in its place.",
               "`sources --numbers` lists the numbers of the model's shape, which are held."},
              Lines::Style::bullets,
              Shown::text_only};
  report.sections.push_back({"parameters", "", {}, {std::move(table)}, {std::move(notes)}});
  return report;
}

Report flags_report() {
  Report report{"gelwright/flags-1", "Flags", {}, "flags"};
  Table table{"flags",
              {{"name", "flag", false},
               {"rule", "raised when", false},
               {"grade", "grade", false},
               {"source", "source", false}},
              {}};
  for (const FlagInfo& info : flag_catalogue())
    table.rows.push_back({info.name, info.when, one_letter(info.grade), info.source});
  report.sections.push_back({"flags", "", {}, {std::move(table)}, {}});
  return report;
}

Report explain_report(const FlagInfo& info) {
  Report report{"gelwright/explain-1", fmt::format("Flag {}", info.name), {}, ""};
  const Source* source = find_source(info.source);
  report.sections.push_back(
      {"flag",
       "",
       {{.key = "name", .label = "", .cell = info.name, .shown = Shown::json_only},
        {.key = "rule", .label = "Raised when", .cell = info.when},
        {.key = "why", .label = "Why", .cell = info.why},
        {.key = "source",
         .label = "Source",
         .cell = Cell(source != nullptr ? source->citation : info.source)},
        {.key = "grade",
         .label = "Grade",
         .cell = one_letter(info.grade),
         .remark = "(A published and applicable, B transferred, C judgement)"}},
       {},
       {}});
  return report;
}

Report explain_report(const FlagInfo& info, const Inputs& inputs, const Evaluation& evaluation,
                      const Advice& advice) {
  Report report = explain_report(info);
  add_turned(report, *inputs.recipe);
  Lines findings{"findings", {}, Lines::Style::bullets};
  for (std::size_t i = 0; i < evaluation.flags.size(); ++i) {
    const Flag& flag = evaluation.flags[i];
    if (flag.id != info.id) continue;
    std::string text =
        fmt::format("{}: {}", to_text(flag.level), message_of(flag, evaluation, inputs));
    if (advice.clears[i]) text += fmt::format("; {} clears it", to_text(advice.clears[i]->change));
    findings.items.push_back(std::move(text));
  }
  if (findings.items.empty()) findings.items.emplace_back("not raised for this recipe");
  report.sections.push_back(
      {"finding", fmt::format("IN {}", inputs.recipe->name), {}, {}, {std::move(findings)}});

  const WaterPhase& phase = evaluation.water_phase;
  Section numbers{"numbers", "THE NUMBERS THAT GO IN", {}, {}, {}};
  const auto add = [&numbers](std::string key, std::string label, Cell cell, std::string unit) {
    numbers.figures.push_back({std::move(key), std::move(label), std::move(cell), std::move(unit)});
  };
  add("chemistry_water_g", "Water of every kind", Cell(evaluation.formula.chemistry_water_g, 2),
      "g per serving");
  add("ph", "pH", Cell(phase.ph, 2), "");
  add("soluble_solids_percent", "Soluble solids",
      Cell(evaluation.formula.soluble_solids_percent(), 1), "%");
  for (std::size_t g = 0; g < gum_count; ++g) {
    const auto gum = static_cast<Gum>(g);
    const double percent =
        100 * evaluation.formula.delivered.gum(gum) / evaluation.formula.chemistry_water_g;
    if (percent <= 0) continue;
    constexpr std::string_view keys[gum_count] = {
        "alginate_percent",        "hm_pectin_percent",       "lm_pectin_percent",
        "amidated_pectin_percent", "gellan_low_acyl_percent", "gellan_high_acyl_percent",
        "xanthan_percent"};
    add(std::string(keys[g]), std::string(to_text(gum)), estimate(percent, 3), "g per 100 g water");
  }
  add("carboxylate_mmol_per_kg", "Gum carboxylate", estimate(phase.carboxylate_mmol_per_kg, 3),
      "mmol/kg");
  add("total_calcium_mmol_per_kg", "Dissolved calcium",
      estimate(phase.total_calcium_mmol_per_kg, 3), "mmol/kg");
  add("available_calcium_mmol_per_kg", "of it available",
      estimate(phase.available_calcium_mmol_per_kg, 3), "mmol/kg");
  add("r2", "R2 = 2 available / carboxylate", Cell(phase.calcium_ratio_r2, 3), "");
  add("r2_water", "R2 of water and solids alone", Cell(phase.tap_calcium_ratio_r2, 3), "");
  add("acid_demand_mmol", "Stomach acid to pH 3", estimate(phase.acid_demand_mmol, 3),
      "mmol per serving");
  add("water_activity", "Water activity", Cell(evaluation.properties.water_activity, 3), "");
  report.sections.push_back(std::move(numbers));
  return report;
}

}  // namespace gelwright
