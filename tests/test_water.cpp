#include <algorithm>
#include <limits>
#include <string>
#include <vector>

#include "catch.hpp"
#include "gelwright/elements.hpp"
#include "gelwright/error.hpp"
#include "gelwright/water.hpp"
#include "water_charge.hpp"

using namespace gelwright;
using gelwright::test::charge_eq_per_kg;
using gelwright::test::near;

namespace {

/// A hard water that balances by hand: 2 (2.0 + 0.5) + 0.5 = 5.5 = 4.0 + 1.0 + 2 x 0.25 meq/L.
Water balanced_water() {
  Water water;
  water.name = "tap";
  water.mg_per_l[Ion::calcium] = 2.0 * 40.078;
  water.mg_per_l[Ion::magnesium] = 0.5 * 24.305;
  water.mg_per_l[Ion::sodium] = 0.5 * 22.990;
  water.mg_per_l[Ion::chloride] = 1.0 * 35.45;
  water.mg_per_l[Ion::sulfate] = 0.25 * (32.06 + 4 * 15.999);
  water.alkalinity_meq_per_l = 4.0;
  water.mg_per_l[Ion::potassium] = 0.0;
  water.mg_per_l[Ion::nitrate] = 0.0;
  return water;
}

/// mmol/L as mol per kg, over the 0.998207 kg of water in a litre at 20 degC (IAPWS-95).
double per_kg(double mmol_per_l) {
  return 1e-3 * mmol_per_l / 0.998207;
}

/// Relative tolerance of `per_kg`: the 0.01 kg/m3 to which water density is checked.
auto near_per_kg(double mmol_per_l) {
  return near(per_kg(mmol_per_l), 1e-5 * per_kg(mmol_per_l));
}

bool holds(const std::vector<WaterAssumption>& list, WaterAssumption assumption) {
  return std::find(list.begin(), list.end(), assumption) != list.end();
}

std::vector<WaterFindingKind> kinds(const Water& water) {
  std::vector<WaterFindingKind> out;
  for (const WaterFinding& finding : plausibility(water)) out.push_back(finding.kind);
  return out;
}

using Kinds = std::vector<WaterFindingKind>;
using Assumptions = std::vector<WaterAssumption>;

}  // namespace

TEST_CASE("hardness units against the published conversion factors") {
  struct Row {
    HardnessUnit unit;
    double mg_caco3_per_l, mmol_per_l;
  };
  // DIN 38409-6 and WHO/HSE/WSH/10.01/10 print these to three or four figures (17.85, 10, 14.25,
  // 17.1 mg/L CaCO3); the further figures are grain and gallon arithmetic by hand.
  for (const Row& row :
       {Row{HardnessUnit::mmol_per_l, 100.086, 1.0}, Row{HardnessUnit::meq_per_l, 50.043, 0.5},
        Row{HardnessUnit::german_degrees, 17.847959, 0.178326},
        Row{HardnessUnit::french_degrees, 10.0, 0.099914},
        Row{HardnessUnit::english_degrees, 14.253768, 0.142415},
        Row{HardnessUnit::grains_per_us_gallon, 17.118061, 0.171034}}) {
    const double mmol = hardness_mmol_per_l(1.0, row.unit);
    CAPTURE(row.mg_caco3_per_l);
    CHECK_THAT(mmol, near(row.mmol_per_l, 6e-7));
    CHECK_THAT(hardness_in(HardnessUnit::mg_caco3_per_l, mmol), near(row.mg_caco3_per_l, 1e-6));
    CHECK_THAT(hardness_in(row.unit, mmol), near(1.0, 1e-14));
  }
}

TEST_CASE("alkalinity units") {
  // 50.04 mg CaCO3 and 61.02 mg HCO3 to the meq (Standard Methods 2320 B); 2.8 degrees of
  // carbonate hardness to the mmol of acid (DIN 38409-7, from memory).
  CHECK_THAT(alkalinity_meq_per_l(50.043, AlkalinityUnit::mg_caco3_per_l), near(1.0, 1e-6));
  CHECK_THAT(alkalinity_meq_per_l(1.0, AlkalinityUnit::mg_hco3_per_l), near(0.0163891, 6e-8));
  CHECK_THAT(alkalinity_in(AlkalinityUnit::mg_caco3_per_l,
                           alkalinity_meq_per_l(1.0, AlkalinityUnit::mg_hco3_per_l)),
             near(0.820162, 1e-6));
  CHECK_THAT(alkalinity_in(AlkalinityUnit::german_degrees, 1.0), near(2.8, 0.005));
  CHECK_THAT(alkalinity_in(AlkalinityUnit::french_degrees, 1.0), near(5.0, 0.005));
  CHECK(alkalinity_in(AlkalinityUnit::acid_capacity_mmol_per_l, 3.0) == 3.0);
  for (const AlkalinityUnitInfo& row : alkalinity_units())
    CHECK_THAT(alkalinity_in(row.unit, row.meq_per_l), near(1.0, 1e-14));
}

