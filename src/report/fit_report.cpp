#include "gelwright/fit_report.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/rounding.hpp"
#include "gelwright/gel_forecast.hpp"

namespace gelwright {

namespace {

constexpr int ph_decimals = 2;
constexpr int most_decimals = 4;

/// Decimals that show a half-width with two figures, and no more than the value is good for.
int decimals_of_half_width(double half_width, int otherwise) {
  if (!(half_width > 0) || !std::isfinite(half_width)) return otherwise;
  return std::clamp(decimals_for(half_width, 2), 0, most_decimals);
}

/// The number where `known`, else an empty cell.
Cell number_cell(double value, int decimals, bool known) {
  Cell cell;
  cell.decimals = decimals;
  if (known) cell.value = value;
  return cell;
}

/// One number of the buffer: in text with its interval behind it, in JSON with its own keys.
void add_parameter(Section& section, std::string key, std::string label, const FitParameter& number,
                   std::string unit) {
  const bool known = number.fitted && std::isfinite(number.half_width);
  const int decimals = decimals_of_half_width(number.half_width, ph_decimals);
  std::string remark = "held, not fitted";
  if (known)
    remark = fmt::format("+- {} (95 %)", fixed(number.half_width, decimals));
  else if (number.fitted)
    remark = "at its limit, no interval";
  section.figures.push_back(
      {key, std::move(label), Cell(number.value, decimals), std::move(unit), "", remark});
  const auto json_only = [&](std::string_view name, Cell cell, std::string why) {
    section.figures.push_back(
        {fmt::format("{}_{}", key, name), "", cell, "", std::move(why), "", Shown::json_only});
  };
  json_only("half_width", number_cell(number.half_width, decimals, known),
            number.fitted ? "the fit ended on a limit" : "held, not fitted");
  json_only("fitted", Cell(number.fitted), "");
}

Section buffer_section(const BenchFit& fit) {
  const std::string of = fit.ingredient.empty() ? "all solids" : fit.ingredient;
  Section section{
      "buffer", "BUFFER FOUND (one weak acid standing for what is not declared)", {}, {}, {}};
  section.figures.push_back({"ingredient", "Of",
                             fit.ingredient.empty() ? Cell() : Cell(fit.ingredient), "",
                             "all solids together", "", Shown::json_only});
  section.figures.push_back({"of", "Of", Cell(of), "", "", "", Shown::text_only});
  add_parameter(section, "carboxylate_mmol_per_g", "Acid sites", fit.buffer.carboxylate_mmol_per_g,
                "mmol/g");
  add_parameter(section, "pka", "pKa", fit.buffer.pka, "");
  add_parameter(section, "neutralised_fraction", "Share sold as salt",
                fit.buffer.neutralised_fraction, "");
  section.figures.push_back({"correlation", "Correlation of sites and pKa",
                             Cell(fit.buffer.correlation, 2), "", "the pKa was held", "",
                             fit.buffer.correlation ? Shown::everywhere : Shown::json_only});
  section.figures.push_back({"sd_for_spread_mmol_per_g", "",
                             number_cell(fit.sd_for_spread_mmol_per_g, most_decimals,
                                         std::isfinite(fit.sd_for_spread_mmol_per_g)),
                             "", "the fit ended on a limit", "", Shown::json_only});
  section.figures.push_back(
      {"reading_sd", "Reading sd, as stated", Cell(fit.reading_sd, ph_decimals), "pH"});
  section.figures.push_back({"scatter_sd", "Reading sd, with the scatter found",
                             Cell(fit.scatter_sd, ph_decimals), "pH"});
  section.figures.push_back({"declared_rms_ph", "Off by, as declared",
                             Cell(fit.declared_rms_ph, ph_decimals), "pH", "",
                             "(root mean square)"});
  section.figures.push_back(
      {"fitted_rms_ph", "Off by, with the buffer", Cell(fit.fitted_rms_ph, ph_decimals), "pH"});
  return section;
}

Section readings_section(const Bench& bench, const BenchFit& fit) {
  Section section{"readings", "READINGS", {}, {}, {}};
  const bool acid = std::any_of(bench.cups.begin(), bench.cups.end(), [](const BenchCup& cup) {
    return cup.input("acid_g").has_value();
  });
  Table table{"readings",
              {{"cup", "cup"},
               {"acid_g", "acid g*", true, acid ? Shown::everywhere : Shown::json_only},
               {"sample", "sample"},
               {"read_ph", "pH read", true},
               {"declared_ph", "declared", true},
               {"fitted_ph", "with buffer", true},
               {"residual_ph", "off by", true},
               {"studentised", "t", true},
               {"outlier", "", false, Shown::json_only},
               {"remark", "", false, Shown::text_only}}};
  for (const FittedReading& each : fit.readings) {
    const BenchCup& cup = bench.cups[each.cup];
    table.rows.push_back(
        {cup.name, Cell(cup.input("acid_g"), 3), each.diluted ? "1:1" : "gel",
         Cell(each.read_ph, ph_decimals), Cell(each.declared_ph, ph_decimals),
         Cell(each.fitted_ph, ph_decimals), Cell(each.fitted_ph - each.read_ph, ph_decimals),
         Cell(each.studentised, 1), Cell(each.outlier), each.outlier ? "odd" : ""});
  }
  section.tables.push_back(std::move(table));
  section.lines.push_back({"legend",
                           {fmt::format("{}t: off by, in units of what the other readings allow.",
                                        acid ? "* per serving. " : "")},
                           Lines::Style::paragraph,
                           Shown::text_only});
  return section;
}

/// The dose for the wanted texture, for the section of the next dose.
void add_aim(const Recipe& recipe, const BenchFit& fit, Section& section) {
  const std::string why = !fit.aim ? "no texture is wanted: give the recipe a target_texture"
                          : !fit.aim->possible ? reason_of(*fit.aim, recipe)
                                               : "";
  const auto known = [&why](Cell cell) { return why.empty() ? std::move(cell) : Cell(); };
  const bool shown = fit.aim.has_value();
  const AimFound found = fit.aim.value_or(AimFound{});
  section.figures.push_back({"target_texture", "For",
                             shown ? Cell(gel::to_text(found.aim.texture)) : Cell(), "", why, "",
                             shown ? Shown::everywhere : Shown::json_only});
  section.figures.push_back(
      {"texture_acid_g", "acid per serving", known(Cell(found.amount, 3)), "g", why,
       why.empty() ? fmt::format("chance {:.0f} %, {:.0f} % at the recipe's dose; pH {}",
                                 100 * found.chance, 100 * found.chance_before, fixed(found.ph, 1))
                   : "",
       shown ? Shown::everywhere : Shown::json_only});
  section.figures.push_back(
      {"texture_chance", "", known(Cell(found.chance, 3)), "", why, "", Shown::json_only});
}

Section dose_section(const Recipe& recipe, const BenchFit& fit) {
  Section section{"dose", "THE NEXT DOSE", {}, {}, {}};
  const std::string none =
      recipe.acid ? "no target: give the recipe a target_ph, or --to-ph" : "the recipe has no acid";
  if (!fit.dose) {
    section.figures.push_back({"acid_g", "Acid per serving", Cell(), "g", none});
    add_aim(recipe, fit, section);
    return section;
  }
  const FittedDose& dose = *fit.dose;
  const bool reached = dose.dosed.reached;
  const bool interval = dose.half_width_g.has_value();
  const int decimals = decimals_of_half_width(dose.half_width_g.value_or(0), 3);
  section.figures = {
      {"target_ph", "For pH", Cell(dose.target_ph, ph_decimals)},
      {"ingredient", "", Cell(recipe.ingredients[recipe.acid->ingredient].name), "", "", "",
       Shown::json_only},
      {"acid_g", recipe.ingredients[recipe.acid->ingredient].name + ", per serving",
       number_cell(dose.dosed.amount, decimals, reached), "g", dose.dosed.reason,
       interval ? fmt::format("({} to {}, 95 %)", fixed(dose.low_g(), decimals),
                              fixed(dose.high_g(), decimals))
                : ""},
      {"low_g", "", number_cell(dose.low_g(), decimals, interval), "", "the fit gives no interval",
       "", Shown::json_only},
      {"high_g", "", number_cell(dose.high_g(), decimals, interval), "",
       "the fit gives no interval", "", Shown::json_only},
  };
  add_aim(recipe, fit, section);
  if (reached)
    section.lines.push_back(
        {"caveat",
         {interval
              ? "The interval is that of the readings. What one pKa cannot follow comes on top, "
                "least inside the pH the cups covered: measure the batch."
              : "The fit gives no interval for it: measure the batch."},
         Lines::Style::paragraph});
  return section;
}

std::string likeliest_of(const gel::Chances& chances) {
  const gel::Texture texture = gel::likeliest(chances);
  return fmt::format("{} {:.0f} %", gel::to_text(texture), 100 * chances[texture]);
}

Section textures_section(const Bench& bench, const BenchFit& fit) {
  Section section{"textures", "THE FORECAST AGAINST THE TEXTURES READ", {}, {}, {}};
  if (fit.textures.empty()) {
    section.lines.push_back({"none", {"No cup with a gum has a texture reading."}});
    return section;
  }
  Table table{"scores",
              {{"cup", "cup"},
               {"likeliest", "", false, Shown::json_only},
               {"likeliest_chance", "", false, Shown::json_only},
               {"forecast", "", false, Shown::json_only},
               {"before", "before", false, Shown::text_only},
               {"readings", "", true, Shown::json_only},
               {"chance_of_seen", "chance", true},
               {"likeliest_after", "", false, Shown::json_only},
               {"likeliest_after_chance", "", false, Shown::json_only},
               {"forecast_after", "", false, Shown::json_only},
               {"after", "after", false, Shown::text_only},
               {"chance_of_seen_after", "chance", true},
               {"weight", "", false, Shown::json_only},
               {"repeat", "", false, Shown::json_only},
               {"remark", "", false, Shown::text_only}}};
  for (const TextureScore& score : fit.textures) {
    const gel::Texture likeliest = gel::likeliest(score.chances);
    const gel::Texture after = gel::likeliest(score.chances_after);
    table.rows.push_back(
        {bench.cups[score.cup].name, gel::to_text(likeliest), Cell(score.chances[likeliest], 3),
         words_of(score.chances), likeliest_of(score.chances),
         Cell(static_cast<double>(score.readings), 0), Cell(score.chance_of_seen, 2),
         gel::to_text(after), Cell(score.chances_after[after], 3), words_of(score.chances_after),
         likeliest_of(score.chances_after), Cell(score.chance_of_seen_after, 2),
         Cell(score.weight, 2), Cell(score.repeat), score.repeat ? "make it again" : ""});
  }
  section.tables.push_back(std::move(table));
  section.lines.push_back({"legend",
                           {"Chance: given to what was seen. At the pH read on the gel, else the "
                            "fitted one; before any "
                            "cup is learnt from, and after all of them, the cup itself among them. "
                            "A chance far under 0.1 in one cup of many is bad "
                            "luck; in most of them the forecast was wrong for this mix."},
                           Lines::Style::paragraph,
                           Shown::text_only});
  return section;
}

/// A shift in words: what more or less of it means.
std::string shift_in_words(std::size_t which, double mean) {
  switch (which) {
    case 0:
      return fmt::format("{} times as stiff", significant(std::pow(10.0, mean), 2));
    case 1:
      return fmt::format("sets {} pH {}", fixed(std::abs(mean), 2),
                         mean >= 0 ? "less sour" : "more sour");
    case 2:
      return fmt::format("needs {} times the calcium", significant(std::pow(10.0, mean), 2));
    default:
      return fmt::format("{} times as thick", significant(std::pow(10.0, mean), 2));
  }
}

Section learned_section(const BenchFit& fit) {
  Section section{"learned", "WHAT THE CUPS TAUGHT, against the forecast", {}, {}, {}};
  Table table{"shifts",
              {{"shift", ""},
               {"mean", "", true, Shown::json_only},
               {"sd", "", true, Shown::json_only},
               {"sd_before", "", true, Shown::json_only},
               {"told", "", false, Shown::json_only},
               {"found", "found", false, Shown::text_only},
               {"sure", "doubt, decades or pH", false, Shown::text_only}}};
  if (!fit.lesson) {
    section.tables.push_back(std::move(table));
    section.lines.push_back({"none", {"Nothing: no cup with a gum has a texture reading."}});
    return section;
  }
  const FitLesson& lesson = *fit.lesson;
  constexpr std::string_view names[] = {"strength", "pH", "calcium", "viscosity"};
  std::string untold;
  for (std::size_t i = 0; i < lesson.shifts.size(); ++i) {
    const ShiftFound& shift = lesson.shifts[i];
    const bool told = !shift.untold();
    table.rows.push_back(
        {names[i], Cell(shift.mean, 3), Cell(shift.sd, 3), Cell(shift.sd_before, 3), Cell(told),
         told ? shift_in_words(i, shift.mean) : "not told by these cups",
         fmt::format("{} before, {} after", fixed(shift.sd_before, 2), fixed(shift.sd, 2))});
    if (!told) untold += fmt::format("{}{}", untold.empty() ? "" : ", ", names[i]);
  }
  section.tables.push_back(std::move(table));
  section.figures = {
      {"mean_ln_chance_before", "", Cell(lesson.mean_ln_chance_before, 3), "", "", "",
       Shown::json_only},
      {"mean_ln_chance_after", "", Cell(lesson.mean_ln_chance_after, 3), "", "", "",
       Shown::json_only},
      {"model", "", Cell(lesson.learned.model), "", "", "", Shown::json_only},
      {"kept_with", "", lesson.learned.mix.empty() ? Cell() : Cell(lesson.learned.mix), "",
       "the gum is not in the ingredient that was fitted", "", Shown::json_only},
  };
  std::vector<std::string> notes;
  if (lesson.learned.gums.size() > 1) {
    std::string weights;
    for (const LearnedGum& gum : lesson.learned.gums)
      weights += fmt::format("{}{:.0f} %", weights.empty() ? "" : ", ", 100 * gum.weight);
    notes.push_back(fmt::format(
        "The gums the mix may hold, in the order it lists them: {}. One series seldom tells them "
        "apart; all are kept.",
        weights));
  }
  notes.push_back(
      "Strength and pH lean on each other: together they are known better than either alone.");
  if (!untold.empty())
    notes.push_back(
        fmt::format("These cups could not tell: {}. Vary something else to learn it.", untold));
  section.lines.push_back({"notes", std::move(notes), Lines::Style::bullets, Shown::text_only});
  return section;
}

}  // namespace

Report fit_report(const Recipe& recipe, const Bench& bench, const BenchFit& fit) {
  Report report{
      "gelwright/fit-2", fmt::format("Bench readings fitted: {}", recipe.name), {}, "readings"};
  report.sections.push_back(buffer_section(fit));
  report.sections.push_back(readings_section(bench, fit));
  report.sections.push_back(dose_section(recipe, fit));
  report.sections.push_back(textures_section(bench, fit));
  report.sections.push_back(learned_section(fit));
  Section warnings{"warnings", "WORTH KNOWING", {}, {}, {}};
  Lines lines{"warnings", {}, Lines::Style::bullets};
  for (const FitWarning& warning : fit.warnings)
    lines.items.push_back(message_of(warning, fit, bench) + '.');
  warnings.lines.push_back(std::move(lines));
  report.sections.push_back(std::move(warnings));
  return report;
}

}  // namespace gelwright
