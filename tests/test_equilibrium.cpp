#include <algorithm>
#include <cmath>
#include <cstdint>
#include <limits>
#include <random>
#include <string>
#include <utility>
#include <vector>

#include "catch.hpp"
#include "gelwright/equilibrium.hpp"
#include "gelwright/error.hpp"

using namespace gelwright;
using enum gelwright::Component;
using gelwright::test::near;

namespace {

/// A water phase held at a pH, and the strong acid that holds it; negative is sodium hydroxide.
struct Held : Equilibrium {
  double strong_acid_mol_per_kg = 0.0;
};

Held solve_at_ph(Totals t, double ph, const Constants& constants = constants_at_25_c(),
                 const EquilibriumOptions& options = {}) {
  const double acid = proton_demand_mol_per_kg(t, ph, constants, options);
  t[Component::chloride] += std::max(acid, 0.0);
  t[Component::sodium] += std::max(-acid, 0.0);
  return {solve_equilibrium(t, constants, options), acid};
}

Totals mix(std::initializer_list<std::pair<Component, double>> parts) {
  Totals t;
  for (const auto& [c, amount] : parts) t[c] += amount;
  return t;
}

double ph_of(const Totals& t, const EquilibriumOptions& o = {},
             const Constants& c = constants_at_25_c()) {
  return solve_equilibrium(t, c, o).ph;
}

double amount(const Equilibrium& e, std::string_view name) {
  return e.species_mol_per_kg[species_index(name)];
}

/// Phthalic acid has the charges of malic acid: put its pKa in malic acid's place.
Constants with_phthalic_acid() {
  Constants c = constants_at_25_c();
  c.beta[species_index("HMal-")] = std::pow(10.0, 5.411);
  c.beta[species_index("H2Mal")] = std::pow(10.0, 5.411 + 2.950);
  return c;
}

/// Random compositions, the same on every platform.
class Draw {
 public:
  double uniform() { return static_cast<double>(bits_() >> 11) * 0x1p-53; }
  Totals totals(double share_present = 0.5) {
    Totals t;
    for (double& amount : t.mol_per_kg)
      if (uniform() < share_present) amount = std::pow(10.0, -7.0 + 6.5 * uniform());
    return t;
  }
  EquilibriumOptions options() {
    EquilibriumOptions o;
    o.buffer_pka = 2.0 + 8.0 * uniform();
    o.gum_pka = 2.9 + uniform();
    if (uniform() < 0.2) o.carbon_dioxide = CarbonDioxide::open;
    return o;
  }

 private:
  std::mt19937_64 bits_{20240607};
};

const Totals water_of_the_table =
    mix({{calcium, 2.0e-3}, {magnesium, 0.5e-3}, {carbonate, 4.0e-3}, {chloride, 1.0e-3}});

}  // namespace

TEST_CASE("Davies coefficients") {
  // Davies 1962, A = 0.509, worked by hand.
  CHECK_THAT(davies_gamma(1, 0.01), near(0.9021, 5e-5));
  CHECK_THAT(davies_gamma(2, 0.01), near(0.6622, 5e-5));
  CHECK_THAT(davies_gamma(-3, 0.01), near(0.3956, 5e-5));
  CHECK_THAT(davies_gamma(1, 0.1), near(0.7816, 5e-5));
  CHECK_THAT(davies_gamma(-2, 0.1), near(0.3732, 5e-5));
  CHECK_THAT(davies_gamma(3, 0.1), near(0.1089, 5e-5));
  CHECK_THAT(davies_gamma(1, 0.5), near(0.7337, 5e-5));
  CHECK_THAT(davies_gamma(2, 0.5), near(0.2898, 5e-5));
  CHECK_THAT(davies_gamma(3, 0.5), near(0.0616, 5e-5));
  CHECK(davies_gamma(0, 0.3) == 1.0);
  CHECK(davies_gamma(2, 3.0) == davies_gamma(2, 0.5));
  CHECK(davies_gamma(2, 0.0) == 1.0);
}

