#include "gelwright/flag.hpp"

namespace gelwright {

namespace {

constexpr FlagInfo catalogue[] = {
    {FlagId::tap_unknown, "tap-unknown", "the recipe has no water report",
     "Tap water brings calcium, which sets or spoils gum, and alkalinity, which eats acid. Without "
     "a "
     "report both count as zero.",
     "common-practice", Grade::c},
    {FlagId::tap_implausible, "tap-implausible", "the water report does not add up",
     "Positive and negative ions of a good report balance within a tenth, and calcium cannot "
     "exceed "
     "the total hardness.",
     "sm-1030e", Grade::b},
    {FlagId::calcium_limit_unjudged, "calcium-limit-unjudged",
     "the recipe limits the water's calcium and no report gives it",
     "A limit that cannot be checked protects nobody.", "common-practice", Grade::c},
    {FlagId::calcium_below_limit, "calcium-below-limit",
     "calcium of the water as used is under the recipe's `at_least`",
     "A pouch that leans on calcium to set stays soft or runny with too little. A drink does not "
     "need "
     "calcium from the water.",
     "common-practice", Grade::c},
    {FlagId::calcium_above_limit, "calcium-above-limit",
     "calcium of the water as used is over the recipe's `at_most`",
     "Calcium meets the gum before any acid does. In a drink it gels or ties up the gum in the "
     "bottle, "
     "and less is left to set in the stomach; a pouch may lump and weep. Packets of drink gum "
     "often "
     "give 40 mg/L as the limit.",
     "common-practice", Grade::c},
    {FlagId::ph_below_limit, "ph-below-limit", "pH is under the recipe's `at_least`",
     "More acid than the recipe wants: acid-set gels turn crumbly, teeth and stomach notice.",
     "common-practice", Grade::c},
    {FlagId::ph_above_limit, "ph-above-limit", "pH is over the recipe's `at_most`",
     "Less acid than the recipe wants: an acid-set gel stays runny and keeps badly.",
     "common-practice", Grade::c},
    {FlagId::ph_disagrees, "ph-disagrees",
     "the measured pH and the computed one differ by more than both allow",
     "Something in the recipe is not as stated, or the reading is off. The sheet goes by the "
     "reading; "
     "doses computed for another pH do not.",
     "judgement", Grade::b},
    {FlagId::stock_exceeds_water, "stock-exceeds-water",
     "the stock solution alone brings more water than the serving has",
     "The sum of waters would be wrong from the start.", "common-practice", Grade::a},
    {FlagId::will_not_set, "will-not-set", "a pouch whose likely texture does not keep its shape",
     "None of the ways this gum can set is far enough along. `explain` shows the rule of the route "
     "that came closest.",
     "judgement", Grade::c},
    {FlagId::drink_sets_in_bottle, "drink-sets-in-bottle",
     "a drink whose likely texture keeps its shape before it is drunk",
     "What has set in the bottle cannot be drunk and does not set again in the stomach.",
     "judgement", Grade::c},
    {FlagId::drink_will_not_set_in_stomach, "drink-will-not-set-in-stomach",
     "a drink that stays liquid at the pH of the stomach in the standard test",
     "Too little gum after dilution, or calcium has used it up. Most small trials found no gain "
     "from "
     "such gels over the same sugars without gum, so little may be lost.",
     "brodkorb-2019", Grade::c},
    {FlagId::gum_share_unknown, "gum-share-unknown",
     "a bought mix does not say how much gum it holds",
     "Outlooks are given for both ends of the plausible band; a bench cup tells which is true.",
     "judgement", Grade::c},
    {FlagId::hard_water, "hard-water",
     "a drink in which calcium of water and solids fills more than 0.2 (care) or 0.4 (stop) of the "
     "gum's carboxylate",
     "R2 = 2 [Ca] / [COO-]. Dilute gum is used up by calcium a thick gel would not notice.",
     "judgement", Grade::c},
    {FlagId::calcium_too_low, "calcium-too-low",
     "a pouch meant to set with calcium has R2 under 0.2",
     "Too few bridges between chains. Citrate hides calcium: most of it above pH 4.2.", "fang-2007",
     Grade::b},
    {FlagId::calcium_too_high, "calcium-too-high", "R2 is over 1.1 (alginate) or 0.8 (LM pectin)",
     "An over-saturated gel contracts and weeps, or does not set evenly at all.", "lofgren-2007",
     Grade::b},
    {FlagId::calcium_shock, "calcium-shock",
     "a soluble calcium salt added at once with R2 over 0.3",
     "Gum sets around the grains before they spread: lumps in a thin liquid.", "judgement",
     Grade::b},
    {FlagId::acid_shock, "acid-shock",
     "acid poured in at once where the set rules say it lumps or grits",
     "Sudden acid precipitates gum, slow even acid gels it. Acid worked in under the running blade "
     "gives a smooth sheared gel instead (common practice in thick mixes).",
     "draget-handbook", Grade::b},
    {FlagId::lumps, "lumps", "a set rule predicts lumps", "See the rule that fired.", "judgement",
     Grade::c},
    {FlagId::weeps, "weeps", "a set rule predicts that the gel loses liquid",
     "Tight networks squeeze water out within hours.", "judgement", Grade::c},
    {FlagId::under_heated, "under-heated", "a gum that dissolves hot was not heated enough",
     "LM and HM pectin and low-acyl gellan swell but do not dissolve in cold water, so they cannot "
     "set.",
     "common-practice", Grade::b},
    {FlagId::gum_after_sugar, "gum-after-sugar",
     "gum goes in after more than 30 % of solids are dissolved",
     "Sugar holds the water the gum needs; it stays as grains.", "common-practice", Grade::b},
    {FlagId::gum_clumps, "gum-clumps", "gum strewn dry, or over 1 g per 100 g of water",
     "Grains wet on the outside seal themselves: fish-eyes. Sugar between them keeps them apart.",
     "common-practice", Grade::b},
    {FlagId::too_little_water, "too-little-water",
     "over 4 g of gum per 100 g of water, or over 75 % of soluble solids",
     "The gum cannot hydrate or the sugar cannot dissolve.", "judgement", Grade::c},
    {FlagId::thins_in_storage, "thins-in-storage", "alginate or pectin below pH 4",
     "Acid slowly cuts the chains; a set gel softens over days, faster when warm.",
     "common-practice", Grade::b},
    {FlagId::unproven_with_maltodextrin, "unproven-with-maltodextrin",
     "sugar-acid pectin gel with over 40 % of its solids as maltodextrin",
     "The published windows are for sucrose and glucose syrups.", "judgement", Grade::c},
    {FlagId::slow_in_stomach, "slow-in-stomach",
     "a serving takes over 2 mmol of acid to reach the stomach's pH",
     "The stomach has to supply that acid first: gelling is slow or patchy. Acid-reducing medicine "
     "may "
     "prevent it.",
     "judgement", Grade::c},
    {FlagId::buffer_unknown, "buffer-unknown",
     "a bought mix does not declare its acids, salts and gum",
     "Undeclared citrate or bicarbonate moves the pH more than any other error. A few bench cups "
     "and "
     "`fit` settle it.",
     "judgement", Grade::c},
    {FlagId::ionic_strength_high, "ionic-strength-high", "ionic strength over 0.1 mol/kg",
     "Activity coefficients become less certain.", "davies-1962", Grade::b},
    {FlagId::outside_model, "outside-model",
     "ionic strength over 0.5 mol/kg or over 1 mol/kg of food acid",
     "Outside the range of the activity model: treat the pH as a rough guide.", "davies-1962",
     Grade::c},
    {FlagId::citrate_may_precipitate, "citrate-may-precipitate",
     "tricalcium citrate is supersaturated",
     "It forms slowly, over hours to days: sandy grains, and calcium goes missing. Not a "
     "certainty.",
     "ciavatta-2001", Grade::b},
    {FlagId::carbonate_may_precipitate, "carbonate-may-precipitate", "calcite is supersaturated",
     "Chalk may settle, as in a kettle.", "nist-srd46", Grade::b},
    {FlagId::calcium_undissolved, "calcium-undissolved",
     "the water phase is saturated with the calcium salt before all of it has dissolved",
     "Carbonate, phosphate and citrate of calcium dissolve only as acid reaches them, sulfate a "
     "little. What stays "
     "solid "
     "sets nothing before it is eaten; the stomach's acid sets it free.",
     "nist-srd46", Grade::b},
    {FlagId::cannot_weigh, "cannot-weigh",
     "no scale of the recipe weighs a line within its tolerance",
     "A line clears if 2 u and the rounding fit the tolerance, u from the scale's repeatability "
     "and "
     "readability.",
     "usp-41", Grade::a},
    {FlagId::dosed_from_stock, "dosed-from-stock",
     "the plan doses from a stock solution because the neat dose cannot be weighed",
     "A heavier amount of a weak solution carries a smaller relative error.", "common-practice",
     Grade::a},
    {FlagId::vessel_too_small, "vessel-too-small", "volume with headroom exceeds `vessel_ml`",
     "A blended gel holds foam.", "common-practice", Grade::b},
    {FlagId::keep_cold, "keep-cold", "always",
     "Sugar at this strength does not preserve it, and a computed water activity proves nothing. "
     "Keep at 5 degC or colder and for no longer than "
     "stated; carried warm: eat within one outing, at most 4 h at pH 4.0 or below, else 2 h (1 h "
     "above "
     "32 degC); discard leftovers. Local food-safety codes and the label come first. A pH that was "
     "computed, not measured, never earns the long time.",
     "cfr-21-114", Grade::c},
    {FlagId::acidity_not_proven, "acidity-not-proven", "pH was not measured, or is over 4.6",
     "Over pH 4.6 a food does not count as acidified. With strips the limit to rely on is 4.0; "
     "above "
     "it use a meter.",
     "cfr-21-114", Grade::a},
    {FlagId::choking, "choking", "the likely texture is a firm or hard set",
     "Never make cup or mould servings that are sucked out whole. Not for small children or anyone "
     "who "
     "has difficulty swallowing. Bite, chew, drink.",
     "efsa-2004-minicups", Grade::a},
    {FlagId::teeth, "teeth", "pH below 4",
     "Acid softens enamel; rinse with water, wait before brushing.", "common-practice", Grade::b},
    {FlagId::too_sour, "too-sour", "pH below 2.5",
     "Sourer than any drink sold: it can hurt mouth, gullet and stomach.", "judgement", Grade::c},
    {FlagId::sodium_load, "sodium-load", "over 1000 mg of sodium in a serving",
     "Half of the 2 g a day an adult should stay under. Sweat losses differ widely between people.",
     "who-sodium", Grade::b},
    {FlagId::caffeine_single, "caffeine-single", "over 200 mg of caffeine in a serving",
     "Over the amount of a single dose that raises no concern for healthy adults.",
     "efsa-2015-caffeine", Grade::a},
    {FlagId::caffeine_day, "caffeine-day", "over 400 mg of caffeine in the batch",
     "The day's amount for healthy adults is 400 mg, in pregnancy 200 mg, from all sources.",
     "efsa-2015-caffeine", Grade::a},
    {FlagId::fructose, "fructose", "over 25 g of fructose in a serving, not matched by glucose",
     "Fructose alone is poorly absorbed: gut trouble. Never with hereditary fructose intolerance.",
     "judgement", Grade::b},
    {FlagId::gum_load, "gum-load", "over 15 g of gum in the batch",
     "If one person eats it within a day: bulk in the gut. Drink water with it.", "judgement",
     Grade::c},
    {FlagId::allergen_unstated, "allergen-unstated",
     "the recipe names something to avoid, and a bought ingredient states no allergens",
     "This program knows only what the recipe copies from the pack.", "common-practice", Grade::a},
    {FlagId::allergen, "allergen",
     "an ingredient, a part of it or its stated allergens match what the recipe is to avoid",
     "As printed on the pack; traces are not known to this program.", "common-practice", Grade::a},
};
static_assert(std::size(catalogue) == flag_count);

}  // namespace

std::span<const FlagInfo> flag_catalogue() {
  return catalogue;
}

const FlagInfo& info_of(FlagId id) {
  return catalogue[static_cast<std::size_t>(id)];
}

}  // namespace gelwright