TEST_CASE("calcium and magnesium in CaCO3 terms") {
  // WHO/HSE/WSH/10.01/10: hardness = 2.497 Ca + 4.118 Mg (mg/L).
  const auto as_caco3 = [](Ion ion) {
    return hardness_in(HardnessUnit::mg_caco3_per_l, mmol_per_l(ion, 1.0));
  };
  CHECK_THAT(as_caco3(Ion::calcium), near(2.497280, 1e-6));
  CHECK_THAT(as_caco3(Ion::magnesium), near(4.117918, 1e-6));
  CHECK_THAT(mmol_per_l(Ion::calcium, 1.0), near(0.0249513, 6e-8));
  CHECK_THAT(mmol_per_l(Ion::magnesium, 1.0), near(0.0411438, 6e-8));
  for (const IonInfo& ion : ions()) {
    CAPTURE(ion.key_stem);
    CHECK(ion.g_per_mol == molar_mass_g_per_mol(ion.formula));
    CHECK_THAT(mg_per_l(ion.ion, mmol_per_l(ion.ion, 7.0)), near(7.0, 1e-13));
    CHECK(&info(ion.ion) == &ion);
  }
}

TEST_CASE("hardness is read in the spellings of reports") {
  const double dh = 10.0 / 56.077, fh = 10.0 / 100.086;
  for (const auto& [text, mmol] : std::vector<std::pair<std::string, double>>{
           {"7.5 °dH", 7.5 * dh},
           {"7.5°dH", 7.5 * dh},
           {"7.5 dH", 7.5 * dh},
           {"  7.5 DH ", 7.5 * dh},
           {"7.5ºd", 7.5 * dh},
           {"7 °dGH", 7 * dh},
           {"13 °fH", 13 * fh},
           {"13 °f", 13 * fh},
           {"130 mg/L CaCO3", 13 * fh},
           {"130mg/l as CaCO3", 13 * fh},
           {"130 mg/L (CaCO₃)", 13 * fh},
           {"130 mg CaCO3/l", 13 * fh},
           {"130 ppm CaCO3", 13 * fh},
           {"1.3 mmol/L", 1.3},
           {"1.3e0mmol/l", 1.3},
           {"2.6 meq/L", 1.3},
           {"9 °e", 9 * 0.142415},
           {"9 clark", 9 * 0.142415},
           {"8 gpg", 8 * 0.171034},
           {"0 gpg", 0.0},
           {"8 grains per gallon", 8 * 0.171034},
           {"8 Grains / US gallon", 8 * 0.171034},
           {"8 gr/gal", 8 * 0.171034},
           {"9 grains per imperial gallon", 9 * 0.142415},
           {"130 ppm as CaCO3", 13 * fh},
           {"130 mg per litre as calcium carbonate", 13 * fh},
           {"7.5 German degrees", 7.5 * dh},
           {"7.5 degrees German hardness", 7.5 * dh},
           {"13 french degrees", 13 * fh}}) {
    CAPTURE(text);
    const ParsedAmount parsed = parse_hardness(text);
    CHECK(parsed.reason == "");
    REQUIRE(parsed.value);
    CHECK_THAT(*parsed.value, near(mmol, 1e-5));
  }
}

