// The first screen: what to expect, how to keep it, what to watch, what it costs.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/text.hpp"
#include "gelwright/allergens.hpp"
#include "gelwright/gel_kitchen.hpp"
#include "gelwright/keeping.hpp"
#include "gelwright/usual.hpp"
#include "report/sheet_parts.hpp"
#include "serving/ph_error.hpp"

namespace gelwright {

namespace {

/// A defect less likely than this is not worth a line on the first screen.
constexpr double least_defect_chance = 0.2;
/// Names of things to ask the maker about, in one sentence.
constexpr std::size_t most_asked_at_once = 3;

std::string sentence(std::string text) {
  if (text.empty()) return text;
  if (text[0] >= 'a' && text[0] <= 'z' && !text.starts_with("pH"))
    text[0] = static_cast<char>(text[0] - 'a' + 'A');
  if (text.back() != '.' && text.back() != '!') text += '.';
  return text;
}

std::string_view what_is(gel::Texture texture) {
  for (const gel::Words& each : gel::words())
    if (each.texture == texture) return each.what;
  return "";
}

/// "9 chances in 10", never 0 or 10 of what is not certain.
std::string in_ten(double chance) {
  if (chance >= 0.985) return "almost certain";
  if (chance >= 0.95) return "more than 9 chances in 10";
  if (chance < 0.05) return "less than 1 chance in 10";
  const double tenths = std::clamp(std::round(10 * chance), 1.0, 9.0);
  return fmt::format("about {:.0f} chance{} in 10", tenths, tenths == 1 ? "" : "s");
}

std::string expected_texture(const GelForecast& gel) {
  if (!gel.any_gum()) return "No gum that is known of: nothing here makes it set.";
  if (!gel.made) return "Outside the range of the gel model: nothing can be foretold.";
  const gel::Chances& chances = gel.all.chances;
  const gel::Texture first = gel.likeliest();
  std::string text = sentence(fmt::format("{}: {}", what_is(first), in_ten(chances[first])));
  if (names_two(chances)) {
    const gel::Texture other = gel::second(chances);
    text += " " + sentence(fmt::format("otherwise {}: {}", what_is(other), in_ten(chances[other])));
  }
  const gel::Defects& defects = gel.all.defects;
  const std::pair<double, const char*> may[] = {{defects.lumps, "there may be lumps"},
                                                {defects.specks, "there may be specks"},
                                                {defects.weeps, "it may weep liquid"},
                                                {defects.brittle, "it may crack easily"},
                                                {defects.grit, "it may feel gritty"}};
  for (const auto& [chance, words] : may)
    if (chance >= least_defect_chance)
      text += " " + sentence(fmt::format("{}: {}", words, in_ten(chance)));
  return text;
}

/// What the pH may be; where a label does not say what salt its sodium is, over all it may be.
struct PhEnds {
  double low;
  double high;
};
PhEnds ends_of(const JudgedPh& found, const PhBand& band) {
  if (found.measured) return {found.ph - found.half_width, found.ph + found.half_width};
  return {band.low, band.high};
}

std::string expected_ph(const JudgedPh& found, const PhEnds& ends) {
  if (found.measured)
    return fmt::format("pH {:.1f}, measured, give or take {:.1f}.", found.ph, found.half_width);
  return fmt::format("pH {:.1f}, worked out: between {:.1f} and {:.1f}.", found.ph, ends.low,
                     ends.high);
}

std::string allergens_of(const Recipe& recipe) {
  std::vector<std::string> named;
  std::vector<std::string> unstated;
  bool all_stated = true;
  for (const Ingredient& each : recipe.ingredients) {
    for (const std::string& allergen : each.allergens)
      if (std::find(named.begin(), named.end(), allergen) == named.end()) named.push_back(allergen);
    if (each.source == "recipe" && each.allergens.empty()) all_stated = false;
    if (!unstated_allergens(each.name).empty()) unstated.push_back(each.name);
  }
  std::string text = named.empty() ? "No allergen is named in the recipe" : "Allergens: ";
  for (std::size_t i = 0; i < named.size(); ++i) text += (i == 0 ? "" : ", ") + named[i];
  if (!all_stated) text += named.empty() ? ": read the packs" : "; read the packs too";
  text += ".";
  for (std::size_t i = 0; i < unstated.size(); i += most_asked_at_once) {
    const std::size_t end = std::min(i + most_asked_at_once, unstated.size());
    std::string names = unstated[i];
    for (std::size_t j = i + 1; j < end; ++j) names += (j + 1 < end ? ", " : " and ") + unstated[j];
    text += fmt::format(" Ask what {} {} made from.", names, end - i == 1 ? "was" : "were");
  }
  return text;
}

std::string each_serving(const Inputs& inputs, const Evaluation& evaluation) {
  const Nutrition& label = evaluation.nutrition;
  const std::string sodium =
      label.sodium_at_least && label.sodium_mg <= 0
          ? "sodium not stated"
          : fmt::format("{}{} mg sodium", label.sodium_at_least ? "at least " : "",
                        fixed(label.sodium_mg, 0));
  std::string text =
      fmt::format("Fill {} g: {} g carbohydrate, {}, {} kcal", fixed(evaluation.formula.total_g, 0),
                  fixed(label.carbohydrate_g, 0), sodium, fixed(label.energy_kcal, 0));
  if (label.caffeine_mg > 0) text += fmt::format(", {} mg caffeine", fixed(label.caffeine_mg, 0));
  return text + ". " + allergens_of(*inputs.recipe);
}

/// Amounts in words, both readings of the water: a slip of the pen is to meet the eye.
std::string made_of(const Inputs& inputs, const Evaluation& evaluation) {
  const Formula& formula = evaluation.formula;
  const std::string_view each = inputs.recipe->form == Form::pouch ? "pouch" : "bottle";
  const char* several = inputs.servings == 1 ? "" : each == "pouch" ? "es" : "s";
  struct Part {
    double mass_g;
    int figures;
    const char* what;
  };
  const Part parts[] = {{formula.solids_g, 3, "solids"},
                        {formula.water_g, 3, "water"},
                        {formula.acid_g, 2, "acid"},
                        {formula.calcium_salt_g, 2, "calcium salt"}};
  std::string text =
      fmt::format("Each of {} {}{}:",
                  // A mended batch may end with part of a serving.
                  fixed(inputs.servings, inputs.servings == std::round(inputs.servings) ? 0 : 1),
                  each, several);
  std::string in_all = ". In all:";
  const double factor = evaluation.batch.factor;
  bool first = true;
  for (const Part& part : parts) {
    if (!(part.mass_g > 0)) continue;
    text += fmt::format("{} {} g {}", first ? "" : ",", significant(part.mass_g, part.figures),
                        part.what);
    in_all += fmt::format("{} {}", first ? "" : ",", significant(factor * part.mass_g, 3));
    first = false;
  }
  text += fmt::format(". Water is {} to 1, {} % of all", fixed(formula.water_per_g_solids(), 2),
                      fixed(100 * formula.water_fraction_of_total(), 0));
  if (factor != 1) text += in_all + " g";
  const std::vector<std::string> unlike = beside_usual(evaluation, inputs);
  if (unlike.empty())
    return fmt::format("{}. Usual for a {}.", text,
                       inputs.recipe->form == Form::pouch ? "pouch" : "drink");
  for (const std::string& check : unlike) text += ". Check: " + check;
  return text + ".";
}

std::string hours_of(double hours) {
  constexpr double told_in_hours_to = 72;
  if (hours > told_in_hours_to) return fmt::format("{:g} days", hours / 24);
  return fmt::format("{:g} hour{}", hours, hours == 1 ? "" : "s");
}

std::string kept(const Keeping& keeping) {
  return fmt::format(
      "At {:g} degC or colder; eat within {} of making: {}. At most {} warm, {} above {:g} degC.",
      keeping.chilled_c, hours_of(keeping.chilled_hours), why(keeping),
      hours_of(keeping.warm_hours), hours_of(keeping.hot_day_warm_hours), keeping.hot_day_c);
}

/// How fast a heated batch has to cool, where it was heated.
std::string cooling(const Inputs& inputs, const Evaluation& evaluation) {
  for (const Flag& flag : evaluation.flags)
    if (name_of(flag.id) == "cool-it-fast")
      return " " + sentence(message_of(flag, evaluation, inputs));
  return "";
}

}  // namespace

Section detail::expect_section(const Inputs& inputs, const Evaluation& evaluation) {
  Section section{"expect", "", {}, {}, {}};
  const GelForecast& gel = evaluation.gel;
  const JudgedPh ph = judged_ph(evaluation.water_phase, usable_reading(*inputs.recipe));
  const PhEnds ends = ends_of(ph, evaluation.ph_band);
  const Keeping keeping = keeping_of(evaluation, inputs);
  section.figures = {
      {"made", "MADE OF", made_of(inputs, evaluation), "", "", "", Shown::text_only},
      {"expect", "EXPECT", expected_texture(gel) + " " + expected_ph(ph, ends), "", "", "",
       Shown::text_only},
      {"each", inputs.recipe->form == Form::pouch ? "POUCH" : "BOTTLE",
       each_serving(inputs, evaluation), "", "", "", Shown::text_only},
      {"keep", "KEEP", kept(keeping) + cooling(inputs, evaluation), "", "", "", Shown::text_only},
  };
  // What was seen stands above what is worked out.
  if (gel.learned != nullptr)
    section.figures.insert(
        section.figures.begin() + 1,
        {"your_cups", "CUPS", "Your " + seen_in_cups(*gel.learned), "", "", "", Shown::text_only});
  const auto script = [&section](std::string key, Cell cell, std::string why_empty = "") {
    section.figures.push_back(
        {std::move(key), "", std::move(cell), "", std::move(why_empty), "", Shown::json_only});
  };
  const bool foretold = gel.made && gel.any_gum();
  const std::string none =
      gel.any_gum() ? "outside the range of the gel model" : "no gum that is known of";
  const gel::Chances& chances = gel.all.chances;
  const auto foretell = [&](std::string key, Cell cell) {
    script(std::move(key), foretold ? std::move(cell) : Cell(), foretold ? "" : none);
  };
  foretell("outlook", gel::to_text(gel.likeliest()));
  foretell("chance", Cell(chances[gel.likeliest()], 3));
  foretell("second", gel::to_text(gel::second(chances)));
  foretell("second_chance", Cell(chances[gel::second(chances)], 3));
  script("ph", Cell(ph.ph, 2));
  script("ph_low", Cell(ends.low, 2));
  script("ph_high", Cell(ends.high, 2));
  script("fill_g_per_pouch", Cell(evaluation.formula.total_g, 1));
  script("keep.where_c", Cell(keeping.chilled_c, 0));
  script("keep.hours", Cell(keeping.chilled_hours, 0));
  script("keep.warm_hours", Cell(keeping.warm_hours, 0));
  script("keep.hot_day_warm_hours", Cell(keeping.hot_day_warm_hours, 0));
  script("keep.decided_by", why(keeping));
  return section;
}

Section detail::warnings_section(const Inputs& inputs, const Evaluation& evaluation,
                                 const Advice& advice, std::size_t most) {
  Section section{"watch", "", {}, {}, {}};
  std::size_t left_out = 0;
  for (const Level level : {Level::stop, Level::care, Level::note})
    for (std::size_t i = 0; i < evaluation.flags.size(); ++i) {
      const Flag& flag = evaluation.flags[i];
      if (flag.level != level) continue;
      const bool full = section.figures.size() >= most;
      if (level == Level::note || (level == Level::care && full)) {
        ++left_out;
        continue;
      }
      std::string text = sentence(message_of(flag, evaluation, inputs));
      const std::string remedy = remedy_in_short(i, inputs, evaluation, advice);
      if (!remedy.empty()) text += " " + sentence(remedy);
      section.figures.push_back({std::string(name_of(flag.id)),
                                 level == Level::stop ? "STOP" : "CARE", std::move(text), "", "",
                                 "", Shown::text_only});
    }
  if (left_out > 0)
    section.lines.push_back(
        {"more",
         {left_out == 1 ? std::string("There is 1 more note: print it with --all.")
                        : fmt::format("There are {} more notes: print them with --all.", left_out)},
         Lines::Style::paragraph,
         Shown::text_only});
  return section;
}

Section detail::cost_line_section(const Inputs& inputs, const Evaluation& evaluation) {
  Section section{"price", "", {}, {}, {}};
  if (!evaluation.cost) return section;
  const Cost& cost = *evaluation.cost;
  const std::string& currency = inputs.recipe->currency;
  std::string text =
      fmt::format("{}{} {} for 60 g of carbohydrate", cost.complete() ? "" : "At least ",
                  fixed(60 * cost.per_g_carbohydrate, 2), currency);
  if (cost.alternative_per_g_carbohydrate)
    text += fmt::format(": {:.0f} % of {} ({} {})",
                        100 * cost.per_g_carbohydrate / *cost.alternative_per_g_carbohydrate,
                        inputs.recipe->compare_with->name,
                        fixed(60 * *cost.alternative_per_g_carbohydrate, 2), currency);
  section.figures.push_back({"line", "COST", sentence(text), "", "", "", Shown::text_only});
  return section;
}

Section detail::label_section(const Inputs& inputs, const Evaluation& evaluation) {
  const Keeping keeping = keeping_of(evaluation, inputs);
  Section section{"label", "LABEL TO CUT OUT", {}, {}, {}};
  section.cut_out = true;
  const auto add = [&section](std::string key, std::string label, Cell cell) {
    section.figures.push_back(
        {std::move(key), std::move(label), std::move(cell), "", "", "", Shown::page_only});
  };
  add("name", "Name", inputs.recipe->name);
  add("carbohydrate", "Carbohydrate",
      fmt::format("{} g in {} g", fixed(evaluation.nutrition.carbohydrate_g, 0),
                  fixed(evaluation.formula.total_g, 0)));
  add("made_on", "Made on, at", Cell());
  add("use_by", "Use by", Cell());
  section.figures.back().remark = hours_of(keeping.chilled_hours) + " later";
  add("keep", "Keep cold",
      fmt::format("at {:g} degC or colder, at most {} warm", keeping.chilled_c,
                  hours_of(keeping.warm_hours)));
  add("allergens", "Allergens", allergens_of(*inputs.recipe));
  return section;
}

}  // namespace gelwright
