// The parts of a nutrition label that need more than a number. Private.
#pragma once

#include "read/json_reader.hpp"

namespace gelwright::detail {

/// The mass the figures of a label are for, g: stated as it is, or as a portion or a pack. Infinite
/// where nothing usable says so, so that no figure counts.
double label_mass_g(ObjectReader& label);

/// Adds to 1 g the polyols, protein and fat that it does not hold yet. A label counts polyols as
/// carbohydrate, the composition does not.
void add_polyols_protein_fat(ObjectReader& label, double mass_g, Composition& per_g);

/// Refuses figures that cannot stand in one column: more than the mass they are for, or of another
/// energy than the label's own.
void refuse_mixed_columns(ObjectReader& label, double mass_g, const Composition& per_g);

}  // namespace gelwright::detail
