#include "gelwright/aim_report.hpp"

#include <fmt/format.h>

#include "report/sheet_parts.hpp"
#include "report/turned.hpp"

namespace gelwright {

Report aim_report(const Inputs& inputs, const AimFound& found) {
  const Recipe& recipe = *inputs.recipe;
  const std::string knob = name_of(found.aim.turn, recipe);
  const std::string unit(info_of(found.aim.turn.knob).unit);
  const std::string wanted(gel::to_text(found.aim.texture));
  Report report{"gelwright/aim-1", fmt::format("{}: {} for {}", recipe.name, knob, wanted), {}, ""};
  add_turned(report, recipe);
  Section aim{"aim", "", {}, {}, {}};
  const std::string why = found.possible ? "" : reason_of(found, recipe);
  const auto known = [&](Cell cell) { return found.possible ? std::move(cell) : Cell(); };
  const std::string reason = reason_of(found, recipe);
  aim.figures = {
      {"texture", "Wanted", Cell(wanted)},
      {"reached", "Then the likeliest", Cell(found.likeliest), "", "",
       reason.empty() ? "" : "- " + reason},
      {"knob", "", Cell(knob), "", "", "", Shown::json_only},
      {"amount_before", fmt::format("{} as the recipe has it", knob),
       Cell(amount_of(found.aim.turn, inputs), mass_decimals(amount_of(found.aim.turn, inputs))),
       unit},
      {"amount", fmt::format("{} for the best chance", knob),
       known(Cell(found.amount, mass_decimals(found.amount))), unit, why, "per serving"},
      {"chance_before", "Chance as the recipe has it", Cell(found.chance_before, 3), "", "", "",
       Shown::json_only},
      {"chance", "", known(Cell(found.chance, 3)), "", why, "", Shown::json_only},
      {"chances", "Chance of it",
       known(Cell(fmt::format("{:.0f} % before, {:.0f} % then", 100 * found.chance_before,
                              100 * found.chance))),
       "", why, "", Shown::text_only},
      {"ph", "pH then", known(Cell(found.ph, 1)), "", why},
      {"ph_limit_binds", "", known(Cell(found.ph_limit_binds)), "", why, "", Shown::json_only},
  };
  report.sections.push_back(std::move(aim));
  if (!found.possible) return report;
  const Inputs made = aimed(inputs, found);
  const Evaluation evaluation = evaluate(made);
  report.sections.push_back(chemistry_section(made, evaluation));
  report.sections.push_back(set_section(made, evaluation));
  return report;
}

}  // namespace gelwright
