#include "gelwright/spread_report.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "gelwright/sheet.hpp"
#include "report/sheet_parts.hpp"
#include "report/turned.hpp"

namespace gelwright {

namespace {

/// Shares below this are not worth a row on paper; JSON has them all.
constexpr double least_share = 0.005;

struct OutputRow {
  std::string_view key;
  std::string_view label;
  int decimals;  ///< below 0: three significant figures
};
constexpr OutputRow outputs[spread_output_count] = {
    {"ph", "pH", 1},
    {"soluble_solids_percent", "soluble solids", 1},
    {"calcium_ratio_r2", "calcium ratio R2", 2},
    {"cost_per_g_carbohydrate", "cost per g carbohydrate", -1},
    {"carbohydrate_g", "carbohydrate per serving", 1},
    {"log10_modulus_pa", "stiffness, log10 of Pa", 1},
};

std::string unit_of(std::size_t output, const Recipe& recipe) {
  switch (static_cast<SpreadOutput>(output)) {
    case SpreadOutput::soluble_solids_percent:
      return "%";
    case SpreadOutput::cost_per_g_carbohydrate:
      return recipe.currency;
    case SpreadOutput::carbohydrate_g:
      return "g";
    default:
      return "";
  }
}

Cell cell_of(double value, int decimals) {
  return decimals < 0 ? estimate(value, 3) : Cell(value, decimals);
}

Cell percent(double share) {
  return Cell(100 * share, 1);
}

Section intervals_section(const Inputs& inputs, const SpreadResult& result) {
  Section section{
      "intervals", "HOW FAR IT MAY BE OFF (95 of 100 such batches lie between)", {}, {}, {}};
  Table table{"intervals",
              {{"quantity", "", false},
               {"key", "", false, Shown::json_only},
               {"point", "as weighed", true},
               {"median", "median", true},
               {"low", "from", true},
               {"high", "to", true},
               {"unit", "", false},
               {"sd", "", true, Shown::json_only},
               {"low_error", "", true, Shown::json_only},
               {"high_error", "", true, Shown::json_only}}};
  std::string without;
  for (std::size_t o = 0; o < spread_output_count; ++o) {
    const OutputRow& row = outputs[o];
    const auto& interval = result.intervals[o];
    if (!interval) {
      if (static_cast<SpreadOutput>(o) == SpreadOutput::cost_per_g_carbohydrate)
        without = "Cost is left out: the recipe does not price everything in it.";
      continue;
    }
    const auto cell = [&row](double value) { return cell_of(value, row.decimals); };
    constexpr int fine = 5;
    table.rows.push_back({row.label, row.key, cell(interval->point), cell(interval->median),
                          cell(interval->low), cell(interval->high), unit_of(o, *inputs.recipe),
                          Cell(interval->sd, fine), Cell(interval->low_error, fine),
                          Cell(interval->high_error, fine)});
  }
  section.tables.push_back(std::move(table));
  Lines notes{"notes", {}, Lines::Style::paragraph, Shown::text_only};
  if (!without.empty()) notes.items.push_back(without);
  notes.items.push_back(
      result.weighing_known
          ? "As weighed: with every mass as the display will show it."
          : "No scales in the recipe: weighing is taken as perfect, so this is too hopeful.");
  section.lines.push_back(std::move(notes));
  return section;
}

/// Chances as a walker counts them.
std::string in_twenty(double chance) {
  return fmt::format("{:.0f} of 20", 20 * chance);
}

Section outlook_section(const Inputs& inputs, const SpreadResult& result) {
  const bool pouch = inputs.recipe->form == Form::pouch;
  Section section{"outlooks", pouch ? "OF 20 SUCH POUCHES" : "OF 20 SUCH BOTTLES", {}, {}, {}};
  Table table{"textures",
              {{"texture", "", false},
               {"chance", "", true, Shown::json_only},
               {"of_twenty", "", false, Shown::text_only}}};
  Table more{"also",
             {{"what", "", false},
              {"chance", "", true, Shown::json_only},
              {"of_twenty", "", false, Shown::text_only}}};
  if (!result.gel) {
    section.lines.push_back({"why_empty",
                             {"No gum that is known of, or outside the gel model: nothing to "
                              "predict."},
                             Lines::Style::paragraph,
                             Shown::text_only});
    section.tables.push_back(std::move(table));
    section.tables.push_back(std::move(more));
    return section;
  }
  const auto add = [&table](std::string_view what, double chance) {
    if (chance >= least_share) table.rows.push_back({what, Cell(chance, 3), in_twenty(chance)});
  };
  const GelChances& gel = *result.gel;
  for (std::size_t t = gel::texture_count; t-- > 0;) {
    const auto texture = static_cast<gel::Texture>(t);
    add(gel::to_text(texture), gel.eaten[texture]);
  }
  section.tables.push_back(std::move(table));
  const auto also = [&more](std::string_view what, double chance) {
    if (chance >= least_share) more.rows.push_back({what, Cell(chance, 3), in_twenty(chance)});
  };
  also("with lumps", gel.defects.lumps);
  also("with specks", gel.defects.specks);
  also("that weep", gel.defects.weeps);
  also("that crack easily", gel.defects.brittle);
  also("that feel gritty", gel.defects.grit);
  also("one gel in the stomach", gel.stomach.one_gel);
  also("pieces or films in the stomach", gel.stomach.pieces);
  section.tables.push_back(std::move(more));
  Lines notes{"notes",
              {"The gel model's own parameters are drawn too: most are grade C."},
              Lines::Style::paragraph,
              Shown::text_only};
  if (gel.foretold < 1)
    notes.items.push_back(fmt::format(
        "{:.1f} % of the draws lie outside the range of the gel model and are not counted.",
        100 * (1 - gel.foretold)));
  section.lines.push_back(std::move(notes));
  return section;
}

Section flags_section(const SpreadResult& result) {
  Section section{"flags", "CHANCE OF EACH FLAG, in 100", {}, {}, {}};
  Table table{"flags",
              {{"flag", "", false, Shown::json_only},
               {"words", "", false, Shown::text_only},
               {"percent", "chance", true},
               {"stop_percent", "as stop", true},
               {"drawn", "", false}}};
  for (const FlagChance& each : result.flags)
    table.rows.push_back({name_of(each.id), called(each.id), percent(each.share),
                          percent(each.stop_share),
                          each.from_plan ? "by the recipe, not drawn" : ""});
  section.tables.push_back(std::move(table));
  return section;
}

Section shares_section(const SpreadResult& result) {
  Section section{"sources", "WHAT MATTERS MOST, in 100 of each spread", {}, {}, {}};
  Table table{"shares",
              {{"input", "", false},
               {"ph_percent", "pH", true},
               {"soluble_solids_percent", "solids", true},
               {"calcium_ratio_r2_percent", "R2", true},
               {"cost_percent", "cost", true},
               {"carbohydrate_percent", "carb.", true},
               {"log10_modulus_percent", "gel", true}}};
  std::vector<const Doubt*> order;
  for (const Doubt& doubt : result.doubts) order.push_back(&doubt);
  const auto most = [](const Doubt* doubt) {
    return *std::max_element(doubt->share.begin(), doubt->share.end());
  };
  std::erase_if(order, [&most](const Doubt* doubt) { return most(doubt) < least_share; });
  std::stable_sort(order.begin(), order.end(), [&most](const Doubt* a, const Doubt* b) {
    return a->share[0] != b->share[0] ? a->share[0] > b->share[0] : most(a) > most(b);
  });
  for (const Doubt* doubt : order) {
    std::vector<Cell> row = {doubt->what};
    for (std::size_t o = 0; o < spread_output_count; ++o)
      row.emplace_back(result.intervals[o] ? std::optional(100 * doubt->share[o]) : std::nullopt,
                       0);
    table.rows.push_back(std::move(row));
  }
  section.tables.push_back(std::move(table));
  section.lines.push_back(
      {"note",
       {"Squared rank correlations, scaled to 100; a share of 1 is hardly more than chance."},
       Lines::Style::paragraph,
       Shown::text_only});
  return section;
}

Section improvements_section(const SpreadResult& result) {
  Section section{"improvements", "WHAT WOULD NARROW pH AND TEXTURE", {}, {}, {}};
  Table table{"improvements",
              {{"removed", "without the doubt about", false},
               {"by", "that is, by", false},
               {"ph_half_width_before", "pH now +-", true},
               {"ph_half_width_after", "then", true},
               {"log10_modulus_half_width_before", "gel now +-", true},
               {"log10_modulus_half_width_after", "then", true}}};
  for (const Improvement& each : result.improvements)
    table.rows.push_back({to_text(each.kind), remedy_of(each.kind), Cell(each.half_width_before, 2),
                          Cell(each.half_width_after, 2), Cell(each.lg_modulus_before, 2),
                          Cell(each.lg_modulus_after, 2)});
  section.tables.push_back(std::move(table));
  section.lines.push_back(
      {"note",
       {fmt::format(
           "95 % half-widths of pH and of the stiffness (in tenfolds) on the same {} draws, each "
           "kind of doubt taken away alone "
           "and altogether: a real meter or scale leaves a little. Differences below about "
           "2 % are chance.",
           result.improvement_draws)},
       Lines::Style::paragraph,
       Shown::text_only});
  return section;
}

Section widths_section(const SpreadResult& result) {
  Section section{"widths", "WHAT WAS DRAWN, AND WHERE THE WIDTH COMES FROM", {}, {}, {}};
  Table table{"widths",
              {{"input", "", false},
               {"value", "centre", true},
               {"width", "width", true},
               {"unit", "", false},
               {"shape", "", false},
               {"from", "from", false}}};
  bool judged = false;
  std::size_t of_gel_model = 0;
  for (const Doubt& doubt : result.doubts) {
    if (doubt.kind == DoubtKind::gel_model) {
      ++of_gel_model;
      continue;
    }
    const bool judgement = doubt.from.find("judgement") != std::string::npos;
    judged = judged || judgement;
    table.rows.push_back({doubt.what, estimate(doubt.value, 3), estimate(doubt.width, 2),
                          doubt.unit == "1" || doubt.unit == "relative" ? "" : doubt.unit,
                          doubt.rectangular ? "even" : "normal", doubt.from});
  }
  section.tables.push_back(std::move(table));
  Lines notes{"notes",
              {"Width: standard deviation of a normal distribution, or half of an even one. Every "
               "input is drawn independently of the others."},
              Lines::Style::paragraph,
              Shown::text_only};
  if (of_gel_model > 0)
    notes.items.push_back(
        fmt::format("And {} parameters of the gel model, each with the sd that `gelwright sources "
                    "--gel` lists.",
                    of_gel_model));
  if (judged)
    notes.items.push_back(
        "\"judgement\" means no source: our own guess. State a value with its \"sd\" in the "
        "recipe to replace it.");
  section.lines.push_back(std::move(notes));
  return section;
}

}  // namespace

Report spread_report(const Inputs& inputs, const SpreadResult& result) {
  Report report{"gelwright/spread-2", "Spread of " + inputs.recipe->name, {}, "intervals"};
  add_turned(report, *inputs.recipe);
  report.sections.push_back(
      {"run",
       "",
       {{"draws", "Draws", Cell(static_cast<double>(result.draws), 0), "", "",
         fmt::format("(seed {})", result.seed)},
        {"seed", "", Cell(static_cast<double>(result.seed), 0), "", "", "", Shown::json_only}},
       {},
       {}});
  report.sections.push_back(intervals_section(inputs, result));
  report.sections.push_back(outlook_section(inputs, result));
  report.sections.push_back(flags_section(result));
  report.sections.push_back(shares_section(result));
  report.sections.push_back(improvements_section(result));
  report.sections.push_back(widths_section(result));
  report.sections.push_back(
      {"cautions", "CAUTIONS", {}, {}, {{"cautions", standing_cautions(), Lines::Style::bullets}}});
  return report;
}

}  // namespace gelwright
