#include "gelwright/water.hpp"

#include <algorithm>
#include <cmath>

#include "gelwright/error.hpp"
#include "gelwright/properties.hpp"

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

struct Field {
  std::string_view name;
  std::optional<double> Water::*value;
};

// The first seven follow `Ion`.
constexpr Field fields[] = {
    {"calcium_mg_per_l", &Water::calcium_mg_per_l},
    {"magnesium_mg_per_l", &Water::magnesium_mg_per_l},
    {"sodium_mg_per_l", &Water::sodium_mg_per_l},
    {"potassium_mg_per_l", &Water::potassium_mg_per_l},
    {"chloride_mg_per_l", &Water::chloride_mg_per_l},
    {"sulfate_mg_per_l", &Water::sulfate_mg_per_l},
    {"nitrate_mg_per_l", &Water::nitrate_mg_per_l},
    {"alkalinity_meq_per_l", &Water::alkalinity_meq_per_l},
    {"phenolphthalein_alkalinity_meq_per_l", &Water::phenolphthalein_alkalinity_meq_per_l},
    {"hardness_mmol_per_l", &Water::hardness_mmol_per_l},
    {"ph", &Water::ph},
};

bool usable(const std::optional<double>& value) {
  return !value || (std::isfinite(*value) && *value >= 0.0);
}

void require_usable(const Water& water) {
  const bool all = std::all_of(std::begin(fields), std::end(fields),
                               [&](const Field& field) { return usable(water.*field.value); });
  if (all) return;
  std::vector<Problem> problems;
  for (const Field& field : fields)
    if (!usable(water.*field.value))
      problems.push_back({std::string(field.name), "is " + std::to_string(*(water.*field.value)),
                          "must be zero or more; leave out what was not reported"});
  throw InputError(water.name, std::move(problems));
}

void note(std::vector<WaterAssumption>* assumptions, WaterAssumption assumption) {
  if (assumptions &&
      std::find(assumptions->begin(), assumptions->end(), assumption) == assumptions->end())
    assumptions->push_back(assumption);
}

std::optional<double> reported_mmol_per_l(const Water& water, Ion ion) {
  const std::optional<double>& amount = amount_mg_per_l(water, ion);
  if (!amount) return std::nullopt;
  return mmol_per_l(ion, *amount);
}

double mmol_or_zero(const Water& water, Ion ion) {
  return reported_mmol_per_l(water, ion).value_or(0.0);
}

/// Cations less anions of the report, alkalinity left out, meq/L.
double strong_charge_meq_per_l(const Water& water, const CalciumMagnesium& hardness) {
  return 2.0 * (hardness.calcium_mmol_per_l + hardness.magnesium_mmol_per_l) +
         mmol_or_zero(water, Ion::sodium) + mmol_or_zero(water, Ion::potassium) -
         mmol_or_zero(water, Ion::chloride) - 2.0 * mmol_or_zero(water, Ion::sulfate) -
         mmol_or_zero(water, Ion::nitrate);
}

