// How far a pH may be from the one in the bowl, whether it was computed or read. Private.
//
// All widths are 95 % half-widths in pH, judgements unless their row says otherwise.
#pragma once

#include <optional>
#include <span>

#include "gelwright/recipe.hpp"
#include "gelwright/source.hpp"
#include "gelwright/water_phase.hpp"

namespace gelwright::detail {

/// What the error of a computed pH depends on.
struct PhErrorInput {
  double soluble_solids_percent = 0;
  double buffer_capacity_mol_per_kg_per_ph = 0;
  double carboxylate_mol_per_kg = 0;  ///< of all gums
  double carboxylate_protonated = 0;  ///< share of it, 0 to 1
  double pairs_ph = 0;                ///< what pairs of citrate with sodium may take off the pH
  bool buffer_unknown = false;        ///< a bought mix with undeclared acids and salts
};

/// The parts of that error, independent of one another.
struct PhErrorParts {
  double activity = 0;    ///< sugar and salt shift the activity of the ions
  double gum_pka = 0;     ///< one effective pKa stands for a polyuronate
  double stray_acid = 0;  ///< acid or base nobody declares
  double pairs = 0;       ///< pairs of citrate with sodium and potassium are left out
  double undeclared = 0;  ///< what a bought mix does not declare

  /// Root of the sum of squares; nothing is printed as worse than `ph-error.most`.
  double together() const;
};

PhErrorParts ph_error_parts(const PhErrorInput& input);

/// Of one reading.
double reading_error_ph(PhMethod method);

/// The recipe's reading where it counts: strips take up a thick gel unevenly and show nothing
/// there.
std::optional<MeasuredPh> usable_reading(const Recipe& recipe);

/// The pH a serving is judged by: the recipe's own reading where it has one, else the computed one.
struct JudgedPh {
  double ph = 7;
  double half_width = 0;
  bool measured = false;
};
JudgedPh judged_ph(const WaterPhase& phase, const std::optional<MeasuredPh>& measured);

/// The widths behind this file.
std::span<const Datum> ph_error_data();

}  // namespace gelwright::detail

namespace gelwright {
using namespace detail;  // only private files include this one
}
