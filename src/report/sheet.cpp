#include "gelwright/sheet.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>

#include "report/sheet_parts.hpp"
#include "report/turned.hpp"

namespace gelwright {

namespace {

std::string title_of(const Inputs& inputs) {
  const double servings = inputs.servings;
  const bool whole = servings == std::round(servings);
  return fmt::format("{} ({}), {} serving{}", inputs.recipe->name,
                     inputs.recipe->form == Form::pouch ? "pouch" : "drink",
                     whole ? fixed(servings, 0) : fixed(servings, 2), servings == 1 ? "" : "s");
}

/// "alginate in fell mix: 1 %, the middle of its band (0.6 to 1.4 %); the pack does not say".
std::string sentence_of(const Assumption& assumption) {
  std::string text = assumption.what + ": " + assumption.value;
  if (!assumption.range.empty()) text += " (" + assumption.range + ")";
  if (!assumption.why.empty()) text += "; " + assumption.why;
  if (!assumption.kitchen.empty()) text += "; to be said in the kitchen";
  return text;
}

Section assumptions_section(const Recipe& recipe) {
  Lines lines{"assumptions", {}, Lines::Style::bullets};
  for (const Assumption& each : recipe.assumed) lines.items.push_back(sentence_of(each));
  return {"assumptions", "ASSUMED, because the recipe does not say", {}, {}, {std::move(lines)}};
}

}  // namespace

int detail::mass_decimals(double mass_g) {
  const double size = std::abs(mass_g);
  if (size >= 100) return 1;
  return size >= 1 ? 2 : 3;
}

Cell detail::estimate(double value, int figures) {
  const int decimals = decimals_for(value, figures);
  // JSON would carry the figures that mean nothing where they stand left of the point.
  return decimals >= 0 ? Cell(value, decimals) : Cell(rounded(value, decimals), 0);
}

std::string detail::outlook_words(bool any_gum, const std::optional<gel::Chances>& textures) {
  if (!any_gum) return "no gum";
  return textures ? words_of(*textures) : "outside the model";
}

std::vector<std::string> standing_cautions() {
  return {
      "Estimates, not a food-safety approval: food-safety codes, labels and your doctor or "
      "dietitian come first.",
      "Never seal it to keep, never keep it warm: spores can grow (botulism).",
      "Never eat dry gum powder.",
      "Not for small children or anyone who has difficulty swallowing.",
      "Take medicine two hours apart.",
      "Drink to thirst.",
  };
}

namespace {

/// What is true of every recipe, as one paragraph: paper is short of lines, scripts are not.
Section cautions_section() {
  std::string paragraph;
  for (const std::string& each : standing_cautions())
    paragraph += (paragraph.empty() ? "" : " ") + each;
  return {"cautions",
          "",
          {},
          {},
          {{"cautions", standing_cautions(), Lines::Style::paragraph, Shown::json_only},
           {"paragraph", {paragraph}, Lines::Style::paragraph, Shown::text_only}}};
}

/// As many cares as the first screen has room for, one page of paper: a STOP is always there.
void fit_to_page(Report& report, const Inputs& inputs, const Evaluation& evaluation,
                 const Advice& advice) {
  constexpr std::ptrdiff_t page_lines = 60;
  const auto watch = std::find_if(report.sections.begin(), report.sections.end(),
                                  [](const Section& each) { return each.key == "watch"; });
  for (std::size_t most = most_warnings; most > 0; --most) {
    *watch = warnings_section(inputs, evaluation, advice, most);
    const std::string text = render(seen(report, {}), Format::text);
    if (std::count(text.begin(), text.end(), '\n') <= page_lines) return;
  }
}

}  // namespace

Report sheet_report(const Inputs& inputs, const Evaluation& evaluation, const Advice& advice,
                    const Evaluation* exact) {
  const Recipe& recipe = *inputs.recipe;
  Report report{"gelwright/result-2", title_of(inputs), {}, "procedure", true};
  const auto add = [&report](Section section) { report.sections.push_back(std::move(section)); };
  const auto add_in_full = [&report](Section section) {
    section.in_full_only = true;
    report.sections.push_back(std::move(section));
  };
  if (!recipe.note.empty())
    add_in_full({"recipe", "", {}, {}, {{"note", {recipe.note}, Lines::Style::paragraph}}});
  add_turned(report, recipe);
  add(expect_section(inputs, evaluation));
  add({"watch", "", {}, {}, {}});
  add(procedure_section(inputs, evaluation));
  add(cost_line_section(inputs, evaluation));
  add(cautions_section());
  add(label_section(inputs, evaluation));
  add_in_full(reasons_section(inputs, evaluation));
  add_in_full(batch_section(inputs, evaluation));
  if (exact != nullptr) add_in_full(rounding_section(*exact, evaluation));
  add_in_full(flags_section(inputs, evaluation, advice));
  add_in_full(set_section(inputs, evaluation));
  add_in_full(edges_section(inputs, evaluation, advice));
  add_in_full(serving_section(inputs, evaluation));
  add_in_full(water_section(inputs, evaluation));
  add_in_full(chemistry_section(inputs, evaluation));
  add_in_full(properties_section(evaluation));
  add_in_full(cost_section(inputs, evaluation));
  if (recipe.kitchen) add_in_full(kitchen_section(*recipe.kitchen));
  add_in_full(assumptions_section(recipe));
  fit_to_page(report, inputs, evaluation, advice);
  return report;
}

Report check_report(const Inputs& inputs, const Evaluation& evaluation, const Advice& advice) {
  Report report{"gelwright/check-1", title_of(inputs), {}, "flags"};
  add_turned(report, *inputs.recipe);
  Section watch = warnings_section(inputs, evaluation, advice, evaluation.flags.size());
  if (watch.figures.empty())
    watch.lines.insert(
        watch.lines.begin(),
        {"nothing", {"No STOP and no CARE."}, Lines::Style::paragraph, Shown::text_only});
  report.sections.push_back(std::move(watch));
  report.sections.push_back(flags_section(inputs, evaluation, advice));
  report.sections.back().in_full_only = true;
  return report;
}

Report checks_report(const std::vector<CheckedRecipe>& checked) {
  Report all{"gelwright/checks-1", fmt::format("{} recipes", checked.size()), {}, "flags"};
  Table recipes{"recipes",
                {{"file", "", false},
                 {"title", "", false},
                 {"stop", "", true},
                 {"care", "", true},
                 {"note", "", true}},
                {},
                Shown::json_only};
  Table flags{"flags", {{"file", "", false}}, {}, Shown::json_only};
  for (const CheckedRecipe& each : checked) {
    std::map<std::string, int> count;
    for (Section section : each.report.sections) {
      if (section.key == "watch")
        section.title = fmt::format("{}: {}", each.document, each.report.title);
      if (section.key == "flags") {
        const Table& table = section.tables.front();
        if (flags.columns.size() == 1)
          flags.columns.insert(flags.columns.end(), table.columns.begin(), table.columns.end());
        for (std::vector<Cell> row : table.rows) {
          for (std::size_t c = 0; c < row.size(); ++c)
            if (table.columns[c].key == "level") ++count[std::get<std::string>(row[c].value)];
          row.insert(row.begin(), Cell(each.document));
          flags.rows.push_back(std::move(row));
        }
      }
      section.key.clear();  // in JSON the flags stand in one table, with their files
      std::erase_if(section.tables,
                    [](const Table& table) { return table.shown == Shown::json_only; });
      all.sections.push_back(std::move(section));
    }
    std::vector<Cell> row{each.document, each.report.title};
    for (const Level level : {Level::stop, Level::care, Level::note})
      row.emplace_back(count[std::string(to_text(level))], 0);
    recipes.rows.push_back(std::move(row));
  }
  all.sections.push_back({"recipes", "", {}, {std::move(recipes)}, {}});
  all.sections.push_back({"flags", "", {}, {std::move(flags)}, {}});
  return all;
}

}  // namespace gelwright
