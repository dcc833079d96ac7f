// Every flag, raised by a small recipe of its own, with its whole message and remedy.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>
#include <set>
#include <string>
#include <utility>
#include <vector>

#include "catch.hpp"
#include "gelwright/evaluate.hpp"
#include "gelwright/flag.hpp"
#include "gelwright/keeping.hpp"
#include "gelwright/sheet.hpp"
#include "recipes.hpp"

using namespace gelwright;

namespace {

struct Case {
  const char* flag;
  const char* form;
  const char* members;
  Level level;
  const char* message;
};

const Case cases[] = {
    {"tap-unknown", "pouch",
     R"("solids": [{"ingredient": "maltodextrin DE 18", "mass_g": 30}, {"ingredient": "sodium alginate", "mass_g": 0.4}],
        "water": {"mass_g": 50})",
     Level::care, "no water report: calcium and alkalinity of the tap count as zero"},
    {"tap-implausible", "pouch",
     R"("solids": [{"ingredient": "maltodextrin DE 18", "mass_g": 30}, {"ingredient": "sodium alginate", "mass_g": 0.4}],
        "water": {"mass_g": 50},
        "tap": {"calcium_mg_per_l": 40, "magnesium_mg_per_l": 20, "hardness_mmol_per_l": 1.1, "alkalinity_meq_per_l": 1, "sodium_mg_per_l": 5})",
     Level::care,
     "water report: total hardness (1.10 mmol/L) is not calcium plus magnesium (1.82 mmol/L)"},
    {"calcium-below-limit", "pouch",
     R"("solids": [{"ingredient": "maltodextrin DE 18", "mass_g": 30}, {"ingredient": "sodium alginate", "mass_g": 0.4}],
        "water": {"mass_g": 50},
        "tap": {"calcium_mg_per_l": 10, "magnesium_mg_per_l": 1, "alkalinity_meq_per_l": 0.5},
        "limits": {"calcium_mg_per_l": {"at_least": 40}})",
     Level::care,
     "calcium of the water is 10.0 mg/L, 30.0 mg/L under the limit of 40. A pouch that sets with "
     "calcium stays soft or runny"},
    {"calcium-above-limit", "drink",
     R"("solids": [{"ingredient": "maltodextrin DE 18", "mass_g": 30}, {"ingredient": "sodium alginate", "mass_g": 0.4}],
        "water": {"mass_g": 400},
        "tap": {"calcium_mg_per_l": 52, "magnesium_mg_per_l": 1, "alkalinity_meq_per_l": 2},
        "limits": {"calcium_mg_per_l": {"at_most": 40}})",
     Level::stop,
     "calcium of the water is 52.0 mg/L, 12.0 mg/L over the limit of 40. It gels in the bottle, "
     "not "
     "in the stomach"},
    {"ph-below-limit", "pouch",
     R"("solids": [{"ingredient": "maltodextrin DE 18", "mass_g": 30}, {"ingredient": "sodium alginate", "mass_g": 0.4}],
        "water": {"mass_g": 50},
        "tap": {"calcium_mg_per_l": 10, "magnesium_mg_per_l": 1, "alkalinity_meq_per_l": 0.5},
        "acid": {"ingredient": "citric acid anhydrous", "mass_g": 1},
        "limits": {"ph": {"at_least": 3.5}})",
     Level::care, "pH 2.7 is under the recipe's limit of 3.5"},
    {"ph-above-limit", "pouch",
     R"("solids": [{"ingredient": "maltodextrin DE 18", "mass_g": 30}, {"ingredient": "sodium alginate", "mass_g": 0.4}],
        "water": {"mass_g": 50},
        "tap": {"calcium_mg_per_l": 10, "magnesium_mg_per_l": 1, "alkalinity_meq_per_l": 0.5},
        "acid": {"ingredient": "citric acid anhydrous", "mass_g": 0.014},
        "limits": {"ph": {"at_most": 4.5}})",
     Level::care, "pH 4.8 is over the recipe's limit of 4.5 (+- 0.3, so not for certain)"},
    {"will-not-set", "pouch",
     R"("solids": [{"ingredient": "maltodextrin DE 18", "mass_g": 30}, {"ingredient": "xanthan", "mass_g": 0.2}],
        "water": {"mass_g": 50},
        "tap": {"calcium_mg_per_l": 10, "magnesium_mg_per_l": 1, "alkalinity_meq_per_l": 0.5})",
     Level::care, "its gum thickens and never sets: a pouch needs one that does"},
    {"drink-sets-in-bottle", "drink",
     R"("solids": [{"ingredient": "maltodextrin DE 18", "mass_g": 30}, {"ingredient": "low-acyl gellan", "mass_g": 0.5}],
        "water": {"mass_g": 100},
        "tap": {"calcium_mg_per_l": 80, "magnesium_mg_per_l": 1, "alkalinity_meq_per_l": 2},
        "process": {"heated_to_c": 90})",
     Level::care,
     "the drink sets before it is drunk with a chance of more than 99 in 100 (firm set 72 %)"},
    {"drink-will-not-set-in-stomach", "drink",
     R"("solids": [{"ingredient": "maltodextrin DE 18", "mass_g": 30}, {"ingredient": "sodium alginate", "mass_g": 0.05}],
        "water": {"mass_g": 400},
        "tap": {"calcium_mg_per_l": 10, "magnesium_mg_per_l": 1, "alkalinity_meq_per_l": 0.5})",
     Level::care, "it sets in the stomach with a chance of less than 1 in 100"},
    {"outside-gel-model", "pouch",
     R"("solids": [{"ingredient": "maltodextrin DE 18", "mass_g": 90}, {"ingredient": "sodium alginate", "mass_g": 0.4}],
        "water": {"mass_g": 15},
        "tap": {"calcium_mg_per_l": 10, "magnesium_mg_per_l": 1, "alkalinity_meq_per_l": 0.5})",
     Level::care,
     "dissolved solids is 81.5 %, the gel model knows 0 to 78: whether it sets is not foretold"},
    {"gum-share-unknown", "pouch",
     R"("define": {"mix": {"kind": "mix", "label": {"per_g": 100, "carbohydrate_g": 95}, "undeclared_gum": {"ingredient": "sodium alginate", "fraction_at_least": 0.001, "fraction_at_most": 0.02}}},
        "solids": [{"ingredient": "mix", "mass_g": 60}],
        "acid": {"ingredient": "citric acid anhydrous", "mass_g": 0.3},
        "water": {"mass_g": 50},
        "tap": {"calcium_mg_per_l": 10, "magnesium_mg_per_l": 1, "alkalinity_meq_per_l": 0.5})",
     Level::care,
     "the mix does not declare its gum: with the least it may hold bits in a liquid 82 %, with the "
     "most soft set 42 %, bits in a liquid 20 %"},
    {"hard-water", "drink",
     R"("solids": [{"ingredient": "maltodextrin DE 18", "mass_g": 30}, {"ingredient": "sodium alginate", "mass_g": 0.8}],
        "water": {"mass_g": 450},
        "tap": {"calcium_mg_per_l": 60, "magnesium_mg_per_l": 1, "alkalinity_meq_per_l": 2})",
     Level::care,
     "calcium of the water (60.0 mg/L) fills 0.37 of what the gum can bind. It clears at 32 mg/L"},
    {"calcium-too-low", "pouch",
     R"("solids": [{"ingredient": "maltodextrin DE 18", "mass_g": 30}, {"ingredient": "LM pectin", "mass_g": 0.6}],
        "water": {"mass_g": 50},
        "tap": {"calcium_mg_per_l": 10, "magnesium_mg_per_l": 1, "alkalinity_meq_per_l": 0.5},
        "process": {"heated_to_c": 90})",
     Level::care,
     "too little calcium for the gum: R2 0.02 of the 0.2 it takes to start (total calcium would be "
     "0.02)"},
    {"calcium-too-high", "pouch",
     R"("solids": [{"ingredient": "maltodextrin DE 18", "mass_g": 30}, {"ingredient": "LM pectin", "mass_g": 0.6}],
        "water": {"mass_g": 50},
        "tap": {"calcium_mg_per_l": 10, "magnesium_mg_per_l": 1, "alkalinity_meq_per_l": 0.5},
        "process": {"heated_to_c": 90},
        "calcium": {"ingredient": "calcium lactate pentahydrate", "target_ratio": 1.0, "gum": "LM pectin", "when": "slow"})",
     Level::care, "too much calcium for the gum: R2 1.00, over 0.8 it weeps or sets unevenly"},
    {"calcium-shock", "pouch",
     R"("solids": [{"ingredient": "maltodextrin DE 18", "mass_g": 30}, {"ingredient": "sodium alginate", "mass_g": 0.4}],
        "water": {"mass_g": 50},
        "tap": {"calcium_mg_per_l": 10, "magnesium_mg_per_l": 1, "alkalinity_meq_per_l": 0.5},
        "calcium": {"ingredient": "calcium chloride dihydrate", "target_ratio": 0.5, "when": "fast"})",
     Level::care, "soluble calcium all at once with R2 0.50: lumps"},
    {"acid-shock", "pouch",
     R"("solids": [{"ingredient": "maltodextrin DE 18", "mass_g": 30}, {"ingredient": "sodium alginate", "mass_g": 0.4}],
        "water": {"mass_g": 50},
        "tap": {"calcium_mg_per_l": 10, "magnesium_mg_per_l": 1, "alkalinity_meq_per_l": 0.5},
        "acid": {"ingredient": "citric acid anhydrous", "mass_g": 0.2})",
     Level::care, "acid poured in at once, to pH 3.6: lumps with a chance of 72 in 100"},
    {"lumps", "pouch",
     R"("solids": [{"ingredient": "maltodextrin DE 18", "mass_g": 30}, {"ingredient": "sodium alginate", "mass_g": 0.4}],
        "water": {"mass_g": 50},
        "tap": {"calcium_mg_per_l": 150, "magnesium_mg_per_l": 5, "alkalinity_meq_per_l": 4},
        "process": {"gum_dispersed": "dry"})",
     Level::care,
     "lumps with a chance of 62 in 100: gum that clumps, does not dissolve in the water it meets, "
     "or sets before it has spread"},
    {"weeps", "pouch",
     R"("solids": [{"ingredient": "maltodextrin DE 18", "mass_g": 30}, {"ingredient": "sodium alginate", "mass_g": 0.6}],
        "water": {"mass_g": 50},
        "tap": {"calcium_mg_per_l": 10, "magnesium_mg_per_l": 1, "alkalinity_meq_per_l": 0.5},
        "acid": {"ingredient": "citric acid anhydrous", "mass_g": 2},
        "process": {"acid_added": "under_blade"})",
     Level::care, "it weeps with a chance of 50 in 100: the gel draws together and lets liquid go"},
    {"under-heated", "pouch",
     R"("solids": [{"ingredient": "maltodextrin DE 18", "mass_g": 30}, {"ingredient": "low-acyl gellan", "mass_g": 0.2}],
        "water": {"mass_g": 50},
        "tap": {"calcium_mg_per_l": 10, "magnesium_mg_per_l": 1, "alkalinity_meq_per_l": 0.5})",
     Level::care, "gum not heated: it needs 85 degC to dissolve"},
    {"gum-after-sugar", "pouch",
     R"("solids": [{"ingredient": "maltodextrin DE 18", "mass_g": 30}, {"ingredient": "sodium alginate", "mass_g": 0.4}],
        "water": {"mass_g": 50},
        "tap": {"calcium_mg_per_l": 10, "magnesium_mg_per_l": 1, "alkalinity_meq_per_l": 0.5},
        "process": {"gum_before_sugar": false})",
     Level::care, "gum goes in after the sugar, into 36 % of solids"},
    {"gum-clumps", "pouch",
     R"("solids": [{"ingredient": "maltodextrin DE 18", "mass_g": 30}, {"ingredient": "sodium alginate", "mass_g": 0.4}],
        "water": {"mass_g": 50},
        "tap": {"calcium_mg_per_l": 10, "magnesium_mg_per_l": 1, "alkalinity_meq_per_l": 0.5},
        "process": {"gum_dispersed": "dry"})",
     Level::care, "0.8 g of gum per 100 g of water clumps easily"},
    {"too-little-water", "pouch",
     R"("solids": [{"ingredient": "maltodextrin DE 18", "mass_g": 30}, {"ingredient": "sodium alginate", "mass_g": 1.5}],
        "water": {"mass_g": 20},
        "tap": {"calcium_mg_per_l": 10, "magnesium_mg_per_l": 1, "alkalinity_meq_per_l": 0.5})",
     Level::care, "6.9 g of gum per 100 g of water and 58 % solids: too little water"},
    {"thins-in-storage", "pouch",
     R"("solids": [{"ingredient": "maltodextrin DE 18", "mass_g": 30}, {"ingredient": "sodium alginate", "mass_g": 0.4}],
        "water": {"mass_g": 50},
        "tap": {"calcium_mg_per_l": 10, "magnesium_mg_per_l": 1, "alkalinity_meq_per_l": 0.5},
        "acid": {"ingredient": "citric acid anhydrous", "mass_g": 0.3},
        "process": {"acid_added": "under_blade", "measured_ph": 3.5})",
     Level::note, "at pH 3.4 the gel thins over days"},
    {"unproven-with-maltodextrin", "pouch",
     R"("solids": [{"ingredient": "maltodextrin DE 18", "mass_g": 40}, {"ingredient": "sucrose", "mass_g": 26}, {"ingredient": "HM pectin", "mass_g": 0.4}],
        "water": {"mass_g": 33},
        "tap": {"calcium_mg_per_l": 10, "magnesium_mg_per_l": 1, "alkalinity_meq_per_l": 0.5},
        "acid": {"ingredient": "citric acid anhydrous", "mass_g": 0.1},
        "process": {"heated_to_c": 95})",
     Level::care, "59 % of the solids are maltodextrin: unproven for a sugar-acid gel"},
    {"slow-in-stomach", "drink",
     R"("solids": [{"ingredient": "maltodextrin DE 18", "mass_g": 30}, {"ingredient": "sodium alginate", "mass_g": 0.4}, {"ingredient": "trisodium citrate dihydrate", "mass_g": 1}],
        "water": {"mass_g": 300},
        "tap": {"calcium_mg_per_l": 10, "magnesium_mg_per_l": 1, "alkalinity_meq_per_l": 0.5})",
     Level::care, "a serving takes 10.5 mmol of stomach acid: slow or patchy gel"},
    {"buffer-unknown", "pouch",
     R"("define": {"mix": {"kind": "mix", "label": {"per_g": 100, "carbohydrate_g": 95}}},
        "solids": [{"ingredient": "mix", "mass_g": 60}],
        "water": {"mass_g": 50},
        "tap": {"calcium_mg_per_l": 10, "magnesium_mg_per_l": 1, "alkalinity_meq_per_l": 0.5})",
     Level::care, "the mix does not declare its acids and salts: pH only within 2.0"},
    {"buffer-unknown", "pouch",
     R"("define": {"syrup": {"kind": "syrup", "water_fraction": 0.2, "label": {"per_g": 100, "carbohydrate_g": 79, "sugars_g": 40, "sodium_mg": 300}}},
        "solids": [{"ingredient": "syrup", "mass_g": 60}],
        "water": {"mass_g": 50}, "acid": {"ingredient": "citric acid anhydrous", "mass_g": 0.5},
        "tap": {"calcium_mg_per_l": 10, "magnesium_mg_per_l": 1, "alkalinity_meq_per_l": 0.5})",
     Level::care,
     "a label does not say what salt its sodium is. By its sodium the pH is 2.3 for chloride (60 "
     "in 100), 4.4 for citrate (30), 5.6 for bicarbonate (10). Each is within 0.2: 2.1 to 5.9 in "
     "all"},
    {"ionic-strength-high", "pouch",
     R"("solids": [{"ingredient": "maltodextrin DE 18", "mass_g": 30}, {"ingredient": "sodium alginate", "mass_g": 0.4}, {"ingredient": "sodium chloride", "mass_g": 0.5}],
        "water": {"mass_g": 50},
        "tap": {"calcium_mg_per_l": 10, "magnesium_mg_per_l": 1, "alkalinity_meq_per_l": 0.5})",
     Level::note, "ionic strength 0.20 mol/kg: pH less certain"},
    {"outside-model", "pouch",
     R"("solids": [{"ingredient": "maltodextrin DE 18", "mass_g": 30}, {"ingredient": "sodium alginate", "mass_g": 0.4}],
        "water": {"mass_g": 50},
        "tap": {"calcium_mg_per_l": 10, "magnesium_mg_per_l": 1, "alkalinity_meq_per_l": 0.5},
        "acid": {"ingredient": "citric acid anhydrous", "mass_g": 12})",
     Level::care, "ionic strength 0.06 mol/kg, food acid 1.21 mol/kg: outside the model's range"},
    {"citrate-may-precipitate", "pouch",
     R"("solids": [{"ingredient": "maltodextrin DE 18", "mass_g": 30}, {"ingredient": "sodium alginate", "mass_g": 0.4}, {"ingredient": "trisodium citrate dihydrate", "mass_g": 1.0}],
        "water": {"mass_g": 50},
        "tap": {"calcium_mg_per_l": 10, "magnesium_mg_per_l": 1, "alkalinity_meq_per_l": 0.5},
        "calcium": {"ingredient": "calcium lactate pentahydrate", "mass_g": 0.6, "when": "slow"})",
     Level::note, "calcium citrate is supersaturated (+1.3) and may turn sandy over days"},
    {"carbonate-may-precipitate", "drink",
     R"("solids": [{"ingredient": "maltodextrin DE 18", "mass_g": 30}, {"ingredient": "sodium bicarbonate", "mass_g": 0.4}],
        "water": {"mass_g": 400},
        "tap": {"calcium_mg_per_l": 110, "magnesium_mg_per_l": 5, "alkalinity_meq_per_l": 5})",
     Level::note, "calcium carbonate is supersaturated (+1.4)"},
    {"calcium-undissolved", "pouch",
     R"("solids": [{"ingredient": "maltodextrin DE 18", "mass_g": 30}, {"ingredient": "sodium alginate", "mass_g": 0.4}],
        "water": {"mass_g": 50},
        "tap": {"calcium_mg_per_l": 10, "magnesium_mg_per_l": 1, "alkalinity_meq_per_l": 0.5},
        "calcium": {"ingredient": "calcium carbonate", "mass_g": 0.05, "when": "insoluble_until_acid"})",
     Level::care, "9.6 mmol/kg of the calcium salt stays undissolved until more acid reaches it"},
    {"cannot-weigh", "pouch",
     R"("solids": [{"ingredient": "maltodextrin DE 18", "mass_g": 30}, {"ingredient": "sodium alginate", "mass_g": 0.4}],
        "water": {"mass_g": 50},
        "tap": {"calcium_mg_per_l": 10, "magnesium_mg_per_l": 1, "alkalinity_meq_per_l": 0.5},
        "batch": {"scales": [{"name": "kitchen", "readability_g": 0.1, "capacity_g": 3000}]})",
     Level::stop,
     "0.40 g of sodium alginate cannot be weighed on these scales: 54 % error against 5 % allowed"},
    {"dosed-from-stock", "pouch",
     R"("solids": [{"ingredient": "maltodextrin DE 18", "mass_g": 30}, {"ingredient": "sodium alginate", "mass_g": 0.4}],
        "water": {"mass_g": 50},
        "tap": {"calcium_mg_per_l": 10, "magnesium_mg_per_l": 1, "alkalinity_meq_per_l": 0.5},
        "acid": {"ingredient": "citric acid anhydrous", "mass_g": 0.4},
        "batch": {"servings": 10, "scales": [{"name": "kitchen", "readability_g": 0.1, "capacity_g": 3000}]})",
     Level::note, "citric acid anhydrous cannot be weighed neat: use 20.0 g of a 20 % stock"},
    {"vessel-too-small", "pouch",
     R"("solids": [{"ingredient": "maltodextrin DE 18", "mass_g": 30}, {"ingredient": "sodium alginate", "mass_g": 0.4}],
        "water": {"mass_g": 50},
        "tap": {"calcium_mg_per_l": 10, "magnesium_mg_per_l": 1, "alkalinity_meq_per_l": 0.5},
        "batch": {"servings": 10, "vessel_ml": 700})",
     Level::care, "the batch needs 870 mL with headroom, the vessel holds 700"},
    {"acidity-not-proven", "pouch",
     R"("solids": [{"ingredient": "maltodextrin DE 18", "mass_g": 30}, {"ingredient": "sodium alginate", "mass_g": 0.4}],
        "water": {"mass_g": 50},
        "tap": {"calcium_mg_per_l": 10, "magnesium_mg_per_l": 1, "alkalinity_meq_per_l": 0.5})",
     Level::care, "pH 8.1 is over 4.6: not an acidified food"},
    {"acidity-not-proven", "drink",
     R"("solids": [{"ingredient": "sucrose", "mass_g": 30}], "water": {"mass_g": 400},
        "tap": "demineralised water", "acid": {"ingredient": "citric acid anhydrous", "mass_g": 0.3},
        "process": {"measured_ph": 4.1, "measured_with": "strips"})",
     Level::care, "pH 4.1 by strips: over 4.0 they prove nothing"},
    {"choking", "pouch",
     R"("solids": [{"ingredient": "maltodextrin DE 18", "mass_g": 30}, {"ingredient": "low-acyl gellan", "mass_g": 0.5}],
        "water": {"mass_g": 100},
        "tap": {"calcium_mg_per_l": 80, "magnesium_mg_per_l": 1, "alkalinity_meq_per_l": 2},
        "process": {"heated_to_c": 90})",
     Level::care, "a firm set is a choking hazard"},
    {"teeth", "pouch",
     R"("solids": [{"ingredient": "maltodextrin DE 18", "mass_g": 30}, {"ingredient": "sodium alginate", "mass_g": 0.4}],
        "water": {"mass_g": 50},
        "tap": {"calcium_mg_per_l": 10, "magnesium_mg_per_l": 1, "alkalinity_meq_per_l": 0.5},
        "process": {"measured_ph": 3.3})",
     Level::note, "pH 3.3 softens tooth enamel"},
    {"caffeine-single", "pouch",
     R"("solids": [{"ingredient": "maltodextrin DE 18", "mass_g": 30}, {"ingredient": "sodium alginate", "mass_g": 0.4}],
        "water": {"mass_g": 50},
        "tap": {"calcium_mg_per_l": 10, "magnesium_mg_per_l": 1, "alkalinity_meq_per_l": 0.5},
        "pre_dosed": [{"name": "tablet", "per_serving": 3, "caffeine_mg": 100}])",
     Level::stop, "300 mg of caffeine in one serving, over 200 mg"},
    {"caffeine-day", "pouch",
     R"("solids": [{"ingredient": "maltodextrin DE 18", "mass_g": 30}, {"ingredient": "sodium alginate", "mass_g": 0.4}],
        "water": {"mass_g": 50},
        "tap": {"calcium_mg_per_l": 10, "magnesium_mg_per_l": 1, "alkalinity_meq_per_l": 0.5},
        "pre_dosed": [{"name": "tablet", "per_serving": 1, "caffeine_mg": 50}],
        "batch": {"servings": 9})",
     Level::care, "450 mg of caffeine in the batch, over 400 mg if one person eats it in a day"},
    {"fructose", "pouch",
     R"("solids": [{"ingredient": "fructose", "mass_g": 40}, {"ingredient": "sodium alginate", "mass_g": 0.4}],
        "water": {"mass_g": 50},
        "tap": {"calcium_mg_per_l": 10, "magnesium_mg_per_l": 1, "alkalinity_meq_per_l": 0.5})",
     Level::care, "40 g of fructose in a serving with only 0 g of glucose"},
    {"gum-load", "pouch",
     R"("solids": [{"ingredient": "maltodextrin DE 18", "mass_g": 30}, {"ingredient": "sodium alginate", "mass_g": 0.4}],
        "water": {"mass_g": 50},
        "tap": {"calcium_mg_per_l": 10, "magnesium_mg_per_l": 1, "alkalinity_meq_per_l": 0.5},
        "batch": {"servings": 40})",
     Level::note, "16.0 g of gum in the batch, over 15 g if one person eats it in a day"},
    {"allergen", "pouch",
     R"("define": {"mix": {"kind": "mix", "label": {"per_g": 100, "carbohydrate_g": 95}, "allergens": ["Milk"]}},
        "solids": [{"ingredient": "mix", "mass_g": 60}],
        "water": {"mass_g": 50},
        "tap": {"calcium_mg_per_l": 10, "magnesium_mg_per_l": 1, "alkalinity_meq_per_l": 0.5},
        "avoid": ["milk"])",
     Level::stop, "mix holds or carries what this recipe is to avoid"},
    {"allergen-unstated", "pouch",
     R"("solids": [{"ingredient": "maltodextrin DE 18", "mass_g": 30}], "water": {"mass_g": 50},
        "tap": "demineralised water", "avoid": ["wheat"])",
     Level::care, "maltodextrin DE 18 may have been made from what this recipe is to avoid"},
    // 45 g with 5 % of hydrate water: 42.75 g in 27.25 g of water; Schiweck 1991: 42 g at 20 degC.
    {"may-crystallise", "pouch",
     R"("solids": [{"ingredient": "isomaltulose", "mass_g": 45}], "water": {"mass_g": 25},
        "tap": "demineralised water")",
     Level::care,
     "isomaltulose from all that holds it: 160 g in 100 g of water, 42 g stay dissolved at 5 degC "
     "(schiweck-1991): crystals"},
    {"may-crystallise", "pouch",
     R"("solids": [{"ingredient": "dextrose anhydrous", "mass_g": 70}], "water": {"mass_g": 90},
        "tap": "demineralised water")",
     Level::care,
     "dextrose from all that holds it: 78 g in 100 g of water, 62 g stay dissolved at 5 degC "
     "(jackson-1922): crystals"},
    {"absurd-batch", "pouch",
     R"("solids": [{"ingredient": "sucrose", "mass_g": 72}], "water": {"per_g_solids": 60},
        "tap": "demineralised water")",
     Level::stop, "one serving weighs 4390 g, over 2500 g: nobody can mean that"},
    {"absurd-batch", "drink",
     R"("solids": [{"ingredient": "sucrose", "mass_g": 72}], "water": {"mass_g": 600},
        "acid": {"ingredient": "citric acid anhydrous", "mass_g": 18}, "tap": "demineralised water")",
     Level::stop, "18.0 g of acid in one serving, over 10 g: nobody can mean that"},
    {"unusual-amount", "pouch",
     R"("solids": [{"ingredient": "sucrose", "mass_g": 40}], "water": {"per_g_solids": 5},
        "tap": "demineralised water")",
     Level::care,
     "5.0 g of water for each g of solids, 83 % of the total; 0.2 to 4 g is usual for a pouch"},
    {"unusual-amount", "drink",
     R"("solids": [{"ingredient": "sucrose", "mass_g": 100}], "water": {"mass_g": 200},
        "tap": "demineralised water")",
     Level::care,
     "2.0 g of water for each g of solids, 67 % of the total; 3 to 60 g is usual for a drink"},
    {"unusual-amount", "drink",
     R"("solids": [{"ingredient": "sucrose", "mass_g": 100}], "water": {"mass_g": 1500},
        "tap": "demineralised water")",
     Level::care, "a drink of 1600 g; 120 to 1200 g is usual"},
    {"unusual-amount", "drink",
     R"("solids": [{"ingredient": "sucrose", "mass_g": 1}], "water": {"mass_g": 110},
        "tap": "demineralised water")",
     Level::care,
     "110 g of water for each g of solids, 99 % of the total; 3 to 60 g is usual for a drink"},
    {"unusual-amount", "drink",
     R"("solids": [{"ingredient": "sucrose", "mass_g": 10}], "water": {"mass_g": 60},
        "tap": "demineralised water")",
     Level::care, "a drink of 70 g; 120 to 1200 g is usual"},
    {"unusual-amount", "pouch",
     R"("solids": [{"ingredient": "sucrose", "mass_g": 200}], "water": {"mass_g": 200},
        "tap": "demineralised water")",
     Level::care, "a pouch of 400 g; 20 to 300 g is usual"},
    {"unusual-amount", "pouch",
     R"("solids": [{"ingredient": "sucrose", "mass_g": 72}], "water": {"mass_g": 7.2},
        "tap": "demineralised water")",
     Level::care,
     "0.10 g of water for each g of solids, 9.1 % of the total; 0.2 to 4 g is usual for a pouch"},
    {"unusual-amount", "pouch",
     R"("solids": [{"ingredient": "sucrose", "mass_g": 7.2}], "water": {"mass_g": 4.3},
        "tap": "demineralised water")",
     Level::care, "a pouch of 12 g; 20 to 300 g is usual"},
    {"unusual-amount", "pouch",
     R"("solids": [{"ingredient": "sucrose", "mass_g": 72}], "water": {"mass_g": 43},
        "acid": {"ingredient": "citric acid anhydrous", "mass_g": 1.8}, "tap": "demineralised water")",
     Level::care, "4.2 g of acid in 100 g of water; up to 2 g is usual"},
    {"unusual-amount", "pouch",
     R"("solids": [{"ingredient": "sucrose", "mass_g": 30}], "water": {"mass_g": 50},
        "calcium": {"ingredient": "calcium lactate pentahydrate", "mass_g": 2, "when": "slow"},
        "tap": "demineralised water")",
     Level::care, "4.0 g of calcium salt in 100 g of water; up to 2 g is usual"},
    // 10 g of calcium chloride dihydrate hold 2.73 g of calcium (40.078 / 147.01).
    {"calcium-load", "drink",
     R"("solids": [{"ingredient": "sucrose", "mass_g": 30}], "water": {"mass_g": 600},
        "calcium": {"ingredient": "calcium chloride dihydrate", "mass_g": 10, "when": "slow"},
        "tap": "demineralised water")",
     Level::stop, "2.7 g of added calcium in one serving, over 2.5 g"},
    {"calcium-load", "drink",
     R"("solids": [{"ingredient": "sucrose", "mass_g": 30}], "water": {"mass_g": 600},
        "calcium": {"ingredient": "calcium chloride dihydrate", "mass_g": 1, "when": "slow"},
        "tap": "demineralised water", "batch": {"servings": 10})",
     Level::note, "2.7 g of added calcium in the batch, over 2.5 g if one person eats it in a day"},
    {"acid-load", "drink",
     R"("solids": [{"ingredient": "sucrose", "mass_g": 60}], "water": {"mass_g": 600},
        "acid": {"ingredient": "citric acid anhydrous", "mass_g": 5}, "tap": "demineralised water")",
     Level::care, "5.0 g of food acid in one serving, over 4 g"},
    {"gum-load", "drink",
     R"("solids": [{"ingredient": "sucrose", "mass_g": 60}, {"ingredient": "xanthan", "mass_g": 6}],
        "water": {"mass_g": 600}, "tap": "demineralised water")",
     Level::care, "6.0 g of gum in one serving, over 5 g"},
    {"calcium-limit-unjudged", "drink",
     R"("solids": [{"ingredient": "maltodextrin DE 18", "mass_g": 30}, {"ingredient": "sodium alginate", "mass_g": 0.4}], "water": {"mass_g": 50}, "tap": {"alkalinity_meq_per_l": 1},
        "limits": {"calcium_mg_per_l": {"at_most": 40}})",
     Level::care, "the recipe limits calcium, and no water report gives it"},
    {"ph-disagrees", "pouch",
     R"("solids": [{"ingredient": "maltodextrin DE 18", "mass_g": 30}, {"ingredient": "sodium alginate", "mass_g": 0.4}], "water": {"mass_g": 50}, "tap": {"calcium_mg_per_l": 10, "magnesium_mg_per_l": 1, "alkalinity_meq_per_l": 0.5}, "acid": {"ingredient": "citric acid anhydrous", "mass_g": 0.3},
        "process": {"acid_added": "under_blade", "measured_ph": 4.4, "measured_with": "meter"})",
     Level::care, "measured pH 4.4, computed 3.4: further apart than 0.3"},
    {"too-sour", "pouch",
     R"("solids": [{"ingredient": "maltodextrin DE 18", "mass_g": 30}, {"ingredient": "sodium alginate", "mass_g": 0.4}], "water": {"mass_g": 50}, "tap": {"calcium_mg_per_l": 10, "magnesium_mg_per_l": 1, "alkalinity_meq_per_l": 0.5}, "acid": {"ingredient": "citric acid anhydrous", "mass_g": 3})",
     Level::care, "pH 2.2 is sour enough to hurt"},
    {"too-alkaline", "drink",
     R"("solids": [{"ingredient": "maltodextrin DE 18", "mass_g": 30}, {"ingredient": "sodium alginate", "mass_g": 0.4}], "water": {"mass_g": 400}, "tap": {"calcium_mg_per_l": 10, "magnesium_mg_per_l": 1, "alkalinity_meq_per_l": 0.5},
        "process": {"measured_ph": 10, "measured_with": "meter"})",
     Level::care, "pH 10.0 is more alkaline than tap water may be"},
    {"sodium-load", "pouch", R"("solids": [{"ingredient": "maltodextrin DE 18", "mass_g": 30},
        {"ingredient": "sodium chloride", "mass_g": 3}], "water": {"mass_g": 50}, "tap": {"calcium_mg_per_l": 10, "magnesium_mg_per_l": 1, "alkalinity_meq_per_l": 0.5})",
     Level::care, "1180 mg of sodium in one serving"},
    {"allergen-unstated", "pouch", R"("define": {"mix": {"kind": "mix",
        "label": {"per_g": 100, "carbohydrate_g": 95}}},
        "solids": [{"ingredient": "mix", "mass_g": 60}], "water": {"mass_g": 50}, "tap": {"calcium_mg_per_l": 10, "magnesium_mg_per_l": 1, "alkalinity_meq_per_l": 0.5}, "avoid": ["milk"])",
     Level::note, "mix states no allergens"},
    {"cool-it-fast", "pouch",
     R"("solids": [{"ingredient": "maltodextrin DE 18", "mass_g": 30}, {"ingredient": "low-acyl gellan", "mass_g": 0.2}],
        "water": {"mass_g": 50}, "tap": "demineralised water", "process": {"heated_to_c": 90})",
     Level::note,
     "heated to 90 degC: bring it below 21 degC within 2 h, to 5 degC within 6 h in all"},
    // 1 g is 11.90 mmol; 51.6 g of water hold 1.77; 10.13 mmol at 24.055 L/mol are 244 mL.
    {"gas-in-pouch", "pouch",
     R"("solids": [{"ingredient": "maltodextrin DE 18", "mass_g": 30}, {"ingredient": "sodium bicarbonate", "mass_g": 1}],
        "water": {"mass_g": 50}, "tap": "demineralised water",
        "acid": {"ingredient": "citric acid anhydrous", "mass_g": 3})",
     Level::stop,
     "up to 244 mL of CO2 gas in a serving, over the 10 mL a closed pouch has room for: it may "
     "burst"},
    {"potassium-load", "drink",
     R"("solids": [{"ingredient": "sucrose", "mass_g": 30}, {"ingredient": "potassium chloride", "mass_g": 2.5}],
        "water": {"mass_g": 400}, "tap": "demineralised water")",
     Level::care, "1.3 g of added potassium in one serving, over 1 g"},
    {"potassium-day", "drink",
     R"("solids": [{"ingredient": "sucrose", "mass_g": 30}, {"ingredient": "potassium chloride", "mass_g": 1}],
        "water": {"mass_g": 400}, "tap": "demineralised water", "batch": {"servings": 6})",
     Level::care, "3.1 g of added potassium in the batch, over 3 g if one person eats it in a day"},
    {"fructose-amount", "drink",
     R"("solids": [{"ingredient": "fructose", "mass_g": 60}, {"ingredient": "maltodextrin DE 18", "mass_g": 80}],
        "water": {"mass_g": 800}, "tap": "demineralised water")",
     Level::care, "60 g of fructose in one serving, over 50 g"},
    {"take-with-water", "pouch",
     R"("solids": [{"ingredient": "sucrose", "mass_g": 30}], "water": {"mass_g": 50},
        "tap": "demineralised water")",
     Level::note, "38 % of it is sugar and salts: it draws water"},
    {"honey", "pouch",
     R"("define": {"heather honey": {"kind": "syrup", "water_fraction": 0.18, "label": {"per_g": 100, "carbohydrate_g": 80}}},
        "solids": [{"ingredient": "heather honey", "mass_g": 30}], "water": {"mass_g": 50},
        "tap": "demineralised water")",
     Level::care, "heather honey: never for a child under 12 months"},
};

}  // namespace

