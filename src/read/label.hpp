// The parts of a nutrition label that need more than a number. Private.
#pragma once

#include <optional>
#include <vector>

#include "read/json_reader.hpp"

namespace gelwright::detail {

/// What a pack names without saying how much: the figures of its label then do, where only one of
/// its sort is named.
class NamedParts {
 public:
  void add(const Ingredient& part) { parts_.push_back(&part); }
  bool empty() const { return parts_.empty(); }

  /// The one sugar, starch hydrolysate or polyol, or the one salt of this ion; null where there is
  /// none or more than one.
  const Ingredient* sugar() const;
  const Ingredient* starch() const;
  const Ingredient* polyol() const;
  const Ingredient* salt_of(Component ion) const;

 private:
  std::vector<const Ingredient*> parts_;
};

/// The mass the figures of a label are for, g: stated as it is, or as a portion or a pack. Infinite
/// where nothing usable says so, so that no figure counts.
double label_mass_g(ObjectReader& label);

/// Adds to 1 g the polyols, protein and fat that it does not hold yet. A label counts polyols as
/// carbohydrate, the composition does not.
void add_polyols_protein_fat(ObjectReader& label, double mass_g, const NamedParts& named,
                             Composition& per_g);

/// Raises the carbohydrate of 1 g to what the label says, polyols not counted. Sugars are of the
/// kind that is named, or fructose and dextrose in the ratio that is stated, else sucrose; the rest
/// is the starch that is named, else a maltodextrin. Returns the sugars of no name.
double add_carbohydrate(ObjectReader& label, double carbohydrate_g, std::optional<double> sugars_g,
                        const NamedParts& named, Composition& per_g);

/// Refuses figures that cannot stand in one column: more than the mass they are for, or of another
/// energy than the label's own.
void refuse_mixed_columns(ObjectReader& label, double mass_g, const Composition& per_g);

}  // namespace gelwright::detail
