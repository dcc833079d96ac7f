#include "gelwright/dose_report.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "gelwright/evaluate.hpp"
#include "report/sheet_parts.hpp"
#include "report/turned.hpp"

namespace gelwright {

namespace {

struct Names {
  std::string what;  ///< what is dosed
  std::string goal;  ///< what it is to reach
  std::string unit;  ///< of the dose
};

Names names_of(const DoseAnswer& answer, const DoseQuestion& question) {
  const Recipe& recipe = *answer.inputs.recipe;
  const auto dose_name = [&](const std::optional<InputDose>& dose) {
    return recipe.ingredients[dose->line.ingredient].name;
  };
  switch (question.target) {
    case Target::ph:
      return {dose_name(answer.inputs.acid), fmt::format("pH {:g}", question.value), "g"};
    case Target::ratio:
      return {dose_name(answer.inputs.calcium), fmt::format("R2 {:g}", question.value), "g"};
    case Target::water_fraction:
      return {"water", fmt::format("{:g} of the total as water", question.value), "g"};
    case Target::soluble_solids:
      return {"water", fmt::format("{:g} % soluble solids", question.value), "g"};
    case Target::readable:
      return {"servings", "every line weighable", ""};
  }
  return {};
}

std::string how_sure(const Evaluation& evaluation, const DoseAnswer& answer) {
  const std::string width = fmt::format("+- {}", fixed(evaluation.water_phase.ph_uncertainty, 1));
  if (answer.by_sodium.empty()) return width;
  return fmt::format("{} if its sodium is {}; {} to {} over all it may be", width,
                     to_text(answer.by_sodium.front().reading.salt),
                     fixed(evaluation.ph_band.low, 1), fixed(evaluation.ph_band.high, 1));
}

/// The dose for each salt a label's sodium may be, and how to come to the right one.
void add_readings(const DoseAnswer& answer, const DoseQuestion& question, double factor,
                  Section& dose) {
  Table table{"by_sodium",
              {{"sodium", "sodium as", false},
               {"chance", "chance", true},
               {"amount_g", "g per serving", true},
               {"batch_g", "g in the batch", true},
               {"reached", "", false, Shown::json_only}},
              {}};
  const auto row = [&](std::string_view salt, Cell chance, const Dosed& dosed) {
    const int decimals = std::max(3, mass_decimals(dosed.amount));
    table.rows.push_back(
        {salt, std::move(chance), dosed.reached ? Cell(dosed.amount, decimals) : Cell(),
         dosed.reached ? Cell(dosed.amount * factor, decimals) : Cell(), Cell(dosed.reached)});
  };
  bool all_reached = true;
  double most_g = answer.dosed.amount;
  for (const DoseReading& each : answer.by_sodium) {
    row(to_text(each.reading.salt), Cell(each.reading.weight, 2), each.dosed);
    all_reached = all_reached && each.dosed.reached;
    if (each.dosed.reached) most_g = std::max(most_g, each.dosed.amount);
  }
  row("mean of them", Cell(), *answer.at_mean_ph);
  dose.tables.push_back(std::move(table));
  if (!answer.dosed.reached) return;
  dose.lines.push_back(
      {"how",
       {fmt::format(
           "The label does not say what salt its sodium is, so the dose may be {} to {} g a "
           "serving{}. The least is the answer: put it in, read the pH with a meter, and "
           "add more bit by bit until it reads {:g}. Acid can be added and never taken "
           "out. Unread, keep it as if it were not sour.",
           significant(answer.dosed.amount, 2), significant(most_g, 2),
           all_reached ? "" : ", and for some more than is sensible", question.value)},
       Lines::Style::paragraph});
}

}  // namespace

Report dose_report(const DoseAnswer& answer, const DoseQuestion& question) {
  const Names names = names_of(answer, question);
  const Dosed& dosed = answer.dosed;
  const Evaluation evaluation = evaluate(answer.inputs);
  Report report{"gelwright/dose-1",
                fmt::format("{}: {} for {}", answer.inputs.recipe->name, names.what, names.goal),
                {},
                ""};
  add_turned(report, *answer.inputs.recipe);
  Section dose{"dose", "", {}, {}, {}};
  dose.figures.push_back({"reached", "Reached", Cell(dosed.reached), "", "",
                          dosed.reason.empty() ? "" : "- " + dosed.reason});
  const bool servings = question.target == Target::readable;
  const int decimals = servings ? 0 : std::max(3, mass_decimals(dosed.amount));
  dose.figures.push_back({"amount", dosed.reached ? "Dose per serving" : "Nearest, per serving",
                          Cell(dosed.amount, decimals), names.unit});
  if (servings) {
    dose.figures.back().label = dosed.reached ? "Servings" : "Tried up to";
    const Dosed& neat = *answer.without_stock;
    dose.figures.push_back({"amount_without_stock", "Servings, nothing from stock",
                            neat.reached ? Cell(neat.amount, 0) : Cell(), "", neat.reason});
    report.sections.push_back(std::move(dose));
    return report;
  }
  dose.figures.push_back({"batch_amount", "In the batch",
                          Cell(dosed.amount * evaluation.batch.factor, decimals), names.unit, "",
                          fmt::format("for {:g} servings", answer.inputs.servings)});
  if (question.target == Target::ph)
    dose.figures.push_back({"ph", "pH, as sure as the model is", Cell(dosed.value, 1), "", "",
                            how_sure(evaluation, answer)});
  if (!answer.by_sodium.empty()) add_readings(answer, question, evaluation.batch.factor, dose);
  if (const auto found = sensitivity_of(answer, question, evaluation.batch)) {
    const BatchLine* line = &evaluation.batch.lines[found->line];
    const char* goal = question.target == Target::ph      ? "pH"
                       : question.target == Target::ratio ? "R2"
                                                          : "soluble solids, %";
    const int goal_decimals =
        question.target == Target::soluble_solids || question.target == Target::water_fraction ? 1
                                                                                               : 2;
    dose.figures.push_back(
        {"weigh_g", "Weigh", Cell(line->weigh_g, mass_decimals(line->weigh_g)), "g", "",
         fmt::format("on the {}{}", answer.inputs.recipe->batch.scales[*line->scale].name,
                     line->stock_fraction > 0
                         ? fmt::format(", as {:g} % stock", 100 * line->stock_fraction)
                         : "")});
    dose.figures.push_back(
        {"error_percent", "Scale and rounding", Cell(line->error_percent, 1), "%", "",
         fmt::format("of the dose: {} from {} to {}", goal, fixed(found->goal_low, goal_decimals),
                     fixed(found->goal_high, goal_decimals))});
    dose.figures.push_back(
        {"goal_from", "", Cell(found->goal_low, goal_decimals), "", "", "", Shown::json_only});
    dose.figures.push_back(
        {"goal_to", "", Cell(found->goal_high, goal_decimals), "", "", "", Shown::json_only});
  }
  report.sections.push_back(std::move(dose));
  report.sections.push_back(chemistry_section(answer.inputs, evaluation));
  report.sections.push_back(set_section(answer.inputs, evaluation));
  return report;
}

}  // namespace gelwright