TEST_CASE("each flag is raised by its recipe, with the whole message") {
  for (const Case& each : cases) {
    INFO(each.flag);
    const Recipe recipe = test::recipe_with(each.members, each.form);
    const Inputs inputs = resolve(recipe);
    const Evaluation evaluation = evaluate(inputs);
    const Flag* found = nullptr;
    for (const Flag& flag : evaluation.flags)
      if (name_of(flag.id) == each.flag) found = &flag;
    REQUIRE(found != nullptr);
    CHECK(found->level == each.level);
    CHECK(message_of(*found, evaluation, inputs) == each.message);
    CHECK_FALSE(remedy_of(*found, evaluation, inputs).empty());
  }
}

TEST_CASE("no flag is out of reach of these recipes") {
  std::set<std::string_view> raised = {"stock-exceeds-water"};  // a study's, tested below
  for (const Case& each : cases) raised.insert(each.flag);
  for (const FlagInfo& info : flag_catalogue()) {
    INFO(info.name);
    CHECK(raised.count(info.name) == 1);
  }
}

TEST_CASE("a study that doses more stock than there is water is told to stop") {
  const Recipe recipe = test::recipe_with(
      R"("solids": [{"ingredient": "sucrose", "mass_g": 30}], "water": {"mass_g": 20},
         "acid": {"ingredient": "citric acid anhydrous", "mass_g": 1, "stock_percent": 10})");
  Inputs inputs = resolve(recipe);
  inputs.acid->line.mass_g = 3;
  const Evaluation evaluation = evaluate(inputs);
  const Flag* found = nullptr;
  for (const Flag& flag : evaluation.flags)
    if (name_of(flag.id) == "stock-exceeds-water") found = &flag;
  REQUIRE(found != nullptr);
  CHECK(found->level == Level::stop);
  CHECK(message_of(*found, evaluation, inputs) ==
        "the stock brings 27.0 g of water, the serving has 20.0 g");
}

