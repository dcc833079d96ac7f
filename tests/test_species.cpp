#include <algorithm>
#include <cmath>
#include <map>
#include <set>
#include <string>

#include "catch.hpp"
#include "gelwright/error.hpp"
#include "gelwright/species.hpp"

using namespace gelwright;
using gelwright::test::near;

namespace {

double log_beta(std::string_view name, const Constants& c = constants_at_25_c()) {
  return std::log10(c.beta[species_index(name)]);
}

/// What the name alone says about a species: "CaH2Cit+" is calcium, two protons, citrate, +1.
struct Parsed {
  int ca = 0, mg = 0, na = 0, k = 0, h = 0, charge = 0;
  std::string ligand;
};

Parsed parse(std::string name) {
  Parsed p;
  const auto eat = [&](const std::string& prefix) {
    if (name.rfind(prefix, 0) != 0) return false;
    name.erase(0, prefix.size());
    return true;
  };
  if (const char sign = name.back(); sign == '+' || sign == '-') {
    name.pop_back();
    int size = 1;
    // A digit before the sign is the charge, except in HCO3-, H2PO4- and the like, where it belongs
    // to the formula; those are written without one and end in a single charge.
    static const std::set<std::string> single{"HCO3", "CaHCO3", "MgHCO3",
                                              "HSO4", "H2PO4",  "CaH2PO4"};
    if (name.back() >= '1' && name.back() <= '9' && single.count(name) == 0) {
      size = name.back() - '0';
      name.pop_back();
    }
    p.charge = sign == '+' ? size : -size;
  }
  if (name == "Na" || name == "K" || name == "Cl" || name == "Ca" || name == "Mg") {
    p.ligand = name;
    return p;
  }
  if (name == "CaOH") {  // one water less a proton
    p.ligand = "Ca";
    p.h = -1;
    return p;
  }
  if (eat("Ca"))
    p.ca = 1;
  else if (eat("Mg"))
    p.mg = 1;
  else if (eat("Na"))
    p.na = 1;
  else if (name.rfind("KC", 0) == 0 && eat("K"))
    p.k = 1;
  if (eat("H3"))
    p.h = 3;
  else if (eat("H2"))
    p.h = 2;
  else if (eat("H"))
    p.h = 1;
  p.ligand = name;
  return p;
}

}  // namespace

TEST_CASE("every species is what its name says, and its charge follows from its parts") {
  const std::map<std::string, std::pair<Component, int>> ligands{
      {"Cit", {Component::citrate, -3}},   {"Mal", {Component::malate, -2}},
      {"Tar", {Component::tartrate, -2}},  {"Lac", {Component::lactate, -1}},
      {"Ac", {Component::acetate, -1}},    {"Gluc", {Component::gluconate, -1}},
      {"Asc", {Component::ascorbate, -1}}, {"PO4", {Component::phosphate, -3}},
      {"CO3", {Component::carbonate, -2}}, {"SO4", {Component::sulfate, -2}},
      {"Uron", {Component::uronate, -1}},  {"Buf", {Component::buffer, -1}},
      {"Ca", {Component::calcium, 2}},     {"Mg", {Component::magnesium, 2}},
      {"Na", {Component::sodium, 1}},      {"K", {Component::potassium, 1}},
      {"Cl", {Component::chloride, -1}}};
  std::set<std::string_view> names;
  REQUIRE(species().size() == species_count);
  for (const Species& s : species()) {
    INFO(s.name);
    CHECK(names.insert(s.name).second);
    const Parsed p = parse(std::string(s.name));
    REQUIRE(ligands.count(p.ligand) == 1);
    const auto [component, charge] = ligands.at(p.ligand);
    CHECK(s.component == component);
    CHECK(charge_of(component) == charge);
    CHECK(s.n_h == p.h);
    CHECK(s.n_ca == p.ca);
    CHECK(s.n_mg == p.mg);
    CHECK(s.n_na == p.na);
    CHECK(s.n_k == p.k);
    CHECK(s.charge == charge + p.h + 2 * (p.ca + p.mg) + p.na + p.k);
    CHECK(s.charge == p.charge);
    // Only the gums' constant is one of concentrations: [HUron] = K [Uron-] [H+].
    CHECK(s.activity_z2 == (s.name == "HUron" ? 2 : s.charge * s.charge));
  }
}