TEST_CASE("alkalinity is read in the spellings of reports") {
  for (const auto& [text, meq] :
       std::vector<std::pair<std::string, double>>{{"2.1 meq/L", 2.1},
                                                   {"2.1 mval/l", 2.1},
                                                   {"2.1 mmol/L acid", 2.1},
                                                   {"2.1 mmol/l H+", 2.1},
                                                   {"2.1 mmol/L (KS4.3)", 2.1},
                                                   {"2.1 mmol/L HCO3⁻", 2.1},
                                                   {"1.05 mmol/L CaCO3", 2.1},
                                                   {"105.09 mg/L CaCO3", 2.1},
                                                   {"105.09 mg/l as CaCO3", 2.1},
                                                   {"128.134 mg/L HCO3-", 2.1},
                                                   {"128.134 mg/L as HCO3", 2.1},
                                                   {"5.888 °dKH", 2.1},
                                                   {"10.509 °f", 2.1},
                                                   {"105.09 ppm as CaCO3", 2.1},
                                                   {"128.134 mg/l bicarbonate", 2.1},
                                                   {"5.888 German degrees", 2.1}}) {
    CAPTURE(text);
    const ParsedAmount parsed = parse_alkalinity(text);
    CHECK(parsed.reason == "");
    REQUIRE(parsed.value);
    CHECK_THAT(*parsed.value, near(meq, 2e-4));
  }
}

TEST_CASE("ions are read in mass or moles") {
  for (const auto& [text, mg] :
       std::vector<std::pair<std::string, double>>{{"23mg/L", 23},
                                                   {"23 mg/l", 23},
                                                   {"23 ppm", 23},
                                                   {"23 milligrams per litre", 23},
                                                   {"23mg/l Ca", 23},
                                                   {"100.086 ppm as CaCO3", 40.078},
                                                   {"0.5 mmol/L", 20.039},
                                                   {"100.086 mg/L CaCO3", 40.078}}) {
    CAPTURE(text);
    const ParsedAmount parsed = parse_concentration(Ion::calcium, text);
    REQUIRE(parsed.value);
    CHECK_THAT(*parsed.value, near(mg, 1e-9));
  }
  CHECK(parse_concentration(Ion::sodium, "10 mg/L CaCO3").reason ==
        "unit \"mg/L CaCO3\" is not known for sodium, use mg/L or mmol/L");
}

TEST_CASE("units that could mean two things are refused with the reason") {
  CHECK_FALSE(parse_alkalinity("2.1 mmol/L").value);
  CHECK(parse_alkalinity("2.1 mmol/L").reason ==
        "mmol/L is ambiguous for alkalinity, 1 mmol of CaCO3 takes up 2 mmol of acid: write "
        "meq/L, mg/L CaCO3, mg/L HCO3, or mmol/L acid for an acid capacity");
  CHECK(parse_alkalinity("105 mg/L").reason ==
        "\"mg/L\" does not say of what: write mg/L CaCO3 or mg/L HCO3");
  CHECK(parse_hardness("130 ppm").reason ==
        "\"ppm\" does not say of what: write mg/L CaCO3, or give calcium and magnesium themselves");
  CHECK(parse_hardness("130").reason == "\"130\" has no unit, write it like 7.5 °dH");
  CHECK(parse_hardness("hard").reason ==
        "\"hard\" does not start with a number, write it like 7.5 °dH");
  CHECK(parse_hardness("7,5 °dH").reason ==
        "\"7,5 °dH\" has a comma: use a decimal point, write it like 7.5 °dH");
  CHECK(parse_hardness("-1 °dH").reason == "\"-1 °dH\" is negative");
  CHECK(parse_hardness("7 furlongs").reason ==
        "unit \"furlongs\" is not known for hardness, use one of mmol/L, meq/L, mg/L CaCO3, °dH, "
        "°fH, °e, gpg");
  CHECK(parse_alkalinity("7 °e").reason ==
        "unit \"°e\" is not known for alkalinity, use one of meq/L, mmol/L acid, mg/L CaCO3, "
        "mg/L HCO3, °dH, °fH");
  for (const char* bad : {"", " ", "nan dH", "inf dH", "1e999 dH", "mg/L", "5 \xC2", "5 \xFF"}) {
    CAPTURE(bad);
    CHECK_FALSE(parse_hardness(bad).value);
    CHECK_FALSE(parse_hardness(bad).reason.empty());
    CHECK_FALSE(parse_alkalinity(bad).value);
    CHECK_FALSE(parse_concentration(Ion::calcium, bad).value);
  }
}

