#include "gelwright/goal_report.hpp"

#include <fmt/format.h>

#include "gelwright/evaluate.hpp"
#include "report/sheet_parts.hpp"

namespace gelwright {

namespace {

/// A recipe that was found, made again from its text.
struct Made {
  Recipe recipe;
  Inputs inputs;
  Evaluation evaluation;

  explicit Made(const GoalAnswer& answer)
      : recipe(read_recipe(answer.text, "found")),
        inputs(inputs_of(recipe)),
        evaluation(evaluate(inputs)) {}
  Made(const Made&) = delete;
  Made& operator=(const Made&) = delete;
};

std::string in_words(const GoalLimit& limit) {
  return fmt::format("{} at {} {:g}{}{}", limit.what, limit.at_most ? "most" : "least", limit.limit,
                     limit.unit.empty() ? "" : " ", limit.unit);
}

std::string verdict_of(const GoalAnswer& answer, const Evaluation& evaluation) {
  if (!answer.stops.empty()) return "no: it must not be made like this";
  if (!answer.broken.empty()) return "no: a limit cannot be kept";
  if (answer.likeliest) return "yes";
  return fmt::format("no: {} is likelier", gel::to_text(evaluation.gel.likeliest()));
}

Section answers_section(const GoalFound& found) {
  Section section{"answers", "RECIPES FOUND, one of each kind", {}, {}, {}};
  Table table{"answers",
              {{"number", "", true},
               {"kind", "what sets it"},
               {"chance", "chance", true, Shown::json_only},
               {"chance_text", "wanted", true, Shown::text_only},
               {"flawless", "", true, Shown::json_only},
               {"flawless_text", "flawless", true, Shown::text_only},
               {"likeliest", "likeliest then"},
               {"ph", "pH", true},
               {"sodium_mg", "Na mg", true},
               {"price", "price", true},
               {"reached", "", false, Shown::json_only}}};
  double number = 0;
  for (const GoalAnswer& each : found.answers) {
    const Made made(each);
    const Evaluation& e = made.evaluation;
    const bool priced = e.cost && e.cost->complete();
    number += 1;
    table.rows.push_back({Cell(number, 0), each.kind, Cell(each.chance, 3),
                          fmt::format("{:.0f} %", 100 * each.chance), Cell(each.flawless, 3),
                          fmt::format("{:.0f} %", 100 * each.flawless), words_of(e.gel.all.chances),
                          Cell(e.water_phase.ph, 1), Cell(e.nutrition.sodium_mg, 0),
                          priced ? Cell(e.cost->per_serving, 2) : Cell(),
                          Cell(each.good() && each.likeliest)});
  }
  section.tables.push_back(std::move(table));
  return section;
}

Section amounts_section(const Made& made) {
  Section section{"amounts", "ONE SERVING OF IT", {}, {}, {}};
  Table table{"lines", {{"ingredient", ""}, {"mass_g", "g", true}}};
  const auto add = [&](const std::string& name, double mass_g) {
    table.rows.push_back({name, Cell(mass_g, mass_decimals(mass_g))});
  };
  add("water", made.evaluation.formula.water_g);
  for (const InputLine& line : made.inputs.solids)
    add(made.recipe.ingredients[line.ingredient].name, line.mass_g);
  for (const auto* dose : {&made.inputs.acid, &made.inputs.calcium})
    if (*dose) add(made.recipe.ingredients[(*dose)->line.ingredient].name, (*dose)->line.mass_g);
  section.tables.push_back(std::move(table));
  const Evaluation& e = made.evaluation;
  section.figures = {
      {"total_g", "In all", Cell(e.formula.total_g, 1), "g"},
      {"carbohydrate_g", "Carbohydrate", Cell(e.nutrition.carbohydrate_g, 1), "g"},
      {"sodium_mg", "Sodium", Cell(e.nutrition.sodium_mg, 0), "mg"},
      {"caffeine_mg", "Caffeine", Cell(e.nutrition.caffeine_mg, 0), "mg", "", "",
       e.nutrition.caffeine_mg > 0 ? Shown::everywhere : Shown::json_only},
      {"soluble_solids_percent", "Soluble solids", Cell(e.formula.soluble_solids_percent(), 1),
       "%"},
      {"ph", "pH", Cell(e.water_phase.ph, 2)},
  };
  return section;
}

Section limits_section(const GoalFound& found, const GoalAnswer& taken) {
  Section section{"limits", "WHAT IS IN THE WAY", {}, {}, {}};
  Lines broken{"broken", {}, Lines::Style::bullets};
  for (const GoalLimit& each : taken.broken)
    broken.items.push_back(
        fmt::format("{} cannot be kept: the nearest is {:.4g}.", in_words(each), each.reached));
  for (const std::string& each : taken.stops)
    broken.items.push_back(fmt::format("It must not be made like this: {}.", each));
  Lines binding{"binding", {}, Lines::Style::bullets};
  for (const GoalLimit& each : found.binding)
    binding.items.push_back(fmt::format("{}: without it the chance would be {:.0f} %.",
                                        in_words(each), 100 * each.chance_without.value_or(0)));
  Lines not_tried{"not_tried", {}, Lines::Style::bullets};
  not_tried.shown = Shown::json_only;
  for (const std::string& each : found.not_tried) not_tried.items.push_back(each + ".");
  Lines lacking{"lacking", {}, Lines::Style::bullets, Shown::text_only};
  std::string missing;
  for (const std::string& each : found.lacking) missing += (missing.empty() ? "" : "; ") + each;
  if (!missing.empty())
    lacking.items.push_back(fmt::format("More could be tried with: {}.", missing));
  section.lines = {std::move(broken), std::move(binding), std::move(not_tried), std::move(lacking)};
  return section;
}

}  // namespace

Report goal_report(const Goal& goal, const GoalFound& found, std::size_t taken) {
  const GoalAnswer& answer = found.answers.at(taken);
  const Made made(answer);
  Report report{"gelwright/formulate-1",
                fmt::format("{}: recipes for {}", goal.name, gel::to_text(texture_of(goal))),
                {},
                ""};
  Section head{"goal", "", {}, {}, {}};
  head.figures = {
      {"texture", "Wanted", Cell(gel::to_text(texture_of(goal)))},
      {"reached", "Reached", Cell(answer.good() && answer.likeliest), "", "", "", Shown::json_only},
      {"verdict", "Reached", Cell(verdict_of(answer, made.evaluation)), "", "", "",
       Shown::text_only},
      {"taken", "Taken", Cell(static_cast<double>(taken + 1), 0), "", "", answer.kind},
      {"chance", "Chance of it", Cell(answer.chance, 3)},
      {"flawless", "With no defect", Cell(answer.flawless, 3)},
      {"pieces_in_stomach", "Pieces in the stomach", Cell(answer.pieces, 3), "", "", "",
       goal.form == Form::drink ? Shown::everywhere : Shown::json_only},
      {"seed", "", Cell(static_cast<double>(found.seed), 0), "", "", "", Shown::json_only},
  };
  report.sections.push_back(std::move(head));
  report.sections.push_back(answers_section(found));
  report.sections.push_back(amounts_section(made));
  report.sections.push_back(limits_section(found, answer));
  return report;
}

}  // namespace gelwright
