// The everyday words and what they mean. Private: names.hpp is the way in.
//
// Several words or names in one text are parted by '|'. Words are in lower case with single spaces.
#pragma once

#include <string_view>

namespace gelwright::detail {

struct NameRow {
  std::string_view words;
  /// One built-in name: the word means just that. Several: ask. None: it is no ingredient here.
  std::string_view meant;
  std::string_view say;  ///< what it is called, how to tell from the bag, or where it goes
};

inline constexpr std::string_view hydrate_citric =
    "The bag says E 330 and \"anhydrous\" or \"monohydrate\". If it does not: fine dry crystals "
    "from a "
    "supermarket are mostly anhydrous; the monohydrate cakes together. The same mass of the "
    "monohydrate is 9 % weaker.";

inline constexpr NameRow name_rows[] = {
    // Sugars.
    {"sugar|table sugar|white sugar|caster sugar|granulated sugar|icing sugar|cane sugar|beet "
     "sugar|"
     "saccharose",
     "sucrose", "is sucrose"},
    {"glucose|dextrose|glucose powder|grape sugar|corn sugar",
     "dextrose monohydrate|dextrose anhydrous|glucose syrup DE 42",
     "Powder: the bag says \"monohydrate\" or \"anhydrous\"; dextrose sold for brewing, baking and "
     "sport is mostly the monohydrate, with 9 % water in it. A thick clear liquid is glucose "
     "syrup: "
     "name it with the dextrose equivalent from its label."},
    {"dextrose hydrate|glucose monohydrate", "dextrose monohydrate", "is dextrose monohydrate"},
    {"anhydrous dextrose|anhydrous glucose|glucose anhydrous", "dextrose anhydrous",
     "is dextrose anhydrous"},
    {"fruit sugar|levulose|fructose powder|crystalline fructose", "fructose", "is fructose"},
    {"maltose", "maltose monohydrate", "is sold as maltose monohydrate"},
    {"maltodextrin|malto dextrin|maltodextrine",
     "maltodextrin DE 18|maltodextrin DE 12|maltodextrin DE 10|maltodextrin DE 5|maltodextrin DE "
     "15|"
     "maltodextrin DE 20",
     "The bag or its data sheet gives the dextrose equivalent, DE: sports powders are mostly 15 to "
     "20. The higher it is the sweeter and thinner the drink and the more particles it holds. If "
     "nothing is said, DE 15 is a fair middle."},
    {"cyclic dextrin|cluster dextrin", "highly branched cyclic dextrin",
     "is highly branched cyclic dextrin"},
    {"glucose syrup|corn syrup|liquid glucose|starch syrup",
     "glucose syrup DE 42|glucose syrup DE 28|glucose syrup DE 63",
     "The label or the maker's sheet gives the dextrose equivalent, DE; confectioner's syrup is "
     "mostly "
     "near 42. Dark or vanilla corn syrup holds sugar and salt besides: describe it from its "
     "label."},
    {"invert sugar|invert syrup|golden syrup|agave|agave syrup|maple syrup|rice syrup|date syrup|"
     "high fructose corn syrup|molasses|treacle",
     "",
     "It differs from maker to maker: describe it from its label as a syrup, with its water, its "
     "carbohydrate and its sugars."},
    {"glycerine|glycerin|vegetable glycerine|e 422", "glycerol", "is glycerol"},
    {"e 420|glucitol", "sorbitol", "is sorbitol"},
    {"e 967|birch sugar", "xylitol", "is xylitol"},
    {"e 968", "erythritol", "is erythritol"},
    {"e 965", "maltitol", "is maltitol"},
    // Acids.
    {"citric acid|e 330", "citric acid anhydrous|citric acid monohydrate", hydrate_citric},
    {"e 296|dl malic acid|apple acid", "malic acid", "is malic acid"},
    {"e 334|l tartaric acid", "tartaric acid", "is tartaric acid"},
    {"e 270|lactic acid solution", "lactic acid 80 %|lactic acid",
     "A liquid gives its strength on the label, mostly 80 or 88 %. Pure lactic acid as a powder is "
     "rare; a powder is mostly lactic acid on calcium lactate."},
    {"e 300|vitamin c|l ascorbic acid", "ascorbic acid", "is ascorbic acid"},
    {"e 574", "gluconic acid", "is gluconic acid"},
    {"gdl|e 575|gluconolactone|glucono d lactone", "glucono delta-lactone",
     "is glucono delta-lactone"},
    {"lemon juice|lime juice|vinegar|e 260", "",
     "Juice and vinegar differ from bottle to bottle: describe it as a syrup with its water and "
     "the "
     "acid its label states. Lemon juice holds about 5 g of citric acid in 100 g, vinegar the "
     "acetic "
     "acid on its label."},
    {"e 338|phosphoric acid", "", "Phosphoric acid is not for a kitchen and is not in the list."},
    // Salts.
    {"salt|table salt|common salt|cooking salt|sea salt|rock salt|kitchen salt|nacl",
     "sodium chloride", "is sodium chloride"},
    {"e 508|kcl|sylvite", "potassium chloride", "is potassium chloride"},
    {"low sodium salt|lite salt|low salt|diet salt", "",
     "It is sodium chloride and potassium chloride in shares the pack states, often 1 to 2: "
     "describe "
     "it with both under \"contains\". It adds much potassium: not with kidney trouble or heart "
     "medicine without asking a doctor."},
    {"baking soda|bicarb|bicarbonate|bicarbonate of soda|sodium hydrogen carbonate|"
     "sodium hydrogencarbonate|bread soda|e 500(ii)|e 500 ii|nahco3",
     "sodium bicarbonate", "is sodium bicarbonate"},
    {"e 500|soda", "sodium bicarbonate|sodium carbonate anhydrous",
     "E 500(ii), baking soda, is the bicarbonate and mild; E 500(i) is the carbonate, strongly "
     "alkaline. The list of ingredients or the word \"bicarbonate\" tells."},
    {"washing soda|soda ash|soda crystals", "",
     "Washing soda is for laundry, not for food, and is strongly alkaline. Baking soda is sodium "
     "bicarbonate; food-grade sodium carbonate says E 500(i)."},
    {"baking powder", "",
     "Baking powder is a bicarbonate with an acid and starch, in shares the tin does not state: do "
     "not use it here."},
    {"e 501(ii)|e 501 ii|potassium hydrogen carbonate", "potassium bicarbonate",
     "is potassium bicarbonate"},
    {"potash|pearl ash|e 501(i)|e 501 i", "potassium carbonate", "is potassium carbonate"},
    {"cream of tartar|potassium bitartrate|potassium hydrogentartrate|e 336|e 336(i)|tartar",
     "potassium hydrogen tartrate", "is potassium hydrogen tartrate"},
    {"rochelle salt|seignette salt|e 337", "sodium potassium tartrate tetrahydrate",
     "is sodium potassium tartrate tetrahydrate"},
    {"sodium citrate|trisodium citrate|e 331|e 331(iii)",
     "trisodium citrate dihydrate|trisodium citrate anhydrous|disodium citrate sesquihydrate|"
     "monosodium citrate anhydrous",
     "The bag says \"tri\", \"di\" or \"mono\", or E 331(iii), (ii) or (i). Sold for cooking it is "
     "nearly always trisodium citrate dihydrate, 23 % sodium; the anhydrous powder has 27 %. The "
     "monosodium salt tastes sour."},
    {"potassium citrate|tripotassium citrate|e 332|e 332(ii)",
     "tripotassium citrate monohydrate|tripotassium citrate anhydrous|monopotassium citrate",
     "The bag says \"tri\" or \"mono\", or E 332(ii) or (i); it is nearly always tripotassium "
     "citrate "
     "monohydrate."},
    {"sodium acetate|e 262", "sodium acetate anhydrous|sodium acetate trihydrate|sodium diacetate",
     "The diacetate, E 262(ii), is vinegar as a powder and smells of it. Else the bag says "
     "\"anhydrous\" or \"trihydrate\"; large clear crystals are the trihydrate, with "
     "40 % "
     "water in them."},
    {"e 262(ii)|e 262 ii|vinegar powder", "sodium diacetate", "is sodium diacetate"},
    {"e 261", "potassium acetate", "is potassium acetate"},
    {"sodium malate|e 350", "disodium malate hemihydrate|sodium hydrogen malate",
     "The bag says \"disodium\" or E 350(i), or \"hydrogen\" or E 350(ii), which is sour."},
    {"potassium malate|e 351|e 351(i)", "dipotassium malate", "is dipotassium malate"},
    {"sodium tartrate|e 335", "disodium tartrate dihydrate|monosodium tartrate monohydrate",
     "The bag says \"disodium\" or E 335(ii), or \"monosodium\" or E 335(i), which is sour."},
    {"potassium tartrate|dipotassium tartrate|e 336(ii)|e 336 ii",
     "dipotassium tartrate hemihydrate", "is sold as dipotassium tartrate hemihydrate"},
    {"sodium lactate|e 325", "sodium lactate 60 %|sodium lactate anhydrous",
     "A liquid is the 60 % solution unless its label gives another strength; a powder is the "
     "anhydrous salt."},
    {"potassium lactate|e 326", "potassium lactate 60 %|potassium lactate anhydrous",
     "A liquid is the 60 % solution unless its label gives another strength; a powder is the "
     "anhydrous salt."},
    {"sodium phosphate|e 339",
     "disodium phosphate anhydrous|disodium phosphate dihydrate|monosodium phosphate anhydrous",
     "The bag says \"mono\" (E 339(i), sour) or \"di\" (E 339(ii), slightly alkaline), and "
     "\"anhydrous\" or a hydrate."},
    {"disodium phosphate|e 339(ii)|disodium hydrogen phosphate",
     "disodium phosphate anhydrous|disodium phosphate dihydrate|disodium phosphate heptahydrate|"
     "disodium phosphate dodecahydrate",
     "The bag says \"anhydrous\", \"dihydrate\", \"heptahydrate\" or \"dodecahydrate\"; large "
     "clear crystals are the "
     "last, with 60 % water in them."},
    {"monosodium phosphate|e 339(i)|sodium dihydrogen phosphate",
     "monosodium phosphate anhydrous|monosodium phosphate monohydrate",
     "The bag says \"anhydrous\" or \"monohydrate\"."},
    {"trisodium phosphate|e 339(iii)", "trisodium phosphate dodecahydrate",
     "is sold as trisodium phosphate dodecahydrate; it is strongly alkaline, and only a food grade "
     "is for eating"},
    {"e 340(iii)", "tripotassium phosphate", "is tripotassium phosphate; it is strongly alkaline"},
    {"potassium phosphate|e 340", "dipotassium phosphate|monopotassium phosphate",
     "The bag says \"mono\" (E 340(i), sour) or \"di\" (E 340(ii), alkaline)."},
    {"e 340(i)|potassium dihydrogen phosphate", "monopotassium phosphate",
     "is monopotassium phosphate"},
    {"e 340(ii)|dipotassium hydrogen phosphate", "dipotassium phosphate",
     "is dipotassium phosphate"},
    {"epsom salt|epsom salts|magnesium sulfate|magnesium sulphate|e 518",
     "magnesium sulfate heptahydrate",
     "is magnesium sulfate heptahydrate; only a food or "
     "pharmacy grade is for eating, and it is a laxative"},
    {"magnesium chloride|nigari|e 511", "magnesium chloride hexahydrate",
     "is sold as magnesium chloride hexahydrate"},
    {"dried magnesium sulfate|dried epsom salt", "magnesium sulfate anhydrous",
     "is close to magnesium sulfate anhydrous; only a food or pharmacy grade is for eating, and it "
     "is a laxative"},
    {"magnesium gluconate|e 580", "magnesium gluconate dihydrate",
     "is sold as magnesium gluconate dihydrate"},
    {"magnesium lactate|e 329", "magnesium lactate dihydrate",
     "is sold as magnesium lactate dihydrate"},
    {"magnesium citrate|trimagnesium citrate|trimagnesium dicitrate",
     "trimagnesium dicitrate anhydrous|trimagnesium dicitrate nonahydrate",
     "The label gives magnesium per 100 g: 16 g is the anhydrous salt, 12 g the nonahydrate. A "
     "sour, "
     "readily dissolving powder with about 11 g holds citric acid besides: describe it from its "
     "label."},
    // Calcium salts.
    {"calcium lactate|e 327", "calcium lactate pentahydrate|calcium lactate anhydrous",
     "The bag says \"pentahydrate\" or gives calcium per 100 g: 13 g is the pentahydrate, 18 g the "
     "anhydrous salt."},
    {"calcium chloride|e 509", "calcium chloride dihydrate|calcium chloride anhydrous",
     "Flakes or a bag that says 74 to 78 % are the dihydrate, white beads of 94 to 97 % are close "
     "to "
     "anhydrous and get hot in water."},
    {"calcium gluconate|e 578", "calcium gluconate monohydrate",
     "is sold as calcium gluconate monohydrate"},
    {"calcium lactate gluconate|calcium gluconolactate", "",
     "Calcium lactate gluconate is a mixture: describe it from its label with both salts under "
     "\"contains\"."},
    {"chalk|e 170|limestone|eggshell", "calcium carbonate", "is calcium carbonate"},
    {"gypsum|calcium sulfate|calcium sulphate|e 516|terra alba", "calcium sulfate dihydrate",
     "is calcium sulfate dihydrate"},
    {"calcium citrate|tricalcium citrate|tricalcium dicitrate|e 333",
     "tricalcium citrate tetrahydrate", "is sold as tricalcium citrate tetrahydrate"},
    {"dicalcium phosphate|calcium hydrogen phosphate|e 341(ii)", "dicalcium phosphate dihydrate",
     "is sold as dicalcium phosphate dihydrate"},
    // Gums.
    {"alginate|e 401|algin|na alginate", "sodium alginate", "is sodium alginate"},
    {"calcium alginate|e 404|alginic acid|e 400|potassium alginate|e 402|propylene glycol alginate|"
     "e 405",
     "",
     "Only sodium alginate, E 401, dissolves and sets as this program reckons; the other alginates "
     "are not in the list."},
    {"pectin|e 440|fruit pectin|apple pectin|citrus pectin|jam pectin",
     "HM pectin|LM pectin|amidated pectin",
     "The bag says HM or \"high methoxyl\" (sets with acid and much sugar), LM or \"low methoxyl\" "
     "(sets with calcium), or \"amidated\", which is E 440(ii). Jam pectin for full sugar is HM; "
     "for "
     "low-sugar jam LM or amidated, mostly mixed with sugar, acid or a calcium salt: read its "
     "list."},
    {"high methoxyl pectin|high ester pectin|hm", "HM pectin", "is HM pectin"},
    {"low methoxyl pectin|low ester pectin|lm", "LM pectin", "is LM pectin"},
    {"e 440(ii)|e 440 ii|lma pectin|amidated low methoxyl pectin", "amidated pectin",
     "is amidated pectin"},
    {"jam sugar|gelling sugar|preserving sugar", "",
     "It is sugar with pectin and acid in shares the bag does not state: do not use it here."},
    {"gellan|gellan gum|e 418", "low-acyl gellan|high-acyl gellan",
     "The bag says \"low acyl\" (clear, firm, brittle gels) or \"high acyl\" (soft, elastic)."},
    {"xanthan gum|e 415", "xanthan", "is xanthan"},
    {"carrageenan|e 407|agar|agar agar|e 406|gelatine|gelatin|guar|guar gum|e 412|"
     "locust bean gum|e 410|konjac|konjac gum|e 425|starch|corn starch|cornflour|gum arabic|e 414|"
     "cellulose gum|e 466|tara gum|e 417|psyllium|chia",
     "", "This thickener or gelling agent is not one the program knows the setting of."},
    // Others.
    {"carbonated water|sparkling water|fizzy water|soda water|mineral water|tap water|water", "",
     "Water goes under \"water\" and its report under \"tap\", not among the solids; that of a "
     "carbonated one has \"carbonated\": true. Better stir the gas out first and let it stand "
     "open: "
     "it foams under a blade, swells a closed pouch and lowers the pH only until it has left."},
    {"caffeine|guarana", "",
     "Caffeine is never weighed at home: use a pre-dosed product and list it under \"pre_dosed\"."},
    {"protein|whey|whey protein|milk|milk powder|lactose", "",
     "It is not in the list: describe it from its label. Milk protein clots with acid."},
};

}  // namespace gelwright::detail

namespace gelwright {
using namespace detail;  // only private files include this one
}