TEST_CASE("each record has its own name, a rule, a reason and a source") {
  std::set<std::string_view> names;
  std::size_t i = 0;
  for (const FlagInfo& info : flag_catalogue()) {
    INFO(info.name);
    CHECK(static_cast<std::size_t>(info.id) == i++);
    CHECK(names.insert(info.name).second);
    CHECK_FALSE(info.when.empty());
    CHECK(info.why.size() > 20);
    CHECK(find_source(info.source) != nullptr);
  }
  CHECK(i <= most_flags);
}

TEST_CASE("a plain sound pouch raises nothing above a note but the perishable's standing ones") {
  const Recipe recipe = test::recipe_with(
      R"("solids": [{"ingredient": "maltodextrin DE 18", "mass_g": 30},
         {"ingredient": "sodium alginate", "mass_g": 0.5}], "water": {"mass_g": 50},
         "tap": {"calcium_mg_per_l": 10, "magnesium_mg_per_l": 1, "alkalinity_meq_per_l": 0.5},
         "acid": {"ingredient": "citric acid anhydrous", "mass_g": 0.4},
         "process": {"acid_added": "under_blade", "measured_ph": 3.2})");
  for (const Flag& flag : evaluate(resolve(recipe)).flags) {
    INFO(name_of(flag.id));
    CHECK(flag.level == Level::note);
  }
}