TEST_CASE("every unit label can be read back") {
  for (const HardnessUnitInfo& row : hardness_units()) {
    const ParsedAmount parsed = parse_hardness("2 " + std::string(row.label));
    CAPTURE(row.label);
    REQUIRE(parsed.value);
    CHECK(*parsed.value == 2.0 * row.mmol_per_l);
  }
  for (const AlkalinityUnitInfo& row : alkalinity_units()) {
    const ParsedAmount parsed = parse_alkalinity("2 " + std::string(row.label));
    CAPTURE(row.label);
    REQUIRE(parsed.value);
    CHECK(*parsed.value == 2.0 * row.meq_per_l);
  }
}

TEST_CASE("a complete report is used as it is") {
  Assumptions assumptions;
  const WaterIons ions = complete(balanced_water(), &assumptions);
  CHECK(assumptions.empty());
  CHECK_THAT(ions.mol_per_kg[Ion::calcium], near_per_kg(2.0));
  CHECK_THAT(ions.mol_per_kg[Ion::magnesium], near_per_kg(0.5));
  CHECK_THAT(ions.alkalinity_eq_per_kg, near_per_kg(4.0));
  CHECK_THAT(ions.mol_per_kg[Ion::sulfate], near_per_kg(0.25));
  CHECK_THAT(charge_eq_per_kg(ions), near(0.0, 1e-15));
}

TEST_CASE("whatever is missing, the water comes out neutral") {
  // Every combination of reported and absent values.
  for (unsigned mask = 0; mask < 512; ++mask) {
    Water water = balanced_water();
    water.mg_per_l[Ion::potassium] = 3.0;
    water.hardness_mmol_per_l = 2.5;
    for (const IonInfo& ion : ions())
      if (mask & (1U << static_cast<unsigned>(ion.ion))) water.mg_per_l[ion.ion].reset();
    if (mask & 128U) water.alkalinity_meq_per_l.reset();
    if (mask & 256U) water.hardness_mmol_per_l.reset();
    Assumptions assumptions;
    const WaterIons completed = complete(water, &assumptions);
    CAPTURE(mask);
    CHECK_THAT(charge_eq_per_kg(completed), near(0.0, 1e-14));
    for (const double part : completed.mol_per_kg.values) CHECK(part >= 0.0);
    CHECK(completed.alkalinity_eq_per_kg >= 0.0);
    if (mask != 0 && mask != 256) CHECK_FALSE(assumptions.empty());
    const WaterIons quiet = complete(water, nullptr);
    CHECK(quiet.mol_per_kg.values == completed.mol_per_kg.values);
  }
}

TEST_CASE("what a report states reads back as it was stated") {
  const WaterIons ions = complete(balanced_water(), nullptr);
  for (const IonInfo& ion : gelwright::ions()) {
    CAPTURE(ion.key_stem);
    CHECK_THAT(mg_per_l(ions, ion.ion), near(*balanced_water().mg_per_l[ion.ion], 1e-12));
  }
  CHECK_THAT(alkalinity_meq_per_l(ions), near(4.0, 1e-14));
  // Nitrate counts with chloride, as it binds nothing.
  WaterIons nitrate = ions;
  nitrate.mol_per_kg[Ion::nitrate] = 2e-4;
  const auto mol = dissolved_mol(nitrate, 2.0);
  CHECK_THAT(mol[static_cast<std::size_t>(Component::chloride)],
             near(2.0 * (ions.mol_per_kg[Ion::chloride] + 2e-4), 1e-15));
  CHECK_THAT(mol[static_cast<std::size_t>(Component::calcium)],
             near(2.0 * ions.mol_per_kg[Ion::calcium], 1e-15));
  CHECK_THAT(mol[static_cast<std::size_t>(Component::carbonate)],
             near(2.0 * ions.alkalinity_eq_per_kg, 1e-15));
  // Pure water at 20 degC, CRC Handbook of Chemistry and Physics: 0.9982 g/mL.
  CHECK_THAT(water_kg_per_l(), near(0.9982, 1e-4));
  CHECK_THAT(litres_of_water(998.2), near(1.0, 1e-4));
}

