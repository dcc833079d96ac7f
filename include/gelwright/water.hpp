// One tap, bottled or demineralised water: as analysed, as blended, and as the chemistry uses it.
#pragma once

#include <array>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "gelwright/source.hpp"
#include "gelwright/water_units.hpp"

namespace gelwright {

/// The thresholds and assumptions of this file.
std::span<const Datum> water_data();

/// A water report. A value that was not reported is absent, which is not the same as zero.
/// Functions below throw InputError, naming every field, where a value is negative or not finite.
struct Water {
  std::string name;
  PerIon<std::optional<double>> mg_per_l;  ///< sulfate as SO4, not as S; nitrate as NO3, not as N
  std::optional<double> alkalinity_meq_per_l;                  ///< total: titrated to about pH 4.3
  std::optional<double> phenolphthalein_alkalinity_meq_per_l;  ///< titrated to pH 8.3
  std::optional<double> hardness_mmol_per_l;                   ///< total: calcium plus magnesium
  std::optional<double> ph;
};

/// Distilled, deionised or reverse-osmosis water: every ion and the alkalinity zero, pH unknown.
Water demineralised_water();

/// What had to be assumed to complete a report, so that it can be said aloud.
enum class WaterAssumption {
  calcium_magnesium_split,         ///< only total hardness known: Ca to Mg 3 to 1 by mole
  calcium_from_hardness,           ///< hardness less the magnesium
  magnesium_from_hardness,         ///< hardness less the calcium
  magnesium_from_calcium,          ///< no hardness, no magnesium: the same 3 to 1
  calcium_from_magnesium,          ///< no hardness, no calcium: the same 3 to 1
  hardness_taken_as_zero,          ///< neither calcium, magnesium nor hardness known
  alkalinity_from_charge,          ///< the anion the major ions leave room for
  alkalinity_taken_as_zero,        ///< not known and not computable: the pH comes out too low
  sodium_closes_charge,            ///< sodium not reported: what the anions call for
  chloride_closes_charge,          ///< chloride not reported: what the cations call for
  imbalance_closed_with_sodium,    ///< the report does not balance: the rest as extra sodium
  imbalance_closed_with_chloride,  ///< the report does not balance: the rest as extra chloride
  other_ions_taken_as_zero,        ///< not reported, not needed for the charge
};

/// One sentence without full stop, for the reader of a sheet.
std::string_view to_text(WaterAssumption assumption);

/// Calcium and magnesium, mmol/L.
struct CalciumMagnesium {
  double calcium_mmol_per_l = 0.0;
  double magnesium_mmol_per_l = 0.0;

