#include "gelwright/species.hpp"

#include <cmath>

namespace gelwright {
namespace {

using enum Standing;

constexpr std::string_view zero_i = "25 degC, I = 0";
constexpr std::string_view from_tenth = "25 degC, I = 0.1 taken to 0 by Davies";
constexpr std::string_view srd = "nist-srd46";

constexpr Datum table[] = {
    // Acids: pKa in order of dissociation.
    {"citric.pka1", 3.128, "1", 0.01, zero_i, srd, confirmed},
    {"citric.pka2", 4.761, "1", 0.01, zero_i, srd, confirmed},
    {"citric.pka3", 6.396, "1", 0.01, zero_i, srd, confirmed},
    {"malic.pka1", 3.459, "1", 0.0, zero_i, srd, confirmed},
    {"malic.pka2", 5.097, "1", 0.0, zero_i, srd, confirmed},
    {"tartaric.pka1", 3.036, "1", 0.0, zero_i, srd, confirmed},
    {"tartaric.pka2", 4.366, "1", 0.0, zero_i, srd, confirmed},
    {"lactic.pka1", 3.860, "1", 0.0, zero_i, srd, confirmed},
    {"acetic.pka1", 4.757, "1", 0.0, zero_i, srd, confirmed},
    {"gluconic.pka1", 3.67, "1", 0.15, from_tenth, srd, computed},
    {"ascorbic.pka1", 4.23, "1", 0.05, from_tenth, srd, computed},
    {"phosphoric.pka1", 2.148, "1", 0.0, zero_i, srd, confirmed},
    {"phosphoric.pka2", 7.198, "1", 0.0, zero_i, srd, confirmed},
    {"phosphoric.pka3", 12.375, "1", 0.0, zero_i, srd, confirmed},
    {"carbonic.pka1", 6.352, "1", 0.0, zero_i, srd, confirmed},
    {"carbonic.pka2", 10.329, "1", 0.0, zero_i, srd, confirmed},
    {"carbon_dioxide.log_kh", -1.466, "log10 mol/kg/atm", 0.0, zero_i, srd, confirmed},
    {"sulfuric.pka2", 1.99, "1", 0.02, zero_i, srd, from_memory},
    {"water.pkw", 13.997, "1", 0.0, zero_i, srd, confirmed},
    {"uronic.pka", 3.5, "1", 0.3,
     "25 degC, concentration constant in about 0.1 M salt, where the kind of gum is not told",
     "haug-1964", judgement},
    // Complexes: log10 K of metal + protonated ligand.
    {"CaCit.log_k", 4.87, "1", 0.0, zero_i, srd, confirmed},
    {"CaHCit.log_k", 2.86, "1", 0.0, zero_i, srd, confirmed},
    {"CaH2Cit.log_k", 1.43, "1", 0.2, from_tenth, srd, computed},
    {"MgCit.log_k", 4.89, "1", 0.0, zero_i, srd, confirmed},
    {"MgHCit.log_k", 2.51, "1", 0.0, zero_i, srd, confirmed},
    {"MgH2Cit.log_k", 1.13, "1", 0.2, from_tenth, srd, computed},
    {"NaCit.log_k", 1.39, "1", 0.0, from_tenth, srd, computed},
    {"KCit.log_k", 1.10, "1", 0.0, from_tenth, srd, computed},
    {"CaMal.log_k", 2.72, "1", 0.0, zero_i, srd, confirmed},
    {"CaHMal.log_k", 1.39, "1", 0.0, zero_i, srd, confirmed},
    {"CaTar.log_k", 2.80, "1", 0.0, zero_i, srd, confirmed},
    {"CaHTar.log_k", 1.49, "1", 0.0, zero_i, srd, confirmed},
    {"CaLac.log_k", 1.48, "1", 0.0, zero_i, srd, confirmed},
    {"MgLac.log_k", 1.37, "1", 0.0, zero_i, srd, confirmed},
    {"CaAc.log_k", 1.18, "1", 0.0, zero_i, srd, confirmed},
    {"MgAc.log_k", 1.26, "1", 0.0, zero_i, srd, confirmed},
    {"CaGluc.log_k", 1.64, "1", 0.0, from_tenth, srd, computed},
    {"CaHPO4.log_k", 2.66, "1", 0.0, zero_i, srd, confirmed},
    {"CaH2PO4.log_k", 1.35, "1", 0.0, zero_i, srd, confirmed},
    {"MgHPO4.log_k", 2.80, "1", 0.0, zero_i, srd, confirmed},
    {"CaCO3.log_k", 3.20, "1", 0.0, zero_i, srd, confirmed},
    {"CaHCO3.log_k", 1.27, "1", 0.1, zero_i, srd, confirmed},
    {"MgCO3.log_k", 2.92, "1", 0.0, zero_i, srd, confirmed},
    {"MgHCO3.log_k", 1.01, "1", 0.0, zero_i, srd, confirmed},
    {"CaSO4.log_k", 2.36, "1", 0.0, zero_i, srd, confirmed},
    {"MgSO4.log_k", 2.26, "1", 0.0, zero_i, srd, confirmed},
    {"CaOH.log_k", 1.30, "1", 0.0, zero_i, srd, confirmed},
    // Solids.
    {"calcite.log_ksp", -8.48, "1", 0.0, zero_i, srd, confirmed},
    {"gypsum.log_ksp", -4.61, "1", 0.0, zero_i, srd, confirmed},
    {"calcium_phosphate_dihydrate.log_ksp", -6.62, "1", 0.0, zero_i, srd, confirmed},
    {"tricalcium_citrate_tetrahydrate.log_ksp", -17.7, "1", 0.1, zero_i, "ciavatta-2001",
     confirmed},
    // The rest.
    {"davies.a", 0.509, "(kg/mol)^1/2", 0.0, "25 degC, water", "davies-1962", confirmed},
};

enum class Metal { ca, mg, na, k };

constexpr int charges[component_count] = {-3, -2, -2, -1, -1, -1, -1, -3, -2,
                                          -2, -1, -1, 2,  2,  1,  1,  -1};

constexpr int charge_in_table(Component c) {
  return charges[static_cast<std::size_t>(c)];
}

constexpr Species bare(std::string_view name, Component c) {
  const int charge = charge_in_table(c);
  return {name, c, 0, 0, 0, 0, 0, charge, charge * charge, 0.0, ""};
}

consteval Species acid(std::string_view name, Component c, int n_h, std::string_view key) {
  Species s = bare(name, c);
  s.n_h = n_h;
  s.charge += n_h;
  s.activity_z2 = s.charge * s.charge;
  s.data_key = key;
  if (!key.empty()) s.log_k = value_of(table, key);
  return s;
}

/// Its constant was measured in salt, as concentrations: no activity coefficient goes on it.
consteval Species acid_in_salt(std::string_view name, Component c, int n_h, std::string_view key) {
  Species s = acid(name, c, n_h, key);
  s.activity_z2 = charge_in_table(c) * charge_in_table(c) + n_h;
  return s;
}

consteval Species complex(std::string_view name, Component c, int n_h, Metal metal,
                          std::string_view key) {
  Species s = bare(name, c);
  s.n_h = n_h;
  s.n_ca = metal == Metal::ca;
  s.n_mg = metal == Metal::mg;
  s.n_na = metal == Metal::na;
  s.n_k = metal == Metal::k;
  s.charge += n_h + 2 * (s.n_ca + s.n_mg) + s.n_na + s.n_k;
  s.activity_z2 = s.charge * s.charge;
  s.data_key = key;
  s.log_k = value_of(table, key);
  return s;
}

using enum Component;

constexpr std::array<Species, species_count> all{{
    bare("Cit3-", citrate),
    acid("HCit2-", citrate, 1, "citric.pka3"),
    acid("H2Cit-", citrate, 2, "citric.pka2"),
    acid("H3Cit", citrate, 3, "citric.pka1"),
    complex("CaCit-", citrate, 0, Metal::ca, "CaCit.log_k"),
    complex("CaHCit", citrate, 1, Metal::ca, "CaHCit.log_k"),
    complex("CaH2Cit+", citrate, 2, Metal::ca, "CaH2Cit.log_k"),
    complex("MgCit-", citrate, 0, Metal::mg, "MgCit.log_k"),
    complex("MgHCit", citrate, 1, Metal::mg, "MgHCit.log_k"),
    complex("MgH2Cit+", citrate, 2, Metal::mg, "MgH2Cit.log_k"),
    complex("NaCit2-", citrate, 0, Metal::na, "NaCit.log_k"),
    complex("KCit2-", citrate, 0, Metal::k, "KCit.log_k"),
    bare("Mal2-", malate),
    acid("HMal-", malate, 1, "malic.pka2"),
    acid("H2Mal", malate, 2, "malic.pka1"),
    complex("CaMal", malate, 0, Metal::ca, "CaMal.log_k"),
    complex("CaHMal+", malate, 1, Metal::ca, "CaHMal.log_k"),
    bare("Tar2-", tartrate),
    acid("HTar-", tartrate, 1, "tartaric.pka2"),
    acid("H2Tar", tartrate, 2, "tartaric.pka1"),
    complex("CaTar", tartrate, 0, Metal::ca, "CaTar.log_k"),
    complex("CaHTar+", tartrate, 1, Metal::ca, "CaHTar.log_k"),
    bare("Lac-", lactate),
    acid("HLac", lactate, 1, "lactic.pka1"),
    complex("CaLac+", lactate, 0, Metal::ca, "CaLac.log_k"),
    complex("MgLac+", lactate, 0, Metal::mg, "MgLac.log_k"),
    bare("Ac-", acetate),
    acid("HAc", acetate, 1, "acetic.pka1"),
    complex("CaAc+", acetate, 0, Metal::ca, "CaAc.log_k"),
    complex("MgAc+", acetate, 0, Metal::mg, "MgAc.log_k"),
    bare("Gluc-", gluconate),
    acid("HGluc", gluconate, 1, "gluconic.pka1"),
    complex("CaGluc+", gluconate, 0, Metal::ca, "CaGluc.log_k"),
    bare("Asc-", ascorbate),
    acid("HAsc", ascorbate, 1, "ascorbic.pka1"),
    bare("PO43-", phosphate),
    acid("HPO42-", phosphate, 1, "phosphoric.pka3"),
    acid("H2PO4-", phosphate, 2, "phosphoric.pka2"),
    acid("H3PO4", phosphate, 3, "phosphoric.pka1"),
    complex("CaHPO4", phosphate, 1, Metal::ca, "CaHPO4.log_k"),
    complex("CaH2PO4+", phosphate, 2, Metal::ca, "CaH2PO4.log_k"),
    complex("MgHPO4", phosphate, 1, Metal::mg, "MgHPO4.log_k"),
    bare("CO32-", carbonate),
    acid("HCO3-", carbonate, 1, "carbonic.pka2"),
    acid("H2CO3", carbonate, 2, "carbonic.pka1"),
    complex("CaCO3", carbonate, 0, Metal::ca, "CaCO3.log_k"),
    complex("CaHCO3+", carbonate, 1, Metal::ca, "CaHCO3.log_k"),
    complex("MgCO3", carbonate, 0, Metal::mg, "MgCO3.log_k"),
    complex("MgHCO3+", carbonate, 1, Metal::mg, "MgHCO3.log_k"),
    bare("SO42-", sulfate),
    acid("HSO4-", sulfate, 1, "sulfuric.pka2"),
    complex("CaSO4", sulfate, 0, Metal::ca, "CaSO4.log_k"),
    complex("MgSO4", sulfate, 0, Metal::mg, "MgSO4.log_k"),
    bare("Uron-", uronate),
    acid_in_salt("HUron", uronate, 1, "uronic.pka"),
    bare("Buf-", buffer),
    acid("HBuf", buffer, 1, ""),
    bare("Ca2+", calcium),
    acid("CaOH+", calcium, -1, "CaOH.log_k"),
    bare("Mg2+", magnesium),
    bare("Na+", sodium),
    bare("K+", potassium),
    bare("Cl-", chloride),
}};

/// Where the same ligand with the same protons and no metal stands.
std::size_t parent_of(const Species& s) {
  for (std::size_t i = 0; i < all.size(); ++i)
    if (all[i].component == s.component && all[i].n_h == s.n_h &&
        all[i].n_ca + all[i].n_mg + all[i].n_na + all[i].n_k == 0)
      return i;
  throw NoSuchDatum{};
}

}  // namespace

std::string_view to_text(Component component) {
  constexpr std::string_view names[component_count] = {
      "citrate",   "malate",    "tartrate",  "lactate",   "acetate", "gluconate",
      "ascorbate", "phosphate", "carbonate", "sulfate",   "uronate", "buffer",
      "calcium",   "magnesium", "sodium",    "potassium", "chloride"};
  return names[static_cast<std::size_t>(component)];
}

int charge_of(Component component) {
  return charge_in_table(component);
}

std::span<const Species> species() {
  return all;
}

std::size_t species_index(std::string_view name) {
  std::size_t i = 0;
  while (i < all.size() && all[i].name != name) ++i;
  return i;
}

std::span<const Datum> species_data() {
  return table;
}

const Constants& constants_at_25_c() {
  static const Constants constants = [] {
    Constants c;
    c.davies_a = value_of(table, "davies.a");
    const double pkw = value_of(table, "water.pkw");
    c.kw = std::pow(10.0, -pkw);
    c.kh_mol_per_kg_atm = std::pow(10.0, value_of(table, "carbon_dioxide.log_kh"));

    std::array<double, species_count> log_beta{};
    for (std::size_t i = 0; i < all.size(); ++i) {
      const Species& s = all[i];
      if (s.n_ca + s.n_mg + s.n_na + s.n_k > 0)
        log_beta[i] = s.log_k + log_beta[parent_of(s)];
      else if (s.n_h > 0)  // the row before is the same ligand with one proton less
        log_beta[i] = log_beta[i - 1] + s.log_k;
      else if (s.n_h < 0)
        log_beta[i] = s.log_k - pkw;
      c.beta[i] = std::pow(10.0, log_beta[i]);
    }
    // No pKa is known for the buffer: a zero constant keeps it fully dissociated until one is
    // given.
    c.beta[species_index("HBuf")] = 0.0;

    c.log_ksp_calcite = value_of(table, "calcite.log_ksp");
    c.log_ksp_gypsum = value_of(table, "gypsum.log_ksp");
    c.log_ksp_calcium_phosphate = value_of(table, "calcium_phosphate_dihydrate.log_ksp");
    c.log_ksp_tricalcium_citrate = value_of(table, "tricalcium_citrate_tetrahydrate.log_ksp");
    return c;
  }();
  return constants;
}

}  // namespace gelwright