TEST_CASE("a water brought to another calcium or alkalinity stays neutral, the rest as it was") {
  const WaterIons tap = complete(balanced_water(), nullptr);
  for (const double calcium : {0.0, 12.0, 80.156, 240.0}) {
    CAPTURE(calcium);
    const WaterIons changed = with_calcium(tap, calcium);
    CHECK_THAT(mg_per_l(changed, Ion::calcium), near(calcium, 1e-12));
    CHECK_THAT(charge_eq_per_kg(changed), near(0.0, 1e-15));
    CHECK(changed.mol_per_kg[Ion::magnesium] == tap.mol_per_kg[Ion::magnesium]);
    CHECK(changed.mol_per_kg[Ion::sodium] >= tap.mol_per_kg[Ion::sodium]);
    CHECK(changed.mol_per_kg[Ion::chloride] >= tap.mol_per_kg[Ion::chloride]);
  }
  for (const double alkalinity : {0.0, 1.5, 9.0}) {
    CAPTURE(alkalinity);
    const WaterIons changed = with_alkalinity(tap, alkalinity);
    CHECK_THAT(alkalinity_meq_per_l(changed), near(alkalinity, 1e-14));
    CHECK_THAT(charge_eq_per_kg(changed), near(0.0, 1e-15));
    CHECK(changed.mol_per_kg[Ion::calcium] == tap.mol_per_kg[Ion::calcium]);
  }
  // A quarter of low-mineral water takes a quarter of everything: a sum by hand.
  const WaterIons thin = thinned(tap, 0.25);
  CHECK_THAT(mg_per_l(thin, Ion::calcium), near(0.75 * 80.156, 1e-12));
  CHECK_THAT(alkalinity_meq_per_l(thin), near(3.0, 1e-14));
  CHECK_THAT(charge_eq_per_kg(thin), near(0.0, 1e-15));
  CHECK(thinned(tap, 0.0).mol_per_kg.values == tap.mol_per_kg.values);
  CHECK(mg_per_l(thinned(tap, 1.0), Ion::calcium) == 0.0);
}

TEST_CASE("total hardness alone is split 3 to 1 and says so") {
  Water water;
  water.hardness_mmol_per_l = 2.0;
  water.alkalinity_meq_per_l = 3.0;
  Assumptions assumptions;
  const WaterIons ions = complete(water, &assumptions);
  CHECK_THAT(ions.mol_per_kg[Ion::calcium] / ions.mol_per_kg[Ion::magnesium], near(3.0, 1e-12));
  CHECK_THAT(ions.mol_per_kg[Ion::calcium], near_per_kg(1.5));
  // 4 meq of cations, 3 of alkalinity: 1 meq of chloride by hand.
  CHECK_THAT(ions.mol_per_kg[Ion::chloride], near_per_kg(1.0));
  CHECK(ions.mol_per_kg[Ion::sodium] == 0.0);
  CHECK(assumptions == Assumptions{WaterAssumption::calcium_magnesium_split,
                                   WaterAssumption::other_ions_taken_as_zero,
                                   WaterAssumption::chloride_closes_charge});
}

TEST_CASE("calcium and magnesium from what is known") {
  Water water;
  CHECK_FALSE(calcium_and_magnesium(water, nullptr));
  water.mg_per_l[Ion::calcium] = 40.078;
  Assumptions assumptions;
  CHECK_THAT(calcium_and_magnesium(water, &assumptions)->magnesium_mmol_per_l,
             near(1.0 / 3.0, 1e-12));
  CHECK(assumptions == Assumptions{WaterAssumption::magnesium_from_calcium});
  water.hardness_mmol_per_l = 1.2;
  CHECK_THAT(calcium_and_magnesium(water, nullptr)->magnesium_mmol_per_l, near(0.2, 1e-12));
  water.hardness_mmol_per_l = 0.8;
  CHECK(calcium_and_magnesium(water, nullptr)->magnesium_mmol_per_l == 0.0);
  water.mg_per_l[Ion::calcium].reset();
  water.mg_per_l[Ion::magnesium] = 0.3 * 24.305;
  CHECK_THAT(calcium_and_magnesium(water, nullptr)->calcium_mmol_per_l, near(0.5, 1e-12));
  water.hardness_mmol_per_l.reset();
  CHECK_THAT(calcium_and_magnesium(water, nullptr)->calcium_mmol_per_l, near(0.9, 1e-12));
}

TEST_CASE("missing alkalinity is inferred from the major ions, else zero") {
  Water water = balanced_water();
  water.alkalinity_meq_per_l.reset();
  Assumptions assumptions;
  CHECK_THAT(complete(water, &assumptions).alkalinity_eq_per_kg, near_per_kg(4));
  CHECK(assumptions == Assumptions{WaterAssumption::alkalinity_from_charge});
  water.mg_per_l[Ion::sulfate].reset();
  assumptions.clear();
  CHECK(complete(water, &assumptions).alkalinity_eq_per_kg == 0.0);
  CHECK(holds(assumptions, WaterAssumption::alkalinity_taken_as_zero));
  CHECK(holds(assumptions, WaterAssumption::imbalance_closed_with_chloride));
}

