// Flags about how a gel can go wrong, besides calcium.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "base/dust.hpp"
#include "base/rounding.hpp"
#include "flags/gel_view.hpp"
#include "gelwright/elements.hpp"
#include "gelwright/solubility.hpp"
#include "serving/liquid_met.hpp"

namespace gelwright::detail {

namespace {

constexpr Datum rows[] = {
    {"flag.gum-after-sugar", 30, "%", 0, "soluble solids in which gum no longer hydrates",
     "common-practice", Standing::common_practice},
    {"flag.gum-clumps", 1, "g per 100 g water", 0, "gum pre-blended with sugar", "common-practice",
     Standing::common_practice},
    {"flag.gum-most", 4, "g per 100 g water", 0, "kitchen blender", "judgement",
     Standing::judgement},
    {"flag.solids-most", 75, "%", 0, "soluble solids that still dissolve at room temperature",
     "judgement", Standing::judgement},
    {"flag.thins-below-ph", 4, "pH", 0, "acid slowly cuts alginate and pectin", "common-practice",
     Standing::common_practice},
    {"flag.maltodextrin-percent", 40, "%", 0, "of the soluble solids", "judgement",
     Standing::judgement},
    {"flag.jam-pa", 5, "Pa", 0, "a sugar-acid gel stiff enough to matter", "judgement",
     Standing::judgement},
    {"flag.hot-enough", 85, "degC", 0, "dissolves pectin and low-acyl gellan", "common-practice",
     Standing::common_practice},
    {"flag.crystals-at", 5, "degC", 0, "kept in the fridge", "judgement", Standing::judgement},
    {"flag.slow-hours", 48, "h", 0, "what takes days is told only of what is kept longer",
     "judgement", Standing::judgement},
    {"flag.acid-demand", 2, "mmol", 0, "per serving, to the pH of the stomach fluid", "judgement",
     Standing::judgement},
    {"flag.lumps-percent", 30, "%", 0, "chance of lumps that calls for a warning", "judgement",
     Standing::judgement},
    {"flag.weeps-percent", 30, "%", 0, "chance of weeping that calls for a warning", "judgement",
     Standing::judgement},
};
constexpr std::array<std::string_view, 0> borrowed = {};
constexpr Threshold gum_after_sugar_percent = place_of(rows, borrowed, "flag.gum-after-sugar");
constexpr Threshold gum_clumps_percent = place_of(rows, borrowed, "flag.gum-clumps");
constexpr Threshold gum_most_percent = place_of(rows, borrowed, "flag.gum-most");
constexpr Threshold solids_most_percent = place_of(rows, borrowed, "flag.solids-most");
constexpr Threshold thins_below_ph = place_of(rows, borrowed, "flag.thins-below-ph");
constexpr Threshold maltodextrin_percent = place_of(rows, borrowed, "flag.maltodextrin-percent");
constexpr Threshold hot_enough_c = place_of(rows, borrowed, "flag.hot-enough");
constexpr Threshold jam_pa = place_of(rows, borrowed, "flag.jam-pa");
constexpr Threshold lumps_percent = place_of(rows, borrowed, "flag.lumps-percent");
constexpr Threshold weeps_percent = place_of(rows, borrowed, "flag.weeps-percent");
constexpr Threshold crystals_at_c = place_of(rows, borrowed, "flag.crystals-at");
constexpr Threshold slow_hours = place_of(rows, borrowed, "flag.slow-hours");
constexpr Threshold acid_demand_mmol = place_of(rows, borrowed, "flag.acid-demand");

const Ingredient& ingredient_of(const GoesIn& each, const Judged& j) {
  return j.recipe().ingredients[j.inputs.solids[each.line].ingredient];
}

/// A gum that is sold in a mix, or goes in like one.
bool as_in_mix(const GoesIn& each, const Judged& j) {
  return each.dispersed == gel::Dispersed::mix || ingredient_of(each, j).kind == Kind::mix;
}

template <class Holds>
bool any_gum(const Judged& j, Holds holds) {
  return std::any_of(
      j.inputs.making.solids.begin(), j.inputs.making.solids.end(),
      [&](const GoesIn& each) { return holds_gum(ingredient_of(each, j)) && holds(each); });
}

bool in_mix(const Judged& j) {
  return !any_gum(j, [&](const GoesIn& each) { return !as_in_mix(each, j); });
}

struct AtPh {
  double ph;
};

bool lumps_expected(const Judged& j) {
  return gel_of(j).made && 100 * gel_of(j).all.defects.lumps > j[lumps_percent];
}

/// The lumps are of the acid's making: given off slowly, the same acid would make half as many.
void check_acid_shock(const Judged& j, Raise& raise) {
  if (!lumps_expected(j) || gel_of(j).state.acid != gel::Acid::poured) return;
  gel::State slowly = gel_of(j).state;
  slowly.acid = gel::Acid::slow;
  const gel::Learnt* learnt = gel_of(j).learnt ? &*gel_of(j).learnt : nullptr;
  const double without = gel::defects_at(slowly, gel::learnt_values(learnt)).lumps;
  if (2 * without < gel_of(j).outlook.defects.lumps) raise(Level::care, AtPh{gel_of(j).state.ph});
}

std::string tell_acid_shock(const Flag& flag, const Judged& j) {
  return fmt::format("acid poured in at once, to pH {:.1f}: lumps with a chance of {}",
                     flag.numbers.as<AtPh>().ph, in_100(gel_of(j).all.defects.lumps));
}

void check_lumps(const Judged& j, Raise& raise) {
  if (lumps_expected(j) && !raise.already("acid-shock") && !raise.already("calcium-shock"))
    raise(Level::care);
}

void check_weeps(const Judged& j, Raise& raise) {
  if (gel_of(j).made && 100 * gel_of(j).all.defects.weeps > j[weeps_percent] &&
      !raise.already("calcium-too-high"))
    raise(Level::care);
}

std::string tell_lumps(const Flag&, const Judged& j) {
  return fmt::format(
      "lumps with a chance of {}: gum that clumps, does not dissolve in the water it meets, or "
      "sets "
      "before it has spread",
      in_100(gel_of(j).all.defects.lumps));
}

std::string tell_weeps(const Flag&, const Judged& j) {
  return fmt::format("it weeps with a chance of {}: the gel draws together and lets liquid go",
                     in_100(gel_of(j).all.defects.weeps));
}

void check_under_heated(const Judged& j, Raise& raise) {
  const auto has = [&j](Gum gum) { return percent_of(j, gum) > 0; };
  const bool needs_heat = has(Gum::lm_pectin) || has(Gum::amidated_pectin) ||
                          has(Gum::gellan_low_acyl) || (has(Gum::hm_pectin) && !has(Gum::alginate));
  if (needs_heat && !in_mix(j) && j.inputs.making.heated_c < j[hot_enough_c]) raise(Level::care);
}

std::string tell_under_heated(const Flag&, const Judged& j) {
  const Making& making = j.inputs.making;
  const bool heated = std::any_of(j.recipe().steps.begin(), j.recipe().steps.end(),
                                  [](const Step& step) { return step.act == Act::heat; });
  return heated
             ? fmt::format("gum heated to {:.0f} degC, it needs {}", making.heated_c,
                           j.quoted(hot_enough_c))
             : fmt::format("gum not heated: it needs {} degC to dissolve", j.quoted(hot_enough_c));
}

struct SolidsMet {
  double percent;
};

void check_gum_after_sugar(const Judged& j, Raise& raise) {
  double most = 0;
  for (const GoesIn& each : j.inputs.making.solids)
    if (holds_gum(ingredient_of(each, j)) && !as_in_mix(each, j))
      most = std::max(most, liquid_met_at(each.place, j.serving.formula, j.inputs).solids_percent);
  if (j.gum_percent() > 0 && most > j[gum_after_sugar_percent]) raise(Level::care, SolidsMet{most});
}

std::string tell_gum_after_sugar(const Flag& flag, const Judged&) {
  return fmt::format("gum goes in after the sugar, into {:.0f} % of solids",
                     flag.numbers.as<SolidsMet>().percent);
}

void check_gum_clumps(const Judged& j, Raise& raise) {
  const double gum = j.gum_percent();
  if (gum > 0 &&
      any_gum(j, [](const GoesIn& each) { return each.dispersed == gel::Dispersed::dry; }))
    raise(Level::care);
  else if (!in_mix(j) && gum > j[gum_clumps_percent])
    raise(Level::note);
}

std::string tell_gum_clumps(const Flag&, const Judged& j) {
  return fmt::format("{:.1f} g of gum per 100 g of water clumps easily", j.gum_percent());
}

void check_too_little_water(const Judged& j, Raise& raise) {
  const double gum = j.gum_percent();
  if (gum > 0 && (gum > j[gum_most_percent] ||
                  j.serving.formula.soluble_solids_percent() > j[solids_most_percent]))
    raise(Level::care);
}

std::string tell_too_little_water(const Flag&, const Judged& j) {
  return fmt::format("{:.1f} g of gum per 100 g of water and {:.0f} % solids: too little water",
                     j.gum_percent(), j.serving.formula.soluble_solids_percent());
}

/// What takes days matters only where it may be kept for days.
bool keeps_for_days(const Judged& j) {
  return keeping_of(j.serving, j.inputs).chilled_hours > j[slow_hours];
}

void check_thins(const Judged& j, Raise& raise) {
  const double cut_by_acid = percent_of(j, Gum::alginate) + percent_of(j, Gum::hm_pectin) +
                             percent_of(j, Gum::lm_pectin) + percent_of(j, Gum::amidated_pectin);
  const double ph = gel_of(j).state.ph;
  if (cut_by_acid > 0 && ph < j[thins_below_ph] && keeps_for_days(j)) raise(Level::note, AtPh{ph});
}

std::string tell_thins(const Flag& flag, const Judged&) {
  return fmt::format("at pH {:.1f} the gel thins over days", flag.numbers.as<AtPh>().ph);
}

void check_maltodextrin(const Judged& j, Raise& raise) {
  const std::size_t route = static_cast<std::size_t>(gel::Route::sugar_acid_pectin);
  const GelForecast& gel = gel_of(j);
  if (gel.made && std::pow(10.0, gel.outlook.centre.route_lg_pa[route]) > j[jam_pa] &&
      100 * gel.state.sugars.maltodextrin > j[maltodextrin_percent])
    raise(Level::care);
}

std::string tell_maltodextrin(const Flag&, const Judged& j) {
  return fmt::format("{:.0f} % of the solids are maltodextrin: unproven for a sugar-acid gel",
                     100 * gel_of(j).state.sugars.maltodextrin);
}

void check_slow_in_stomach(const Judged& j, Raise& raise) {
  if (j.gum_percent() > 0 && j.drink() && j.phase().acid_demand_mmol > j[acid_demand_mmol])
    raise(Level::care);
}

std::string tell_slow_in_stomach(const Flag&, const Judged& j) {
  return fmt::format("a serving takes {:.1f} mmol of stomach acid: slow or patchy gel",
                     j.phase().acid_demand_mmol);
}

constexpr Turn less_acid[] = {Turn::less_acid};
constexpr Turn gentler[] = {Turn::less_calcium_salt, Turn::less_acid, Turn::softer_water,
                            Turn::more_water};
constexpr Turn more_water[] = {Turn::more_water};
struct Crystals {
  std::size_t substance;
  double there_g;  ///< without hydrate water, for each 100 g of water
  double dissolves_g;
};

constexpr std::size_t most_substances = 64;
using Substances = std::array<double, most_substances>;

/// g of each substance in one serving, from whatever brings it: a sugar by its molecules, so that
/// of syrups and honey counts too; all else by name. Sugars no label names are left out.
Substances substances_in(const Judged& j) {
  static const std::size_t dextrose = soluble_substance("dextrose anhydrous").value();
  static const std::size_t fructose = soluble_substance("fructose").value();
  static const std::size_t sucrose = soluble_substance("sucrose").value();
  Substances there_g{};
  const auto by_name = [&](const std::string& name, double dry_g) {
    const auto which = soluble_substance(name);
    if (which && *which < most_substances) there_g[*which] += dry_g;
  };
  const auto look = [&](const InputLine& line) {
    const Ingredient& what = j.recipe().ingredients[line.ingredient];
    for (const DryPart& part : what.dry_parts) by_name(part.name, line.mass_g * part.g_per_g);
    if (what.source != "recipe") by_name(what.name, line.mass_g * (1 - line.per_g.water_g));
  };
  for (const InputLine& line : j.inputs.solids) look(line);
  if (j.inputs.acid) look(j.inputs.acid->line);
  if (j.inputs.calcium) look(j.inputs.calcium->line);
  constexpr double hexose_g_per_mol = molar_mass_g_per_mol("C6H12O6");
  constexpr double sucrose_g_per_mol = molar_mass_g_per_mol("C12H22O11");
  const Composition& all = j.serving.formula.delivered;
  there_g[dextrose] = hexose_g_per_mol * all.saccharide_mol[index_of(Saccharide::glucose)];
  there_g[fructose] = hexose_g_per_mol * all.saccharide_mol[index_of(Saccharide::fructose)];
  there_g[sucrose] =
      sucrose_g_per_mol * all.saccharide_mol[index_of(Saccharide::sucrose)] - all.unnamed_sugars_g;
  return there_g;
}

/// Each alone in all the water: beside other sugars still less dissolves.
void check_crystals(const Judged& j, Raise& raise) {
  const Substances in_serving_g = substances_in(j);
  for (std::size_t i = 0; i < soluble_substances() && i < most_substances; ++i) {
    const double there_g = 100 * in_serving_g[i] / j.serving.formula.chemistry_water_g;
    if (there_g <= 0) continue;
    const double dissolves_g = solubility_g_per_100g_water(i, j[crystals_at_c]);
    if (is_over(there_g, dissolves_g)) raise(Level::care, Crystals{i, there_g, dissolves_g});
  }
}

std::string tell_crystals(const Flag& flag, const Judged& j) {
  const auto n = flag.numbers.as<Crystals>();
  return fmt::format(
      "{} from all that holds it: {} g in 100 g of water, {} g stay dissolved at {} degC ({}): "
      "crystals",
      soluble_substance_name(n.substance), significant(n.there_g, 2), significant(n.dissolves_g, 2),
      j.quoted(crystals_at_c), solubility_source(n.substance));
}

constexpr FlagRecord records[] = {
    {.name = "acid-shock",
     .called = "lumps from acid all at once",
     .when = "acid poured in at once, lumps with a chance over {flag.lumps-percent} %, and "
             "half of "
             "that at most if the same acid came slowly",
     .why = "Sudden acid precipitates gum, slow even acid gels it. Acid worked in under the "
            "running blade gives a smooth sheared gel instead (common practice in thick mixes).",
     .source = "draget-handbook",
     .grade = Grade::c,
     .check = check_acid_shock,
     .message = tell_acid_shock,
     .remedy = "a thin stream of 10 % solution under the running blade, or slow acid",
     .turns = less_acid},
    {.name = "lumps",
     .called = "lumps",
     .when = "lumps with a chance over {flag.lumps-percent} %",
     .why = "Clumps, undissolved pieces and curds; their sizes are judgement.",
     .source = "judgement",
     .grade = Grade::c,
     .check = check_lumps,
     .message = tell_lumps,
     .remedy = "spread acid and calcium slowly; test it on the bench first",
     .turns = gentler},
    {.name = "weeps",
     .called = "a gel that weeps",
     .when = "the gel loses liquid with a chance over {flag.weeps-percent} %",
     .why = "Tight networks squeeze water out within hours.",
     .source = "judgement",
     .grade = Grade::c,
     .check = check_weeps,
     .message = tell_weeps,
     .remedy = "test it on the bench first",
     .turns = gentler},
    {.name = "under-heated",
     .called = "gum that was not hot enough",
     .when = "a gum that dissolves hot was heated to less than {flag.hot-enough} degC",
     .why = "LM and HM pectin and low-acyl gellan swell but do not dissolve in cold water, so "
            "they cannot set.",
     .source = "common-practice",
     .grade = Grade::c,
     .check = check_under_heated,
     .message = tell_under_heated,
     .remedy = "heat the gum in the water first, then cool"},
    {.name = "gum-after-sugar",
     .called = "gum after the sugar",
     .when = "gum goes in after more than {flag.gum-after-sugar} % of solids are dissolved",
     .why = "Sugar holds the water the gum needs; it stays as grains.",
     .source = "common-practice",
     .grade = Grade::c,
     .check = check_gum_after_sugar,
     .message = tell_gum_after_sugar,
     .remedy = "hydrate the gum in plain water first"},
    {.name = "gum-clumps",
     .called = "gum that clumps",
     .when = "gum strewn dry, or over {flag.gum-clumps} g per 100 g of water",
     .why = "Grains wet on the outside seal themselves: fish-eyes. Sugar between them keeps them "
            "apart.",
     .source = "common-practice",
     .grade = Grade::c,
     .check = check_gum_clumps,
     .message = tell_gum_clumps,
     .remedy = "pre-blend it with 5 to 10 times its mass of sugar"},
    {.name = "too-little-water",
     .called = "too little water",
     .when = "over {flag.gum-most} g of gum per 100 g of water, or over {flag.solids-most} % of "
             "soluble solids",
     .why = "The gum cannot hydrate or the sugar cannot dissolve.",
     .source = "judgement",
     .grade = Grade::c,
     .check = check_too_little_water,
     .message = tell_too_little_water,
     .remedy = "take less gum and solids",
     .turns = more_water},
    {.name = "thins-in-storage",
     .called = "a gel that thins over days",
     .when = "alginate or pectin below pH {flag.thins-below-ph} that may be kept for more than "
             "{flag.slow-hours} h",
     .why = "Acid slowly cuts the chains; a set gel softens over days, faster when warm.",
     .source = "common-practice",
     .grade = Grade::c,
     .check = check_thins,
     .message = tell_thins,
     .remedy = "eat it within its keeping time"},
    {.name = "may-crystallise",
     .called = "crystals",
     .when =
         "more of a sugar, a polyol or a salt, from all that brings it, than its own solubility "
         "at {flag.crystals-at} degC holds in all the water",
     .why =
         "What does not stay dissolved falls out, at once or after days: gritty, and what is left "
         "is thinner. Beside other sugars still less dissolves.",
     .source = "crc-solubility",
     .grade = Grade::c,
     .check = check_crystals,
     .message = tell_crystals,
     .remedy = "more water, or a part of it as another sugar; keep it warmer only within its hours",
     .turns = more_water},
    {.name = "unproven-with-maltodextrin",
     .called = "a jam made with maltodextrin",
     .when = "sugar-acid pectin gel of over {flag.jam-pa} Pa, with over "
             "{flag.maltodextrin-percent} % of its solids as "
             "maltodextrin",
     .why = "The published windows are for sucrose and glucose syrups.",
     .source = "judgement",
     .grade = Grade::c,
     .check = check_maltodextrin,
     .message = tell_maltodextrin,
     .remedy = "test it on the bench first"},
    {.name = "slow-in-stomach",
     .called = "slow gelling in the stomach",
     .when = "a serving takes over {flag.acid-demand} mmol of acid to reach the "
             "stomach's pH",
     .why = "The stomach has to supply that acid first: gelling is slow or patchy. Acid-reducing "
            "medicine may prevent it.",
     .source = "judgement",
     .grade = Grade::c,
     .check = check_slow_in_stomach,
     .message = tell_slow_in_stomach,
     .remedy = "less buffer (citrate, bicarbonate), or a smaller serving"},
};

}  // namespace

FlagSubject defect_flags() {
  return {records, rows, borrowed};
}

}  // namespace gelwright::detail