TEST_CASE("keeping times: only a meter, 4.0 or less with its error, earns the long one") {
  const auto hours = [](const std::string& process, const char* form = "pouch") {
    const Recipe recipe = test::recipe_with(
        R"("solids": [{"ingredient": "maltodextrin DE 18", "mass_g": 30}], "water": {"mass_g": 50},
           "tap": "demineralised water",
           "acid": {"ingredient": "citric acid anhydrous", "mass_g": 0.3})" +
            process,
        form);
    const Inputs inputs = resolve(recipe);
    return keeping_of(evaluate(inputs), inputs).chilled_hours;
  };
  // Computed, about pH 2.5; then as read, with the reading's error counted against us.
  CHECK(hours("") == 48);
  const auto read = [&](const std::string& how, const char* form = "pouch") {
    return hours(R"(, "process": {"measured_ph": )" + how + "}", form);
  };
  CHECK(read("3.9") == 120);
  CHECK(read("3.95") == 48);
  // A strip never earns the long time; in a thick gel it does not count at all.
  CHECK(read(R"(3.5, "measured_with": "strips")", "drink") == 48);
  CHECK(read(R"(5.5, "measured_with": "strips")", "drink") == 24);
  CHECK(read(R"(5.5, "measured_with": "strips")") == hours(""));
  // FDA Food Code, table B, water activity over 0.92: under pH 4.2 no control is asked for,
  // from 4.2 an assessment. It shortens; up to 4.6 the hours would be 48.
  CHECK(read("4.05") == 48);
  CHECK(read("4.1") == 24);
  CHECK(read("4.5") == 24);
  CHECK(read("4.7") == 24);
}