TEST_CASE("missing sodium and an unbalanced report are closed on sodium") {
  Water water = balanced_water();
  water.mg_per_l[Ion::sodium].reset();
  Assumptions assumptions;
  CHECK_THAT(complete(water, &assumptions).mol_per_kg[Ion::sodium], near_per_kg(0.5));
  CHECK(assumptions == Assumptions{WaterAssumption::sodium_closes_charge});
  water.mg_per_l[Ion::sodium] = 0.2 * 22.990;
  assumptions.clear();
  CHECK_THAT(complete(water, &assumptions).mol_per_kg[Ion::sodium], near_per_kg(0.5));
  CHECK(assumptions == Assumptions{WaterAssumption::imbalance_closed_with_sodium});
}

TEST_CASE("an ion that is neither reported nor needed is said to be taken as none") {
  Water water = balanced_water();
  water.mg_per_l[Ion::sodium].reset();
  water.alkalinity_meq_per_l = 3.0;  // 5.0 of cations, 4.5 of anions
  Assumptions assumptions;
  CHECK(complete(water, &assumptions).mol_per_kg[Ion::sodium] == 0.0);
  CHECK(assumptions == Assumptions{WaterAssumption::other_ions_taken_as_zero,
                                   WaterAssumption::imbalance_closed_with_chloride});
}

TEST_CASE("blending") {
  const Water tap = balanced_water();
  const Water soft = demineralised_water();
  SECTION("with demineralised water every ion scales with the share") {
    const std::pair<Water, double> parts[] = {{tap, 0.25}, {soft, 0.75}};
    const Water mixed = blend(parts);
    for (const IonInfo& ion : ions()) {
      CAPTURE(ion.key_stem);
      CHECK_THAT(*mixed.mg_per_l[ion.ion], near(0.25 * *tap.mg_per_l[ion.ion], 1e-12));
    }
    CHECK_THAT(*mixed.alkalinity_meq_per_l, near(1.0, 1e-12));
    CHECK_THAT(*mixed.hardness_mmol_per_l, near(0.625, 1e-12));
    CHECK_FALSE(mixed.ph);
    CHECK(mixed.name == "tap + demineralised water");
  }
  SECTION("the share that meets a calcium target meets it") {
    Water bottled = demineralised_water();
    bottled.mg_per_l[Ion::calcium] = 5.0;
    const auto share = share_of_low_mineral_water(20.0, *tap.mg_per_l[Ion::calcium], 5.0);
    REQUIRE(share);
    const std::pair<Water, double> parts[] = {{tap, 1.0 - *share}, {bottled, *share}};
    CHECK_THAT(*blend(parts).mg_per_l[Ion::calcium], near(20.0, 1e-12));
    // By hand: half of each of 100 and 0 mg/L makes 50.
    CHECK_THAT(*share_of_low_mineral_water(50.0, 100.0, 0.0), near(0.5, 1e-15));
    CHECK(*share_of_low_mineral_water(100.0, 80.0, 0.0) == 0.0);
    CHECK(*share_of_low_mineral_water(5.0, 80.0, 5.0) == 1.0);
    CHECK_FALSE(share_of_low_mineral_water(4.0, 80.0, 5.0));
    CHECK_THROWS_AS(share_of_low_mineral_water(-1.0, 80.0, 5.0), InputError);
  }
  SECTION("one water with all the share is itself") {
    Water alone = tap;
    alone.ph = 7.6;
    const std::pair<Water, double> parts[] = {{alone, 1.0}, {Water{}, 0.0}};
    const Water mixed = blend(parts);
    CHECK(mixed.name == "tap");
    CHECK(mixed.ph == 7.6);
    CHECK(mixed.mg_per_l[Ion::sodium] == tap.mg_per_l[Ion::sodium]);
  }
  SECTION("what one water lacks, the blend lacks, but hardness is split first") {
    Water other;
    other.name = "well";
    other.hardness_mmol_per_l = 1.0;
    const std::pair<Water, double> parts[] = {{tap, 0.5}, {other, 0.5}};
    Assumptions assumptions;
    const Water mixed = blend(parts, &assumptions);
    CHECK_FALSE(mixed.mg_per_l[Ion::sodium]);
    CHECK_THAT(*mixed.mg_per_l[Ion::calcium], near(0.5 * (2.0 + 0.75) * 40.078, 1e-10));
    CHECK_THAT(*mixed.hardness_mmol_per_l, near(0.5 * (2.5 + 1.0), 1e-12));
    CHECK_THAT(*mixed.alkalinity_meq_per_l, near(2.0, 1e-12));
    CHECK(assumptions == Assumptions{WaterAssumption::calcium_magnesium_split,
                                     WaterAssumption::alkalinity_taken_as_zero});
  }
  SECTION("shares that do not sum to one are refused") {
    const std::pair<Water, double> short_of[] = {{tap, 0.5}, {soft, 0.4}};
    const std::pair<Water, double> negative[] = {{tap, 1.5}, {soft, -0.5}};
    CHECK_THROWS_AS(blend(short_of), InputError);
    CHECK_THROWS_AS(blend(negative), InputError);
    CHECK_THROWS_AS(blend({}), InputError);
  }
}