TEST_CASE("primary pH standards, 25 degC") {
  // Buck et al. 2002, Pure Appl. Chem. 74:2169: conventional pH of 0.05 mol/kg potassium dihydrogen
  // citrate, 0.05 mol/kg potassium hydrogen phthalate; equimolal phosphate 6.865 from memory.
  struct Standard {
    const char* name;
    Totals totals;
    Constants constants;
    double ph;
  };
  const Standard standards[] = {
      {"citrate", mix({{citrate, 0.05}, {potassium, 0.05}}), constants_at_25_c(), 3.776},
      {"phthalate", mix({{malate, 0.05}, {potassium, 0.05}}), with_phthalic_acid(), 4.005},
      {"phosphate", mix({{phosphate, 0.05}, {potassium, 0.025}, {sodium, 0.05}}),
       constants_at_25_c(), 6.865}};
  EquilibriumOptions ideal;
  ideal.ideal = true;
  for (const Standard& s : standards) {
    INFO(s.name);
    CHECK_THAT(ph_of(s.totals, {}, s.constants), near(s.ph, 0.02));
    // Without activity coefficients each is missed by far: the check above can fail.
    CHECK(std::abs(ph_of(s.totals, ideal, s.constants) - s.ph) > 0.15);
  }
}

TEST_CASE("McIlvaine buffers") {
  // McIlvaine 1921, J. Biol. Chem. 49:183: mL of 0.2 M Na2HPO4, rest to 20 mL of 0.1 M citric acid.
  // Taken as mol/kg, within 1 %. The model reads high by its activity coefficients.
  const std::pair<double, double> table[] = {{2.2, 0.40}, {2.6, 2.18}, {3.0, 4.11}, {3.4, 5.70},
                                             {3.8, 7.10}, {4.2, 8.28}, {4.6, 9.35}, {5.0, 10.30}};
  for (const auto& [ph, ml] : table) {
    const double p = 0.2 * ml / 20.0, c = 0.1 * (20.0 - ml) / 20.0;
    INFO(ph);
    CHECK_THAT(ph_of(mix({{phosphate, p}, {sodium, 2.0 * p}, {citrate, c}})),
               near(ph, ph <= 4.4 ? 0.11 : 0.20));
  }
}

TEST_CASE("pure acids") {
  // Two independent equilibrium codes on the same constants, agreeing to 0.001.
  struct Row {
    Component acid;
    double ph[3];
  };
  const Row rows[] = {{citrate, {3.237, 2.623, 2.083}},
                      {lactate, {3.512, 2.956, 2.439}},
                      {acetate, {3.908, 3.388, 2.881}},
                      {phosphate, {3.063, 2.266, 1.641}}};
  const double amounts[] = {1e-3, 1e-2, 1e-1};
  for (const Row& row : rows)
    for (int i = 0; i < 3; ++i) {
      INFO(to_text(row.acid) << ' ' << amounts[i]);
      CHECK_THAT(ph_of(mix({{row.acid, amounts[i]}})), near(row.ph[i], 0.005));
    }
}

TEST_CASE("alkalinity of the water, carbon dioxide kept in") {
  // Computed independently: sodium bicarbonate water, citric acid 2, 5, 10, 26 mmol/kg.
  const double acid[] = {2e-3, 5e-3, 10e-3, 26e-3};
  const std::pair<double, std::array<double, 4>> table[] = {{0.0, {3.040, 2.796, 2.623, 2.394}},
                                                            {1e-3, {3.403, 2.962, 2.724, 2.449}},
                                                            {4e-3, {5.202, 3.621, 3.055, 2.616}}};
  for (const auto& [alkalinity, ph] : table)
    for (std::size_t i = 0; i < 4; ++i) {
      INFO(alkalinity << ' ' << acid[i]);
      CHECK_THAT(ph_of(mix({{citrate, acid[i]}, {sodium, alkalinity}, {carbonate, alkalinity}})),
                 near(ph[i], 0.005));
    }
}

