#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>

#include "gelwright/data_tables.hpp"
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

std::string range_text(const SetAxis& axis, const SetRange& range) {
  const bool low = std::isfinite(range.from);
  const bool high = std::isfinite(range.below);
  if (!low && !high) return "";
  std::string text;
  if (low) text += fmt::format("{:g} <= ", range.from);
  text += axis.name;
  if (high) text += fmt::format(" < {:g}", range.below);
  if (axis.unit != "1" && !axis.unit.empty()) text += fmt::format(" {}", axis.unit);
  return text;
}

template <class E>
std::string set_text(std::string_view what, const SetOf<E>& set, std::size_t count) {
  if (set == SetOf<E>::all()) return "";
  std::string text;
  for (std::size_t i = 0; i < count; ++i)
    if (set.has(static_cast<E>(i)))
      text += (text.empty() ? "" : " or ") + std::string(to_text(static_cast<E>(i)));
  return fmt::format("{}: {}", what, text);
}

std::string need_text(std::string_view what, Need need) {
  if (need == Need::either) return "";
  return fmt::format("{}{}", need == Need::yes ? "" : "not ", what);
}

std::string defects_text(const Defects& defects) {
  std::string text;
  for (std::size_t d = 0; d <= static_cast<std::size_t>(Defect::may_fail); ++d)
    if (defects.has(static_cast<Defect>(d)))
      text += (text.empty() ? "" : ", ") + std::string(to_text(static_cast<Defect>(d)));
  return text;
}

void add_rules(Report& report, std::string key, std::string title, const SetTable& from) {
  Table rules{key,
              {{"id", "rule", false},
               {"when", "when", false},
               {"texture", "texture", false},
               {"defects", "may also", false},
               {"grade", "grade", false},
               {"standing", "standing", false},
               {"source", "source", false},
               {"note", "note", false, Shown::json_only}},
              {}};
  for (const SetRule& rule : from.rules)
    rules.rows.push_back({fmt::format("{}{}", rule.id, rule.contests ? " (disputes)" : ""),
                          conditions_of(rule.when), to_text(rule.texture),
                          defects_text(rule.defects), one_letter(rule.grade),
                          to_text(rule.standing), rule.source, rule.note});
  rules.wide = true;
  Table changes{key + "_adjustments",
                {{"id", "then", false},
                 {"when", "when", false},
                 {"effect", "effect", false},
                 {"grade", "grade", false},
                 {"standing", "standing", false},
                 {"source", "source", false},
                 {"note", "note", false, Shown::json_only}},
                {}};
  for (const SetAdjustment& change : from.adjustments) {
    std::string effect;
    const auto say = [&effect](const std::string& text) {
      effect += (effect.empty() ? "" : ", ") + text;
    };
    if (change.classes != 0)
      say(fmt::format("{} class{} {}", std::abs(change.classes),
                      std::abs(change.classes) == 1 ? "" : "es",
                      change.classes > 0 ? "firmer" : "softer"));
    if (change.at_most != Texture::hard) say(fmt::format("at most {}", to_text(change.at_most)));
    if (change.clears_defects) say("its own defects no longer apply");
    if (!change.defects.empty()) say("may also: " + defects_text(change.defects));
    if (effect.empty()) say("lowers the grade");
    changes.rows.push_back({change.id, conditions_of(change.when), effect, one_letter(change.grade),
                            to_text(change.standing), change.source, change.note});
    changes.wide = true;
  }
  report.sections.push_back(
      {key, std::move(title), {}, {std::move(rules), std::move(changes)}, {}});
}

}  // namespace

std::string conditions_of(const SetWhen& when) {
  std::vector<std::string> parts;
  for (const SetAxis& axis : set_axes()) parts.push_back(range_text(axis, when.*axis.range));
  parts.push_back(set_text("acid", when.acid, static_cast<std::size_t>(AcidDelivery::slow) + 1));
  parts.push_back(set_text("calcium", when.calcium,
                           static_cast<std::size_t>(CalciumDelivery::insoluble_until_acid) + 1));
  parts.push_back(need_text("heated", when.heated));
  parts.push_back(need_text("hydrated before the sugar", when.hydrated));
  parts.push_back(need_text("amidated", when.amidated));
  parts.push_back(need_text("already set by calcium", when.set_by_calcium));
  parts.push_back(need_text("acid-reducing medicine", when.acid_reducing_medicine));
  std::string text;
  for (const std::string& part : parts)
    if (!part.empty()) text += (text.empty() ? "" : "; ") + part;
  return text.empty() ? "always" : text;
}