TEST_CASE("a dry gel: the Food Code's table passes it, and it keeps no longer for that") {
  // 90 g of sugars on 20 g of water: a water activity of about 0.75 is under 0.88 with its doubt.
  const auto kept = [](double ph) {
    const Recipe recipe = test::recipe_with(
        R"("solids": [{"ingredient": "fructose", "mass_g": 90}], "water": {"mass_g": 20},
           "tap": "demineralised water", "process": {"measured_ph": )" +
        std::to_string(ph) + "}");
    const Inputs inputs = resolve(recipe);
    const Evaluation evaluation = evaluate(inputs);
    REQUIRE(evaluation.properties.water_activity < 0.85);
    return keeping_of(evaluation, inputs);
  };
  CHECK(kept(4.4).chilled_hours == 48);
  CHECK(kept(4.4).decided_by == KeepingBy::sour_by_estimate);
  CHECK(kept(5.0).chilled_hours == 24);  // the table asks for nothing here; we do
}

TEST_CASE("keeping: hours, warm hours and what decided them, on both sides of each limit") {
  const auto keeping = [](const std::string& measured) {
    const Recipe recipe = test::recipe_with(
        R"("solids": [{"ingredient": "maltodextrin DE 18", "mass_g": 30}], "water": {"mass_g": 50},
           "tap": "demineralised water",
           "acid": {"ingredient": "citric acid anhydrous", "mass_g": 0.3},
           "process": {)" +
        measured + "}");
    const Inputs inputs = resolve(recipe);
    return keeping_of(evaluate(inputs), inputs);
  };
  const Keeping sour = keeping(R"("measured_ph": 3.9)");
  CHECK(sour.decided_by == KeepingBy::sour_by_meter);
  CHECK(sour.chilled_hours == 120);
  CHECK(sour.warm_hours == 4);
  CHECK(sour.chilled_c == 5);  // FDA Food Code 2013, 3-501.16
  CHECK(sour.hot_day_warm_hours == 1);
  CHECK(why(sour) == "a meter read pH 4.0 or less");
  const Keeping table = keeping(R"("measured_ph": 4.3)");
  CHECK(table.decided_by == KeepingBy::table_asks);
  CHECK(table.chilled_hours == 24);
  CHECK(why(table) == "the pH may be 4.2 or more, and it is wet");
  const Keeping strips = keeping(R"("measured_ph": 3.5, "measured_with": "strips")");
  CHECK(strips.decided_by == KeepingBy::sour_by_estimate);
  CHECK(strips.chilled_hours == 48);
  CHECK(strips.warm_hours == 2);
  const Keeping perhaps = keeping(R"("measured_ph": 4.59)");  // 21 CFR 114: 4.6, error counted
  CHECK(perhaps.decided_by == KeepingBy::perhaps_not_sour);
  CHECK(perhaps.chilled_hours == 24);
  CHECK(why(perhaps) == "the pH may be over 4.6");
  // Nothing is ever printed that keeps longer than the sourest does.
  for (const double ph : {2.0, 3.0, 4.0, 5.0, 7.0})
    CHECK(keeping("\"measured_ph\": " + std::to_string(ph)).chilled_hours <= sour.chilled_hours);
}