TEST_CASE("gum carboxylate as a base") {
  // Computed independently, gum pKa 3.5 as a concentration constant, no activity correction on it:
  // citric acid 10, 26, 50 mmol/kg; to two decimals. With a constant for I = 0 it would read 3.38,
  // 2.92, 2.63 in the first row and 3.96 in the last: up to 0.13 lower.
  const double acid[] = {10e-3, 26e-3, 50e-3};
  const std::pair<double, std::array<double, 3>> table[] = {
      {12.5e-3, {3.43, 2.94, 2.64}}, {25e-3, {3.77, 3.27, 2.92}}, {50e-3, {4.09, 3.64, 3.28}}};
  for (const auto& [gum, ph] : table)
    for (std::size_t i = 0; i < 3; ++i) {
      INFO(gum << ' ' << acid[i]);
      CHECK_THAT(ph_of(mix({{citrate, acid[i]}, {uronate, gum}, {sodium, gum}})),
                 near(ph[i], 0.01));
    }
}

TEST_CASE("the gum's and the buffer's own pKa are used") {
  const Totals gum = mix({{uronate, 0.2}, {sodium, 0.1}});
  EquilibriumOptions o;
  o.gum_pka = 3.5;
  CHECK(ph_of(gum) == ph_of(gum, o));
  o.gum_pka = 4.5;
  CHECK_THAT(ph_of(gum, o) - ph_of(gum), near(1.0, 0.02));  // half neutralised: pH near pKa
  // A buffer with acetic acid's pKa is acetic acid.
  o.buffer_pka = 4.757;
  CHECK_THAT(ph_of(mix({{buffer, 0.02}, {sodium, 0.01}}), o),
             near(ph_of(mix({{acetate, 0.02}, {sodium, 0.01}})), 1e-12));
}

TEST_CASE("one mean pKa for two gums is within 0.02 of a pKa for each") {
  // Alginate 3.5 beside LM pectin 3.8, the two built-in gums that are furthest apart. Activity left
  // out, so that the buffer can play the second gum. (Beside a pectin without esters, 4.1: 0.06.)
  constexpr double alginate = 3.5;
  constexpr double pectin = 3.8;
  EquilibriumOptions each;
  each.ideal = true;
  each.gum_pka = alginate;
  each.buffer_pka = pectin;
  double worst = 0;
  for (const double citric : {0.0, 1e-3, 5e-3, 20e-3, 50e-3})
    for (const double share : {0.25, 0.5, 0.75})
      for (const double gum : {5e-3, 25e-3, 50e-3}) {
        EquilibriumOptions mean;
        mean.ideal = true;
        mean.gum_pka = alginate + share * (pectin - alginate);
        const double apart = ph_of(mix({{citrate, citric},
                                        {uronate, gum * (1 - share)},
                                        {buffer, gum * share},
                                        {sodium, 0.8 * gum}}),
                                   each);
        const double together =
            ph_of(mix({{citrate, citric}, {uronate, gum}, {sodium, 0.8 * gum}}), mean);
        worst = std::max(worst, std::abs(apart - together));
      }
  INFO(worst);
  CHECK(worst < 0.02);
  CHECK(worst > 0.001);  // else nothing was compared
}

TEST_CASE("water under carbon dioxide") {
  EquilibriumOptions o;
  o.carbon_dioxide = CarbonDioxide::open;
  CHECK_THAT(ph_of({}, o), near(5.60, 0.005));  // 420 ppm, by hand: sqrt(KH Ka p)
  // Textbook worked example (from memory): 350 ppm, KH 3.38e-2, Ka 4.45e-7.
  Constants c = constants_at_25_c();
  c.kh_mol_per_kg_atm = 3.38e-2;
  c.beta[species_index("H2CO3")] = c.beta[species_index("HCO3-")] / 4.45e-7;
  o.co2_ppm = 350.0;
  CHECK_THAT(ph_of({}, o, c), near(5.64, 0.005));
  // Boiled out, no carbon dioxide in the air: pKw/2.
  o.co2_ppm = 0.0;
  CHECK_THAT(ph_of({}, o), near(13.997 / 2.0, 1e-9));
  CHECK_THAT(ph_of({}), near(13.997 / 2.0, 1e-9));
}