Report ingredients_report() {
  Report report{
      "gelwright/ingredients-1", "Ingredients: what 1 g as weighed delivers", {}, "ingredients"};
  Table table{"ingredients",
              {{"name", "ingredient", false},
               {"kind", "kind", false},
               {"carbohydrate_g", "carb g", true},
               {"water_g", "water g", true},
               {"sodium_mg", "Na mg", true},
               {"calcium_mg", "Ca mg", true},
               {"carboxylate_mmol", "COO mmol", true},
               {"basis", "", false, Shown::json_only},
               {"source", "", false, Shown::json_only}},
              {}};
  for (const Ingredient& each : builtin_ingredients()) {
    const Composition& per_g = each.per_g;
    const double calcium_mol =
        per_g.dissolved(Component::calcium) + per_g.acid_only(Component::calcium);
    table.rows.push_back(
        {each.name, to_text(each.kind), Cell(per_g.carbohydrate_g, 3), Cell(per_g.water_g, 3),
         Cell(sodium_mg(per_g), 1), Cell(mg_per_l(Ion::calcium, 1000 * calcium_mol), 1),
         Cell(1000 * per_g.dissolved(Component::uronate), 2), each.basis, each.source});
  }
  Lines notes{
      "notes",
      {"\"maltodextrin DE N\" is made for any N from 3 to 20, \"glucose syrup DE N\" from 20 to "
       "98.",
       "Polyols and glycerol are no carbohydrate here: they feed a run little and loosen the gut.",
       "A bought mix, syrup or juice is described in the recipe under \"define\".",
       "Hydrates and anhydrous forms differ by up to a third: read the pack.",
       "Caffeine is not here: pre-dosed products only, under \"pre_dosed\"."},
      Lines::Style::bullets,
      Shown::text_only};
  report.sections.push_back({"ingredients", "", {}, {std::move(table)}, {std::move(notes)}});
  return report;
}

Report sources_report() {
  std::map<std::string_view, std::size_t> uses;
  for (const DataTable& table : data_tables())
    for (const Datum& row : table.rows) ++uses[row.source];
  for (const SetTable& table : {pouch_table(), stomach_table()}) {
    for (const SetRule& rule : table.rules) ++uses[rule.source];
    for (const SetAdjustment& change : table.adjustments) ++uses[change.source];
  }
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
              {"`gelwright sources --numbers` lists every number, `--rules` every set rule."},
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

Report rules_report() {
  Report report{"gelwright/rules-1", "Set rules", {}, ""};
  add_rules(report, "pouch", "IN THE POUCH OR BOTTLE", pouch_table());
  add_rules(report, "stomach", "IN THE STOMACH (standard test)", stomach_table());
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
    if (advice.clears[i]) text += fmt::format("; {} clears it", to_text(*advice.clears[i]));
    findings.items.push_back(std::move(text));
    if (const SetRule* rule = flag.basis.rule)
      findings.items.push_back(fmt::format("rule {}: {} -> {}{}{} [{}, grade {}]", rule->id,
                                           conditions_of(rule->when), to_text(rule->texture),
                                           rule->note.empty() ? "" : "; ", rule->note, rule->source,
                                           one_letter(rule->grade)));
  }
  if (findings.items.empty()) findings.items.emplace_back("not raised for this recipe");
  report.sections.push_back(
      {"finding", fmt::format("IN {}", inputs.recipe->name), {}, {}, {std::move(findings)}});

  const WaterPhase& phase = evaluation.water_phase;
  const SetInput& set = evaluation.setting.input;
  Section numbers{"numbers", "THE NUMBERS THAT GO IN", {}, {}, {}};
  const auto add = [&numbers](std::string key, std::string label, Cell cell, std::string unit) {
    numbers.figures.push_back({std::move(key), std::move(label), std::move(cell), std::move(unit)});
  };
  add("chemistry_water_g", "Water of every kind", Cell(evaluation.formula.chemistry_water_g, 2),
      "g per serving");
  add("ph", "pH", Cell(phase.ph, 2), "");
  add("soluble_solids_percent", "Soluble solids", Cell(set.soluble_solids_percent, 1), "%");
  const auto add_gum = [&](std::string key, std::string label, double percent) {
    if (percent > 0)
      add(std::move(key), std::move(label), estimate(percent, 3), "g per 100 g water");
  };
  add_gum("alginate_percent", "Alginate", set.alginate_percent);
  add_gum("hm_pectin_percent", "HM pectin", set.hm_pectin_percent);
  add_gum("lm_pectin_percent", "LM pectin", set.lm_pectin_percent);
  add_gum("gellan_low_acyl_percent", "Low-acyl gellan", set.gellan_low_acyl_percent);
  add_gum("gellan_high_acyl_percent", "High-acyl gellan", set.gellan_high_acyl_percent);
  add_gum("xanthan_percent", "Xanthan", set.xanthan_percent);
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