TEST_CASE("strips over 4.0 prove nothing, a meter does up to 4.6 (21 CFR 114)") {
  const auto proven = [](const std::string& process, const char* form = "drink") {
    const Recipe recipe = test::recipe_with(
        R"("solids": [{"ingredient": "maltodextrin DE 18", "mass_g": 30}], "water": {"mass_g": 50},
           "acid": {"ingredient": "citric acid anhydrous", "mass_g": 0.3}, "process": )" +
            process,
        form);
    for (const Flag& flag : evaluate(resolve(recipe)).flags)
      if (name_of(flag.id) == "acidity-not-proven") return false;
    return true;
  };
  CHECK_FALSE(proven(R"({"measured_ph": 4.3, "measured_with": "strips"})"));
  CHECK(proven(R"({"measured_ph": 4.3, "measured_with": "meter"})"));
  CHECK(proven(R"({"measured_ph": 3.9, "measured_with": "strips"})"));
  CHECK_FALSE(proven(R"({"measured_ph": 4.7, "measured_with": "meter"})"));
  CHECK_FALSE(proven(R"({"measured_ph": 3.5, "measured_with": "strips"})", "pouch"));
}

TEST_CASE("what is to be avoided is found by name, by part and by nature") {
  const auto stopped = [](const std::string& members) {
    const Recipe recipe = test::recipe_with(members + R"(, "water": {"mass_g": 50})");
    int found = 0;
    for (const Flag& flag : evaluate(resolve(recipe)).flags)
      found += name_of(flag.id) == "allergen";
    return found;
  };
  CHECK(stopped(R"("solids": [{"ingredient": "sucrose", "mass_g": 30}], "avoid": ["Fructose"])") ==
        1);
  CHECK(
      stopped(
          R"("solids": [{"ingredient": "sodium alginate", "mass_g": 1}], "avoid": ["alginate", "Alginate"])") ==
      1);
  CHECK(
      stopped(
          R"("define": {"mix": {"kind": "mix", "contains": [{"ingredient": "isomaltulose", "fraction": 1}]}},
      "solids": [{"ingredient": "mix", "mass_g": 30}], "avoid": ["isomaltulose"])") == 1);
  CHECK(
      stopped(
          R"("solids": [{"ingredient": "dextrose anhydrous", "mass_g": 30}], "avoid": ["fructose"])") ==
      0);
}

// Regulation (EU) 1169/2011, Annex II: wheat is a cereal containing gluten, lactose belongs to
// milk.
TEST_CASE("what is to be avoided is found by the groups of Annex II, both ways") {
  const auto raised = [](const std::string& stated, const std::string& avoid,
                         std::string_view name) {
    const Recipe recipe = test::recipe_with(
        R"("define": {"mix": {"kind": "mix", "label": {"per_g": 100, "carbohydrate_g": 95},
           "allergens": [")" +
        stated + R"("]}}, "solids": [{"ingredient": "mix", "mass_g": 30}],
           "water": {"mass_g": 50}, "avoid": [")" +
        avoid + "\"]");
    for (const Flag& flag : evaluate(resolve(recipe)).flags)
      if (name_of(flag.id) == name) return true;
    return false;
  };
  CHECK(raised("wheat", "gluten", "allergen"));
  CHECK(raised("gluten", "wheat", "allergen"));
  CHECK(raised("lactose", "milk", "allergen"));
  CHECK(raised("whey powder (milk)", "lactose", "allergen"));
  CHECK(raised("E 223", "sulphites", "allergen"));
  CHECK_FALSE(raised("soya", "milk", "allergen"));
  CHECK_FALSE(raised("coconut milk", "milk", "allergen"));
}

TEST_CASE("a grade belongs to the claim: a number no source gives is never A or B") {
  for (const FlagInfo& info : flag_catalogue()) {
    INFO(info.name);
    if (info.grade == Grade::c) continue;
    CHECK(info.source != "judgement");
    CHECK(info.source != "common-practice");
    for (const Datum& row : info.thresholds) {
      INFO(row.key);
      // What `why` tells in passing decides nothing.
      const auto changed = [&row] {
        std::vector<Datum> rows(flag_thresholds().begin(), flag_thresholds().end());
        for (Datum& each : rows)
          if (each.key == row.key) each.value = std::nan("");
        return rows;
      }();
      if (info_of(info.id, changed).when == info.when) continue;
      CHECK((row.standing == Standing::confirmed || row.standing == Standing::computed));
    }
  }
}

TEST_CASE("of one level, danger to the eater stands before what spoils the batch") {
  const auto place = [](std::string_view name) {
    for (const FlagInfo& info : flag_catalogue())
      if (info.name == name) return static_cast<std::size_t>(info.id);
    FAIL("no such flag");
    return std::size_t{0};
  };
  for (const char* danger : {"allergen", "potassium-load", "choking", "caffeine-single",
                             "gas-in-pouch", "acidity-not-proven", "calcium-load"})
    for (const char* spoils : {"will-not-set", "drink-sets-in-bottle", "lumps", "cannot-weigh"}) {
      INFO(danger << " " << spoils);
      CHECK(place(danger) < place(spoils));
    }
}