TEST_CASE("free calcium") {
  // Computed independently with three published sets of constants; the spread of their answers.
  Totals t = water_of_the_table;
  t[citrate] = 5e-3;
  Equilibrium e = solve_equilibrium(t);
  CHECK_THAT(e.ph, near(3.53, 0.01));
  CHECK_THAT(e.free_calcium_mol_per_kg / 2e-3, near(0.86, 0.02));
  t[citrate] = 50e-3;
  e = solve_equilibrium(t);
  CHECK_THAT(e.ph, near(2.38, 0.01));
  CHECK_THAT(e.free_calcium_mol_per_kg / 2e-3, near(0.88, 0.04));
  t[sodium] = 120e-3;
  e = solve_equilibrium(t);
  CHECK_THAT(e.ph, near(5.71, 0.01));
  CHECK_THAT(e.free_calcium_mol_per_kg / 2e-3, near(0.023, 0.002));
  // Sodium citrate pairs let some calcium go, and do not touch the pH.
  CHECK(e.free_calcium_mol_per_kg > 1.1 * amount(e, "Ca2+"));
}

TEST_CASE("calcium citrate at blood's ionic strength") {
  // Hastings, McLean, Eichelberger, Hall, da Costa 1934, J. Biol. Chem. 107:351: log K 3.22 for
  // Ca + citrate in all its unbound forms, I = 0.16, pH 7.4. By hand from NIST SRD 46 and Davies:
  // 4.87 - 12 * 0.1210 = 3.418 for bare citrate, less log10(1 + 0.738 + 0.025) = 0.246 for what
  // sodium and hydrogen hold.
  const double ca = 1e-5, cit = 1e-4;
  const Totals t = mix({{calcium, ca}, {citrate, cit}, {sodium, 0.16}, {chloride, 0.16}});
  const Held e = solve_at_ph(t, 7.4);
  CHECK_THAT(e.ionic_strength_mol_per_kg, near(0.16, 0.001));
  const double bound = ca - e.free_calcium_mol_per_kg;
  const double log_k = std::log10(bound / (e.free_calcium_mol_per_kg * (cit - bound)));
  CHECK_THAT(log_k, near(3.172, 0.003));
  CHECK_THAT(log_k, near(3.22, 0.05));
}

TEST_CASE("saturated solutions") {
  // Gypsum: 0.0152 mol/kg at 25 degC (Marshall and Slusher 1966, J. Phys. Chem. 70:4015, from
  // memory).
  const Equilibrium gypsum = solve_equilibrium(mix({{calcium, 0.0152}, {sulfate, 0.0152}}));
  REQUIRE(gypsum.saturation.gypsum);
  CHECK_THAT(*gypsum.saturation.gypsum, near(0.0, 0.05));
  CHECK_FALSE(gypsum.saturation.calcite);
  CHECK_FALSE(gypsum.saturation.tricalcium_citrate);
  // Calcite under 10^-3.5 atm CO2: pH 8.3 (Stumm and Morgan, Aquatic Chemistry, from memory).
  EquilibriumOptions o;
  o.carbon_dioxide = CarbonDioxide::open;
  o.co2_ppm = 316.0;
  double low = 1e-5, high = 1e-2;
  for (int i = 0; i < 60; ++i) {
    const double ca = std::sqrt(low * high);
    const Equilibrium e = solve_equilibrium(mix({{calcium, ca}}), constants_at_25_c(), o);
    (*e.saturation.calcite > 0.0 ? high : low) = ca;
  }
  CHECK_THAT(ph_of(mix({{calcium, low}}), o), near(8.3, 0.05));
}