TEST_CASE("no constant without a source, none unused") {
  std::set<std::string_view> keys;
  for (const Datum& d : species_data()) {
    INFO(d.key);
    CHECK(keys.insert(d.key).second);
    CHECK_FALSE(d.source.empty());
    CHECK_FALSE(d.unit.empty());
    CHECK(std::isfinite(d.value));
    CHECK(d.uncertainty >= 0.0);
  }
  std::set<std::string_view> used{"carbon_dioxide.log_kh",
                                  "water.pkw",
                                  "calcite.log_ksp",
                                  "gypsum.log_ksp",
                                  "calcium_phosphate_dihydrate.log_ksp",
                                  "tricalcium_citrate_tetrahydrate.log_ksp",
                                  "davies.a"};
  for (const Species& s : species()) {
    INFO(s.name);
    const bool bare = s.n_h == 0 && s.n_ca + s.n_mg + s.n_na + s.n_k == 0;
    CHECK(s.data_key.empty() == (bare || s.component == Component::buffer));
    if (!s.data_key.empty()) {
      CHECK(keys.count(s.data_key) == 1);
      CHECK(used.insert(s.data_key).second);
    }
    const auto row = std::find_if(species_data().begin(), species_data().end(),
                                  [&](const Datum& d) { return d.key == s.data_key; });
    if (row != species_data().end()) CHECK(s.log_k == row->value);
  }
  CHECK(used == keys);
}

TEST_CASE("overall constants are the sums of the steps") {
  CHECK_THAT(log_beta("H3Cit"), near(3.128 + 4.761 + 6.396, 1e-12));  // NIST SRD 46
  CHECK_THAT(log_beta("CaHCit"), near(2.86 + 6.396, 1e-12));          // NIST SRD 46
  CHECK_THAT(log_beta("MgH2Cit+"), near(1.13 + 6.396 + 4.761, 1e-12));
  CHECK_THAT(log_beta("CaHCO3+"), near(1.27 + 10.329, 1e-12));
  CHECK_THAT(log_beta("CaOH+"), near(1.30 - 13.997, 1e-12));
}

TEST_CASE("citric acid agrees with an independent determination") {
  // Bénézeth, Palmer, Wesolowski 1997, J. Solution Chem. 26:63.
  CHECK_THAT(log_beta("HCit2-"), near(6.397, 0.003));
  CHECK_THAT(log_beta("H2Cit-") - log_beta("HCit2-"), near(4.759, 0.003));
  CHECK_THAT(log_beta("H3Cit") - log_beta("H2Cit-"), near(3.127, 0.003));
}

TEST_CASE("every overall constant is its last step over the species with one step less") {
  // Names say the parts: MgH2Cit+ is magnesium on H2Cit-, H2Cit- a proton on HCit2-.
  const auto of_parts = [](Component component, int protons, bool metal) {
    for (const Species& s : species())
      if (s.component == component && s.n_h == protons &&
          (s.n_ca + s.n_mg + s.n_na + s.n_k > 0) == metal)
        return log_beta(s.name);
    return std::nan("");
  };
  for (const Species& s : species()) {
    if (s.component == Component::buffer || s.name == "CaOH+") continue;
    INFO(s.name);
    const bool metal = s.n_ca + s.n_mg + s.n_na + s.n_k > 0;
    if (metal)
      CHECK_THAT(log_beta(s.name), near(s.log_k + of_parts(s.component, s.n_h, false), 1e-12));
    else if (s.n_h > 0)
      CHECK_THAT(log_beta(s.name), near(s.log_k + of_parts(s.component, s.n_h - 1, false), 1e-12));
    else
      CHECK(log_beta(s.name) == 0);
  }
}

TEST_CASE("the constants of water, air and solids are powers of ten of the published logarithms") {
  // NIST SRD 46; tricalcium citrate: Ciavatta 2001.
  const Constants& c = constants_at_25_c();
  CHECK_THAT(std::log10(c.kw), near(-13.997, 1e-12));
  CHECK_THAT(std::log10(c.kh_mol_per_kg_atm), near(-1.466, 1e-12));
  CHECK(c.davies_a == 0.509);
  CHECK(c.log_ksp_calcite == -8.48);
  CHECK(c.log_ksp_gypsum == -4.61);
  CHECK(c.log_ksp_calcium_phosphate == -6.62);
  CHECK(c.log_ksp_tricalcium_citrate == -17.7);
  CHECK(c.beta[species_index("HBuf")] == 0);
  CHECK(species_index("no such species") == species_count);
  CHECK(to_text(Component::citrate) == "citrate");
  CHECK(to_text(Component::carbonate) == "carbonate");
  CHECK(to_text(Component::chloride) == "chloride");
}