TEST_CASE("loads of calcium, acid and gum, crystals and absurd servings: both sides of each line") {
  const auto level = [](std::string_view name, const std::string& members) -> std::optional<Level> {
    const Recipe recipe = test::recipe_with(members + R"(, "tap": "demineralised water")", "drink");
    for (const Flag& flag : evaluate(resolve(recipe)).flags)
      if (name_of(flag.id) == name) return flag.level;
    return std::nullopt;
  };
  const std::string sugar = R"("solids": [{"ingredient": "sucrose", "mass_g": 40}],)";
  // EFSA 2012: 2500 mg of calcium a day; calcium chloride dihydrate holds 40.078 / 147.01 of it.
  const auto calcium = [&](double salt_g, int servings) {
    return level("calcium-load",
                 sugar + fmt::format(R"("water": {{"mass_g": 600}}, "batch": {{"servings": {}}},
        "calcium": {{"ingredient": "calcium chloride dihydrate", "mass_g": {}, "when": "slow"}})",
                                     servings, salt_g));
  };
  CHECK_FALSE(calcium(9.16, 1).has_value());
  CHECK(calcium(9.18, 1) == Level::stop);
  CHECK_FALSE(calcium(0.916, 10).has_value());
  CHECK(calcium(0.918, 10) == Level::note);
  const auto acid = [&](std::string_view name, double acid_g) {
    return level(name, sugar + fmt::format(R"("water": {{"mass_g": 900}},
        "acid": {{"ingredient": "citric acid anhydrous", "mass_g": {}}})",
                                           acid_g));
  };
  CHECK_FALSE(acid("acid-load", 3.9).has_value());
  CHECK(acid("acid-load", 4.2) == Level::care);
  CHECK_FALSE(acid("absurd-batch", 9.9).has_value());
  CHECK(acid("absurd-batch", 10.1) == Level::stop);
  const auto gum = [&](double gum_g, int servings) {
    return level("gum-load", fmt::format(R"("solids": [{{"ingredient": "xanthan", "mass_g": {}}}],
        "water": {{"mass_g": 900}}, "batch": {{"servings": {}}})",
                                         gum_g, servings));
  };
  CHECK_FALSE(gum(4.9, 1).has_value());
  CHECK(gum(5.1, 1) == Level::care);
  CHECK_FALSE(gum(1.4, 10).has_value());
  CHECK(gum(1.6, 10) == Level::note);
  // Jackson 1922: 62 g of dextrose in 100 g of water at 5 degC; the hydrate water counts as water.
  const auto dextrose = [&](double mass_g) {
    return level("may-crystallise",
                 fmt::format(R"("solids": [{{"ingredient": "dextrose anhydrous", "mass_g": {}}}],
        "water": {{"mass_g": 100}})",
                             mass_g));
  };
  CHECK_FALSE(dextrose(61).has_value());
  CHECK(dextrose(63) == Level::care);
  // Kubantseva 2004: 4.8 g of calcium lactate, hydrate water not counted, at 10 degC.
  const auto lactate = [&](double mass_g) {
    return level("may-crystallise",
                 fmt::format(R"("solids": [{{"ingredient": "xanthan", "mass_g": 1}}],
        "water": {{"mass_g": 200}},
        "calcium": {{"ingredient": "calcium lactate anhydrous", "mass_g": {}, "when": "slow"}})",
                             mass_g));
  };
  CHECK_FALSE(lactate(9.3).has_value());
  CHECK(lactate(9.9) == Level::care);
}

TEST_CASE(
    "gas that hangs on what the sodium is: told with its chance, gone where it did not fizz") {
  const auto level = [](const std::string& fizzed) -> std::optional<Level> {
    const Recipe recipe = test::recipe_with(
        R"("define": {"mix": {"kind": "mix", "label": {"per_g": 100, "carbohydrate_g": 94,
           "sodium_mg": 400})" +
        fizzed + R"(}}, "solids": [{"ingredient": "mix", "mass_g": 70}], "water": {"mass_g": 45},
           "acid": {"ingredient": "citric acid anhydrous", "mass_g": 1},
           "tap": "demineralised water")");
    for (const Flag& flag : evaluate(resolve(recipe)).flags)
      if (name_of(flag.id) == "gas-in-pouch") return flag.level;
    return std::nullopt;
  };
  CHECK(level("") == Level::care);
  CHECK(level(R"(, "fizzed": true)") == Level::stop);
  CHECK_FALSE(level(R"(, "fizzed": false)").has_value());
}

TEST_CASE("a measured pH decides what sets; the chemistry keeps its own") {
  const Recipe recipe = test::recipe_with(
      R"("solids": [{"ingredient": "maltodextrin DE 18", "mass_g": 30},
         {"ingredient": "sodium alginate", "mass_g": 0.4}], "water": {"mass_g": 50},
         "acid": {"ingredient": "citric acid anhydrous", "mass_g": 0.3},
         "tap": "demineralised water", "process": {"measured_ph": 5.5})");
  const Inputs inputs = resolve(recipe);
  const Evaluation found = evaluate(as_measured(inputs));
  CHECK_THAT(found.gel.state.ph, test::near(5.5, 1e-9));
  CHECK(found.water_phase.ph < 4);
  CHECK(evaluate(inputs).gel.state.ph < 4);
}

namespace {

/// Digits a text may hold that are no thresholds: names, units, and facts told in passing.
const char* const told_in_passing[] = {
    "CO2",         "EFSA 2005",
    "R2 = 2 [Ca]",  // the definition
    "R2",          "100 g of water", "pH 4.2", "40 mg/L", "2 u and", "5 to 10 times", "10 % stock",
};

std::string without_asides(std::string text) {
  for (const std::string_view aside : told_in_passing)
    for (std::size_t at = text.find(aside); at != std::string::npos; at = text.find(aside))
      text.erase(at, aside.size());
  return text;
}

bool has_digit(const std::string& text) {
  return std::any_of(text.begin(), text.end(), [](char c) { return c >= '0' && c <= '9'; });
}

std::vector<Datum> changed_thresholds(double (*change)(double)) {
  const FlagThresholds built_in = flag_thresholds();
  std::vector<Datum> rows(built_in.begin(), built_in.end());
  for (Datum& row : rows) row.value = change(row.value);
  return rows;
}

/// `number` stands in the text on its own, not as a part of a longer one.
bool quotes(const std::string& text, const std::string& number) {
  const auto numeric = [](char c) { return (c >= '0' && c <= '9') || c == '.'; };
  for (std::size_t at = text.find(number); at != std::string::npos;
       at = text.find(number, at + 1)) {
    const std::size_t end = at + number.size();
    const bool longer = end < text.size() && numeric(text[end]) &&
                        !(text[end] == '.' && (end + 1 == text.size() || !numeric(text[end + 1])));
    if ((at == 0 || !numeric(text[at - 1])) && !longer) return true;
  }
  return false;
}

}  // namespace

TEST_CASE("every threshold has a name that stands in a table, and a flag that names it") {
  std::set<std::string_view> named;
  for (const FlagInfo& info : flag_catalogue())
    for (const Datum& row : info.thresholds) named.insert(row.key);
  for (const Datum& row : flag_thresholds()) {
    INFO(row.key);
    CHECK_FALSE(row.key.empty());
    CHECK(named.count(row.key) == 1);
  }
}

TEST_CASE("no catalogue text repeats a threshold: without the thresholds there is no number left") {
  const auto gone = changed_thresholds([](double) { return std::nan(""); });
  for (const FlagInfo& info : flag_catalogue(gone)) {
    INFO(info.name << ": " << info.when << " / " << info.why);
    CHECK_FALSE(has_digit(without_asides(info.when)));
    CHECK_FALSE(has_digit(without_asides(info.why)));
    CHECK(info.when.find('{') == std::string::npos);
    CHECK(info.why.find('{') == std::string::npos);
    for (const Datum& row : info.thresholds) CHECK(std::isnan(row.value));
  }
}