TEST_CASE("saturation indices are ion products over solubility products") {
  Totals t = water_of_the_table;
  t[citrate] = 0.02;
  t[phosphate] = 0.005;
  t[sulfate] = 0.003;
  // No sodium or potassium: no pairs, so the species listed are final.
  const Held e = solve_at_ph(t, 1.5);
  const double i = e.ionic_strength_mol_per_kg;
  const double ca = std::log10(e.free_calcium_mol_per_kg * davies_gamma(2, i));
  const auto anion = [&](std::string_view name, int z) {
    return std::log10(amount(e, name) * davies_gamma(z, i));
  };
  REQUIRE(e.strong_acid_mol_per_kg > 0.0);  // acid, not sodium hydroxide, held the pH
  CHECK_THAT(e.saturation.calcite.value(), near(ca + anion("CO32-", 2) + 8.48, 1e-9));
  CHECK_THAT(e.saturation.gypsum.value(), near(ca + anion("SO42-", 2) + 4.61, 1e-9));
  CHECK_THAT(e.saturation.calcium_phosphate_dihydrate.value(),
             near(ca + anion("HPO42-", 2) + 6.62, 1e-9));
  CHECK_THAT(e.saturation.tricalcium_citrate.value(),
             near(3.0 * ca + 2.0 * anion("Cit3-", 3) + 17.7, 1e-9));
}

TEST_CASE("buffer capacity") {
  // Van Slyke 1922, J. Biol. Chem. 52:525: 0.1 mol/L acetate at pH 4.76, gamma 1, by hand 0.05760.
  EquilibriumOptions ideal;
  ideal.ideal = true;
  const Totals acetic = mix({{acetate, 0.1}});
  CHECK_THAT(
      solve_at_ph(acetic, 4.76, constants_at_25_c(), ideal).buffer_capacity_mol_per_kg_per_ph,
      near(0.05760, 5e-6));

  // Against the slope of the acid demand. The formula is for constant ionic strength: gamma 1, or a
  // background beyond which the coefficients are held.
  const Totals background = mix({{citrate, 0.03},
                                 {phosphate, 0.01},
                                 {uronate, 0.02},
                                 {carbonate, 4e-3},
                                 {potassium, 2.0},
                                 {chloride, 2.0}});
  for (const bool gamma_one : {true, false})
    for (const auto co2 : {CarbonDioxide::closed, CarbonDioxide::open})
      for (const double ph : {2.0, 3.5, 5.0, 6.4, 8.0, 11.0}) {
        EquilibriumOptions o;
        o.ideal = gamma_one;
        o.carbon_dioxide = co2;
        const double d = 1e-4;
        const double slope =
            (proton_demand_mol_per_kg(background, ph - d, constants_at_25_c(), o) -
             proton_demand_mol_per_kg(background, ph + d, constants_at_25_c(), o)) /
            (2.0 * d);
        const double beta =
            solve_at_ph(background, ph, constants_at_25_c(), o).buffer_capacity_mol_per_kg_per_ph;
        INFO(ph << ' ' << gamma_one);
        CHECK_THAT(beta / slope, near(1.0, 1e-6));
      }
}

TEST_CASE("acid demand is the acid that gives that pH") {
  Draw draw;
  for (int i = 0; i < 300; ++i) {
    Totals t = draw.totals();
    const EquilibriumOptions o = draw.options();
    const double ph = 2.0 + 9.0 * draw.uniform();
    const double acid = proton_demand_mol_per_kg(t, ph, constants_at_25_c(), o);
    if (acid > 50.0 || acid < -50.0) continue;
    t[chloride] += std::max(acid, 0.0);
    t[sodium] += std::max(-acid, 0.0);
    INFO(i << ' ' << ph);
    CHECK_THAT(solve_equilibrium(t, constants_at_25_c(), o).ph, near(ph, 1e-8));
  }
}

