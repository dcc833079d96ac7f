#include "gelwright/water.hpp"

#include <algorithm>
#include <cmath>

#include "gelwright/error.hpp"
#include "gelwright/properties.hpp"
#include "water/carbonate.hpp"

namespace gelwright {
namespace {

using enum Standing;

constexpr Datum table[] = {
    {"calcium_to_magnesium", 3.0, "mol/mol", 1.5, "total hardness only", "judgement", judgement},
    {"hardness.moderate_from", 60.0, "mg/L CaCO3", 0, "", "who-hardness", confirmed},
    {"hardness.hard_from", 120.0, "mg/L CaCO3", 0, "", "who-hardness", confirmed},
    {"hardness.very_hard_from", 180.0, "mg/L CaCO3", 0, "", "who-hardness", confirmed},
    // Laboratories hold themselves to 2 to 5 % (Standard Methods 1030 E); a consumer's report lists
    // yearly means of samples taken on different days.
    {"balance.max_percent", 10.0, "%", 0, "consumer reports", "judgement", judgement},
    {"balance.ignored", 0.2, "meq/L", 0, "anion sum below 3 meq/L", "sm-1030e", from_memory},
    {"hardness.sum_tolerance", 0.10, "1", 0, "consumer reports", "judgement", judgement},
    {"alkalinity.max_over_hardness", 1.5, "eq/eq", 0, "no sodium reported", "judgement", judgement},
    {"ph.min", 4.0, "1", 0, "water for drinking", "judgement", judgement},
    {"ph.max", 11.0, "1", 0, "water for drinking", "judgement", judgement},
    {"report.temp", 20.0, "degC", 5, "volume of the sample", "judgement", judgement},
};

consteval double constant(std::string_view key) {
  return value_of(table, key);
}

constexpr double calcium_share =
    constant("calcium_to_magnesium") / (1.0 + constant("calcium_to_magnesium"));

/// What a report holds besides its ions.
struct Field {
  std::string_view name;
  std::optional<double> Water::*value;
};

constexpr Field fields[] = {
    {"alkalinity_meq_per_l", &Water::alkalinity_meq_per_l},
    {"phenolphthalein_alkalinity_meq_per_l", &Water::phenolphthalein_alkalinity_meq_per_l},
    {"hardness_mmol_per_l", &Water::hardness_mmol_per_l},
    {"ph", &Water::ph},
};

bool usable(const std::optional<double>& value) {
  return !value || (std::isfinite(*value) && *value >= 0.0);
}

void require_usable(const Water& water) {
  const auto& amounts = water.mg_per_l.values;
  if (std::all_of(amounts.begin(), amounts.end(), usable) &&
      std::all_of(std::begin(fields), std::end(fields),
                  [&](const Field& field) { return usable(water.*field.value); }))
    return;
  std::vector<Problem> problems;
  const auto refuse = [&](std::string name, const std::optional<double>& value) {
    if (!usable(value))
      problems.push_back({std::move(name), "is " + std::to_string(*value),
                          "must be zero or more; leave out what was not reported"});
  };
  for (const IonInfo& ion : ions())
    refuse(std::string(ion.key_stem) + "_mg_per_l", water.mg_per_l[ion.ion]);
  for (const Field& field : fields) refuse(std::string(field.name), water.*field.value);
  throw InputError(water.name, std::move(problems));
}

void note(std::vector<WaterAssumption>* assumptions, WaterAssumption assumption) {
  if (assumptions &&
      std::find(assumptions->begin(), assumptions->end(), assumption) == assumptions->end())
    assumptions->push_back(assumption);
}

std::optional<double> reported_mmol_per_l(const Water& water, Ion ion) {
  const std::optional<double>& amount = water.mg_per_l[ion];
  if (!amount) return std::nullopt;
  return mmol_per_l(ion, *amount);
}

double mmol_or_zero(const Water& water, Ion ion) {
  return reported_mmol_per_l(water, ion).value_or(0.0);
}

/// Cations less anions of the report, alkalinity left out, meq/L.
double strong_charge_meq_per_l(const Water& water, const CalciumMagnesium& hardness) {
  double charge = 2.0 * hardness.hardness_mmol_per_l();
  for (const IonInfo& ion : ions())
    if (ion.ion != Ion::calcium && ion.ion != Ion::magnesium)
      charge += ion.charge * mmol_or_zero(water, ion.ion);
  return charge;
}

double per_kg(double per_l) {
  return per_l / water_kg_per_l();
}

double per_l(double per_kg) {
  return per_kg * water_kg_per_l();
}

/// Strong ions come or go with a change of charge, eq/kg, so that it stays even.
void balance(WaterIons& water, double excess_eq_per_kg) {
  if (excess_eq_per_kg > 0.0)
    water.mol_per_kg[Ion::chloride] += excess_eq_per_kg;
  else
    water.mol_per_kg[Ion::sodium] -= excess_eq_per_kg;
}

double alkalinity_or_assumed_meq_per_l(const Water& water,
                                       const std::optional<CalciumMagnesium>& hardness,
                                       std::vector<WaterAssumption>* assumptions) {
  if (water.alkalinity_meq_per_l) return *water.alkalinity_meq_per_l;
  if (hardness && water.mg_per_l[Ion::sodium] && water.mg_per_l[Ion::chloride] &&
      water.mg_per_l[Ion::sulfate]) {
    note(assumptions, WaterAssumption::alkalinity_from_charge);
    return std::max(0.0, strong_charge_meq_per_l(water, *hardness));
  }
  note(assumptions, WaterAssumption::alkalinity_taken_as_zero);
  return 0.0;
}

}  // namespace

std::span<const Datum> water_data() {
  return table;
}

bool hardness_contradicts(double calcium_mg_per_l, double hardness_mmol_per_l) {
  constexpr double tolerance = value_of(table, "hardness.sum_tolerance");
  return mmol_per_l(Ion::calcium, calcium_mg_per_l) > (1 + tolerance) * hardness_mmol_per_l;
}

Water demineralised_water() {
  Water water;
  water.name = "demineralised water";
  water.mg_per_l.values.fill(0.0);
  water.alkalinity_meq_per_l = 0.0;
  water.hardness_mmol_per_l = 0.0;
  return water;
}

std::optional<CalciumMagnesium> calcium_and_magnesium(const Water& water,
                                                      std::vector<WaterAssumption>* assumptions) {
  require_usable(water);
  const std::optional<double> calcium = reported_mmol_per_l(water, Ion::calcium);
  const std::optional<double> magnesium = reported_mmol_per_l(water, Ion::magnesium);
  const std::optional<double>& hardness = water.hardness_mmol_per_l;
  constexpr double ratio = constant("calcium_to_magnesium");
  if (calcium && magnesium) return CalciumMagnesium{*calcium, *magnesium};
  if (calcium && hardness) {
    note(assumptions, WaterAssumption::magnesium_from_hardness);
    return CalciumMagnesium{*calcium, std::max(0.0, *hardness - *calcium)};
  }
  if (magnesium && hardness) {
    note(assumptions, WaterAssumption::calcium_from_hardness);
    return CalciumMagnesium{std::max(0.0, *hardness - *magnesium), *magnesium};
  }
  if (hardness) {
    note(assumptions, WaterAssumption::calcium_magnesium_split);
    return CalciumMagnesium{*hardness * calcium_share, *hardness * (1.0 - calcium_share)};
  }
  if (calcium) {
    note(assumptions, WaterAssumption::magnesium_from_calcium);
    return CalciumMagnesium{*calcium, *calcium / ratio};
  }
  if (magnesium) {
    note(assumptions, WaterAssumption::calcium_from_magnesium);
    return CalciumMagnesium{*magnesium * ratio, *magnesium};
  }
  return std::nullopt;
}

WaterIons complete(const Water& water, std::vector<WaterAssumption>* assumptions) {
  const std::optional<CalciumMagnesium> known = calcium_and_magnesium(water, assumptions);
  if (!known) note(assumptions, WaterAssumption::hardness_taken_as_zero);
  const CalciumMagnesium hardness = known.value_or(CalciumMagnesium{});
  const double alkalinity = alkalinity_or_assumed_meq_per_l(water, known, assumptions);
  PerIon<double> mmol;
  for (const IonInfo& ion : ions()) mmol[ion.ion] = mmol_or_zero(water, ion.ion);
  mmol[Ion::calcium] = hardness.calcium_mmol_per_l;
  mmol[Ion::magnesium] = hardness.magnesium_mmol_per_l;
  const auto& reported = water.mg_per_l;
  const double excess = strong_charge_meq_per_l(water, hardness) - alkalinity;
  // Sodium and chloride close the charge; any other ion that is missing counts as none.
  const bool any_other_missing = std::any_of(ions().begin(), ions().end(), [&](const IonInfo& ion) {
    if (ion.ion == Ion::calcium || ion.ion == Ion::magnesium || reported[ion.ion]) return false;
    if (ion.ion == Ion::sodium) return excess >= 0.0;
    return ion.ion != Ion::chloride || excess <= 0.0;
  });
  if (any_other_missing) note(assumptions, WaterAssumption::other_ions_taken_as_zero);
  // Rounding of a report that balances exactly is not worth a remark.
  constexpr double noise_meq_per_l = 1e-9;
  if (excess < 0.0) {
    mmol[Ion::sodium] -= excess;
    if (excess < -noise_meq_per_l)
      note(assumptions, reported[Ion::sodium] ? WaterAssumption::imbalance_closed_with_sodium
                                              : WaterAssumption::sodium_closes_charge);
  } else {
    mmol[Ion::chloride] += excess;
    if (excess > noise_meq_per_l)
      note(assumptions, reported[Ion::chloride] ? WaterAssumption::imbalance_closed_with_chloride
                                                : WaterAssumption::chloride_closes_charge);
  }
  WaterIons completed;
  for (const IonInfo& ion : ions()) completed.mol_per_kg[ion.ion] = per_kg(1e-3 * mmol[ion.ion]);
  completed.alkalinity_eq_per_kg = per_kg(1e-3 * alkalinity);
  if (water.ph)
    completed.carbonate_beside_mol_per_kg =
        per_kg(1e-3 * detail::carbonate_beside_alkalinity_mmol_per_l(alkalinity, *water.ph));
  return completed;
}

double water_kg_per_l() {
  static const double kg_per_l = water_density_kg_per_m3(constant("report.temp")) / 1000.0;
  return kg_per_l;
}

double litres_of_water(double mass_g) {
  return mass_g / 1000.0 / water_kg_per_l();
}

double mg_per_l(const WaterIons& water, Ion ion) {
  return mg_per_l(ion, 1e3 * per_l(water.mol_per_kg[ion]));
}

double alkalinity_meq_per_l(const WaterIons& water) {
  return 1e3 * per_l(water.alkalinity_eq_per_kg);
}

std::array<double, component_count> dissolved_mol(const WaterIons& water, double kg) {
  std::array<double, component_count> mol{};
  for (const IonInfo& ion : ions())
    mol[static_cast<std::size_t>(ion.dissolved_as)] += kg * water.mol_per_kg[ion.ion];
  mol[static_cast<std::size_t>(Component::carbonate)] +=
      kg * std::max(0.0, water.alkalinity_eq_per_kg + water.carbonate_beside_mol_per_kg);
  return mol;
}

WaterIons with_calcium(WaterIons water, double mg_per_l) {
  const double before = water.mol_per_kg[Ion::calcium];
  water.mol_per_kg[Ion::calcium] = per_kg(1e-3 * mmol_per_l(Ion::calcium, mg_per_l));
  balance(water, info(Ion::calcium).charge * (water.mol_per_kg[Ion::calcium] - before));
  return water;
}

WaterIons with_alkalinity(WaterIons water, double meq_per_l) {
  const double before = water.alkalinity_eq_per_kg;
  water.alkalinity_eq_per_kg = per_kg(1e-3 * meq_per_l);
  balance(water, before - water.alkalinity_eq_per_kg);
  return water;
}

WaterIons thinned(WaterIons water, double low_mineral_share) {
  const double kept = 1.0 - low_mineral_share;
  for (double& amount : water.mol_per_kg.values) amount *= kept;
  water.alkalinity_eq_per_kg *= kept;
  water.carbonate_beside_mol_per_kg *= kept;
  return water;
}

Water blend(std::span<const std::pair<Water, double>> waters,
            std::vector<WaterAssumption>* assumptions) {
  double sum = 0.0;
  bool negative = false;
  for (const auto& [water, share] : waters) {
    negative = negative || !(share >= 0.0);
    sum += share;
  }
  if (negative || !(std::abs(sum - 1.0) <= 1e-6))
    throw InputError("", {{"blend", "the shares sum to " + std::to_string(sum),
                           "give shares of zero or more that sum to 1"}});

  // A water without a share has no say, not even by what it lacks.
  const auto weighted = [&](auto value_of_water) {
    std::optional<double> total = 0.0;
    for (const auto& [water, share] : waters) {
      if (!(share > 0.0)) continue;
      const std::optional<double> value = value_of_water(water);
      if (!value) return std::optional<double>{};
      *total += share / sum * *value;
    }
    return total;
  };

  Water mixed;
  std::size_t with_share = 0;
  bool some_alkalinity = false;
  bool any_ph = false;
  for (const auto& [water, share] : waters) {
    if (!(share > 0.0)) continue;
    if (++with_share > 1) mixed.name += " + ";
    mixed.name += water.name;
    any_ph = any_ph || water.ph;
    if (with_share == 1) mixed.ph = water.ph;
    some_alkalinity = some_alkalinity || water.alkalinity_meq_per_l;
  }
  for (const IonInfo& ion : ions())
    mixed.mg_per_l[ion.ion] = weighted([&](const Water& water) { return water.mg_per_l[ion.ion]; });
  const auto split_of = [&](Ion ion, double CalciumMagnesium::*part) {
    return weighted([&](const Water& water) -> std::optional<double> {
      const auto split = calcium_and_magnesium(water, assumptions);
      if (!split) return std::nullopt;
      return mg_per_l(ion, (*split).*part);
    });
  };
  mixed.mg_per_l[Ion::calcium] = split_of(Ion::calcium, &CalciumMagnesium::calcium_mmol_per_l);
  mixed.mg_per_l[Ion::magnesium] =
      split_of(Ion::magnesium, &CalciumMagnesium::magnesium_mmol_per_l);
  if (some_alkalinity)
    mixed.alkalinity_meq_per_l = weighted([&](const Water& water) -> std::optional<double> {
      return alkalinity_or_assumed_meq_per_l(water, calcium_and_magnesium(water, nullptr),
                                             assumptions);
    });
  if (with_share > 1) {
    // pH does not mix, carbonate does. Water without alkalinity brings none that counts.
    const std::optional<double> beside = weighted([](const Water& water) -> std::optional<double> {
      if (!water.alkalinity_meq_per_l) return std::nullopt;
      if (!water.ph) return *water.alkalinity_meq_per_l == 0.0 ? std::optional(0.0) : std::nullopt;
      return detail::carbonate_beside_alkalinity_mmol_per_l(*water.alkalinity_meq_per_l, *water.ph);
    });
    mixed.ph.reset();
    if (any_ph && beside && mixed.alkalinity_meq_per_l)
      mixed.ph = detail::ph_of_carbonate(*mixed.alkalinity_meq_per_l, *beside);
  }
  mixed.phenolphthalein_alkalinity_meq_per_l =
      with_share == 1
          ? weighted([](const Water& water) { return water.phenolphthalein_alkalinity_meq_per_l; })
          : std::nullopt;
  mixed.hardness_mmol_per_l = weighted([](const Water& water) -> std::optional<double> {
    if (water.hardness_mmol_per_l) return water.hardness_mmol_per_l;
    const auto split = calcium_and_magnesium(water, nullptr);
    if (!split) return std::nullopt;
    return split->hardness_mmol_per_l();
  });
  return mixed;
}

std::optional<double> share_of_low_mineral_water(double target_calcium_mg_per_l,
                                                 double tap_calcium_mg_per_l,
                                                 double low_mineral_calcium_mg_per_l) {
  std::vector<Problem> problems;
  const auto require = [&](double value, const char* where) {
    if (!(std::isfinite(value) && value >= 0.0))
      problems.push_back({where, "is " + std::to_string(value), "must be zero or more"});
  };
  require(target_calcium_mg_per_l, "target_calcium_mg_per_l");
  require(tap_calcium_mg_per_l, "tap_calcium_mg_per_l");
  require(low_mineral_calcium_mg_per_l, "low_mineral_calcium_mg_per_l");
  if (!problems.empty()) throw InputError("", std::move(problems));
  if (tap_calcium_mg_per_l <= target_calcium_mg_per_l) return 0.0;
  if (low_mineral_calcium_mg_per_l > target_calcium_mg_per_l) return std::nullopt;
  return (tap_calcium_mg_per_l - target_calcium_mg_per_l) /
         (tap_calcium_mg_per_l - low_mineral_calcium_mg_per_l);
}

HardnessClass hardness_class(double hardness_mmol_per_l) {
  const double hardness = hardness_in(HardnessUnit::mg_caco3_per_l, hardness_mmol_per_l);
  if (hardness < constant("hardness.moderate_from")) return HardnessClass::soft;
  if (hardness < constant("hardness.hard_from")) return HardnessClass::moderately_hard;
  if (hardness < constant("hardness.very_hard_from")) return HardnessClass::hard;
  return HardnessClass::very_hard;
}

AlkalinityParts alkalinity_parts(double p_meq_per_l, double t_meq_per_l) {
  if (!(p_meq_per_l >= 0.0 && std::isfinite(t_meq_per_l) && p_meq_per_l <= t_meq_per_l))
    throw InputError(
        "", {{"alkalinity titration",
              "P is " + std::to_string(p_meq_per_l) + ", T is " + std::to_string(t_meq_per_l),
              "the titration to pH 8.3 takes part of the acid of the one to pH 4.3: 0 <= P <= T"}});
  if (2.0 * p_meq_per_l <= t_meq_per_l)
    return {.carbonate_meq_per_l = 2.0 * p_meq_per_l,
            .bicarbonate_meq_per_l = t_meq_per_l - 2.0 * p_meq_per_l};
  return {.hydroxide_meq_per_l = 2.0 * p_meq_per_l - t_meq_per_l,
          .carbonate_meq_per_l = 2.0 * (t_meq_per_l - p_meq_per_l)};
}

std::vector<WaterFinding> plausibility(const Water& water) {
  require_usable(water);
  std::vector<WaterFinding> findings;
  const std::optional<double> calcium = reported_mmol_per_l(water, Ion::calcium);
  const std::optional<double> magnesium = reported_mmol_per_l(water, Ion::magnesium);
  const std::optional<double>& hardness = water.hardness_mmol_per_l;
  const std::optional<double>& alkalinity = water.alkalinity_meq_per_l;

  if (calcium && magnesium && water.mg_per_l[Ion::sodium] && water.mg_per_l[Ion::chloride] &&
      water.mg_per_l[Ion::sulfate] && alkalinity) {
    const double cations = 2.0 * (*calcium + *magnesium) + mmol_or_zero(water, Ion::sodium) +
                           mmol_or_zero(water, Ion::potassium);
    const double difference = strong_charge_meq_per_l(water, {*calcium, *magnesium}) - *alkalinity;
    const double sum = 2.0 * cations - difference;
    const double percent = sum > 0.0 ? 100.0 * difference / sum : 0.0;
    if (std::abs(difference) > constant("balance.ignored") &&
        std::abs(percent) > constant("balance.max_percent"))
      findings.push_back({WaterFindingKind::ion_balance, percent, constant("balance.max_percent")});
  }

  constexpr double slack = constant("hardness.sum_tolerance");
  if (calcium && hardness && *hardness < *calcium * (1.0 - slack)) {
    findings.push_back({WaterFindingKind::hardness_below_calcium, *hardness, *calcium});
  } else if (calcium && magnesium && hardness) {
    const double both = *calcium + *magnesium;
    if (std::abs(*hardness - both) > slack * std::max(*hardness, both))
      findings.push_back({WaterFindingKind::hardness_is_not_the_sum, *hardness, both});
  }

  if (const auto split = calcium_and_magnesium(water, nullptr);
      split && alkalinity && !water.mg_per_l[Ion::sodium]) {
    const double hardness_meq_per_l = 2.0 * split->hardness_mmol_per_l();
    const double limit = constant("alkalinity.max_over_hardness") * hardness_meq_per_l;
    if (*alkalinity > limit + constant("balance.ignored"))
      findings.push_back({WaterFindingKind::alkalinity_beyond_hardness, *alkalinity, limit});
  }

  if (water.ph && *water.ph < constant("ph.min"))
    findings.push_back({WaterFindingKind::ph_out_of_range, *water.ph, constant("ph.min")});
  if (water.ph && *water.ph > constant("ph.max"))
    findings.push_back({WaterFindingKind::ph_out_of_range, *water.ph, constant("ph.max")});

  if (const auto& p = water.phenolphthalein_alkalinity_meq_per_l;
      p && alkalinity && 2.0 * *p > *alkalinity)
    findings.push_back({WaterFindingKind::hydroxide_alkalinity, *p, *alkalinity / 2.0});
  return findings;
}

}  // namespace gelwright