TEST_CASE("sentences follow a changed threshold") {
  const auto changed = changed_thresholds([](double value) { return value * 1.03125; });
  std::set<std::string_view> followed;
  for (const Case& each : cases) {
    INFO(each.flag);
    const Recipe recipe = test::recipe_with(each.members, each.form);
    const Inputs inputs = resolve(recipe);
    const Evaluation evaluation = evaluate(inputs);
    for (const Flag& flag : evaluation.flags) {
      const FlagInfo before = info_of(flag.id);
      const FlagInfo after = info_of(flag.id, changed);
      const std::string old_words = message_of(flag, evaluation, inputs) + " | " +
                                    without_asides(remedy_of(flag, evaluation, inputs));
      const std::string words = message_of(flag, evaluation, inputs, changed) + " | " +
                                without_asides(remedy_of(flag, evaluation, inputs, changed));
      if (words != old_words) followed.insert(before.name);
      CHECK(words.find('{') == std::string::npos);
      for (std::size_t i = 0; i < before.thresholds.size(); ++i) {
        const auto text = [](const Datum& row) { return fmt::format("{:.12g}", row.value); };
        if (!quotes(old_words, text(before.thresholds[i]))) continue;
        INFO(before.name << " " << before.thresholds[i].key << ": " << words);
        // Where the finding's own number equals the threshold the old figure may stay beside it.
        CHECK(quotes(words, text(after.thresholds[i])));
      }
    }
  }
  for (const char* quoting : {"caffeine-single", "caffeine-day", "gum-load", "acidity-not-proven",
                              "calcium-too-low", "calcium-too-high", "under-heated"}) {
    INFO(quoting);
    CHECK(followed.count(quoting) == 1);
  }
}

TEST_CASE("each threshold a rule names decides: far to one side and far to the other differ") {
  std::set<std::string_view> undecided;
  const auto changed = changed_thresholds([](double value) { return value * 1.03125; });
  for (std::size_t i = 0; i < changed.size(); ++i) {
    std::vector<Datum> rows(flag_thresholds().begin(), flag_thresholds().end());
    rows[i] = changed[i];
    for (const FlagInfo& info : flag_catalogue(rows))
      if (info.when != info_of(info.id).when) undecided.insert(rows[i].key);
  }
  REQUIRE(undecided.size() > 20);
  for (const Case& each : cases) {
    const Recipe recipe = test::recipe_with(each.members, each.form);
    const Inputs inputs = resolve(recipe);
    const Evaluation evaluation = evaluate(inputs);
    const auto raised_with = [&](std::string_view key, double value) {
      std::vector<Datum> rows(flag_thresholds().begin(), flag_thresholds().end());
      for (Datum& row : rows)
        if (row.key == key) row.value = value;
      std::set<std::pair<FlagId, Level>> raised;
      for (const Flag& flag : flags_of(evaluation, inputs, rows))
        raised.insert({flag.id, flag.level});
      return raised;
    };
    const FlagThresholds all = flag_thresholds();
    for (const Datum& row : all)
      if (undecided.count(row.key) == 1 && raised_with(row.key, -1e9) != raised_with(row.key, 1e9))
        undecided.erase(row.key);
  }
  for (const std::string_view key : undecided) {
    INFO(key);
    CHECK(undecided.empty());
  }
}

TEST_CASE("a limit that a blend meets exactly is met, though binary sums carry dust") {
  // Shares of 1/3 and 2/3 of 60 and 30 mg/L make 40 mg/L.
  const auto broken = [](const std::string& limit) {
    const Recipe recipe = test::recipe_with(
        R"("solids": [{"ingredient": "sucrose", "mass_g": 30}], "water": {"mass_g": 50},
           "tap": {"calcium_mg_per_l": 40.000000000000007, "magnesium_mg_per_l": 1,
                   "alkalinity_meq_per_l": 1}, "limits": {"calcium_mg_per_l": {)" +
        limit + "}}");
    for (const Flag& flag : evaluate(resolve(recipe)).flags)
      if (name_of(flag.id).substr(0, 8) == "calcium-" &&
          name_of(flag.id).find("limit") != std::string_view::npos)
        return true;
    return false;
  };
  CHECK_FALSE(broken(R"("at_most": 40)"));
  CHECK_FALSE(broken(R"("at_least": 40.00000000000003)"));
  CHECK(broken(R"("at_most": 39.9999)"));
  CHECK(broken(R"("at_least": 40.0001)"));
}

namespace {

/// The level of one flag of a drink with these solids, or nothing.
std::optional<Level> level_of(std::string_view name, const std::string& solids,
                              const std::string& more = "", const std::string& form = "drink") {
  const Recipe recipe =
      test::recipe_with(R"("solids": [)" + solids +
                            R"(], "water": {"mass_g": 400}, "tap": "demineralised water")" + more,
                        form);
  for (const Flag& flag : evaluate(resolve(recipe)).flags)
    if (name_of(flag.id) == name) return flag.level;
  return std::nullopt;
}

}  // namespace

TEST_CASE("potassium: care over 1 g added in a serving, stop over 3 g (EFSA 2005: harm from 5 g)") {
  // Potassium chloride is 52.4 % potassium: 39.098 / 74.55 (IUPAC 2021).
  const auto level = [](const std::string& mass_g) {
    return level_of("potassium-load", R"({"ingredient": "sucrose", "mass_g": 30},
        {"ingredient": "potassium chloride", "mass_g": )" +
                                          mass_g + "}");
  };
  CHECK_FALSE(level("1.88").has_value());
  CHECK(level("1.95") == Level::care);
  CHECK(level("5.65") == Level::care);
  CHECK(level("5.85") == Level::stop);
}

TEST_CASE(
    "gas: what the acid frees and the water cannot hold; a hard tap water alone is no danger") {
  const auto pouch = [](const std::string& bicarbonate_g, const std::string& acid_g) {
    return level_of(
        "gas-in-pouch",
        R"({"ingredient": "sucrose", "mass_g": 30},
        {"ingredient": "sodium bicarbonate", "mass_g": )" +
            bicarbonate_g + "}",
        R"(, "acid": {"ingredient": "citric acid anhydrous", "mass_g": )" + acid_g + "}", "pouch");
  };
  // 400 g of water holds 13.7 mmol of CO2 at 1 atm (Henry's constant .034 mol/kg): 1.15 g of
  // bicarbonate; 10 mL of gas are 0.42 mmol more, .035 g.
  CHECK_FALSE(pouch("1.1", "4").has_value());
  CHECK(pouch("1.3", "4") == Level::stop);
  CHECK_FALSE(pouch("1.3", "0.05").has_value());
  const Recipe hard = test::recipe_with(
      R"("solids": [{"ingredient": "sucrose", "mass_g": 30}], "water": {"mass_g": 400},
         "tap": {"calcium_mg_per_l": 120, "alkalinity_meq_per_l": 6},
         "acid": {"ingredient": "citric acid anhydrous", "mass_g": 2})");
  for (const Flag& flag : evaluate(resolve(hard)).flags) CHECK(name_of(flag.id) != "gas-in-pouch");
}

TEST_CASE("other dangers, both sides of their edge") {
  const std::string beside = R"(, {"ingredient": "maltodextrin DE 18", "mass_g": 90})";
  CHECK_FALSE(level_of("fructose-amount", R"({"ingredient": "fructose", "mass_g": 49})" + beside));
  CHECK(level_of("fructose-amount", R"({"ingredient": "fructose", "mass_g": 51.5})" + beside) ==
        Level::care);
  CHECK_FALSE(level_of("take-with-water", R"({"ingredient": "sucrose", "mass_g": 98})"));
  CHECK(level_of("take-with-water", R"({"ingredient": "sucrose", "mass_g": 103})") == Level::note);
  const std::string sugar = R"({"ingredient": "sucrose", "mass_g": 30})";
  CHECK_FALSE(level_of("cool-it-fast", sugar, R"(, "process": {"heated_to_c": 56})"));
  CHECK(level_of("cool-it-fast", sugar, R"(, "process": {"heated_to_c": 57})") == Level::note);
  CHECK_FALSE(level_of("honey", sugar));
}

TEST_CASE("the word botulism stands on every sheet, and teeth are to be rinsed") {
  const std::vector<std::string> cautions = standing_cautions();
  CHECK(std::any_of(cautions.begin(), cautions.end(), [](const std::string& each) {
    return each.find("botulism") != std::string::npos;
  }));
  for (const char* name : test::shipped_names) {
    const Recipe recipe = test::shipped(name);
    const Inputs inputs = as_measured(resolve(recipe));
    const Evaluation evaluation = evaluate(inputs);
    for (const Flag& flag : evaluation.flags)
      if (name_of(flag.id) == "teeth")
        CHECK(remedy_of(flag, evaluation, inputs) ==
              "rinse with water; do not hold it in the mouth");
    const Report sheet = sheet_report(inputs, evaluation, advise(inputs, evaluation));
    CHECK(std::any_of(sheet.sections.begin(), sheet.sections.end(),
                      [](const Section& section) { return section.key == "cautions"; }));
  }
}