TEST_CASE("charge, mass and every law of mass action hold") {
  Draw draw;
  const Constants& c = constants_at_25_c();
  for (int round = 0; round < 300; ++round) {
    const Totals t = draw.totals();
    EquilibriumOptions o = draw.options();
    o.carbon_dioxide = CarbonDioxide::closed;
    o.gum_pka.reset();
    const Equilibrium e = solve_equilibrium(t, c, o);
    INFO(round);
    CHECK_FALSE(e.nested);
    CHECK(e.residual_evaluations <= 20);
    const double i = e.ionic_strength_mol_per_kg;
    const double h = std::pow(10.0, -e.ph);
    const double hydrogen = h / davies_gamma(1, i), hydroxide = c.kw / (h * davies_gamma(1, i));
    double charge = hydrogen - hydroxide, charges = hydrogen + hydroxide, z2 = charges;
    Totals found;
    for (std::size_t k = 0; k < species_count; ++k) {
      const Species& s = species()[k];
      const double m = e.species_mol_per_kg[k];
      charge += s.charge * m;
      charges += std::abs(s.charge) * m;
      z2 += s.charge * s.charge * m;
      found[s.component] += m;
      found[calcium] += s.n_ca * m;
      found[magnesium] += s.n_mg * m;
      if (s.component == buffer || m == 0.0) continue;  // the buffer's constant is an option
      std::size_t bare = k;
      while (species()[bare].component != s.component || species()[bare].n_h != 0 ||
             species()[bare].n_ca + species()[bare].n_mg + species()[bare].n_na +
                     species()[bare].n_k !=
                 0)
        --bare;
      const double law = c.beta[k] * e.species_mol_per_kg[bare] *
                         davies_gamma(species()[bare].charge, i) * std::pow(h, s.n_h) *
                         std::pow(amount(e, "Ca2+") * davies_gamma(2, i), s.n_ca) *
                         std::pow(amount(e, "Mg2+") * davies_gamma(2, i), s.n_mg);
      CHECK_THAT(m * std::pow(davies_gamma(1, i), s.activity_z2) / law, near(1.0, 1e-9));
    }
    CHECK(std::abs(charge) <= 1.0001e-12 * charges);
    CHECK_THAT(0.5 * z2 / i, near(1.0, 1e-9));
    for (std::size_t k = 0; k < component_count; ++k)
      if (t.mol_per_kg[k] > 0.0)
        CHECK_THAT(found.mol_per_kg[k] / t.mol_per_kg[k], near(1.0, 1e-10));
  }
}

TEST_CASE("free metals with pairs obey the balances too") {
  const Totals t =
      mix({{citrate, 0.05}, {sodium, 0.1}, {potassium, 0.05}, {calcium, 3e-3}, {magnesium, 1e-3}});
  const Equilibrium e = solve_equilibrium(t);
  const Constants& c = constants_at_25_c();
  const double g = davies_gamma(1, e.ionic_strength_mol_per_kg), h = std::pow(10.0, -e.ph);
  const double ca = e.free_calcium_mol_per_kg, mg = e.free_magnesium_mol_per_kg;
  // Unknown free citrate, sodium and potassium by plain repetition of the balances.
  double cit = 1e-3, na = 0.1, k = 0.05;
  const auto beta = [&](std::string_view name) {
    const Species& s = species()[species_index(name)];
    const int n2 = s.n_ca + s.n_mg;
    return c.beta[species_index(name)] * std::pow(h, s.n_h) *
           std::pow(g, 4 * n2 + s.n_na + s.n_k + 9 - s.charge * s.charge);
  };
  const double free = 1.0 + beta("HCit2-") + beta("H2Cit-") + beta("H3Cit");
  const double with_ca = beta("CaCit-") + beta("CaHCit") + beta("CaH2Cit+");
  const double with_mg = beta("MgCit-") + beta("MgHCit") + beta("MgH2Cit+");
  for (int i = 0; i < 200; ++i) {
    cit = 0.05 / (free + with_ca * ca + with_mg * mg + beta("NaCit2-") * na + beta("KCit2-") * k);
    na = 0.1 / (1.0 + beta("NaCit2-") * cit);
    k = 0.05 / (1.0 + beta("KCit2-") * cit);
  }
  const double ca_oh = c.beta[species_index("CaOH+")] * g * g * g / h;
  CHECK_THAT(ca * (1.0 + ca_oh + with_ca * cit) / 3e-3, near(1.0, 1e-9));
  CHECK_THAT(mg * (1.0 + with_mg * cit) / 1e-3, near(1.0, 1e-9));
}