  double hardness_mmol_per_l() const { return calcium_mmol_per_l + magnesium_mmol_per_l; }
  double calcium_mg_per_l() const { return mg_per_l(Ion::calcium, calcium_mmol_per_l); }
  double magnesium_mg_per_l() const { return mg_per_l(Ion::magnesium, magnesium_mmol_per_l); }
};

/// Calcium and magnesium as reported, else from total hardness, else by the 3 to 1 split; nullopt
/// where none of the three is reported. A hardness below the reported ion leaves zero for the
/// other (see `plausibility`). `assumptions` may be null; then nothing is allocated.
std::optional<CalciumMagnesium> calcium_and_magnesium(const Water& water,
                                                      std::vector<WaterAssumption>* assumptions);

/// What the chemistry uses: electrically neutral, mol per kg of water. The alkalinity carries one
/// negative charge per equivalent, as bicarbonate does.
struct WaterIons {
  PerIon<double> mol_per_kg;
  double alkalinity_eq_per_kg = 0.0;
  /// Carbonate beside the alkalinity: dissolved CO2, as the report's pH says it; negative above pH
  /// 8.3, where carbonate stands in the place of bicarbonate. Zero where no pH is reported.
  double carbonate_beside_mol_per_kg = 0.0;
};

// Per litre and per kg. Everything that crosses from one to the other does it here, so that a
// stated figure reads back as it was stated.

/// Mass of a litre of water as analysed, kg: that of pure water at 20 degC, 0.2 % below 1 kg.
/// Dissolved matter below 2 g/L changes it by less than 0.1 %.
double water_kg_per_l();

/// Volume of a mass of tap water, L.
double litres_of_water(double mass_g);

/// Amounts back in the units of a report.
double mg_per_l(const WaterIons& water, Ion ion);
double alkalinity_meq_per_l(const WaterIons& water);

/// What a mass of it holds as the components of the water phase, mol; the alkalinity and what is
/// beside it as carbonate.
std::array<double, component_count> dissolved_mol(const WaterIons& water, double kg);

/// The same water with its calcium or its alkalinity brought to a value of zero or more. Charges
/// stay even: chloride comes along with calcium and sodium with alkalinity, or sodium and chloride
/// make up for what is taken away.
WaterIons with_calcium(WaterIons water, double mg_per_l);
WaterIons with_alkalinity(WaterIons water, double meq_per_l);

/// The same water thinned with water that brings no ions: `low_mineral_share` (0 to 1) by mass.
WaterIons thinned(WaterIons water, double low_mineral_share);

/// Completes a report.
/// Alkalinity is the trusted figure, since it is titrated: whatever charge is missing goes to
/// sodium or chloride. Where it is absent it is the charge the other ions leave, provided calcium
/// (or hardness), sodium, chloride and sulfate are all reported; else zero, and said so.
/// Sodium added to close the charge is a guess of the chemistry: a nutrition label counts only
/// the sodium reported. `assumptions` may be null; then nothing is allocated.
WaterIons complete(const Water& water, std::vector<WaterAssumption>* assumptions);

/// Mixes waters by mass share; shares are >= 0 and sum to 1 within 1e-6, else InputError.
/// Calcium and magnesium are split out of hardness first. An ion is absent from the blend where a
/// water with a share lacks it; an alkalinity that one of them lacks is completed as above. The
/// pH comes from the mixed carbonate: absent where a water with alkalinity does not report its own.
Water blend(std::span<const std::pair<Water, double>> waters,
            std::vector<WaterAssumption>* assumptions = nullptr);

/// Smallest share (0 to 1) of low-mineral water that brings calcium to at most the target: 0 where
/// the tap is there already, nullopt where even the low-mineral water alone is above it. All mg/L.
std::optional<double> share_of_low_mineral_water(double target_calcium_mg_per_l,
                                                 double tap_calcium_mg_per_l,
                                                 double low_mineral_calcium_mg_per_l);

/// WHO 2011 and USGS classes: below 60, 120, 180 mg/L CaCO3, and from 180.
enum class HardnessClass { soft, moderately_hard, hard, very_hard };
HardnessClass hardness_class(double hardness_mmol_per_l);
std::string_view to_text(HardnessClass hardness);

/// Alkalinity by species, meq/L each; they sum to the total.
struct AlkalinityParts {
  double hydroxide_meq_per_l = 0.0;
  double carbonate_meq_per_l = 0.0;
  double bicarbonate_meq_per_l = 0.0;
};

/// From the titrations to pH 8.3 (P) and to about 4.3 (T), both meq/L, 0 <= P <= T (else
/// InputError). Standard Methods 2320 B.
AlkalinityParts alkalinity_parts(double p_meq_per_l, double t_meq_per_l);

/// What looks wrong in a report. Each is worth a second look, none stops the work.
enum class WaterFindingKind {
  ion_balance,                 ///< measured: percent difference of cations and anions
  hardness_below_calcium,      ///< measured: hardness, limit: calcium, mmol/L
  hardness_is_not_the_sum,     ///< measured: hardness, limit: calcium + magnesium, mmol/L
  alkalinity_beyond_hardness,  ///< measured: alkalinity, limit: allowed for this hardness, meq/L;
                               ///< only where no sodium is reported to carry it
  ph_out_of_range,             ///< measured: pH, limit: the nearer bound
  hydroxide_alkalinity,        ///< measured: P, limit: half of T, meq/L
};

struct WaterFinding {
  WaterFindingKind kind;
  double measured = 0.0;
  double limit = 0.0;
};

/// True if calcium alone exceeds the total hardness by more than a report's own rounding explains:
/// such a report cannot be used. mg/L and mmol/L.
bool hardness_contradicts(double calcium_mg_per_l, double hardness_mmol_per_l);

/// In the order of the enumeration; empty where nothing stands out. The ion balance,
/// 100 (cations - anions)/(cations + anions) in meq, is judged only where calcium, magnesium,
/// sodium, chloride, sulfate and alkalinity are all reported.
std::vector<WaterFinding> plausibility(const Water& water);

/// One sentence without full stop, with the figures.
std::string describe(const WaterFinding& finding);

}  // namespace gelwright
