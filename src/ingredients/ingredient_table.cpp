#include "ingredients/ingredient_table.hpp"

namespace gelwright {

namespace {

using C = Component;

constexpr SubstanceRow substances[] = {
    {"citric acid anhydrous", "C6H8O7", 0, Kind::acid, "C6H8O7", {{C::citrate, 1}}},
    {"citric acid monohydrate", "C6H8O7.H2O", 1, Kind::acid, "C6H8O7", {{C::citrate, 1}}},
    {"malic acid", "C4H6O5", 0, Kind::acid, "C4H6O5", {{C::malate, 1}}},
    {"tartaric acid", "C4H6O6", 0, Kind::acid, "C4H6O6", {{C::tartrate, 1}}},
    {"lactic acid", "C3H6O3", 0, Kind::acid, "C3H6O3", {{C::lactate, 1}}},
    {"acetic acid", "C2H4O2", 0, Kind::acid, "C2H4O2", {{C::acetate, 1}}},
    {"gluconic acid", "C6H12O7", 0, Kind::acid, "C6H12O7", {{C::gluconate, 1}}},
    {"glucono delta-lactone", "C6H10O6", 0, Kind::acid, "C6H10O6", {}, false, 0},
    {"ascorbic acid", "C6H8O6", 0, Kind::acid, "C6H8O6", {{C::ascorbate, 1}}},

    {"trisodium citrate dihydrate",
     "Na3C6H5O7.2H2O",
     2,
     Kind::salt,
     "",
     {{C::citrate, 1}, {C::sodium, 3}}},
    {"tripotassium citrate monohydrate",
     "K3C6H5O7.H2O",
     1,
     Kind::salt,
     "",
     {{C::citrate, 1}, {C::potassium, 3}}},
    {"sodium bicarbonate", "NaHCO3", 0, Kind::salt, "", {{C::carbonate, 1}, {C::sodium, 1}}},
    {"potassium bicarbonate", "KHCO3", 0, Kind::salt, "", {{C::carbonate, 1}, {C::potassium, 1}}},
    {"sodium chloride", "NaCl", 0, Kind::salt, "", {{C::sodium, 1}, {C::chloride, 1}}},
    {"potassium chloride", "KCl", 0, Kind::salt, "", {{C::potassium, 1}, {C::chloride, 1}}},

    {"calcium chloride dihydrate",
     "CaCl2.2H2O",
     2,
     Kind::calcium_salt,
     "",
     {{C::calcium, 1}, {C::chloride, 2}}},
    {"calcium chloride anhydrous",
     "CaCl2",
     0,
     Kind::calcium_salt,
     "",
     {{C::calcium, 1}, {C::chloride, 2}}},
    {"calcium lactate pentahydrate",
     "CaC6H10O6.5H2O",
     5,
     Kind::calcium_salt,
     "",
     {{C::calcium, 1}, {C::lactate, 2}},
     false,
     value_of(ingredient_rows, "stock.calcium-lactate")},
    {"calcium lactate anhydrous",
     "CaC6H10O6",
     0,
     Kind::calcium_salt,
     "",
     {{C::calcium, 1}, {C::lactate, 2}},
     false,
     value_of(ingredient_rows, "stock.calcium-lactate")},
    {"calcium gluconate monohydrate",
     "CaC12H22O14.H2O",
     1,
     Kind::calcium_salt,
     "",
     {{C::calcium, 1}, {C::gluconate, 2}},
     false,
     value_of(ingredient_rows, "stock.calcium-gluconate")},
    {"calcium sulfate dihydrate",
     "CaSO4.2H2O",
     2,
     Kind::calcium_salt,
     "",
     {{C::calcium, 1}, {C::sulfate, 1}},
     true,
     0},
    {"calcium carbonate",
     "CaCO3",
     0,
     Kind::calcium_salt,
     "",
     {{C::calcium, 1}, {C::carbonate, 1}},
     true,
     0},
    {"tricalcium citrate tetrahydrate",
     "Ca3C12H10O14.4H2O",
     4,
     Kind::calcium_salt,
     "",
     {{C::calcium, 3}, {C::citrate, 2}},
     true,
     0},
    {"dicalcium phosphate dihydrate",
     "CaHPO4.2H2O",
     2,
     Kind::calcium_salt,
     "",
     {{C::calcium, 1}, {C::phosphate, 1}},
     true,
     0},
};

constexpr SugarRow sugars[] = {
    {"dextrose anhydrous", "C6H12O6", 0, Saccharide::glucose, 0},
    {"dextrose monohydrate", "C6H12O6.H2O", 1, Saccharide::glucose, 0},
    {"fructose", "C6H12O6", 0, Saccharide::fructose, 1},
    {"sucrose", "C12H22O11", 0, Saccharide::sucrose, 0.5},
    {"isomaltulose", "C12H22O11.H2O", 1, Saccharide::disaccharide, 0.5},
    {"maltose monohydrate", "C12H22O11.H2O", 1, Saccharide::disaccharide, 0},
};

constexpr GumRow gums[] = {
    {"sodium alginate", Gum::alginate, value_of(ingredient_rows, "alginate.moisture"), C::sodium},
    {"HM pectin", Gum::hm_pectin, value_of(ingredient_rows, "pectin.moisture"), C::sodium},
    {"LM pectin", Gum::lm_pectin, value_of(ingredient_rows, "pectin.moisture"), C::sodium},
    {"amidated pectin", Gum::amidated_pectin, value_of(ingredient_rows, "pectin.moisture"),
     C::sodium},
    {"low-acyl gellan", Gum::gellan_low_acyl, value_of(ingredient_rows, "gellan.moisture"),
     C::potassium},
    {"high-acyl gellan", Gum::gellan_high_acyl, value_of(ingredient_rows, "gellan.moisture"),
     C::potassium},
    {"xanthan", Gum::xanthan, value_of(ingredient_rows, "xanthan.moisture"), C::sodium},
};

}  // namespace

std::span<const GumRow> gum_rows() {
  return gums;
}

std::span<const SubstanceRow> substance_rows() {
  return substances;
}

std::span<const SugarRow> sugar_rows() {
  return sugars;
}

}  // namespace gelwright