TEST_CASE("the quick and the sure path agree") {
  Draw draw;
  for (int i = 0; i < 150; ++i) {
    const Totals t = draw.totals();
    EquilibriumOptions o = draw.options();
    o.ideal = draw.uniform() < 0.1;
    const double ph = 1.0 + 12.0 * draw.uniform();
    const Equilibrium quick = solve_equilibrium(t, constants_at_25_c(), o);
    const double quick_acid = proton_demand_mol_per_kg(t, ph, constants_at_25_c(), o);
    o.nested_only = true;
    const Equilibrium sure = solve_equilibrium(t, constants_at_25_c(), o);
    const double sure_acid = proton_demand_mol_per_kg(t, ph, constants_at_25_c(), o);
    INFO(i);
    CHECK_FALSE(quick.nested);
    CHECK(sure.nested);
    CHECK_THAT(quick.ph, near(sure.ph, 1e-11));
    CHECK_THAT(quick.ionic_strength_mol_per_kg / sure.ionic_strength_mol_per_kg, near(1.0, 1e-10));
    if (t[calcium] > 0.0)
      CHECK_THAT(quick.free_calcium_mol_per_kg / sure.free_calcium_mol_per_kg, near(1.0, 1e-10));
    CHECK_THAT(quick_acid, near(sure_acid, 1e-10 * (1.0 + std::abs(sure_acid))));
  }
}

TEST_CASE("acid never raises pH, strong base never lowers it") {
  Draw draw;
  for (int i = 0; i < 500; ++i) {
    const Totals t = draw.totals();
    const EquilibriumOptions o = draw.options();
    const double before = ph_of(t, o), more = std::pow(10.0, -6.0 + 5.0 * draw.uniform());
    INFO(i << ' ' << before << ' ' << more);
    Totals acid = t, base = t;
    acid[chloride] += more;
    base[sodium] += more;
    CHECK(ph_of(acid, o) < before);
    CHECK(ph_of(base, o) > before);
    // The same with constant activity coefficients, where it is a theorem.
    EquilibriumOptions ideal = o;
    ideal.ideal = true;
    CHECK(ph_of(acid, ideal) < ph_of(t, ideal));
    CHECK(ph_of(base, ideal) > ph_of(t, ideal));
  }
}

TEST_CASE("calcium water and sodium water of one alkalinity differ") {
  // Calcium takes the citrate and lets protons go: lower pH, most when there is little acid.
  const double little = ph_of(mix({{citrate, 2e-3}, {carbonate, 4e-3}, {calcium, 2e-3}}));
  const double sodium_water = ph_of(mix({{citrate, 2e-3}, {carbonate, 4e-3}, {sodium, 4e-3}}));
  CHECK(sodium_water - little > 0.3);
  CHECK(sodium_water - little < 0.7);
}

TEST_CASE("edges are solved, not refused") {
  const Equilibrium water = solve_equilibrium({});
  CHECK_THAT(water.ph, near(6.9985, 1e-9));
  CHECK(water.free_calcium_mol_per_kg == 0.0);
  CHECK_FALSE(water.saturation.calcite);
  // Far too much citric acid: pH from [H+] of a weak acid, sqrt(Ka C) = 0.086 mol/kg.
  CHECK_THAT(ph_of(mix({{citrate, 10.0}})), near(1.07, 0.05));
  // Lye, 1 mol/kg: pKw + log10(1 * gamma).
  CHECK_THAT(ph_of(mix({{sodium, 1.0}})), near(13.997 + std::log10(davies_gamma(1, 1.0)), 1e-9));
  CHECK_THAT(ph_of(mix({{chloride, 1.0}})), near(-std::log10(davies_gamma(1, 1.0)), 1e-9));
  CHECK_THAT(ph_of(mix({{sodium, 1.0}, {chloride, 1.0}})), near(6.9985, 1e-9));
  for (const double tiny : {std::numeric_limits<double>::denorm_min(), 1e-310, 1e-30, 1e-24, 1e-18})
    for (const double normal : {0.0, 0.02}) {
      Totals t;
      t.mol_per_kg.fill(tiny);
      t[citrate] += normal;
      EquilibriumOptions o;
      o.buffer_pka = 5.0;
      const Equilibrium e = solve_equilibrium(t, constants_at_25_c(), o);
      INFO(tiny << ' ' << normal);
      CHECK_THAT(e.ph, near(ph_of(mix({{citrate, normal}})), 1e-9));
      CHECK(std::isfinite(e.free_calcium_mol_per_kg));
    }
  Totals all;
  all.mol_per_kg.fill(100.0);
  EquilibriumOptions o;
  o.buffer_pka = 5.0;
  CHECK(std::isfinite(ph_of(all, o)));
  for (std::size_t c = 0; c < component_count; ++c) {
    Totals one;
    one.mol_per_kg[c] = 100.0;
    for (const auto co2 : {CarbonDioxide::closed, CarbonDioxide::open}) {
      o.carbon_dioxide = co2;
      CHECK(std::isfinite(ph_of(one, o)));
    }
  }
}