TEST_CASE("hardness classes, WHO/HSE/WSH/10.01/10 and USGS") {
  const auto class_of = [](double mg_caco3) {
    return hardness_class(hardness_mmol_per_l(mg_caco3, HardnessUnit::mg_caco3_per_l));
  };
  CHECK(class_of(0.0) == HardnessClass::soft);
  CHECK(class_of(59.9) == HardnessClass::soft);
  CHECK(class_of(60.1) == HardnessClass::moderately_hard);
  CHECK(class_of(119.9) == HardnessClass::moderately_hard);
  CHECK(class_of(120.1) == HardnessClass::hard);
  CHECK(class_of(179.9) == HardnessClass::hard);
  CHECK(class_of(180.1) == HardnessClass::very_hard);
  CHECK(to_text(HardnessClass::moderately_hard) == "moderately hard");
}

TEST_CASE("alkalinity by species, Standard Methods 2320 B, table of relationships") {
  const auto check = [](double p, double t, double oh, double co3, double hco3) {
    CAPTURE(p, t);
    const AlkalinityParts parts = alkalinity_parts(p, t);
    CHECK_THAT(parts.hydroxide_meq_per_l, near(oh, 1e-12));
    CHECK_THAT(parts.carbonate_meq_per_l, near(co3, 1e-12));
    CHECK_THAT(parts.bicarbonate_meq_per_l, near(hco3, 1e-12));
  };
  check(0.0, 4.0, 0.0, 0.0, 4.0);
  check(1.0, 4.0, 0.0, 2.0, 2.0);
  check(2.0, 4.0, 0.0, 4.0, 0.0);
  check(3.0, 4.0, 2.0, 2.0, 0.0);
  check(4.0, 4.0, 4.0, 0.0, 0.0);
  CHECK_THROWS_AS(alkalinity_parts(5.0, 4.0), InputError);
  CHECK_THROWS_AS(alkalinity_parts(-1.0, 4.0), InputError);
}

TEST_CASE("a plausible report has no findings") {
  CHECK(kinds(balanced_water()).empty());
  CHECK(kinds(demineralised_water()).empty());
  CHECK(kinds(Water{}).empty());
}