double alkalinity_or_assumed_meq_per_l(const Water& water,
                                       const std::optional<CalciumMagnesium>& hardness,
                                       std::vector<WaterAssumption>* assumptions) {
  if (water.alkalinity_meq_per_l) return *water.alkalinity_meq_per_l;
  if (hardness && water.sodium_mg_per_l && water.chloride_mg_per_l && water.sulfate_mg_per_l) {
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
  for (const IonInfo& ion : ions()) amount_mg_per_l(water, ion.ion) = 0.0;
  water.alkalinity_meq_per_l = 0.0;
  water.hardness_mmol_per_l = 0.0;
  return water;
}

std::optional<double>& amount_mg_per_l(Water& water, Ion ion) {
  return water.*fields[static_cast<std::size_t>(ion)].value;
}

const std::optional<double>& amount_mg_per_l(const Water& water, Ion ion) {
  return water.*fields[static_cast<std::size_t>(ion)].value;
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
  double sodium = mmol_or_zero(water, Ion::sodium);
  double chloride = mmol_or_zero(water, Ion::chloride);
  const double excess = strong_charge_meq_per_l(water, hardness) - alkalinity;
  const bool sodium_left_out = !water.sodium_mg_per_l && excess >= 0.0;
  const bool chloride_left_out = !water.chloride_mg_per_l && excess <= 0.0;
  if (!water.potassium_mg_per_l || !water.sulfate_mg_per_l || !water.nitrate_mg_per_l ||
      sodium_left_out || chloride_left_out)
    note(assumptions, WaterAssumption::other_ions_taken_as_zero);
  // Rounding of a report that balances exactly is not worth a remark.
  constexpr double noise_meq_per_l = 1e-9;
  if (excess < 0.0) {
    sodium -= excess;
    if (excess < -noise_meq_per_l)
      note(assumptions, water.sodium_mg_per_l ? WaterAssumption::imbalance_closed_with_sodium
                                              : WaterAssumption::sodium_closes_charge);
  } else {
    chloride += excess;
    if (excess > noise_meq_per_l)
      note(assumptions, water.chloride_mg_per_l ? WaterAssumption::imbalance_closed_with_chloride
                                                : WaterAssumption::chloride_closes_charge);
  }

  static const double kg_per_l = water_density_kg_per_m3(constant("report.temp")) / 1000.0;
  const double to_mol_per_kg = 1e-3 / kg_per_l;
  return {.calcium_mol_per_kg = to_mol_per_kg * hardness.calcium_mmol_per_l,
          .magnesium_mol_per_kg = to_mol_per_kg * hardness.magnesium_mmol_per_l,
          .sodium_mol_per_kg = to_mol_per_kg * sodium,
          .potassium_mol_per_kg = to_mol_per_kg * mmol_or_zero(water, Ion::potassium),
          .chloride_mol_per_kg = to_mol_per_kg * chloride,
          .sulfate_mol_per_kg = to_mol_per_kg * mmol_or_zero(water, Ion::sulfate),
          .nitrate_mol_per_kg = to_mol_per_kg * mmol_or_zero(water, Ion::nitrate),
          .alkalinity_eq_per_kg = to_mol_per_kg * alkalinity};
}

double charge_eq_per_kg(const WaterIons& water) {
  return 2.0 * (water.calcium_mol_per_kg + water.magnesium_mol_per_kg) + water.sodium_mol_per_kg +
         water.potassium_mol_per_kg - water.chloride_mol_per_kg - 2.0 * water.sulfate_mol_per_kg -
         water.nitrate_mol_per_kg - water.alkalinity_eq_per_kg;
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
  for (const auto& [water, share] : waters) {
    if (!(share > 0.0)) continue;
    if (++with_share > 1) mixed.name += " + ";
    mixed.name += water.name;
    if (with_share == 1) mixed.ph = water.ph;
    some_alkalinity = some_alkalinity || water.alkalinity_meq_per_l;
  }
  if (with_share > 1) mixed.ph.reset();
  for (const IonInfo& ion : ions())
    amount_mg_per_l(mixed, ion.ion) =
        weighted([&](const Water& water) { return amount_mg_per_l(water, ion.ion); });
  const auto split_of = [&](Ion ion, double CalciumMagnesium::*part) {
    return weighted([&](const Water& water) -> std::optional<double> {
      const auto split = calcium_and_magnesium(water, assumptions);
      if (!split) return std::nullopt;
      return mg_per_l(ion, (*split).*part);
    });
  };
  mixed.calcium_mg_per_l = split_of(Ion::calcium, &CalciumMagnesium::calcium_mmol_per_l);
  mixed.magnesium_mg_per_l = split_of(Ion::magnesium, &CalciumMagnesium::magnesium_mmol_per_l);
  if (some_alkalinity)
    mixed.alkalinity_meq_per_l = weighted([&](const Water& water) -> std::optional<double> {
      return alkalinity_or_assumed_meq_per_l(water, calcium_and_magnesium(water, nullptr),
                                             assumptions);
    });
  mixed.phenolphthalein_alkalinity_meq_per_l =
      with_share == 1
          ? weighted([](const Water& water) { return water.phenolphthalein_alkalinity_meq_per_l; })
          : std::nullopt;
  mixed.hardness_mmol_per_l = weighted([](const Water& water) -> std::optional<double> {
    if (water.hardness_mmol_per_l) return water.hardness_mmol_per_l;
    const auto split = calcium_and_magnesium(water, nullptr);
    if (!split) return std::nullopt;
    return split->calcium_mmol_per_l + split->magnesium_mmol_per_l;
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

  if (calcium && magnesium && water.sodium_mg_per_l && water.chloride_mg_per_l &&
      water.sulfate_mg_per_l && alkalinity) {
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
      split && alkalinity && !water.sodium_mg_per_l) {
    const double hardness_meq_per_l =
        2.0 * (split->calcium_mmol_per_l + split->magnesium_mmol_per_l);
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