TEST_CASE("unusable input is refused, all problems at once") {
  Totals t;
  t[calcium] = -1e-3;
  t[citrate] = std::nan("");
  t[sodium] = 1000.0;
  t[buffer] = 0.1;
  EquilibriumOptions o;
  o.gum_pka = 40.0;
  try {
    solve_equilibrium(t, constants_at_25_c(), o);
    FAIL("no exception");
  } catch (const InputError& e) {
    std::vector<std::string> where;
    for (const Problem& p : e.problems()) where.push_back(p.where);
    CHECK(e.problems()[1].what == "the amount is negative: -0.001 mol/kg");
    CHECK(where == std::vector<std::string>{"citrate", "calcium", "sodium", "buffer", "gum_pka"});
  }
  CHECK_THROWS_AS(solve_at_ph({}, 15.5), InputError);
  CHECK_THROWS_AS(solve_at_ph({}, std::nan("")), InputError);
  EquilibriumOptions negative;
  negative.co2_ppm = -1.0;
  CHECK_THROWS_AS(solve_equilibrium({}, constants_at_25_c(), negative), InputError);
}

TEST_CASE("lactone turns to acid") {
  // Zhang et al. 2007, J. Solution Chem. 36:1187: half gone in ln 2/1.1e-4 s = 1.75 h near pH 5.
  CHECK_THAT(gdl_hydrolysed_fraction(1.75, 5.0), near(0.5, 0.005));
  CHECK(gdl_hydrolysed_fraction(0.0, 4.0) == 0.0);
  CHECK(gdl_hydrolysed_fraction(-1.0, 4.0) == 0.0);
  CHECK(gdl_hydrolysed_fraction(1.0, 4.0) < gdl_hydrolysed_fraction(2.0, 4.0));
  // In acid 13 to 22 % stays lactone (Zubiaur et al. 1998, Talanta 45:1007, and Zhang et al. 2007).
  const double left = 1.0 - gdl_hydrolysed_fraction(100.0, 2.0);
  CHECK(left > 0.13);
  CHECK(left < 0.22);
  CHECK(1.0 - gdl_hydrolysed_fraction(100.0, 5.0) < 0.01);
}

TEST_CASE("a solve that cannot meet its tolerances says where it stopped") {
  // Constants that are not numbers: no path can converge, and no NaN may come out.
  Constants broken = constants_at_25_c();
  broken.kw = std::nan("");
  const Totals t = mix({{citrate, 0.01}});
  CHECK_THROWS_AS(solve_equilibrium(t, broken), NotConverged);
  CHECK_THROWS_AS(solve_at_ph(t, 4.0, broken), NotConverged);
  Constants no_calcium = constants_at_25_c();
  no_calcium.beta[species_index("CaCit-")] = std::numeric_limits<double>::infinity();
  try {
    solve_equilibrium(mix({{citrate, 0.01}, {calcium, 0.002}}), no_calcium);
    FAIL("no exception");
  } catch (const NotConverged& e) {
    CHECK(std::string(e.what()).find("stopped at pH") != std::string::npos);
    CHECK(std::string(e.what()).find("calcium 0.002") != std::string::npos);
  }
}