TEST_CASE("what looks wrong in a report is found") {
  Water water = balanced_water();
  SECTION("ion balance") {
    // Cations 5.5, anions 3.5 meq/L: 100 x 2/9 = 22.2 %, by hand.
    water.alkalinity_meq_per_l = 2.0;
    const auto findings = plausibility(water);
    REQUIRE(findings.size() == 1);
    CHECK(findings[0].kind == WaterFindingKind::ion_balance);
    CHECK_THAT(findings[0].measured, near(100.0 * 2.0 / 9.0, 1e-9));
    CHECK(describe(findings[0]) ==
          "cations and anions differ by +22.2 %, more than 10 %: a value or a unit is probably "
          "wrong");
    water.alkalinity_meq_per_l = 6.0;
    CHECK(plausibility(water)[0].measured < 0.0);
    water.alkalinity_meq_per_l = 4.9;  // 0.9/11.9: under 10 %
    CHECK(kinds(water).empty());
    water.alkalinity_meq_per_l = 2.0;
    water.mg_per_l[Ion::sulfate].reset();  // not every major ion: not judged
    CHECK(kinds(water).empty());
  }
  SECTION("a nearly empty water is not judged by percent") {
    Water soft = demineralised_water();
    soft.mg_per_l[Ion::calcium] = 2.0;
    soft.hardness_mmol_per_l.reset();
    CHECK(kinds(soft).empty());
  }
  SECTION("hardness") {
    water.hardness_mmol_per_l = 1.0;
    CHECK(kinds(water) == Kinds{WaterFindingKind::hardness_below_calcium});
    CHECK(describe(plausibility(water)[0]) ==
          "total hardness (1.00 mmol/L) is below the calcium alone (2.00 mmol/L): check the unit "
          "of both");
    water.hardness_mmol_per_l = 4.0;
    CHECK(kinds(water) == Kinds{WaterFindingKind::hardness_is_not_the_sum});
    CHECK(describe(plausibility(water)[0]) ==
          "total hardness (4.00 mmol/L) is not calcium plus magnesium (2.50 mmol/L)");
    water.hardness_mmol_per_l = 2.6;
    CHECK(kinds(water).empty());
  }
  SECTION("alkalinity") {
    Water softened;
    softened.hardness_mmol_per_l = 0.1;
    softened.alkalinity_meq_per_l = 5.0;
    CHECK(kinds(softened) == Kinds{WaterFindingKind::alkalinity_beyond_hardness});
    CHECK(describe(plausibility(softened)[0]) ==
          "alkalinity (5.00 meq/L) is more than this hardness usually carries (0.30 meq/L) and no "
          "sodium is reported: softened water, or a unit slip");
    softened.mg_per_l[Ion::sodium] = 110.0;
    CHECK(kinds(softened).empty());
  }
  SECTION("pH and hydroxide") {
    water.ph = 3.5;
    CHECK(kinds(water) == Kinds{WaterFindingKind::ph_out_of_range});
    CHECK(describe(plausibility(water)[0]) == "pH 3.5 is beyond 4, not usual for drinking water");
    water.ph = 11.5;
    water.phenolphthalein_alkalinity_meq_per_l = 3.0;
    CHECK(kinds(water) ==
          Kinds{WaterFindingKind::ph_out_of_range, WaterFindingKind::hydroxide_alkalinity});
    CHECK(describe(plausibility(water)[1]) ==
          "the titration to pH 8.3 (3.00 meq/L) is more than half of the total (2.00 meq/L): the "
          "water holds hydroxide, not for drinking as it is");
    water.ph = 8.4;
    water.phenolphthalein_alkalinity_meq_per_l = 0.2;
    CHECK(kinds(water).empty());
  }
}

TEST_CASE("impossible values are all reported at once") {
  Water water = balanced_water();
  water.mg_per_l[Ion::calcium] = -1.0;
  water.ph = std::numeric_limits<double>::quiet_NaN();
  CHECK_THROWS_AS(complete(water, nullptr), InputError);
  CHECK_THROWS_AS(plausibility(water), InputError);
  try {
    calcium_and_magnesium(water, nullptr);
    FAIL("accepted");
  } catch (const InputError& error) {
    REQUIRE(error.problems().size() == 2);
    CHECK(error.problems()[0].where == "calcium_mg_per_l");
    CHECK(error.problems()[0].what == "is -1.000000");
    CHECK(error.problems()[0].remedy == "must be zero or more; leave out what was not reported");
    CHECK(error.problems()[1].where == "ph");
  }
}

TEST_CASE("every assumption has its own sentence") {
  std::vector<std::string> seen;
  for (int i = 0; i <= static_cast<int>(WaterAssumption::other_ions_taken_as_zero); ++i) {
    const std::string text(to_text(static_cast<WaterAssumption>(i)));
    CHECK_FALSE(text.empty());
    CHECK(std::find(seen.begin(), seen.end(), text) == seen.end());
    seen.push_back(text);
  }
}

TEST_CASE("water constants are complete and unique") {
  std::vector<std::string_view> keys;
  for (const auto& rows : {water_data(), water_unit_data()})
    for (const Datum& row : rows) {
      CAPTURE(row.key);
      CHECK_FALSE(row.unit.empty());
      CHECK_FALSE(row.source.empty());
      CHECK(std::find(keys.begin(), keys.end(), row.key) == keys.end());
      keys.push_back(row.key);
    }
}
