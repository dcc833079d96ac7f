#include <fmt/format.h>

#include <cmath>

#include "base/rounding.hpp"
#include "flags/flag_thresholds.hpp"
#include "gelwright/flag.hpp"
#include "gelwright/serving.hpp"
#include "gelwright/water.hpp"

namespace gelwright {

namespace {

/// "soft set; weeps" in plain words.
std::string outlook_text(const Outlook& outlook) {
  std::string text(to_text(outlook.texture));
  if (outlook.worst_defect) text += fmt::format(", {}", to_text(*outlook.worst_defect));
  return text;
}

std::string name_of(const Flag& flag, const Inputs& inputs) {
  return flag.subject == no_subject ? "water" : inputs.recipe->ingredients[flag.subject].name;
}

std::string calcium_side(bool too_much, Form form) {
  if (too_much)
    return form == Form::drink ? "it gels in the bottle and leaves nothing to set in the stomach"
                               : "it may lump where calcium meets the gum, and weep";
  return form == Form::drink ? "a drink does not need it; check what the limit is for"
                             : "a pouch that sets with calcium stays soft or runny";
}

/// A limit missed by less than the estimate is sure of is not certainly missed.
std::string ph_doubt(const std::array<double, 4>& n) {
  return std::abs(n[0] - n[1]) < n[2] ? fmt::format(" (+- {:.1f}, so not for certain)", n[2]) : "";
}

std::string keeping(double hours) {
  if (hours <= thresholds::keep_low_acid_h) return "eat it the same day";
  return fmt::format("at most {:.0f} {}", hours / 24, hours / 24 == 1 ? "day" : "days");
}

}  // namespace

std::string message_of(const Flag& flag, const Serving& serving, const Inputs& inputs) {
  const auto& n = flag.numbers;
  const Setting& setting = serving.setting;
  switch (flag.id) {
    case FlagId::tap_unknown:
      return "no water report: calcium and alkalinity of the tap count as zero";
    case FlagId::tap_implausible: {
      const std::vector<WaterFinding> odd = plausibility(inputs.recipe->tap->water);
      return "water report: " + describe(odd[flag.subject]);
    }
    case FlagId::calcium_limit_unjudged:
      return "the recipe limits calcium, and no water report gives it";
    case FlagId::calcium_below_limit:
      return fmt::format("calcium of the water is {} mg/L, {} mg/L under the limit of {:g}: {}",
                         significant(n[0], 3), significant(n[1] - n[0], 3), n[1],
                         calcium_side(false, inputs.recipe->form));
    case FlagId::calcium_above_limit:
      return fmt::format("calcium of the water is {} mg/L, {} mg/L over the limit of {:g}: {}",
                         significant(n[0], 3), significant(n[0] - n[1], 3), n[1],
                         calcium_side(true, inputs.recipe->form));
    case FlagId::ph_below_limit:
      return fmt::format("pH {:.1f} is under the recipe's limit of {:g}{}", n[0], n[1],
                         ph_doubt(n));
    case FlagId::ph_above_limit:
      return fmt::format("pH {:.1f} is over the recipe's limit of {:g}{}", n[0], n[1], ph_doubt(n));
    case FlagId::ph_disagrees:
      return fmt::format("measured pH {:.1f}, computed {:.1f}: further apart than {:.1f}", n[0],
                         n[1], n[2]);
    case FlagId::stock_exceeds_water:
      return fmt::format("the stock brings {:.1f} g of water, the serving has {:.1f} g", n[0],
                         n[1]);
    case FlagId::will_not_set:
      return setting.pouch.count == 0 ? "no gum in it: a pouch cannot set"
                                      : fmt::format("the pouch is not expected to set ({})",
                                                    outlook_text(setting.pouch));
    case FlagId::drink_sets_in_bottle:
      return fmt::format("the drink is expected to set before it is drunk ({})",
                         outlook_text(setting.pouch));
    case FlagId::drink_will_not_set_in_stomach:
      return setting.stomach.count == 0
                 ? "no gum in it: it stays liquid in the stomach"
                 : fmt::format("in the stomach it is not expected to set ({})",
                               outlook_text(setting.stomach));
    case FlagId::gum_share_unknown:
      return setting.pouch_low
                 ? fmt::format(
                       "the mix does not declare its gum: from {} to {} over the plausible band",
                       outlook_text(*setting.pouch_low), outlook_text(*setting.pouch_high))
                 : "the mix does not declare its gum: no outlook can be given";
    case FlagId::hard_water:
      return fmt::format(
          "calcium of the water ({} mg/L) fills {:.2f} of the gum (R2) before any acid; "
          "it clears at {} mg/L",
          significant(n[1], 3), n[0], significant(n[2], 2));
    case FlagId::calcium_too_low:
      return fmt::format(
          "too little calcium for the gum: R2 {:.2f} of the {:.1f} it takes to start "
          "(total calcium would be {:.2f})",
          n[0], n[1], n[2]);
    case FlagId::calcium_too_high:
      return fmt::format(
          "too much calcium for the gum: R2 {:.2f}, over {:.1f} it weeps or sets "
          "unevenly",
          n[0], n[1]);
    case FlagId::calcium_shock:
      return fmt::format("soluble calcium all at once with R2 {:.2f}: lumps", n[0]);
    case FlagId::acid_shock:
      return fmt::format(
          "acid poured in at once, to pH {:.1f}: lumps or grit where the gum sits "
          "together",
          n[0]);
    case FlagId::lumps:
    case FlagId::weeps:
      return fmt::format(
          "{}: {}", flag.id == FlagId::lumps ? "lumps expected" : "may weep",
          flag.rule != nullptr && !flag.rule->note.empty() ? flag.rule->note : "see the rule");
    case FlagId::under_heated:
      return n[0] > 0 ? fmt::format("gum heated to {:.0f} degC, it needs {:.0f}", n[0], n[1])
                      : fmt::format("gum not heated: it needs {:.0f} degC to dissolve", n[1]);
    case FlagId::gum_after_sugar:
      return fmt::format("gum goes in after the sugar, into {:.0f} % of solids", n[0]);
    case FlagId::gum_clumps:
      return fmt::format("{:.1f} g of gum per 100 g of water clumps easily", n[0]);
    case FlagId::too_little_water:
      return fmt::format("{:.1f} g of gum per 100 g of water and {:.0f} % solids: too little water",
                         n[0], n[1]);
    case FlagId::thins_in_storage:
      return fmt::format("at pH {:.1f} the gel thins over days", n[0]);
    case FlagId::unproven_with_maltodextrin:
      return fmt::format("{:.0f} % of the solids are maltodextrin: unproven for a sugar-acid gel",
                         n[0]);
    case FlagId::slow_in_stomach:
      return fmt::format("a serving takes {:.1f} mmol of stomach acid: slow or patchy gel", n[0]);
    case FlagId::buffer_unknown:
      return fmt::format("the mix does not declare its acids and salts: pH only within {:.1f}",
                         n[0]);
    case FlagId::ionic_strength_high:
      return fmt::format("ionic strength {:.2f} mol/kg: pH less certain", n[0]);
    case FlagId::outside_model:
      return fmt::format(
          "ionic strength {:.2f} mol/kg, food acid {:.2f} mol/kg: outside the model's "
          "range",
          n[0], n[1]);
    case FlagId::citrate_may_precipitate:
      return fmt::format("calcium citrate is supersaturated ({:+.1f}) and may turn sandy over days",
                         n[0]);
    case FlagId::carbonate_may_precipitate:
      return fmt::format("calcium carbonate is supersaturated ({:+.1f})", n[0]);
    case FlagId::calcium_undissolved:
      return fmt::format(
          "{} mmol/kg of the calcium salt stays undissolved until more acid reaches it",
          significant(n[0], 2));
    case FlagId::cannot_weigh:
      return fmt::format(
          "{} g of {} cannot be weighed on these scales: {} % error against "
          "{:g} % allowed",
          significant(n[0], 2), name_of(flag, inputs), significant(n[1], 2),
          inputs.recipe->batch.dose_tolerance_percent);
    case FlagId::dosed_from_stock:
      return fmt::format("{} cannot be weighed neat: use {} g of a {:.0f} % stock",
                         name_of(flag, inputs), significant(n[1], 3), n[0]);
    case FlagId::vessel_too_small:
      return fmt::format("the batch needs {:.0f} mL with headroom, the vessel holds {:.0f}", n[0],
                         n[1]);
    case FlagId::keep_cold:
      return fmt::format("perishable (water activity {:.2f}): chill, {}", n[1], keeping(n[0]));
    case FlagId::acidity_not_proven:
      if (n[1] > 0) return fmt::format("pH {:.1f} by strips: over 4.0 they prove nothing", n[0]);
      return n[0] > thresholds::acidified_food_ph
                 ? fmt::format("pH {:.1f} is over 4.6: not an acidified food", n[0])
                 : "the pH is computed, not measured";
    case FlagId::choking:
      return "a firm set is a choking hazard";
    case FlagId::teeth:
      return fmt::format("pH {:.1f} softens tooth enamel", n[0]);
    case FlagId::too_sour:
      return fmt::format("pH {:.1f} is sour enough to hurt", n[0]);
    case FlagId::sodium_load:
      return fmt::format("{:.0f} mg of sodium in one serving", n[0]);
    case FlagId::caffeine_single:
      return fmt::format("{:.0f} mg of caffeine in one serving, over 200 mg", n[0]);
    case FlagId::caffeine_day:
      return fmt::format(
          "{:.0f} mg of caffeine in the batch, over 400 mg if one person eats it in a day", n[0]);
    case FlagId::fructose:
      return fmt::format("{:.0f} g of fructose in a serving with only {:.0f} g of glucose", n[0],
                         n[1]);
    case FlagId::gum_load:
      return fmt::format("{:.1f} g of gum in the batch, over 15 g if one person eats it in a day",
                         n[0]);
    case FlagId::allergen_unstated:
      return fmt::format("{} states no allergens", name_of(flag, inputs));
    case FlagId::allergen:
      return fmt::format("{} holds or carries what this recipe is to avoid", name_of(flag, inputs));
  }
  return "";
}

std::string remedy_of(const Flag& flag, const Serving&, const Inputs& inputs) {
  const auto& n = flag.numbers;
  switch (flag.id) {
    case FlagId::tap_unknown:
      return "take calcium and alkalinity from the supplier's report";
    case FlagId::tap_implausible:
      return "check units and figures against the report";
    case FlagId::calcium_limit_unjudged:
      return "take calcium from the supplier's report";
    case FlagId::calcium_below_limit:
      return inputs.recipe->form == Form::drink ? ""
                                                : "add a calcium salt: `gelwright dose --to-ratio`";
    case FlagId::calcium_above_limit:
      return "blend with low-mineral water: `gelwright water --bring-calcium-to`";
    case FlagId::ph_below_limit:
      return "`gelwright dose --to-ph` finds the dose";
    case FlagId::ph_above_limit:
      return "`gelwright dose --to-ph` finds the dose";
    case FlagId::ph_disagrees:
      return "calibrate and read again; `gelwright fit` finds what is undeclared";
    case FlagId::stock_exceeds_water:
      return "make the stock stronger, or weigh the dose neat";
    case FlagId::will_not_set:
    case FlagId::drink_sets_in_bottle:
    case FlagId::drink_will_not_set_in_stomach:
      return "test it on the bench first";
    case FlagId::gum_share_unknown:
      return "set one bench cup, or ask the maker";
    case FlagId::hard_water:
      return "blend it down: `gelwright water --bring-calcium-to`";
    case FlagId::calcium_too_low:
      return "less citrate, or `gelwright dose --to-ratio`";
    case FlagId::calcium_too_high:
      return "more gum, or `gelwright dose --to-ratio`";
    case FlagId::calcium_shock:
      return "use a slow salt, or drip a weak solution in";
    case FlagId::acid_shock:
      return "thin stream of 10 % stock under the running blade, or slow acid";
    case FlagId::lumps:
      return "spread acid and calcium slowly; test it on the bench first";
    case FlagId::weeps:
      return "test it on the bench first";
    case FlagId::under_heated:
      return "heat the gum in the water first, then cool";
    case FlagId::gum_after_sugar:
      return "hydrate the gum in plain water first";
    case FlagId::gum_clumps:
      return "pre-blend it with 5 to 10 times its mass of sugar";
    case FlagId::too_little_water:
      return "take less gum and solids";
    case FlagId::thins_in_storage:
      return "eat it within its keeping time";
    case FlagId::unproven_with_maltodextrin:
      return "test it on the bench first";
    case FlagId::slow_in_stomach:
      return "less buffer (citrate, bicarbonate), or a smaller serving";
    case FlagId::buffer_unknown:
      return "measure: `gelwright ladder`, then `gelwright fit`";
    case FlagId::ionic_strength_high:
    case FlagId::outside_model:
      return "measure the pH if it matters";
    case FlagId::citrate_may_precipitate:
      return "eat it fresh";
    case FlagId::carbonate_may_precipitate:
      return "add the acid earlier";
    case FlagId::calcium_undissolved:
      return inputs.recipe->form == Form::drink ? "shake before drinking"
                                                : "more acid, or a salt that dissolves";
    case FlagId::cannot_weigh:
      return fmt::format("use a scale of {} g or finer, or make at least {:.0f} servings",
                         significant(n[2], 1), n[3]);
    case FlagId::dosed_from_stock:
      return fmt::format("make at least {} g of it, so that the stock itself is right",
                         significant(n[2], 3));
    case FlagId::vessel_too_small:
      return "make fewer servings, or take a bigger vessel";
    case FlagId::keep_cold:
      return "5 degC or colder; discard leftovers";
    case FlagId::acidity_not_proven:
      if (n[1] > 0) return "read it with a meter";
      return n[0] > thresholds::acidified_food_ph ? "treat it as fresh food"
                                                  : "measure it: meter, or strips up to 4.0";
    case FlagId::choking:
      return "never as cup or mould; not for small children";
    case FlagId::teeth:
      return "rinse with water";
    case FlagId::too_sour:
      return "less acid, or a little citrate; `gelwright dose --to-ph`";
    case FlagId::sodium_load:
      return "check the decimal; ask a doctor before taking that much";
    case FlagId::caffeine_single:
    case FlagId::caffeine_day:
      return "take less; ask a doctor if in doubt";
    case FlagId::fructose:
      return "match fructose with as much glucose or maltodextrin";
    case FlagId::gum_load:
      return "spread it over days, drink water";
    case FlagId::allergen_unstated:
      return "read its pack, and list what it says under \"allergens\"";
    case FlagId::allergen:
      return "replace it";
  }
  return "";
}

}  // namespace gelwright
