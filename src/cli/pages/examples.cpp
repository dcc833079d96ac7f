#include "cli/pages/examples.hpp"

namespace gelwright::cli {

namespace {

constexpr Example table[] = {
    {"", "gelwright start -o first.json", "write a first recipe, asking ten plain questions"},
    {"", "gelwright sheet recipes/tarn-thick-pouch.json", "print the sheet to make a batch from"},

    {"start", "gelwright start --form pouch --from-scratch -o first.json",
     "a pouch of bought sugars, gum and acid, with the usual amounts"},
    {"start", "gelwright start --form drink --mix-label carbohydrate_g=94,sodium_mg=350",
     "a drink of a mix whose label gives these for 100 g"},

    {"formulate", "gelwright formulate recipes/goals/long-loop.json --kitchen recipes/kitchen.json",
     "a pouch that sets softly, from what the kitchen has"},
    {"formulate",
     "gelwright formulate --form drink --carbohydrate-g 30 --serving-g 250 -o drink.json",
     "a drink from what is usual, and its recipe written"},

    {"sheet", "gelwright sheet recipes/tarn-thick-pouch.json --servings 12", "for 12 pouches"},
    {"sheet", "gelwright sheet recipes/tarn-thick-pouch.json --show edges,water",
     "only how near the edges it is, and the water"},

    {"check", "gelwright check recipes/pouch-from-scratch.json", "what there is to watch"},
    {"check", "gelwright check recipes/*pouch.json --format csv", "many recipes, one table"},

    {"water", "gelwright water --calcium \"23 mg/L\" --alkalinity \"2.1 meq/L\"",
     "a report typed in, in every unit"},
    {"water", "gelwright water recipes/tarn-thick-pouch.json --bring-calcium-to \"60 mg/L\"",
     "how to bring the water of a recipe there"},

    {"dose", "gelwright dose recipes/pouch-from-scratch.json --to-ph 3.8", "acid for pH 3.8"},
    {"dose", "gelwright dose recipes/mistake-kitchen-scale.json --to-readable",
     "the smallest batch the scales can weigh"},

    {"ladder", "gelwright ladder recipes/tarn-thick-pouch.json --vary acid_g=0.1:0.6:0.1",
     "six small cups with more and more acid"},
    {"ladder",
     "gelwright ladder recipes/tarn-thick-pouch.json --vary acid_g=0.1:0.6:0.1 --format csv"
     " -o bench.csv",
     "the table to type the readings into"},

    {"fit",
     "gelwright fit recipes/tarn-thick-pouch.json recipes/tarn-thick-pouch.bench.csv --to-ph 3.8",
     "what the readings say, and the acid for pH 3.8"},
    {"fit",
     "gelwright fit recipes/tarn-thick-pouch.json recipes/tarn-thick-pouch.bench.csv"
     " --write-kitchen fitted.json",
     "the kitchen with the buffer that was found in it"},

    {"spread", "gelwright spread recipes/calcium-set-pouch.json", "which doubt matters most"},
    {"spread", "gelwright spread recipes/calcium-set-pouch.json --draws 1000 --seed 7",
     "fewer draws, other ones"},

    {"mend", "gelwright mend recipes/tarn-thick-pouch.json --weighed \"water=512 g\"",
     "too much water went in"},
    {"mend", "gelwright mend recipes/tarn-thick-pouch.json --ph 4.2",
     "the pH read in the bowl is not the one planned"},

    {"carry",
     "gelwright carry recipes/tarn-thick-pouch.json --hours 1.5 --carbohydrate-g-per-hour 60",
     "an hour and a half with one pouch after the other"},
    {"carry",
     "gelwright carry recipes/tarn-thick-pouch.json --bought"
     " \"oat bar,piece_g=45,carbohydrate_g=30,sodium_mg=80\" --hours 3.5"
     " --carbohydrate-g-per-hour 75 --start 2026-07-04T08:00",
     "pouches while they keep, oat bars after"},

    {"compare", "gelwright compare recipes/tarn-thick-pouch.json recipes/pouch-from-scratch.json",
     "two recipes, and why they come out differently"},
    {"compare", "gelwright compare recipes/tarn-thick-pouch.json --with acid_g=1.2",
     "what more acid does"},

    {"log",
     "gelwright log add recipes/tarn-thick-pouch.json --made 2026-07-04 --weighed acid=4.1"
     " --ph 3.7 --texture thick",
     "what was made and seen"},
    {"log",
     "gelwright log add recipes/tarn-thin-drink.json --made 2026-07-04 --went-down 4"
     " --notebook tarn.jsonl",
     "how it went down, in a notebook of another name"},

    {"shop", "gelwright shop recipes/tarn-thick-pouch.json=20 recipes/pouch-from-scratch.json",
     "one list for two batches, the first for 20"},
    {"shop", "gelwright shop recipes/tarn-thick-pouch.json --format csv", "as a table"},

    {"flatten", "gelwright flatten recipes/tarn-thick-pouch.json", "to read"},
    {"flatten", "gelwright flatten recipes/tarn-thick-pouch.json -o shared.json", "to send"},

    {"ingredients", "gelwright ingredients", "all of them"},
    {"ingredients", "gelwright ingredients --format csv -o ingredients.csv", "for a spreadsheet"},

    {"sources", "gelwright sources", "the bibliography"},
    {"sources", "gelwright sources --gel", "every parameter of the gel model and its source"},

    {"words", "gelwright words", "all of them"},
    {"words", "gelwright words --format markdown -o words.md", "to keep"},

    {"explain", "gelwright explain hard-water", "the rule"},
    {"explain", "gelwright explain hard-water recipes/mistake-hard-water-drink.json",
     "the rule with the figures of a recipe"},
};

}  // namespace

std::span<const Example> examples() {
  return table;
}

}  // namespace gelwright::cli
