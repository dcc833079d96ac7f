// What to add to a batch gone astray.
#include "gelwright/mend_report.hpp"

#include <fmt/format.h>

#include "report/sheet_parts.hpp"

namespace gelwright {

namespace {

std::string name_of(const MendLine& line, const Inputs& inputs) {
  const Recipe& recipe = *inputs.recipe;
  switch (line.role) {
    case LineRole::water:
      return "water";
    case LineRole::solid:
      return recipe.ingredients[inputs.solids[line.solid].ingredient].name;
    case LineRole::acid:
      return recipe.ingredients[inputs.acid->line.ingredient].name;
    case LineRole::calcium_salt:
      return recipe.ingredients[inputs.calcium->line.ingredient].name;
  }
  return "";
}

bool adds_gum(const Mend& mend) {
  for (const MendLine& line : mend.lines)
    if (line.role == LineRole::solid && line.add_g > 0 &&
        mend.mended.recipe->ingredients[mend.mended.solids[line.solid].ingredient].kind ==
            Kind::gum)
      return true;
  return false;
}

std::vector<std::string> sentences(const Mend& mend) {
  if (!mend.why_not.empty()) return {fmt::format("Nothing sensible helps: {}.", mend.why_not)};
  if (!mend.anything) return {"It is near enough: there is nothing worth adding."};
  std::vector<std::string> said;
  if (mend.chance_to_set) {
    said.push_back(fmt::format("It did not set; with this it does with {:.0f} chances in 10.",
                               10 * *mend.chance_to_set));
    said.emplace_back(
        "Dissolve it in ten times its weight of water. Pour that in a thin stream under the "
        "running "
        "blade.");
    said.emplace_back("Rest it again as long, cold. Hours in the warm count for keeping it.");
  }
  if (mend.too_sour)
    said.emplace_back("Acid cannot be taken out: it takes more of everything else.");
  if (adds_gum(mend))
    said.emplace_back(
        "Blend its gum dry with its sugar first, and pour both into fast-moving liquid. Gum that "
        "comes late lumps.");
  if (mend.grows > 1)
    said.push_back(fmt::format("The batch becomes {} times the planned one: {} servings.",
                               fixed(mend.grows, 2), fixed(mend.mended.servings, 1)));
  return said;
}

}  // namespace

Report mend_report(const Mend& mend, const Evaluation& evaluation, const Advice& advice) {
  Report report{"gelwright/mend-1", "Mending " + mend.mended.recipe->name, {}, "lines"};
  Section add{"add", "ADD", {}, {}, {}};
  Table table{"lines",
              {{"ingredient", "what", false},
               {"planned_g", "planned g", true},
               {"have_g", "in it now g", true},
               {"add_g", "add g", true}},
              {},
              Shown::everywhere,
              true};
  const bool helps = mend.why_not.empty();
  for (const MendLine& line : mend.lines)
    if (line.planned_g > 0 || line.have_g > 0)
      table.rows.push_back({name_of(line, mend.mended),
                            Cell(line.planned_g, mass_decimals(line.planned_g)),
                            Cell(line.have_g, mass_decimals(line.have_g)),
                            Cell(helps && line.add_g > 0 ? std::optional(line.add_g) : std::nullopt,
                                 mass_decimals(line.add_g))});
  add.figures = {{"chance_to_set", "", Cell(helps ? mend.chance_to_set : std::nullopt, 3), "",
                  "no texture was given", "", Shown::json_only},
                 {"helps", "", Cell(helps), "", "", "", Shown::json_only},
                 {"grows", "", Cell(helps ? std::optional(mend.grows) : std::nullopt, 3), "",
                  mend.why_not, "", Shown::json_only}};
  add.tables.push_back(std::move(table));
  add.lines.push_back({"words", sentences(mend), Lines::Style::paragraph, Shown::text_only});
  report.sections.push_back(std::move(add));
  if (helps) {
    report.sections.push_back(expect_section(mend.mended, evaluation));
    report.sections.push_back(warnings_section(mend.mended, evaluation, advice));
  }
  return report;
}

}  // namespace gelwright
